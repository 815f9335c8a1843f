"""Workbooks that were damaged, moved about, or filled in to do harm."""

import io
import zipfile

import pytest
from clerk import FIRST_ROW, NAME_ROW, Clerk, at_desk
from spec_office import Office


def swap_columns(desk: Clerk) -> None:
    page = desk.book["Tires"]
    for row in range(1, 40):
        left, right = page.cell(row, 5), page.cell(row, 6)
        left.value, right.value = right.value, left.value


def rename_header(desk: Clerk) -> None:
    desk.book["Tires"].cell(3, 5).value = "Pressure"


def insert_column(desk: Clerk) -> None:
    desk.book["Tires"].insert_cols(5)


def change_key(desk: Clerk) -> None:
    page, row, _ = desk.address("T-17", "tires.steer.size")
    page.cell(row, 2).value = "T-71"


def change_model(desk: Clerk) -> None:
    page, row, _ = desk.address("T-17", "tires.steer.size")
    page.cell(row, 3).value = "fell-9"


def delete_row(desk: Clerk) -> None:
    page, row, _ = desk.address("T-17", "tires.steer.size")
    page.delete_rows(row)


def sort_rows(desk: Clerk) -> None:
    page = desk.book["Tires"]
    for column in range(1, 60):
        one, other = page.cell(FIRST_ROW, column), page.cell(FIRST_ROW + 2, column)
        one.value, other.value = other.value, one.value


def row_twice(desk: Clerk) -> None:
    desk.enter("Tires", kind="truck", key="T-17", tires__steer__size="11R22.5")


def merge(desk: Clerk) -> None:
    desk.book["Tires"].merge_cells("E7:F7")


def formula(desk: Clerk) -> None:
    desk.book["Tires"]["E7"] = "=D7"


def link_formula(desk: Clerk) -> None:
    desk.book["Tires"]["E7"] = '=HYPERLINK("https://evil.example","11R22.5")'


def fault_of_formula(desk: Clerk) -> None:
    desk.book["Tires"]["E7"].value = "#REF!"
    desk.book["Tires"]["E7"].data_type = "e"


def new_column(desk: Clerk) -> None:
    page = desk.book["Tires"]
    last = max(cell.column for cell in page[NAME_ROW] if cell.value)
    page.cell(FIRST_ROW, last + 1).value = "winter tires"


def below_the_table(desk: Clerk) -> None:
    desk.book["Tires"]["E400"] = "11R22.5"


def sheet_gone(desk: Clerk) -> None:
    del desk.book["Tires"]


def sheet_more(desk: Clerk) -> None:
    desk.book.create_sheet("Notes")["A1"] = "T-17 has new tires"


def row_without_key(desk: Clerk) -> None:
    desk.enter("Tires", tires__steer__size="11R22.5")


def row_of_unknown_kind(desk: Clerk) -> None:
    desk.enter("Tires", key="T-99", tires__steer__size="11R22.5")


def row_of_nobody(desk: Clerk) -> None:
    desk.enter("Tires", kind="truck", key="T-99", tires__steer__size="11R22.5")


def truck_without_model(desk: Clerk) -> None:
    desk.enter("Trucks", unit="T-99")


def truck_of_unknown_model(desk: Clerk) -> None:
    desk.enter("Trucks", unit="T-99", model="drumlin-27")


def truck_of_bad_number(desk: Clerk) -> None:
    desk.enter("Trucks", unit="../../T-99", model="drumlin-72")


def truck_of_reserved_number(desk: Clerk) -> None:
    desk.enter("Trucks", unit="CON", model="drumlin-72")


def old_value_edited(desk: Clerk) -> None:
    page, row, column = desk.address("T-17", "tires.steer.size")
    last = max(cell.column for cell in page[NAME_ROW] if cell.value)
    page.cell(row, last + 1 + column).value = "11R22.5"


def other_version(desk: Clerk) -> None:
    desk.book["guidegen"]["B2"] = "0"


def hidden_sheet_gone(desk: Clerk) -> None:
    del desk.book["guidegen"]


