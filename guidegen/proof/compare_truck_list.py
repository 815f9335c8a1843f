"""Whether the list that the finder's script reads holds every truck once, as what it is.

Takes in a reader of files and records of all trucks; gives out failures. A list is asked for as
soon as the trucks stand on pages of yards: the script could not find those trucks on the fleet
page.
Refuses words that a truck's guide does not state.
"""

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from guidegen.proof import rules
from guidegen.proof.fleet_claims import FleetClaims, Read
from guidegen.proof.model import Failure
from guidegen.proof.unit_record import UnitRecord

LIST_PATH = "trucks.json"
_TABLES = ("names", "bodies", "yards")
_ROW = 2 + len(_TABLES)
_FIX = "repair what writes the list of trucks"


def compare_truck_list(
    units: Sequence[UnitRecord], read: Read, fleet: FleetClaims
) -> Iterator[Failure]:
    """Yield what is wrong with the list of *units*."""
    raw = read(LIST_PATH)
    if raw is None:
        if any(path.startswith(("yard-", "no-yard")) for path in fleet.paths):
            what = "is not there, and the finder cannot find a truck without it"
            yield Failure(rules.PAGE_MISSING, "", LIST_PATH, what, _FIX)
        return
    try:
        rows = _rows(raw)
    except (ValueError, TypeError, IndexError, KeyError) as fault:
        what = f"cannot be read as a list of trucks: {fault}"
        yield Failure(rules.TRUCK_NOT_LISTED, "", LIST_PATH, what, _FIX)
        return
    counts = Counter(number for number, _, _ in rows)
    by_number = {number: (plate, words) for number, plate, words in rows}
    for unit in units:
        yield from _compare_row(unit, by_number, counts[unit.number])
    for number in sorted(set(counts) - fleet.numbers):
        what = f"lists `{number}`, and there is no guide for a truck of that number"
        yield Failure(rules.UNKNOWN_TRUCK, "", LIST_PATH, what, _FIX)


def _rows(raw: bytes) -> list[tuple[str, str, str]]:
    """Return number, plate and all other words of each truck."""
    table: Any = json.loads(raw)
    tables = [[_text(each) for each in table[name]] for name in _TABLES]
    if set(table) != {*_TABLES, "trucks"}:
        raise ValueError(f"it holds {', '.join(sorted(table))}")
    found = []
    for row in table["trucks"]:
        if len(row) != _ROW:
            raise ValueError(f"a row holds {len(row)} things")
        words = [texts[_place(place)] for texts, place in zip(tables, row[2:], strict=True)]
        found.append((_text(row[0]), _text(row[1]), " ".join(words)))
    return found


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError(f"`{value}` is no text")
    return value


def _place(value: object) -> int:
    # A place from the end would be read otherwise by the script.
    if not isinstance(value, int) or value < 0:
        raise ValueError(f"`{value}` is no place in a table")
    return value


def _compare_row(
    unit: UnitRecord, rows: Mapping[str, tuple[str, str]], count: int
) -> Iterator[Failure]:
    number = unit.number
    if count == 0:
        yield Failure(rules.TRUCK_NOT_LISTED, number, LIST_PATH, f"does not hold {number}", _FIX)
        return
    if count > 1:
        what = f"holds {number} {count} times"
        yield Failure(rules.TRUCK_LISTED_TWICE, number, LIST_PATH, what, _FIX)
    plate, words = rows[number]
    if plate.casefold() not in {*unit.plates, ""}:
        what = f"gives {number} the plate `{plate}`"
        yield Failure(rules.IDENTITY_DIFFERS, number, LIST_PATH, what, _FIX)
    if not plate and any(unit.plates):
        what = f"does not hold the plate of {number}"
        yield Failure(rules.TRUCK_NOT_LISTED, number, LIST_PATH, what, _FIX)
    left = unit.unstated(words)
    if left:
        what = f"says of {number} `{left}`, which its guide does not state"
        yield Failure(rules.IDENTITY_DIFFERS, number, LIST_PATH, what, _FIX)
