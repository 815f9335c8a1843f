"""Fleets of any size, made from the demo fleet.

Takes in a number of units and of editions; gives out a project folder with that many spec files.
Refuses more editions than units, more units than a VIN's serial can tell apart, and more editions
than the demo fleet has variants.
"""

import argparse
import shutil
from collections.abc import Iterator
from pathlib import Path

import yaml
from fleet_variants import Spec, Variants, typed

from guidegen.build.start import start_project
from guidegen.finding import Findings
from guidegen.specs.vin import CHECK_POSITION, check_digit

SERIAL_DIGITS = 6
"""Positions 12 to 17 of a VIN are the maker's serial number. Source: 49 CFR 565.15(d)(3)."""

UNITS_A_YARD = 500
"""Guessed. Common practice, no source."""

_SMALL_MAKER, _LARGE_MAKER = "9", "0"
"""A third character of 9 says that the maker builds fewer than 1,000 a year, and makes positions
12 to 14 part of the maker's name. Source: 49 CFR 565.15(a). The other character is invented."""

_PER_UNIT = ("unit", "vin", "plate", "yard")


class _Dumper(yaml.CSafeDumper):
    """Quotes nothing that need not be: guidegen reads every scalar as text."""


_Dumper.yaml_implicit_resolvers = {}


def make_fleet(folder: Path, *, units: int, editions: int, has_cards: bool = False) -> Path:
    """Write a fleet of *units* trucks, *editions* of which differ in more than identity.

    Without cards its builds are what other programs can be compared with.
    """
    if not 1 <= editions <= units <= 10**SERIAL_DIGITS:
        raise ValueError(f"{units} units of {editions} editions")
    if folder.exists():
        shutil.rmtree(folder)
    if not start_project(folder, Findings()):
        raise FileExistsError(folder)
    specs = folder / "specs"
    texts = list(_texts(specs, editions))
    yards = _add_yards(specs / "fleet.yml", units)
    if not has_cards:
        _ask_for_no_cards(specs / "fleet.yml")
    for path in (specs / "units").iterdir():
        path.unlink()
    shutil.rmtree(specs / "photos")  # of trucks that are gone
    for index in range(units):
        text, vin = texts[index % editions]
        number = f"X-{index:06d}"
        # Trucks of one edition stand in different yards.
        yard = yards[(index // UNITS_A_YARD + index % editions) % len(yards)]
        values = (number, _numbered(vin, index), f"BEN {index:06d}", yard)
        for name, value in zip(_PER_UNIT, values, strict=True):
            text = text.replace(_blank(name), value)
        path = specs / "units" / f"{number}.yml"
        path.write_text(text, encoding="utf-8", newline="\n")
    return folder


def _texts(specs: Path, editions: int) -> Iterator[tuple[str, str]]:
    """Yield the text of each edition's units with blanks for what is each unit's own, and a VIN."""
    models = {model["model"]: model for model in _read(specs / "models")}
    seeds = [(seed, Variants(seed, models[seed["model"]])) for seed in _read(specs / "units")]
    for edition in range(editions):
        seed, variants = seeds[edition % len(seeds)]
        unit = variants.make(edition // len(seeds))
        text = yaml.dump(_blanked(unit), Dumper=_Dumper, sort_keys=False, allow_unicode=True)
        yield text, typed(seed["identity"]["vin"])


def _blanked(unit: Spec) -> Spec:
    identity = {**unit["identity"], **{name: _blank(name) for name in _PER_UNIT[1:]}}
    return {**unit, "unit": _blank("unit"), "identity": identity}


def _blank(name: str) -> str:
    return f"@{name}@".upper().replace("@", "__")


def _numbered(vin: str, index: int) -> str:
    maker = vin[:2] + vin[2].replace(_SMALL_MAKER, _LARGE_MAKER)
    numbered = maker + vin[3:-SERIAL_DIGITS] + f"{index:0{SERIAL_DIGITS}d}"
    return numbered[:CHECK_POSITION] + check_digit(numbered) + numbered[CHECK_POSITION + 1 :]


def _add_yards(fleet: Path, units: int) -> list[str]:
    """Give the fleet yards enough for its trucks; return the ids of all."""
    text = fleet.read_text(encoding="utf-8")
    named = [yard["id"] for yard in _load(text)["yards"]]
    added = [f"yard-{number}" for number in range(len(named) + 1, units // UNITS_A_YARD + 1)]
    lines = "".join(
        f"  - {{id: {yard}, name: {yard.replace('-', ' ').capitalize()}, phone: 555-0104}}\n"
        for yard in added
    )
    fleet.write_text(text.replace("yards:\n", f"yards:\n{lines}"), encoding="utf-8", newline="\n")
    return named + added


def _ask_for_no_cards(fleet: Path) -> None:
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith(("address:", "issued:"))]
    fleet.write_text("".join(kept), encoding="utf-8", newline="\n")


def _read(folder: Path) -> list[Spec]:
    return [_load(path.read_text(encoding="utf-8")) for path in sorted(folder.glob("*.yml"))]


def _load(text: str) -> Spec:
    # BaseLoader keeps every scalar as the text that was typed, as guidegen itself does.
    loaded: Spec = yaml.load(text, Loader=yaml.CBaseLoader)  # noqa: S506 -- own files
    return loaded


def main() -> None:
    """Write one fleet."""
    parser = argparse.ArgumentParser(description=make_fleet.__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--units", type=int, default=1000)
    parser.add_argument("--editions", type=int, default=60)
    parser.add_argument("--cards", action="store_true", help="state what cards need")
    chosen = parser.parse_args()
    made = make_fleet(
        chosen.folder, units=chosen.units, editions=chosen.editions, has_cards=chosen.cards
    )
    print(made)


if __name__ == "__main__":
    main()
