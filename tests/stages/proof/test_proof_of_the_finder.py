"""The pages of yards and the finder's list of a large fleet, each fault of which is to be seen."""

import json
from collections.abc import Mapping
from pathlib import Path

import pytest
from jinja2 import FileSystemLoader
from sample_fleet import FLEET, TRUCKS

from guidegen.proof.compare_fleet_page import compare_fleet_page
from guidegen.proof.compare_truck_list import compare_truck_list
from guidegen.proof.fleet_claims import claims_of_fleet
from guidegen.proof.unit_record import record_of
from guidegen.site import fleet_page
from guidegen.site.fleet_page import draw_fleet_pages
from guidegen.site.templates import PageTemplates
from guidegen.site.truck_line import truck_line
from guidegen.site.truck_list import truck_list

Files = Mapping[str, bytes]
RECORDS = tuple(map(record_of, TRUCKS))


@pytest.fixture(scope="module")
def files(project_root: Path) -> Files:
    """Give the pages of a fleet that counts as large with three trucks."""
    templates = PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))
    lines = [truck_line(each) for each in TRUCKS]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(fleet_page, "MOST_LISTED", 1)
        pages = dict(draw_fleet_pages(FLEET, lines, ("T-22",), templates))
    found = {path: f"<main>{html}</main>".encode() for path, html in pages.items()}
    return {**found, "trucks.json": truck_list(lines)}


def faults(files: Files) -> list[tuple[str, str, str]]:
    fleet = claims_of_fleet(TRUCKS, files.get, files, ("T-22",))
    found = (
        *compare_fleet_page(RECORDS, files.get, fleet),
        *compare_truck_list(RECORDS, files.get, fleet),
    )
    return [(each.rule.name, each.unit, each.page) for each in found]


def without(files: Files, path: str) -> Files:
    return {name: content for name, content in files.items() if name != path}


def edited(files: Files, path: str, old: str, new: str) -> Files:
    text = files[path].decode()
    assert old in text
    return {**files, path: text.replace(old, new).encode()}


def test_a_large_fleet_is_proved_page_by_page(files: Files) -> None:
    assert len([path for path in files if path.startswith("yard-")]) == 3
    assert faults(files) == []


def test_a_page_of_a_yard_that_is_not_there_leaves_its_trucks_unlisted(files: Files) -> None:
    assert faults(without(files, "yard-river.2.html")) == [
        ("truck-not-listed", "T-18", "index.html")
    ]


def test_a_page_that_no_link_leads_to_is_not_listed(files: Files) -> None:
    changed = edited(files, "index.html", 'href="yard-north.html"', 'href="safety.html"')
    assert faults(changed) == [("truck-not-listed", "", "index.html")]


def test_a_hidden_link_is_no_way_to_a_page(files: Files) -> None:
    link = '<a class="gg-row" href="yard-north.html">'
    changed = edited(files, "index.html", link, link.replace("<a", "<a hidden"))
    assert faults(changed) == [("truck-not-listed", "", "index.html")]


def test_a_truck_on_two_pages_is_listed_twice(files: Files) -> None:
    both = (
        files["yard-river.html"]
        .decode()
        .replace("</main>", files["yard-north.html"].decode() + "</main>")
    )
    changed = {**files, "yard-river.html": both.encode()}
    assert ("truck-listed-twice", "T-17", "yard-river.html") in faults(changed)


def test_a_truck_hidden_on_a_page_of_a_yard_is_not_listed(files: Files) -> None:
    changed = edited(
        files, "yard-north.html", '<li data-unit="T-17"', '<li hidden data-unit="T-17"'
    )
    assert faults(changed) == [("truck-not-listed", "T-17", "yard-north.html")]


def test_the_finder_of_a_large_fleet_needs_its_list(files: Files) -> None:
    assert faults(without(files, "trucks.json")) == [("page-missing", "", "trucks.json")]


def changed_list(files: Files, place: int, column: int, value: object) -> Files:
    table = json.loads(files["trucks.json"])
    table["trucks"][place][column] = value
    return {**files, "trucks.json": json.dumps(table).encode()}


LIST = "trucks.json"


@pytest.mark.parametrize(
    ("place", "column", "value", "expected"),
    [
        # Rows are sorted: E-04, H-2, T-17, T-18.
        (2, 0, "T-170", [("truck-not-listed", "T-17", LIST), ("unknown-truck", "", LIST)]),
        (2, 0, "T-18", [("truck-not-listed", "T-17", LIST), ("truck-listed-twice", "T-18", LIST)]),
        (2, 1, "XYZ 1", [("identity-differs", "T-17", LIST)]),
        (2, 1, "", [("truck-not-listed", "T-17", LIST)]),
        (2, 2, -1, [("truck-not-listed", "", LIST)]),
        (2, 2, 99, [("truck-not-listed", "", LIST)]),
        (2, 2, "0", [("truck-not-listed", "", LIST)]),
        (2, 4, 0, [("identity-differs", "T-17", LIST)]),
    ],
)
def test_each_change_of_the_list_is_seen(
    files: Files, place: int, column: int, value: object, expected: list[tuple[str, str, str]]
) -> None:
    assert faults(changed_list(files, place, column, value))[: len(expected)] == expected


@pytest.mark.parametrize(
    "raw", [b"", b"[]", b"{}", b"\xff", b'{"names":[],"bodies":[],"yards":[]}']
)
def test_a_list_that_cannot_be_read_is_no_list(files: Files, raw: bytes) -> None:
    assert faults({**files, LIST: raw}) == [("truck-not-listed", "", LIST)]
