"""The history of a truck as a person or a program reads it in a terminal.

Takes in revisions of one truck; gives out lines of text, or values for JSON, the newest first.
Refuses to word a change anew: the record's words are what was approved.
"""

from collections.abc import Iterable
from typing import Any

from guidegen.revisions.model import Revision

FIRST = "First revision"


def format_history(unit: str, revisions: Iterable[Revision]) -> str:
    """Return the *revisions* of the truck *unit* as text, the newest first."""
    listed = sorted(revisions, key=lambda each: -each.number)
    if not listed:
        return f"{unit}: no revision was ever released\n"
    lines = [f"{unit}: revision {listed[0].number} of {listed[0].date}"]
    for each in listed:
        lines += ["", f"  {each.number}, {each.date}, approved by {each.by} ({each.digits})"]
        lines += [f"    {change}" for change in each.changes or (FIRST,)]
    return "\n".join(lines) + "\n"


def history_as_json(unit: str, revisions: Iterable[Revision]) -> dict[str, Any]:
    """Return the *revisions* of the truck *unit* as plain values, the newest first."""
    listed = sorted(revisions, key=lambda each: -each.number)
    return {"unit": unit, "revisions": [revision_as_json(each) for each in listed]}


def revision_as_json(revision: Revision) -> dict[str, Any]:
    """Return one revision as plain values."""
    return {
        "unit": revision.unit,
        "revision": revision.number,
        "date": revision.date,
        "by": revision.by,
        "edition": revision.edition,
        "digits": revision.digits,
        "changes": list(revision.changes),
        "snapshot": revision.snapshot,
        "outputs": revision.outputs,
        "program": revision.program,
    }
