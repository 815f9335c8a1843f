"""What a driver is told who knows one truck of the demo fleet and is given another."""

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from few_trucks import without_cards

Run = Callable[..., Any]
"""`run_guidegen` of this folder's conftest."""

RETROFIT = [
    "value.brakes.air.drain",
    "value.brakes.air.drain_location",
    "work.tank-drain-automatic",
    "work.tank-drain-manual",
    "thing.differential_lock",
    "thing.idle_adjustment",
    "work.slippery-road",
    "work.differential-lock",
    "work.idle-adjustment",
    "value.identity.overall_height",
    "value.tires.steer.size",
    "value.tires.steer.load_range",
    "value.tires.steer.cold_pressure",
    "value.tires.steer.no_fill_pressure",
    "value.tires.drive.size",
    "value.tires.drive.cold_pressure",
    "value.tires.drive.no_fill_pressure",
    "work.parking-in-frost",
    "lamp.differential_lock",
]
"""What the unit file of T-18 says was done to it, and the work that goes with it."""


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def told(site: Path, given: str, known: str) -> list[str]:
    text = (site / given / f"from-{known}.html").read_text(encoding="utf-8")
    return re.findall(r'data-difference="([^"]*)"', text)


def sheets(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.glob("*/from-*.html"))


def test_from_t_17_to_t_18_the_sheet_tells_exactly_the_retrofit(demo: Path) -> None:
    assert told(demo / "site", "T-18", "T-17") == RETROFIT
    assert sorted(told(demo / "site", "T-17", "T-18")) == sorted(RETROFIT)


def test_from_a_diesel_to_an_electric_truck_brakes_come_first(demo: Path) -> None:
    text = (demo / "site" / "E-02" / "from-T-17.html").read_text(encoding="utf-8")
    headings = re.findall(r'<h2 data-rank="([a-z]+)"', text)
    assert headings == [
        *("brakes", "dangers", "controls", "limits", "fluids", "work", "values", "conveniences")
    ]
    rows = told(demo / "site", "E-02", "T-17")
    assert rows[:3] == ["thing.brakes.air", "thing.brakes.hydraulic", "thing.engine_brake"]
    assert rows.index("value.parking_brake.control") < rows.index("thing.high_voltage")
    assert rows.index("thing.high_voltage") < rows.index("value.lights.control")


def test_every_truck_has_a_sheet_for_every_other_while_the_fleet_is_small(demo: Path) -> None:
    units = [path.stem for path in (demo / "specs" / "units").glob("*.yml")]
    assert sheets(demo / "site") == sorted(
        f"{given}/from-{known}.html" for given in units for known in units if given != known
    )


def test_the_search_finds_nothing_of_another_truck(demo: Path) -> None:
    script = (demo / "site" / "T-18" / "search-data.js").read_text(encoding="utf-8")
    index = json.loads(script.removeprefix("window.guideSearch=").removesuffix(";\n"))
    assert not [e["location"] for e in index["docs"] if e["location"].startswith(("diff", "from"))]


def test_compare_tells_in_the_terminal_what_the_sheet_tells(run: Run, demo: Path) -> None:
    ran = run("compare", "T-17", "T-18", folder=demo)
    as_json = json.loads(run("compare", "T-17", "T-18", "--format", "json", folder=demo).out)

    assert ran.code == 0
    assert ran.out.startswith(f"From T-17 to T-18: {len(RETROFIT)} differences on record\n")
    ids = [each["id"] for each in as_json["differences"]]
    assert ids == [each.partition(".")[2] for each in RETROFIT]


def test_compare_with_a_unit_that_is_not_there_is_wrong_usage_with_a_guess(
    run: Run, demo: Path
) -> None:
    ran = run("compare", "T-17", "T-71", folder=demo)

    assert ran.code == 2
    assert "did you mean `T-17`?" in ran.err


def test_compare_with_a_unit_that_is_held_back_gives_the_findings(run: Run, project: Path) -> None:
    edit(project / "specs" / "units" / "E-02.yml", "vin:", "vim:")

    ran = run("compare", "T-17", "E-02", folder=project)

    assert ran.code == 1
    assert "error[unknown-field]" in ran.err


def test_only_trucks_that_drivers_are_signed_off_on_are_offered(run: Run, few: Path) -> None:
    edit(few / "specs" / "fleet.yml", "yards:", "trained_on: [T-17, E-02]\n\nyards:")

    assert run("build", folder=without_cards(few)).code == 0

    names = {path.partition("/")[2] for path in sheets(few / "site")}
    assert names == {"from-E-02.html", "from-T-17.html"}
    assert len(sheets(few / "site")) == 2 * 3 - 2


def test_where_no_truck_is_offered_the_page_says_so(run: Run, few: Path) -> None:
    edit(few / "specs" / "fleet.yml", "yards:", "trained_on: []\n\nyards:")

    assert run("build", folder=without_cards(few)).code == 0

    assert sheets(few / "site") == []
    page = (few / "site" / "T-17" / "differences.html").read_text(encoding="utf-8")
    assert "No truck is listed here." in page


def test_a_number_that_no_truck_has_is_a_finding(run: Run, project: Path) -> None:
    edit(project / "specs" / "fleet.yml", "yards:", "trained_on: [T-71]\n\nyards:")

    ran = run("check", folder=project)

    assert ran.code == 1
    assert "error[trained-on-unknown-unit]" in ran.err
    assert "did you mean `T-17`?" in ran.err


def test_a_changed_value_of_the_known_truck_fails_the_proof_of_the_sheet(
    run: Run, few_built: Path
) -> None:
    edit(few_built / "site" / "T-18" / "from-T-17.html", ">drain cocks<", ">pull cords<")

    ran = run("prove", folder=few_built)

    assert ran.code == 1
    assert "T-18/from-T-17.html" in ran.err
    assert "value-not-read-back" in ran.err
