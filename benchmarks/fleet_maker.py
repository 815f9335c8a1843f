"""Fleets of any size, made from the demo fleet.

Takes in a number of units and of editions; gives out a project folder with that many spec files.
Refuses more editions than units.
"""

import shutil
from pathlib import Path
from typing import Any

import yaml

from guidegen.build.start import start_project
from guidegen.finding import Findings
from guidegen.specs.vin import CHECK_POSITION, check_digit


def make_fleet(folder: Path, *, units: int, editions: int, has_cards: bool = False) -> Path:
    """Write a fleet of *units* trucks, *editions* of which differ in more than identity.

    Without cards its builds are what other programs can be compared with.
    """
    if not 1 <= editions <= units:
        raise ValueError(editions)
    if folder.exists():
        shutil.rmtree(folder)
    if not start_project(folder, Findings()):
        raise FileExistsError(folder)
    if not has_cards:
        _ask_for_no_cards(folder / "specs" / "fleet.yml")
    seeds = _seeds(folder / "specs" / "units")
    for path in (folder / "specs" / "units").iterdir():
        path.unlink()
    for index in range(units):
        edition = index % editions
        unit = _unit(seeds[edition % len(seeds)], index, edition // len(seeds))
        text = yaml.safe_dump(unit, sort_keys=False, allow_unicode=True)
        path = folder / "specs" / "units" / f"{unit['unit']}.yml"
        path.write_text(text, encoding="utf-8", newline="\n")
    return folder


def _ask_for_no_cards(fleet: Path) -> None:
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith(("address:", "issued:"))]
    fleet.write_text("".join(kept), encoding="utf-8", newline="\n")


def _seeds(folder: Path) -> list[dict[str, Any]]:
    # BaseLoader keeps every scalar as the text that was typed, as guidegen itself does.
    texts = [path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.yml"))]
    return [yaml.load(text, Loader=yaml.BaseLoader) for text in texts]  # noqa: S506 -- own files


def _unit(seed: dict[str, Any], index: int, variant: int) -> dict[str, Any]:
    number = f"X-{index:06d}"
    identity = dict(seed["identity"])
    vin = identity["vin"]
    typed = vin["value"] if isinstance(vin, dict) else vin
    serial = typed[:12] + f"{index:05d}"[-5:]
    digit = check_digit(serial)
    identity["vin"] = serial[:CHECK_POSITION] + digit + serial[CHECK_POSITION + 1 :]
    identity["plate"] = f"BEN {index:06d}"
    identity["overall_length"] = f"{22 + variant // 12} ft {variant % 12} in"
    return {**seed, "unit": number, "identity": identity}
