from dataclasses import replace
from functools import cache

from gap_fleet import fleet_with_gaps
from printed import PAPER, sides, theme

from guidegen.finding import Findings
from guidegen.gaps.look_up import look_ups
from guidegen.gaps.model import UnitGaps
from guidegen.paper.missing import AIR, CAUTIONS, ELECTRIC, FormPress
from guidegen.paper.stock import STOCKS
from guidegen.procedures.words import LABELS
from guidegen.units.model import Presence


@cache
def press() -> FormPress:
    return FormPress.at(PAPER, theme(), "Sedgewater Rural Cooperative")


def drawn(unit: UnitGaps, stock: str = "letter") -> list[str]:
    findings = Findings()
    pdf = press().draw(unit, look_ups(unit), STOCKS[stock], "2026-11-30", findings)
    assert pdf is not None, [finding.what for finding in findings]
    return sides(pdf)


def test_every_missing_thing_stands_on_the_form_with_measure_and_document() -> None:
    unit = fleet_with_gaps().units["T-04"]

    text = " ".join(drawn(unit))

    for entry in look_ups(unit):
        assert entry.what in text
        assert entry.document in text
        assert entry.believable in text
    assert text.count("Source") == len(look_ups(unit))


def test_cautions_stand_before_the_first_line() -> None:
    text = drawn(fleet_with_gaps().units["T-18"])[0]

    first = text.index("Governed (cut-out) pressure")
    for caution in (*CAUTIONS, AIR, LABELS["handbook_first"]):
        assert 0 <= text.index(caution) < first
    assert text.index("WARNING") < text.index(CAUTIONS[0])


def test_a_truck_that_may_have_high_voltage_is_told_of_it() -> None:
    unit = fleet_with_gaps().units["T-18"]
    states = unit.unit.sections["high_voltage"]
    unsaid = {
        **unit.unit.sections,
        "high_voltage": replace(states, presence=Presence.NOT_ON_RECORD),
    }

    assert ELECTRIC not in drawn(unit)[0]
    unsure = replace(unit.unit, sections=unsaid)
    assert ELECTRIC in drawn(replace(unit, resolved=lambda: unsure))[0]


def test_a_thing_that_may_not_be_there_has_two_boxes_to_tick() -> None:
    text = " ".join(drawn(fleet_with_gaps().units["T-04"]))

    assert "Transmission: does the truck have it?" in text
    assert "fitted not fitted" in text


def test_the_form_is_one_trucks_and_says_so_on_each_page() -> None:
    number = "T-17"
    pages = drawn(fleet_with_gaps().units[number], "a4")

    assert all(page.startswith(number) for page in pages)
    assert all(f"{place} of {len(pages)}" in page for place, page in enumerate(pages, start=1))
    assert not any("T-18" in page for page in pages)


def test_a_letter_without_a_shape_is_a_finding_and_no_hole() -> None:
    unit = fleet_with_gaps().units["T-18"]
    entries = [replace(entry, document="車") for entry in look_ups(unit)]
    findings = Findings()

    pdf = press().draw(unit, entries, STOCKS["letter"], "2026-11-30", findings)

    assert pdf is None
    assert [finding.rule.name for finding in findings] == ["letter-without-shape"]


def test_the_same_day_gives_the_same_bytes() -> None:
    unit = fleet_with_gaps().units["T-18"]
    both = [
        FormPress.at(PAPER, theme(), "F").draw(
            unit, look_ups(unit), STOCKS["letter"], "2026-11-30", Findings()
        )
        for _ in range(2)
    ]

    assert both[0] == both[1]
