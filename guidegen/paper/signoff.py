"""A sign-off list in words.

Takes in the list of a truck, its guide, and what differs from a truck that the driver knows, in
words; gives out rows with places to fill in by hand, in types that JSON has.
Refuses names and dates: whoever signs writes them on paper.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any

from guidegen.differences.standing import RANKS
from guidegen.guide.revision import REVISION_DIGITS
from guidegen.paper.matter import Matter
from guidegen.procedures.words import CHAPTERS, LABELS, LAMP_ACTS
from guidegen.training.signoff import Signoff, SignoffLine
from guidegen.training.words import SIGNOFF_WORDS

TEMPLATE = "signoff.typ"

Told = Mapping[str, Any]
"""One difference in words: `what`, `known`, `given`, `only_on`, `rank`, `why`."""

_Words = dict[str, Any]

_NOTES = ("no_license", "all_cautions", "by_hand")
_COLUMNS = ("shows", "cautions", "done", "more", "initials")
_MANY = "\u00d7"


def signoff_as_json(signoff: Signoff, matter: Matter, told: Sequence[Told]) -> dict[str, Any]:
    """Return *signoff* for programs.

    Args:
        signoff: Of the truck of *matter*.
        matter: Of the truck's guide.
        told: Its differences in words, gravest first.
    """
    return {
        "unit": signoff.number,
        "edition": signoff.edition,
        "knows": signoff.differences.known if signoff.differences else "",
        "knows_edition": signoff.known_edition,
        "chapters": [
            {
                "id": part.chapter,
                "title": CHAPTERS[part.chapter],
                "lines": [{"id": line.procedure, **_line(line, matter)} for line in part.lines],
            }
            for part in signoff.parts
        ],
        "differences": [dict(each) for each in told],
    }


def signoff_body(
    signoff: Signoff, matter: Matter, told: Sequence[Told], known_revision: str = ""
) -> dict[str, Any]:
    """Return what the template of the sign-off sheet is given.

    Args:
        signoff: Of the truck of *matter*.
        matter: Of the truck's guide.
        told: Its differences in words, gravest first.
        known_revision: Of the guide of the truck that the driver knows; if empty, the first
            digits of its edition.
    """
    words = SIGNOFF_WORDS
    known = signoff.differences.known if signoff.differences else ""
    revision = known_revision or signoff.known_edition[:REVISION_DIGITS]
    return {
        "title": f"{words['signoff_knows']} {known}" if known else words["signoff"],
        "notes": [*(words[key] for key in _NOTES), LABELS["handbook_first"]],
        "columns": [words[key] for key in _COLUMNS],
        "other_columns": [words[key] for key in ("other_shows", *_COLUMNS[2:])],
        "blanks": [words["driver"], words["trainer"], words["date"]],
        "signatures": [
            [words["driver"], words["signature"], words["date"]],
            [words["trainer"], words["signature"], words["date"]],
        ],
        "chapters": [
            {
                "title": CHAPTERS[part.chapter],
                "note": words["lamp_shows"] if any(line.lamp for line in part.lines) else "",
                "lines": [_line(line, matter) for line in part.lines],
            }
            for part in signoff.parts
        ],
        "other_title": f"{words['other_here']}: {known}" if known else "",
        "other_revision": f"{known}: {LABELS['revision']} {revision}" if known else "",
        "none_other": LABELS["no_differences"] if known and not told else "",
        "ranks": [
            {"title": RANKS[rank], "reasons": list(_reasons(same, signoff.number, known))}
            for rank, same in groupby(told, key=lambda each: str(each["rank"]))
        ],
    }


def _line(line: SignoffLine, matter: Matter) -> dict[str, Any]:
    if line.lamp is not None:
        shows = LAMP_ACTS[line.lamp.act]
    else:
        shows = matter.words(line.shows) if line.shows else ""
    return {
        "title": matter.words(line.title),
        "shows": shows,
        "cautions": [
            signal.value if count == 1 else f"{count} {_MANY} {signal.value}"
            for signal, count in line.signals
        ],
    }


def _reasons(told: Iterable[Told], given: str, known: str) -> Iterator[_Words]:
    for why, same in groupby(told, key=lambda each: str(each["why"])):
        yield {"title": why, "lines": [_difference(each, given, known) for each in same]}


def _difference(told: Told, given: str, known: str) -> _Words:
    if told["only_on"]:
        only = f"{LABELS['only_on']} {told['only_on']}"
        absent = f", {SIGNOFF_WORDS['not_on']} {given}" if told["only_on"] == known else ""
        return {"what": told["what"], "known": "", "here": only + absent}
    if not told["known"]:
        return {"what": told["what"], "known": "", "here": told["given"]}
    return {
        "what": told["what"],
        "known": f"{known}: {told['known']}",
        "here": f"{given}: {told['given']}",
    }
