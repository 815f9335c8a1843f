"""Where a driver stands for a procedure, as its file states it.

Takes in the table of a procedure; gives out its station, and those of the trucks on which it is
done elsewhere.
Refuses a list that leaves a truck without a station, or holds one that no truck comes to.
"""

from types import MappingProxyType

from guidegen.procedures import rules
from guidegen.procedures.model import StationTemplate
from guidegen.procedures.read_when import read_when
from guidegen.procedures.table_reader import TableReader, choose
from guidegen.procedures.words import STATIONS
from guidegen.yaml_nodes import Listing

STATION_PARTS = MappingProxyType({"at": "at: left_side"})


def read_stations(reader: TableReader) -> tuple[tuple[StationTemplate, ...], str | None]:
    """Return the stations that hang on a condition, and the one where none of these holds.

    Args:
        reader: The table of the whole procedure, whose ``station`` is one word, or a list of
            which all but the last have a ``when``.
    """
    if not isinstance(reader.table.get("station"), Listing):
        return (), _read_one(reader, "station")
    if not reader.nodes("station"):
        reader.add_missing("station", "station: cab")
    lines = reader.tables("station", "station", "- {at: around}")
    found: list[StationTemplate] = []
    station: str | None = None
    for number, line in enumerate(lines, start=1):
        line.check_names(STATION_PARTS, ("when",))
        station, when = _read_one(line, "at"), read_when(line, "when")
        is_last = number == len(lines)
        if is_last == ("when" in line.table.entries):
            _add_undecided(line, is_last=is_last)
        elif station is not None and when is not None:
            found.append(StationTemplate(station, when, line.head))
    return tuple(found), station


def _read_one(reader: TableReader, name: str) -> str | None:
    found = reader.text(name)
    return choose(found, STATIONS, rules.UNKNOWN_STATION, "station {}", reader.findings)


def _add_undecided(line: TableReader, *, is_last: bool) -> None:
    what = f"{line.owner} has no `when`, so those below it are never used"
    fix = "give it a `when`, or move it to the end of the list"
    if is_last:
        what = f"{line.owner} is the last one and has a `when`, so a truck can be left without any"
        fix = "delete this `when`, or add a last line without one, as in `- {at: around}`"
    line.findings.add(rules.STATION_UNDECIDED, line.head, what=what, fix=fix)