@pytest.mark.parametrize(
    ("harm", "rule"),
    [
        (swap_columns, "header-changed"),
        (rename_header, "header-changed"),
        (insert_column, "header-changed"),
        (change_key, "key-changed"),
        (change_model, "key-changed"),
        (delete_row, "row-moved"),
        (sort_rows, "row-moved"),
        (row_twice, "row-twice"),
        (merge, "merged-cells"),
        (formula, "formula-in-cell"),
        (link_formula, "formula-in-cell"),
        (fault_of_formula, "not-typed-as-text"),
        (new_column, "cell-out-of-place"),
        (below_the_table, "cell-out-of-place"),
        (sheet_gone, "sheet-gone"),
        (sheet_more, "sheet-unknown"),
        (row_without_key, "row-without-key"),
        (row_of_unknown_kind, "row-without-key"),
        (row_of_nobody, "row-of-nobody"),
        (truck_without_model, "model-missing"),
        (truck_of_unknown_model, "unknown-model"),
        (truck_of_bad_number, "text-of-wrong-form"),
        (truck_of_reserved_number, "reserved-unit-number"),
        (old_value_edited, "export-not-kept"),
        (other_version, "other-workbook"),
        (hidden_sheet_gone, "other-workbook"),
    ],
)
def test_harm_is_refused_at_its_place(office: Office, harm: object, rule: str) -> None:
    desk = office.desk()
    assert callable(harm)
    harm(desk)

    found = office.refused(desk.save())

    assert rule in [name for _, name in found], found
    assert all(place.startswith("fleet.xlsx") for place, _ in found), found


@pytest.mark.parametrize(
    "raw",
    [b"", b"unit,model\nT-17,drumlin-72\n", b"PK\x03\x04 broken", b"\xd0\xcf\x11\xe0" * 200],
)
def test_what_is_no_workbook_is_refused(office: Office, raw: bytes) -> None:
    assert office.refused(raw) == [("fleet.xlsx", "not-a-workbook")]


def test_a_workbook_that_unpacks_beyond_measure_is_not_unpacked(office: Office) -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as packed:
        packed.writestr("xl/workbook.xml", b"<workbook/>")
        for number in range(9):
            packed.writestr(f"xl/worksheets/sheet{number}.xml", b" " * 50_000_000)

    assert office.refused(out.getvalue()) == [("fleet.xlsx", "not-a-workbook")]


def test_a_workbook_with_entities_is_not_read(office: Office) -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed, zipfile.ZipFile(io.BytesIO(office.fresh)) as old:
        for name in old.namelist():
            part = old.read(name)
            if name == "xl/worksheets/sheet2.xml":
                part = part.replace(b"?>", b'?><!DOCTYPE a [<!ENTITY e SYSTEM "file:///x">]>', 1)
            packed.writestr(name, part)

    assert office.refused(out.getvalue()) == [("fleet.xlsx", "not-a-workbook")]


HOSTILE = (
    "=1+1",
    "+cmd|'/c calc'!A0",
    "@SUM(A1:A9)",
    "<script>alert(1)</script> & <b>",
    "{{ 7*7 }} {% raw %}",
    "#panic(1) $x$ *b* \\u{41}",
    "left: # not a comment, {a: b} [c] & *d !e | > %",
    "\"double\" and 'single' \\ back",
    "'single first",
    "- dash first",
    "? question",
    "no",
    "~",
    "010",
    "12:30",
    "1e3",
    "_x0041_ and _x000D_",
    "שלום בכפר",
    "🚚 left of the cab 🛞",
)


def test_hostile_text_reaches_the_specs_as_text_and_comes_back_the_same(office: Office) -> None:
    desk = office.desk()
    names = (
        *("engine.dipstick_location", "engine.oil_grade", "cooling.location", "cooling.coolant"),
        *("air_cleaner.location", "fuel_tanks.water_separator", "def_system.cap_color"),
        *("aftertreatment.outlet", "aftertreatment.inhibit_location", "brakes.traction_switch"),
        *("engine_brake.control", "transmission.fluid", "axles.lubricant", "tires.steer.size"),
        *("tires.drive.size", "suspension.dump_control", "fifth_wheel.release", "cruise.control"),
        "lights.flash",
    )
    for name, text in zip(names, HOSTILE, strict=True):
        desk.type("T-17", name, text)

    office.take(desk.save())

    again = office.export()
    assert office.take(again).lines == ()
    desk = at_desk(again)
    assert [desk.read("T-17", name) for name in names] == list(HOSTILE)
