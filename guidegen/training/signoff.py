"""From a guide to the list that trainer and driver sign.

Takes in a guide and, if the driver is signed off on another truck, that truck's guide; gives out
one line for each procedure, and the differences from the truck that the driver knows.
Refuses anything personal: names, dates and signatures are blank lines, filled in by hand.
"""

from dataclasses import dataclass

from guidegen.differences.compare import compare_guides
from guidegen.differences.model import DifferenceSheet
from guidegen.guide.model import Caution, Guide, Procedure, Text
from guidegen.procedures.model import LampSign, Signal


@dataclass(frozen=True, slots=True)
class SignoffLine:
    """One procedure, with places for `done`, `needs more training` and initials."""

    procedure: str
    """Its id."""

    title: Text
    shows: Text | None
    """The first thing to see when the work was done right; for a lamp, what it means."""

    lamp: LampSign | None
    signals: tuple[tuple[Signal, int], ...]
    """How many cautions of each signal word stand in it, gravest first."""


@dataclass(frozen=True, slots=True)
class SignoffPart:
    """The lines of one chapter."""

    chapter: str
    """Key of `guidegen.procedures.words.CHAPTERS`."""

    lines: tuple[SignoffLine, ...]


@dataclass(frozen=True, slots=True)
class Signoff:
    """All that a driver shows a trainer on one truck."""

    number: str
    edition: str
    parts: tuple[SignoffPart, ...]
    """In the order of the guide; every procedure stands in exactly one line."""

    differences: DifferenceSheet | None
    """From the truck that the driver is signed off on, gravest first."""

    known_edition: str = ""
    """Of the guide of the truck that the driver is signed off on."""


def list_signoff(guide: Guide, known: Guide | None = None) -> Signoff:
    """Return the list for the truck of *guide*.

    Args:
        guide: Of the truck.
        known: Of the truck that the driver is signed off on, if there is one.
    """
    return Signoff(
        number=guide.number,
        edition=guide.edition,
        parts=tuple(
            SignoffPart(chapter.id, tuple(_line(each) for each in chapter.procedures))
            for chapter in guide.chapters
        ),
        differences=None if known is None else compare_guides(known, guide),
        known_edition="" if known is None else known.edition,
    )


def _line(procedure: Procedure) -> SignoffLine:
    found = [block.signal for block in procedure.blocks if isinstance(block, Caution)]
    return SignoffLine(
        procedure=procedure.id,
        title=procedure.title,
        shows=procedure.expect[0] if procedure.expect else None,
        lamp=procedure.lamp,
        signals=tuple((signal, found.count(signal)) for signal in Signal if signal in found),
    )
