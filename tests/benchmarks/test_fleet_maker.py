import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml
from fleet_maker import make_fleet
from vininfo import Vin  # type: ignore[import-untyped]  # the library has no types

from guidegen.build.load import load_fleet
from guidegen.build.project import open_project
from guidegen.finding import Findings


@pytest.mark.parametrize(("units", "editions"), [(10, 1), (12, 5), (24, 24)])
def test_a_fleet_has_as_many_units_and_editions_as_asked(
    tmp_path: Path, units: int, editions: int
) -> None:
    loaded = load_fleet(
        open_project(make_fleet(tmp_path / "f", units=units, editions=editions)), Findings()
    )
    assert loaded is not None
    assert len(loaded.guides) == units
    assert len({guide.edition for guide in loaded.guides.values()}) == editions


def test_a_fleet_of_varied_trucks_has_no_finding(tmp_path: Path) -> None:
    fleet = make_fleet(tmp_path / "fleet", units=64, editions=64)
    command = [sys.executable, "-m", "guidegen", "check", "--project", str(fleet)]
    checked = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (checked.returncode, checked.stdout.strip()) == (0, "64 of 64 guides are ready")


def test_trucks_differ_in_sizes_fills_pressures_and_in_what_is_fitted(tmp_path: Path) -> None:
    fleet = make_fleet(tmp_path / "fleet", units=160, editions=160)
    units = [_read(path) for path in (fleet / "specs" / "units").iterdir()]
    assert len({unit["identity"].get("overall_length") for unit in units}) > 20
    assert len({unit.get("engine", {}).get("oil_capacity") for unit in units}) > 20
    assert len({unit.get("tires", {}).get("drive", {}).get("cold_pressure") for unit in units}) > 20
    for thing in ("cruise", "differential_lock", "idle_adjustment", "block_heater"):
        assert 20 < sum(unit.get(thing) == "not fitted" for unit in units) < 120


def test_no_two_trucks_of_a_large_fleet_share_number_plate_or_vin(tmp_path: Path) -> None:
    fleet = make_fleet(tmp_path / "fleet", units=3000, editions=16)
    units = [_read(path) for path in (fleet / "specs" / "units").iterdir()]
    assert len({unit["unit"] for unit in units}) == 3000
    assert len({unit["identity"]["plate"] for unit in units}) == 3000
    vins = {unit["identity"]["vin"] for unit in units}
    assert len(vins) == 3000
    # Judged by another program's reading of 49 CFR 565.15(c).
    assert all(Vin(vin).verify_checksum() for vin in vins)
    # 49 CFR 565.15(a): a 9 in the third position says that positions 12 to 14 name the maker.
    assert not any(vin[2] == "9" for vin in vins)
    assert len({unit["identity"]["yard"] for unit in units}) == 6


def test_more_editions_than_units_are_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="2 units of 3 editions"):
        make_fleet(tmp_path / "fleet", units=2, editions=3)


def _read(path: Path) -> dict[str, Any]:
    text = path.read_text(encoding="utf-8")
    # BaseLoader keeps every scalar as text, as guidegen does.
    read: dict[str, Any] = yaml.load(text, Loader=yaml.CBaseLoader)  # noqa: S506 -- own files
    return read
