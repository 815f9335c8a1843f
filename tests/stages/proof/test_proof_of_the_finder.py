"""The pages of yards and the finder's list of a large fleet, each fault of which is to be seen."""

import json
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from jinja2 import FileSystemLoader
from sample_fleet import FLEET, TRUCKS

from guidegen.proof.compare_fleet import compare_fleet
from guidegen.proof.compare_fleet_page import compare_fleet_page
from guidegen.proof.compare_truck_list import compare_truck_list
from guidegen.proof.fleet_claims import FleetClaims, claims_of_fleet
from guidegen.proof.known_pages import NONE_PROVED, KnownPages, ProvedPages, nothing_known
from guidegen.proof.unit_record import UnitRecord, record_of
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
        *compare_fleet_page(RECORDS, files.get, fleet, nothing_known(fleet)),
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


def claims(files: Files) -> FleetClaims:
    return claims_of_fleet(TRUCKS, files.get, files, ("T-22",))


def judged(
    files: Files, before: ProvedPages, changed: str = "", records: tuple[UnitRecord, ...] = RECORDS
) -> tuple[list[tuple[str, str, str]], list[str], ProvedPages]:
    """Return what is found, the pages that were not read for it, and what is left for later."""
    fleet = claims(files)
    unchanged = frozenset(each.number for each in records if each.number != changed)
    known = KnownPages.of(before, fleet, unchanged)
    taken = [path for path in sorted(files) if known.find(path, files[path]) is not None]
    found = compare_fleet(records, (), files.get, fleet, known)
    return [(each.rule.name, each.unit, each.page) for each in found], taken, known.proved()


def test_pages_that_were_proved_before_are_not_read_again(files: Files) -> None:
    none, read, left = judged(files, NONE_PROVED)
    again, taken, kept = judged(files, left)

    assert (none, read) == (again, [])
    assert taken == sorted(path for path in files if path.endswith(".html"))
    assert kept == left


def test_a_page_is_read_again_when_a_truck_on_it_changed(files: Files) -> None:
    _, _, left = judged(files, NONE_PROVED)
    listing = next(p for p in files if left.pages.get(p) and "T-17" in left.pages[p].listed)
    other = replace(RECORDS[[each.number for each in RECORDS].index("T-17")], words=())
    records = tuple(other if each.number == "T-17" else each for each in RECORDS)

    found, taken, _ = judged(files, left, "T-17", records)

    assert listing not in taken
    assert ("identity-differs", "T-17", listing) in found
    assert found == judged(files, NONE_PROVED, "", records)[0]


def test_every_fault_of_the_pages_is_found_beside_what_was_proved_before(files: Files) -> None:
    _, _, left = judged(files, NONE_PROVED)
    yards = [path for path in files if path.startswith("yard-")]
    faulty = [
        *(without(files, path) for path in yards),
        *({**files, path: files[other]} for path in yards for other in yards if path != other),
        *(edited(files, path, "index.html", "quiz.html") for path in yards),
        *({**files, path: files[path].replace(b"<main>", b"<main hidden>")} for path in yards),
        {**files, "style.css": b"main { display: none }"},
        edited(files, "index.html", "yard-", "jard-"),
    ]
    for each in faulty:
        found, _, _ = judged(each, left)
        assert found
        assert found == judged(each, NONE_PROVED)[0]


def test_a_page_that_leads_into_a_truck_s_folder_is_read_each_time(files: Files) -> None:
    number = RECORDS[0].number
    more = {
        **files,
        "help.html": f'<main><a href="{number}/quiz.html">Quiz</a></main>'.encode(),
        f"{number}/quiz.html": b"<main></main>",
    }
    there, _, left = judged(more, NONE_PROVED)
    gone, taken, _ = judged({p: raw for p, raw in more.items() if "/" not in p}, left)

    assert "help.html" not in taken
    assert [each for each in gone if each not in there] == [("link-broken", "", "help.html")]
