import io
import zipfile
from collections.abc import Mapping, Sequence

from clerk import FIRST_ROW, NAME_ROW, at_desk, seen
from openpyxl.utils import get_column_letter
from spec_office import Office

from guidegen.build.project import open_project
from guidegen.build.read_specs import load_specs
from guidegen.finding import Findings
from guidegen.specs.equipment import EQUIPMENT_FACTS, EQUIPMENT_SECTIONS
from guidegen.units.model import Layer, Presence, StatedIn
from guidegen.units.resolve import resolve_units
from guidegen.workbook.layout import kept_column, lay_out
from guidegen.workbook.topics import topics


def columns(rows: Sequence[Sequence[object]]) -> Mapping[str, int]:
    return {str(name): at for at, name in enumerate(rows[NAME_ROW - 1]) if name}


def test_the_same_specs_give_the_same_bytes(office: Office, exported: bytes) -> None:
    assert office.export() == exported


def test_every_fact_and_section_has_one_column() -> None:
    named = [column.name for _, columns in topics() for column in columns]

    assert len(named) == len(set(named))
    missing = {*EQUIPMENT_FACTS, *EQUIPMENT_SECTIONS} - set(named)
    assert {name.partition(".")[0] for name in missing} == {"identity"}


def test_no_cell_holds_a_formula_a_link_or_a_number(exported: bytes) -> None:
    with zipfile.ZipFile(io.BytesIO(exported)) as packed:
        sheets = [name for name in packed.namelist() if name.startswith("xl/worksheets/sheet")]
        for name in sheets:
            text = packed.read(name).decode()
            assert "<f>" not in text
            assert "<hyperlink" not in text
            # Each filled cell is a shared string; blank ones carry a format only.
            assert text.count("<v>") == text.count(' t="s"')
    assert len(sheets) > 10


def test_keys_are_locked_without_a_password_and_values_are_open(exported: bytes) -> None:
    desk = at_desk(exported)
    for title in ("Trucks", "Tires", "Brakes"):
        listed = desk.book[title]
        assert listed.protection.sheet
        assert not listed.protection.password
        assert listed["A5"].protection.locked
    page, row, column = desk.address("T-17", "tires.steer.cold_pressure")
    assert not page.cell(row, column).protection.locked
    # 49 is the format "Text", under which programs keep digits as typed (ECMA-376, 18.8.30).
    assert page.cell(row, column).number_format == "@"


def test_an_independent_reader_sees_each_truck_as_the_resolver_does(
    office: Office, exported: bytes
) -> None:
    """The guides' own resolver of layers is the judge of what is inherited and what is not."""
    specs = load_specs(open_project(office.project.root), Findings())
    assert specs is not None
    units = resolve_units(specs, Findings())
    compared = 0
    for title, rows in seen(exported).items():
        if len(rows) < FIRST_ROW or title in ("Models", "Lists", "guidegen"):
            continue
        at = columns(rows)
        key = "unit" if title == "Trucks" else "key"
        for row in rows[FIRST_ROW - 1 :]:
            unit = units.get(str(row[at[key]])) if key in at else None
            if unit is None or (title != "Trucks" and row[at["kind"]] != "truck"):
                continue
            for name, column in at.items():
                text = str(row[column])
                if name in unit.sections:
                    wanted = {
                        Presence.GIVEN: ("fitted",),
                        Presence.NOT_FITTED: ("not fitted", "–"),  # noqa: RUF001 -- as shown
                        Presence.NOT_ON_RECORD: ("?",),
                    }[unit.sections[name].presence]
                    assert text in wanted, (unit.number, name)
                    compared += 1
                elif name in EQUIPMENT_FACTS:
                    fact = unit.facts.get(name)
                    is_stated = (
                        fact is not None
                        and isinstance(fact.provenance, StatedIn)
                        and fact.provenance.layer in (Layer.UNIT, Layer.MODEL)
                    )
                    assert is_stated == (text not in ("?", "–")), (unit.number, name)  # noqa: RUF001 -- as shown
                    compared += 1
    assert compared == len(units) * (len(EQUIPMENT_FACTS) + len(EQUIPMENT_SECTIONS) - 1)


def test_digits_stand_as_the_office_typed_them(office: Office) -> None:
    path = office.specs / "models" / "drumlin-72.yml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("oil_capacity: 42 qt", "oil_capacity: 42.70 qt"), encoding="utf-8")

    raw = office.export()

    assert any("42.70 qt" in row for rows in seen(raw).values() for row in rows)
    assert office.take(raw).lines == ()


def test_what_is_kept_stands_beyond_the_last_column_and_out_of_sight(exported: bytes) -> None:
    page = at_desk(exported).book["Tires"]
    sheet = next(sheet for sheet in lay_out((), ()).sheets if sheet.title == "Tires")
    letter = get_column_letter(kept_column(sheet, 1))
    assert page.column_dimensions[letter].hidden
    assert page.print_title_rows == "$1:$3"
    assert page.page_setup.orientation == "landscape"
