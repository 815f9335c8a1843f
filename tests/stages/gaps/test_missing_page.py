from dataclasses import replace
from itertools import combinations

from gap_fleet import demo, fleet_with_gaps, resolved, without
from selectolax.lexbor import LexborHTMLParser

from guidegen.gaps.find import find_gaps
from guidegen.gaps.groups import group_units
from guidegen.gaps.matrix import MOST_ROWS
from guidegen.gaps.model import FleetGaps, Grade
from guidegen.gaps.page import Beside, missing_page
from guidegen.gaps.report import format_gaps, gaps_as_json


def cells() -> dict[str, dict[str, str]]:
    """Return the marks of the matrix by row and column."""
    table = LexborHTMLParser(missing_page(fleet_with_gaps())).css_first("table.matrix")
    assert table is not None
    columns = [each.text().strip() for each in table.css("th.gap")]
    return {
        row.css("th")[0].text(): {
            column: cell.text().strip()
            for column, cell in zip(columns, row.css("td"), strict=True)
            if cell.text().strip()
        }
        for row in table.css("tbody tr")
    }


def many(count: int) -> FleetGaps:
    specs, library = demo()
    unit = resolved(without(specs.units["T-18"], ["brakes.air.cut_out"]))
    return find_gaps([replace(unit, number=f"B-{n}") for n in range(count)], library)


def test_the_matrix_marks_each_gap_of_each_truck_by_a_letter() -> None:
    found = cells()

    assert found["T-18"]["Governed (cut-out) pressure"] == "H"
    assert found["E-02"]["Room needed in front to tilt"] == "M"
    assert found["T-04"]["Headlamp flash"] == "o"
    assert "Transmission" not in found["T-18"]


def test_a_thousand_trucks_that_lack_the_same_share_a_row() -> None:
    fleet = many(1000)

    (group,) = group_units(fleet)
    page = missing_page(fleet)

    assert len(group.units) == 1000
    assert "<b>1,000</b> trucks: B-0, B-1, B-2, B-3, B-4, B-5 and 994 more" in page
    assert len(page) < 10_000


def test_trucks_that_differ_in_values_of_the_data_page_alone_share_a_row() -> None:
    specs, library = demo()
    whole = without(specs.units["T-18"], ["brakes.air.cut_out"])
    less = without(whole, ["transmission.forward_gears"])
    units = [replace(resolved(spec), number=f"B-{n}") for n, spec in enumerate((whole, less))]

    (group,) = group_units(find_gaps(units, library))

    assert group.units == ("B-0", "B-1")


def unlike(count: int) -> FleetGaps:
    """Return the gaps of trucks of which each lacks something that no other lacks alone."""
    fleet = fleet_with_gaps()
    gaps = [gap for unit in fleet.units.values() for gap in unit.gaps if gap.grade.is_needed]
    sets = (each for size in (1, 2, 3, 4) for each in combinations({g.name: g for g in gaps}, size))
    by_name = {gap.name: gap for gap in gaps}
    first = fleet.units["T-18"]
    units = {}
    for number, names in zip((f"B-{n}" for n in range(count)), sets, strict=False):
        own = tuple(replace(by_name[name], grade=Grade.HOLDS) for name in names)
        units[number] = replace(first, number=number, gaps=own)
    assert len(units) == count
    return replace(fleet, units=units, held_back=tuple(units))


def test_trucks_that_all_lack_something_else_are_counted_beyond_a_few_dozen_rows() -> None:
    fleet = unlike(MOST_ROWS + 23)
    page = LexborHTMLParser(missing_page(fleet))

    rows = page.css("table.matrix tbody tr")
    last = rows[-1]
    counted = [int(cell.text()[1:].replace(",", "")) for cell in last.css("td") if cell.text()]

    assert len(rows) == MOST_ROWS + 1
    assert "23 other trucks: how many lack it" in last.text()
    marks = sum(len(row.css(".mark")) for row in rows[:-1])
    assert marks + sum(counted) == sum(len(unit.gaps) for unit in fleet.units.values())
    assert "23 other trucks: see the list for the shop" in page.text()


def test_the_page_leads_to_lists_and_forms() -> None:
    beside = Beside(lists={"missing.csv": "as a spreadsheet"}, forms={"T-17": "forms/T-17.pdf"})

    page = LexborHTMLParser(missing_page(fleet_with_gaps(), beside=beside))

    found = [(each.attributes["href"], each.text()) for each in page.css("a")]
    assert found == [("missing.csv", "as a spreadsheet"), ("forms/T-17.pdf", "T-17")]


def test_the_page_says_first_how_many_trucks_wait() -> None:
    page = LexborHTMLParser(missing_page(fleet_with_gaps()))

    verdict = page.css_first(".verdict")
    assert verdict is not None
    assert verdict.text() == "5 of 8 trucks have no guide because of what is not on record."


def test_the_page_names_what_a_guide_is_published_without() -> None:
    assert "Use the high beam and the headlamp flash (step flash)" in missing_page(
        fleet_with_gaps()
    )


def test_the_page_runs_no_script_and_has_no_style_of_its_own() -> None:
    page = LexborHTMLParser(
        missing_page(fleet_with_gaps(), beside=Beside(("proof.css", "missing.css")))
    )

    assert page.css("script, style, [style]") == []
    assert [link.attributes["href"] for link in page.css("link")] == ["proof.css", "missing.css"]


def test_hostile_names_are_shown_and_not_run() -> None:
    fleet = fleet_with_gaps()
    unit = fleet.units["T-18"]
    evil = "<img src=x onerror=alert(1)>"
    hostile = replace(unit, number=evil, model=evil)
    titles = dict.fromkeys(fleet.titles, evil)

    page = missing_page(FleetGaps({evil: hostile}, titles, (evil,), held_back=(evil,)))

    assert LexborHTMLParser(page).css("img") == []
    assert "&lt;img src=x" in page


def test_the_page_is_the_same_text_every_time() -> None:
    assert missing_page(fleet_with_gaps()) == missing_page(fleet_with_gaps())


def test_the_terminal_says_what_to_close_first_and_what_it_frees() -> None:
    text = format_gaps(fleet_with_gaps())

    assert text.startswith("5 of 8 trucks have no guide because of what is not on record\n")
    assert "  1. H brakes.air.cut_out (Governed (cut-out) pressure)" in text
    assert "2 lack it, alone it frees 1; in this order it frees T-18, 1 by then" in text


def test_programs_are_told_what_is_enough_for_each_truck() -> None:
    told = gaps_as_json(fleet_with_gaps())

    enough = {unit["unit"]: unit["enough"] for unit in told["units"]}
    assert enough["T-17"] == ["brakes.air.cut_out", "block_heater"]
    assert told["held_back"] == ["E-02", "K-22", "T-04", "T-17", "T-18"]
    assert told["close_first"][0]["name"] == "brakes.air.cut_out"
