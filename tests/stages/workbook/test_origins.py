"""Where values come from, in the workbook: shown, changed, and nothing else with it."""

import pytest
from clerk import Clerk, at_desk, put
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl.cell.cell import Cell
from spec_office import Office

from guidegen.finding import Findings
from guidegen.source_text import unseen_character
from guidegen.workbook.apply import changed_file, expected_own
from guidegen.workbook.model import (
    BY,
    ON,
    ORIGIN,
    SOURCE,
    Change,
    Kind,
    Place,
    Record,
    is_origin,
    origin_of,
)
from guidegen.workbook.records import read_record

NAME_ROW = 4
SIZE = "tires.steer.size"


def cell(desk: Clerk, key: str, fact: str, part: str) -> Cell:
    """Return the cell of the sheet of sources for one part of the origin of a value."""
    page = desk.book["Sources"]
    column = [each.value for each in page[NAME_ROW]].index(part) + 1
    rows = (row for row in page.iter_rows(min_row=NAME_ROW + 1) if row[2].value == fact)
    found = next(row[column - 1] for row in rows if row[1].value == key)
    assert isinstance(found, Cell)
    return found


def test_every_value_that_a_file_states_has_a_row_with_its_own_origin(office: Office) -> None:
    desk = office.desk()

    assert cell(desk, "T-18", "identity.vin", SOURCE).value == "unit plate, read 2026-03-02"
    assert cell(desk, "T-18", SIZE, "value").value == "11R22.5"
    assert cell(desk, "T-18", SIZE, SOURCE).value is None
    assert desk.read("T-18", SOURCE, "Trucks") == "retrofit order 24-118, signed off 2024-09-20"


def test_an_origin_that_is_typed_stands_beside_its_value_and_is_shown_again(office: Office) -> None:
    desk = office.desk()
    at = cell(desk, "T-18", SIZE, SOURCE)
    put(at, 'tire sidewall: "DOT", #2')
    put(cell(desk, "T-18", SIZE, ON), "2026-11-30")
    put(cell(desk, "T-18", SIZE, BY), "R. Aldous")
    put(cell(desk, "T-18", "identity.plate", SOURCE), None)
    desk.type("T-18", ON, "2024-09-20", "Trucks")
    before = office.text("units/T-18.yml")

    plan = office.take(desk.save())

    assert any(
        line == f'T-18 {SIZE} source not on record → tire sidewall: "DOT", #2, sheet Sources,'
        f" cell {at.coordinate}"
        for line in plan.lines
    )
    assert len(plan.lines) == 5
    wanted = before.replace(
        "size: 11R22.5,",
        'size: {value: 11R22.5, source: "tire sidewall: \\"DOT\\", #2", recorded: {on: 2026-11-30,'
        " by: R. Aldous}},",
        1,
    ).replace("plate: {value: SRC 418, source: registration card}", "plate: {value: SRC 418}")
    source = 'source: "retrofit order 24-118, signed off 2024-09-20"\n'
    wanted = wanted.replace(source, f"{source}recorded:\n  on: 2024-09-20\n")
    assert office.text("units/T-18.yml") == wanted
    again = at_desk(office.export())
    assert cell(again, "T-18", SIZE, BY).value == "R. Aldous"
    assert again.read("T-18", ON, "Trucks") == "2024-09-20"


def test_a_value_that_changes_with_its_source_is_not_warned_of(office: Office) -> None:
    desk = office.desk()
    desk.type("T-18", "identity.plate", "SRC 999")
    warned, findings = office.plan(desk.save())
    assert warned is not None
    assert [each.rule.name for each in findings] == ["old-source-kept"]

    put(cell(desk, "T-18", "identity.plate", SOURCE), "registration card of 2026")

    _, findings = office.plan(desk.save())
    assert not len(findings)


def test_what_would_not_be_true_of_the_record_is_refused_at_its_cell(office: Office) -> None:
    desk = office.desk()
    who = cell(desk, "T-18", SIZE, BY)
    put(who, "R. Aldous")
    day = cell(desk, "T-18", "identity.vin", ON)
    put(day, "30 November")
    shown = cell(desk, "T-18", "identity.year", "value")
    put(shown, "2022")

    assert set(office.refused(desk.save())) == {
        (f"fleet.xlsx:Sources!{who.coordinate}", "recorded-without-day"),
        (f"fleet.xlsx:Sources!{day.coordinate}", "not-a-date"),
        (f"fleet.xlsx:Sources!{shown.coordinate}", "key-changed"),
    }


def test_the_source_of_a_value_is_not_given_to_one_that_came_since(office: Office) -> None:
    desk = office.desk()
    at = cell(desk, "T-18", SIZE, SOURCE)
    put(at, "tire sidewall")
    path = office.specs / "units" / "T-18.yml"
    text = path.read_text(encoding="utf-8").replace("{size: 11R22.5", "{size: 295/75R22.5")
    path.write_text(text, encoding="utf-8", newline="\n")

    found = office.refused(desk.save())

    assert found == [(f"fleet.xlsx:Sources!{at.coordinate}", "changed-on-both-sides")]


HANDMADE = """\
unit: Z-1
model: some
source: plate  # of the door
recorded: {on: 2026-01-02}
identity:
  # read twice
  year: 2021
  plate: {value: SRC 1, source: card}
  vin:
    value: 7Z9DT72S3MBDV4214  # stamped
    source: frame
tires:
  steer: {size: "11R22.5", count: 2}  # both
lamps:
  fitted: [low_air, abs]
"""
FACTS = ("identity.year", "identity.plate", "identity.vin", SIZE, "lamps.fitted")
NAMES = (*(origin_of(fact, part) for fact in FACTS for part in ORIGIN), *ORIGIN)
TEXTS = st.one_of(st.text(min_size=1, max_size=30), st.text("\"'{}[],:#&*!|>%@`- ", max_size=9))
WORDS = TEXTS.map(lambda text: " ".join(text.split())).filter(
    lambda text: text and not unseen_character(text) and text.isprintable()
)


def own(text: str) -> Record:
    findings = Findings()
    record = read_record(Kind.TRUCK, "specs/units/Z-1.yml", text.encode(), findings)
    assert record is not None, [each.what for each in findings]
    return record


@settings(max_examples=40)
@given(st.data())
def test_any_origin_reads_back_as_it_was_typed_and_leaves_all_else_alone(
    data: st.DataObject,
) -> None:
    names = data.draw(st.lists(st.sampled_from(NAMES), min_size=1, max_size=5, unique=True))
    before = own(HANDMADE)
    changes = []
    for name in names:
        holder = name.removesuffix(BY) + ON
        if name.endswith(BY) and holder not in {*names, *before.own}:
            continue
        text = "2026-11-30" if name.endswith(ON) else data.draw(WORDS)
        place = Place("Sources", 5, 6)
        changes.append(Change(Kind.TRUCK, "Z-1", name, before.own.get(name), text, place, ""))

    after = own(changed_file(HANDMADE.encode(), changes).decode())

    assert after.own == expected_own(before.own, changes)
    assert {k: v for k, v in after.own.items() if not is_origin(k)} == {
        k: v for k, v in before.own.items() if not is_origin(k)
    }


@pytest.mark.parametrize("comment", ["# of the door", "# read twice", "# stamped", "# both"])
def test_comments_stay_where_an_origin_is_put(comment: str) -> None:
    changes = [
        Change(Kind.TRUCK, "Z-1", name, None, "2026-11-30", Place("Sources", 5, 6), "")
        for name in NAMES
    ]

    assert comment in changed_file(HANDMADE.encode(), changes).decode()
