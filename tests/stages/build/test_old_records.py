"""Trucks that state the same are looked at once, and what is found is what all of them show."""

import shutil
from pathlib import Path

import pytest

from guidegen.build.load import Loaded, load_fleet
from guidegen.build.old_records import old_in
from guidegen.build.project import open_project
from guidegen.build.unit_guides import LazyUnits
from guidegen.finding import Findings
from guidegen.gaps.recheck import old_values
from guidegen.specs.vin import CHECK_POSITION, check_digit
from guidegen.units.model import Unit


def another(text: str, number: str, serial: str) -> str:
    """Return the file of T-17 as that of another truck that states the same."""
    vin = "7Z9DT72S8MBDV4208"
    own = f"{vin[:-4]}{serial}"
    own = f"{own[:CHECK_POSITION]}{check_digit(own)}{own[CHECK_POSITION + 1 :]}"
    return text.replace("unit: T-17", f"unit: {number}").replace(vin, own)


@pytest.fixture(scope="module")
def loaded(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Loaded:
    root = tmp_path_factory.mktemp("fleet")
    shutil.copytree(project_root / "specs", root / "specs")
    with (root / "specs" / "fleet.yml").open("a", encoding="utf-8") as file:
        file.write("recheck_after: 24 months\n")
    units = root / "specs" / "units"
    text = (units / "T-17.yml").read_text(encoding="utf-8")
    for number, serial in (("T-171", "4301"), ("T-172", "4302")):
        (units / f"{number}.yml").write_text(another(text, number, serial), encoding="utf-8")
    later = another(text, "T-173", "4303").replace("on: 2025-10-20", "on: 2026-10-20")
    (units / "T-173.yml").write_text(later, encoding="utf-8")
    fleet = load_fleet(open_project(root), Findings())
    assert fleet is not None
    assert {"T-17", "T-171", "T-172", "T-173"} <= set(fleet.units)
    return fleet


@pytest.mark.parametrize("today", ["2025-01-01", "2026-06-01", "2027-11-01", "2029-01-01"])
def test_what_is_old_is_what_looking_at_every_truck_finds(loaded: Loaded, today: str) -> None:
    plainly = old_values(loaded.units.values(), loaded.fleet.recheck_months, today)

    assert old_in(loaded, today) == plainly


def test_of_trucks_that_state_the_same_each_is_named(loaded: Loaded) -> None:
    found = {old.recorded.span.file.path: tuple(old.units) for old in old_in(loaded, "2027-11-01")}

    assert found["specs/units/T-171.yml"] == ("T-171",)
    assert found["specs/units/T-172.yml"] == ("T-172",)
    assert "specs/units/T-173.yml" not in found


def test_trucks_that_state_the_same_are_not_all_read_where_nothing_is_old(
    loaded: Loaded, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []
    plainly = LazyUnits.__getitem__

    def ask(units: LazyUnits, number: str) -> Unit:
        asked.append(number)
        return plainly(units, number)

    monkeypatch.setattr(LazyUnits, "__getitem__", ask)

    assert not any("T-17" in old.units for old in old_in(loaded, "2026-11-30"))
    assert "T-17" in asked
    assert not {"T-171", "T-172"} & set(asked)
