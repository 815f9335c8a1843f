"""The lists of the library, and lists with faults on their lines."""

import re
from pathlib import Path

import pytest

from guidegen.build.load_library import load_library
from guidegen.build.project import open_project
from guidegen.coverage.check import check_names
from guidegen.coverage.model import CoverageList
from guidegen.coverage.read import read_list, read_lists
from guidegen.finding import Findings
from guidegen.finding_report import format_findings
from guidegen.specs.fleet import JURISDICTIONS

ROOT = Path(__file__).parents[3]
FAULTY = sorted((ROOT / "tests" / "specimens" / "faulty_coverage").glob("*.yml"))
PARTS = "name: A list\nsource: A law\nedition: of some year\n"


@pytest.fixture(scope="module")
def lists() -> dict[str, CoverageList]:
    findings = Findings()
    found = read_lists(open_project(ROOT).template_files("coverage"), findings)
    assert [finding.what for finding in findings] == []
    return {each.id: each for each in found}


def test_every_jurisdiction_has_exactly_one_list(lists: dict[str, CoverageList]) -> None:
    named = [place for each in lists.values() for place in each.jurisdictions]

    assert sorted(named) == sorted(JURISDICTIONS)


@pytest.mark.parametrize(
    ("jurisdiction", "list_id"),
    [
        ("us", "49-cfr-396-11"),
        ("us-california", "49-cfr-396-11"),
        ("ontario", "nsc-13"),
        ("british-columbia", "nsc-13"),
        ("uk", "uk-walkaround"),
        ("eu", "eu"),
    ],
)
def test_each_place_is_compared_with_its_own_law(
    lists: dict[str, CoverageList], jurisdiction: str, list_id: str
) -> None:
    assert jurisdiction in lists[list_id].jurisdictions


def test_the_list_of_the_united_states_has_its_eleven_parts(
    lists: dict[str, CoverageList],
) -> None:
    """49 CFR 396.11(a)(1): service brakes, parking brake, steering, lights and reflectors, tires,
    horn, wipers, mirrors, coupling devices, wheels and rims, emergency equipment.
    """
    assert [item.id for item in lists["49-cfr-396-11"].items] == [
        "service-brakes",
        "parking-brake",
        "steering",
        "lights-and-reflectors",
        "tires",
        "horn",
        "wipers",
        "mirrors",
        "coupling-devices",
        "wheels-and-rims",
        "emergency-equipment",
    ]


def test_the_list_of_canada_has_its_twenty_three_parts(lists: dict[str, CoverageList]) -> None:
    """NSC Standard 13, Schedule 1, in its order, as a scan and a trade association print it."""
    assert [item.id for item in lists["nsc-13"].items] == [
        "air-brake-system",
        "cab",
        "cargo-securement",
        "coupling-devices",
        "dangerous-goods",
        "driver-controls",
        "driver-seat",
        "electric-brake-system",
        "emergency-equipment",
        "exhaust-system",
        "frame-and-cargo-body",
        "fuel-system",
        "general",
        "glass-and-mirrors",
        "heater-and-defroster",
        "horn",
        "hydraulic-brake-system",
        "lamps-and-reflectors",
        "steering",
        "suspension-system",
        "tires",
        "wheels-hubs-fasteners",
        "wipers-and-washer",
    ]


def test_the_list_of_the_united_kingdom_has_its_parts(lists: dict[str, CoverageList]) -> None:
    """DVSA walkaround check, as two operators' pages reproduce it: eight in the cab, the others
    around the vehicle.
    """
    ids = [item.id for item in lists["uk-walkaround"].items]

    assert ids[:8] == [
        "mirrors-and-glass",
        "front-view",
        "wipers-and-washers",
        "lamps-and-gauges",
        "steering",
        "horn",
        "brakes",
        "height-marker",
    ]
    assert len(ids) == 24
    assert {"tires", "wheel-fixing", "load", "smoke", "def-level", "number-plate"} <= set(ids)


def test_the_union_has_no_list_and_says_so(lists: dict[str, CoverageList]) -> None:
    assert lists["eu"].items == ()
    assert lists["eu"].no_list.startswith("No list of the Union")


def test_every_item_has_wording_source_and_edition(lists: dict[str, CoverageList]) -> None:
    for each in lists.values():
        for item in each.items:
            assert item.wording
            assert item.source
            assert item.edition


def test_lists_name_procedures_and_steps_that_there_are(lists: dict[str, CoverageList]) -> None:
    findings = Findings()
    library = load_library(open_project(ROOT), findings)
    assert library is not None
    for each in lists.values():
        check_names(each, library, findings)

    assert [finding.what for finding in findings] == []


def test_a_name_that_is_not_in_the_library_is_found() -> None:
    findings = Findings()
    library = load_library(open_project(ROOT), findings)
    assert library is not None
    text = (
        f"id: mine\n{PARTS}jurisdictions: [us]\nitems:\n"
        "  - {id: horn, wording: Horn, met_by: [hornn, horn.steps.sounds]}\n"
    )
    found = read_list("coverage/mine.yml", text.encode(), findings)
    assert found is not None

    check_names(found, library, findings)

    assert [(f.rule.name, f.fix) for f in findings] == [
        ("coverage-unknown-procedure", "did you mean `horn`?"),
        ("coverage-unknown-procedure", "did you mean `horn.steps.sound`?"),
    ]


def test_two_lists_for_one_place_are_refused() -> None:
    items = "jurisdictions: [us]\nitems: [{id: horn, wording: Horn}]\n"
    files = [(f"coverage/{n}.yml", f"id: {n}\n{PARTS}{items}".encode()) for n in ("one", "two")]
    findings = Findings()

    read_lists(files, findings)

    (finding,) = findings
    assert finding.rule.name == "coverage-list-twice"
    assert finding.what == "`two` and `one` are both for `us`"


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_a_faulty_list_has_exactly_the_findings_on_its_lines(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    expected = [
        (number, int(column), rule)
        for number, line in enumerate(text.split("\n"), start=1)
        for column, rule in re.findall(r"  # finding: (\d+) ([a-z-]+)$", line)
    ]
    findings = Findings()

    found = read_list(path.name, path.read_bytes(), findings)

    shown = [(f.span.line, f.span.column, f.rule.name) for f in findings if f.span]
    assert found is None
    assert expected
    assert shown == expected, format_findings(findings)
