"""The page on which a driver finds the truck."""

import time
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from jinja2 import FileSystemLoader
from page_soup import attribute, attributes, only, soup_of, words
from sample_fleet import FLEET, T_17, TRUCKS

from guidegen.site.fleet_page import TruckLine, draw_fleet_page, truck_line
from guidegen.site.templates import PageTemplates


@pytest.fixture(scope="module")
def templates(project_root: Path) -> PageTemplates:
    return PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))


def page(
    templates: PageTemplates, *lines: TruckLine, held_back: tuple[str, ...] = ()
) -> BeautifulSoup:
    return soup_of(draw_fleet_page(FLEET, lines, held_back, templates))


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


def test_a_thousand_trucks_make_a_light_page(templates: PageTemplates) -> None:
    lines = [replace(truck_line(T_17), number=f"T-{n}") for n in range(1000)]
    start = time.perf_counter()
    html = draw_fleet_page(FLEET, lines, (), templates)
    # Measured 11 ms and 235 kB; the bounds only catch a cost that grows with the square.
    assert time.perf_counter() - start < 2
    assert len(html) < 600_000
