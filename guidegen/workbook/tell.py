"""What an import would change, one line a change.

Takes in changes; gives out lines for the terminal. Refuses to leave out the cell: whoever reads
the line must find it.
"""

from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.workbook.contents import UNKNOWN
from guidegen.workbook.model import Change, Place, Record, is_origin

_MOST_NAMED = 6


def change_line(change: Change) -> str:
    """Return ``T-17 tires.steer.cold_pressure 100 → 110 psi, sheet Tires, cell D18``."""
    line = f"{change.key} {change.name} {_from_to(change)}, {_where(change.place)}"
    if change.followers:
        named = ", ".join(change.followers[:_MOST_NAMED])
        more = len(change.followers) - _MOST_NAMED
        line += f"; also for {named}" + (f" and {more} more" if more > 0 else "")
    return line


def new_line(record: Record, place: Place) -> str:
    """Return the line for a new truck or model."""
    of = f" of model {record.model}" if record.model != record.key else ""
    return f"{record.key} is new: a {record.kind.value}{of}, {_where(place)}"


def _where(place: Place) -> str:
    return f"sheet {place.sheet}, cell {place.cell}"


def _from_to(change: Change) -> str:
    before, after = change.before, change.after
    if after is None:
        nothing = (
            "stated here no more"
            if change.name in EQUIPMENT_SECTIONS or is_origin(change.name)
            else "no value of its own"
        )
        return f"{before} → {nothing}"
    if before is None:
        shown = change.shown_before
        was = f"{shown} (of the model)" if shown not in ("", UNKNOWN) else "not on record"
        return f"{was} → {after}"
    first, _, measure = before.rpartition(" ")
    if first and after.endswith(f" {measure}") and after[:1].isdigit() and first[:1].isdigit():
        return f"{first} → {after}"
    return f"{before} → {after}"
