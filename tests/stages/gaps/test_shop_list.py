import csv
import io
from dataclasses import replace
from itertools import groupby

import pytest
from gap_fleet import fleet_with_gaps

from guidegen.gaps.look_up import look_ups
from guidegen.gaps.model import Grade
from guidegen.gaps.shop_list import COLUMNS, Row, as_csv, as_plain_text, safe_cell, shop_rows

HOSTILE = (
    '=HYPERLINK("http://x.example/","look")',
    "+1+1",
    "-2+3",
    "@SUM(A1)",
    "\t=1+1",
    "  =1+1",
    "\r=1+1",
)


def rows() -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(as_csv(shop_rows(fleet_with_gaps())))))


def test_each_line_says_yard_truck_thing_measure_and_document() -> None:
    (line,) = [r for r in rows() if r["unit"] == "T-18" and r["holds back"].startswith("holds")]

    assert line["yard"] == "Ridge Yard"
    assert line["what to look up"] == "Air brake system: Governed (cut-out) pressure"
    assert line["measure"] == "psi or kPa"
    assert line["believable"] == "95 psi to 190 psi"
    assert line["document"] == "Dunvarrick Drumlin 72 operator's handbook, edition 4"
    assert line["name in the spec"] == "brakes.air.cut_out"
    assert [line[name] for name in COLUMNS[-4:]] == [""] * 4


def test_lines_are_grouped_by_yard_and_truck() -> None:
    keys = [(row["yard"], row["unit"]) for row in rows()]

    assert [key for key, _ in groupby(keys)] == list(dict.fromkeys(keys))
    assert [yard for yard, _ in keys] == sorted(yard for yard, _ in keys)


def test_what_holds_the_guide_back_stands_first_on_each_truck() -> None:
    order = [grade.value for grade in Grade]
    by_unit: dict[str, list[int]] = {}
    for row in rows():
        by_unit.setdefault(row["unit"], []).append(order.index(row["holds back"]))

    assert all(ranks == sorted(ranks) for ranks in by_unit.values())


@pytest.mark.parametrize("text", HOSTILE)
def test_a_text_that_looks_like_a_formula_is_marked_as_text(text: str) -> None:
    # OWASP, CSV Injection: a single quote before the cell keeps it from being run.
    assert safe_cell(text) == f"'{text}"


def test_a_usual_text_stays_as_it_is() -> None:
    assert safe_cell("12 qt, = about 11 L") == "12 qt, = about 11 L"


@pytest.mark.parametrize(
    "text", [*HOSTILE, 'a "quoted" word', "two\nlines", "a,b;c", "Ürs Ångström"]
)
def test_hostile_cells_come_out_of_a_reader_as_one_cell_that_runs_nothing(text: str) -> None:
    entry = replace(look_ups(fleet_with_gaps().units["T-18"])[0], document=text, where=text)
    written = as_csv((Row(text, "T-18", text, entry),))

    # Python's reader follows RFC 4180, and knows nothing of the code under test.
    head, line = csv.reader(io.StringIO(written, newline=""))
    assert len(line) == len(head) == len(COLUMNS)
    for cell in line:
        assert cell.lstrip(" ")[:1] not in {"=", "+", "-", "@", "\t", "\r"}
        assert cell.lstrip("'") in {*line, text}
    assert written.endswith("\r\n")


def test_plain_text_marks_what_holds_the_guide_back() -> None:
    text = as_plain_text(shop_rows(fleet_with_gaps()))

    assert "T-18 (drumlin-72)\n ! Air brake system: Governed (cut-out) pressure" in text
    assert text.index("Mill Yard") < text.index("Ridge Yard")


def test_values_of_the_data_page_are_listed_only_if_asked_for() -> None:
    fleet = fleet_with_gaps()
    name = "transmission.forward_gears"

    assert name not in {row.look_up.name for row in shop_rows(fleet)}
    assert name in {row.look_up.name for row in shop_rows(fleet, least=Grade.VALUE_ONLY)}
