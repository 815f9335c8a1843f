"""The list of cards that are out of date, as a person or a program reads it.

Takes in cards that were judged; gives out lines of text by yard, or values for JSON.
Refuses to word a change anew.
"""

from collections.abc import Iterator
from itertools import groupby
from typing import Any

from guidegen.printings.changes import KINDS, Kind
from guidegen.printings.model import Printing
from guidegen.printings.outdated import NO_YARD, Judged, Outdated

PRINT = "print"
TAKE_OUT = "take out"

_TAKE_OUT = "take it out of the cab"
_TAKE_OUT_ALL = "take these out of the cab"
_MOST_NAMED = 5


def format_judged(judged: Judged) -> str:
    """Return *judged* as text."""
    lines = list(_lines(judged))
    if judged.outdated:
        lines.append("")
    return "\n".join([*lines, *_ending(judged)]) + "\n"


def judged_as_json(judged: Judged) -> dict[str, Any]:
    """Return *judged* as values that JSON can hold."""
    return {
        "cards": [_as_json(each) for each in judged.outdated],
        "older": [{"unit": each.unit, "card": each.card} for each in judged.older],
        "current": len(judged.current),
        "unrecorded": list(judged.unrecorded),
        "unjudged": list(judged.unjudged),
    }


def _as_json(each: Outdated) -> dict[str, Any]:
    return {
        "yard": each.yard,
        "unit": each.unit,
        "card": each.card,
        "title": each.title,
        "kind": each.kind.value,
        "do": TAKE_OUT if each.is_taken_out else PRINT,
        "changes": list(each.changes),
        "in_cab": None if each.hangs is None else _printed_as_json(each),
    }


def _printed_as_json(each: Outdated) -> dict[str, Any]:
    assert each.hangs is not None  # noqa: S101 -- looked at by whoever asks
    printing = each.hangs.printing
    return {
        "printed": printing.date,
        "revision": printing.revision,
        "size": each.hangs.card.size,
        "copies": printing.copies,
        "by": printing.by,
    }


def _lines(judged: Judged) -> Iterator[str]:
    for place, (yard, listed) in enumerate(groupby(judged.outdated, key=lambda each: each.yard)):
        if place:
            yield ""
        yield yard or NO_YARD
        yield "=" * len(yard or NO_YARD)
        for _, alike in groupby(listed, key=_together):
            yield from _entry(list(alike))


def _together(each: Outdated) -> tuple[str, ...]:
    """Return what entries share that are one to whoever goes to the truck."""
    if each.kind is Kind.RETIRED and each.hangs is not None:
        return each.unit, _printed(each.hangs.printing)
    return each.unit, each.card, each.kind.value


def _entry(alike: list[Outdated]) -> Iterator[str]:
    first = alike[0]
    if len(alike) > 1:
        yield f"\n{first.unit}: {KINDS[first.kind]}"
        yield f"  {_TAKE_OUT_ALL}: {', '.join(each.card for each in alike)}"
    else:
        title = f" “{first.title}”" if first.title else ""
        yield f"\n{first.unit} {first.card}{title}: {KINDS[first.kind]}"
        yield from (f"  {change}" for change in first.changes)
        if first.is_taken_out:
            yield f"  {_TAKE_OUT}"
    if first.hangs is not None:
        yield f"  in the cab: {_printed(first.hangs.printing)}"


def _printed(printing: Printing) -> str:
    """Return which card it is that a driver has in hand, so that it can be found."""
    copies = f", {printing.copies} copies" if printing.copies > 1 else ""
    by = f" by {printing.by}" if printing.by else ""
    return f"revision {printing.revision}, printed {printing.date}{by}{copies}"


def _ending(judged: Judged) -> Iterator[str]:
    again = sum(not each.is_taken_out for each in judged.outdated)
    out = len(judged.outdated) - again
    current = len(judged.current) + len(judged.older)
    yield (
        f"{again:,} {'card' if again == 1 else 'cards'} to print, {out:,} to take out, "
        f"{current:,} up to date"
    )
    if judged.older:
        count = len(judged.older)
        which = "1 of these carries" if count == 1 else f"{count:,} of these carry"
        same = "says" if count == 1 else "say"
        yield f"{which} an older revision and {same} the same; `--every` prints these too"
    if judged.unjudged:
        yield f"not judged, since their guides are held back: {_named(judged.unjudged)}"
    if judged.unrecorded:
        yield f"no card on record: {_named(judged.unrecorded)}"


def _named(units: tuple[str, ...]) -> str:
    more = len(units) - _MOST_NAMED
    return ", ".join(units[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
