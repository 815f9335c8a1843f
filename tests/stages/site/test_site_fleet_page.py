"""The page on which a driver finds the truck."""

import gzip
import json
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from jinja2 import FileSystemLoader
from page_soup import attribute, attributes, only, soup_of, words
from sample_fleet import FLEET, T_17, TRUCKS

from guidegen.site.fleet_page import FLEET_PAGE, MOST_LISTED, draw_fleet_pages
from guidegen.site.templates import PageTemplates
from guidegen.site.truck_line import TruckLine, truck_line
from guidegen.site.truck_list import truck_list


@pytest.fixture(scope="module")
def templates(project_root: Path) -> PageTemplates:
    return PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))


def page(
    templates: PageTemplates, *lines: TruckLine, held_back: tuple[str, ...] = ()
) -> BeautifulSoup:
    return soup_of(dict(draw_fleet_pages(FLEET, lines, held_back, templates))[FLEET_PAGE])


def test_trucks_stand_by_yard_in_the_fleets_order_then_without_a_yard(
    templates: PageTemplates,
) -> None:
    soup = page(templates, *map(truck_line, TRUCKS))
    found = [
        (words(only(section, "h2")), attributes(section, "data-unit"))
        for section in soup.select("section[data-yard]")
    ]
    assert found == [
        ("North Yard 555-0140", ["T-17"]),
        ("River Street", ["E-04", "T-18"]),
        ("Yard not on record", ["H-2"]),
    ]


def test_a_row_links_to_the_trucks_start_page_and_says_what_it_is(
    templates: PageTemplates,
) -> None:
    row = only(page(templates, truck_line(TRUCKS[0])), "li a")
    assert attribute(row, "href") == "T-17/index.html"
    shown = [words(tag) for tag in row.select("b, span")]
    assert shown == ["T-17", "2019 Corvane HX-9sleeper tractor · BLF 4417"]
    assert len(row.select("span > br")) == 1


def test_a_truck_is_found_by_number_plate_vin_yard_make_and_body() -> None:
    line = truck_line(TRUCKS[0])
    for word in ("t-17", "blf 4417", "7z9chx9s1kbc00017", "north yard", "corvane", "sleeper"):
        assert word in line.found_by


def test_numbers_are_sorted_as_people_count(templates: PageTemplates) -> None:
    lines = [
        replace(truck_line(T_17), number=number, yard="North Yard")
        for number in ("T-17", "T-9", "101", "22", "T-100", "E-2")
    ]
    soup = page(templates, *lines)
    assert attributes(soup, "data-unit", "li") == [
        "22",
        "101",
        "E-2",
        "T-9",
        "T-17",
        "T-100",
    ]


def test_trucks_without_a_guide_are_named(templates: PageTemplates) -> None:
    soup = page(templates, truck_line(T_17), held_back=("T-30", "T-4"))
    held = only(soup, ".gg-held")
    assert [words(tag) for tag in held.select("li")] == ["T-4", "T-30"]
    assert not held.select("a")


def test_the_filter_is_hidden_until_its_script_shows_it(templates: PageTemplates) -> None:
    soup = page(templates, truck_line(T_17))
    form = only(soup, "form")
    assert "hidden" in form.attrs
    assert not [tag for tag in soup.select("[hidden]") if tag is not form]


def many(count: int, yard: str = "North Yard") -> list[TruckLine]:
    return [
        replace(truck_line(T_17), number=f"T-{n}", plate=f"MAN {n}", yard=yard)
        for n in range(1, count + 1)
    ]


def test_a_large_fleets_yards_have_pages_of_their_own(templates: PageTemplates) -> None:
    lines = [*many(MOST_LISTED + 1), *map(truck_line, TRUCKS[1:])]
    pages = dict(draw_fleet_pages(FLEET, lines, (), templates))
    assert list(pages) == [
        "index.html",
        "yard-north.html",
        "yard-north.2.html",
        "yard-river.html",
        "no-yard.html",
    ]
    listed = [
        number for html in pages.values() for number in attributes(soup_of(html), "data-unit")
    ]
    assert sorted(listed) == sorted(line.number for line in lines)
    first = soup_of(pages["index.html"])
    assert not first.select("[data-unit]")
    assert [(words(tag), attribute(tag, "href")) for tag in first.select("li a")] == [
        ("T-1 to T-300", "yard-north.html"),
        ("T-301", "yard-north.2.html"),
        ("E-04 to T-18", "yard-river.html"),
        ("H-2", "no-yard.html"),
    ]


def test_a_page_of_a_yard_leads_back_to_all_yards(templates: PageTemplates) -> None:
    pages = dict(draw_fleet_pages(FLEET, many(MOST_LISTED + 1), ("T-900",), templates))
    soup = soup_of(pages["yard-north.2.html"])
    assert attribute(only(soup, ".gg-back a"), "href") == "index.html"
    assert words(only(soup, "h2")) == "North Yard 555-0140"
    assert not soup.select(".gg-held")
    assert soup_of(pages["index.html"]).select(".gg-held")


def test_no_page_of_ten_thousand_trucks_is_heavy(templates: PageTemplates) -> None:
    pages = dict(draw_fleet_pages(FLEET, many(10_000), (), templates))
    assert max(len(html) for html in pages.values()) < 100_000


def test_the_list_of_ten_thousand_trucks_is_light() -> None:
    raw = truck_list(reversed(many(10_000)))
    table = json.loads(raw)
    assert [row[0] for row in table["trucks"][:2]] == ["T-1", "T-2"]
    assert table["names"] == ["2019 Corvane HX-9"]
    # Measured 271 kB, 49 kB compressed.
    assert len(gzip.compress(raw)) < 100_000
