"""What the search index of one edition must say.

Takes in the pages of a guide; gives out, entry by entry and in order, where each leads and what
it says.
Refuses words that the pages do not show: an index is a second print of the same guide.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from guidegen.guide.leaves import Leaf
from guidegen.guide.model import Caution, Procedure, Text
from guidegen.guide.once import once_for_each
from guidegen.procedures.words import CHAPTERS, LABELS, LAMP_ACTS, LAMP_COLORS, STATES, STATIONS
from guidegen.proof.read_text import pattern_of
from guidegen.source import Span


class PatternClaim(NamedTuple):
    """Words with slots for values."""

    pattern: str
    span: Span | None
    """Of the template."""


class SearchClaim(NamedTuple):
    """One entry of the index as it must be."""

    location: str
    title: PatternClaim
    text: tuple[PatternClaim, ...]
    """Patterns that follow one another."""


def search_claims_of(leaves: Iterable[Leaf]) -> tuple[SearchClaim, ...]:
    """Return every entry but the first, which names the truck.

    Args:
        leaves: All pages of the chapters of a guide, in order.
    """
    return tuple(_entries(leaves))


def _entries(leaves: Iterable[Leaf]) -> Iterator[SearchClaim]:
    for leaf in leaves:
        page = f"{leaf.id}.html"
        which = f", {leaf.number} {LABELS['of']} {leaf.count}" if leaf.number > 1 else ""
        yield SearchClaim(page, PatternClaim(CHAPTERS[leaf.chapter] + which, None), ())
        for procedure in leaf.procedures:
            title, *text = _told_of(procedure)
            yield SearchClaim(f"{page}#{procedure.id}", title, tuple(text))


@once_for_each
def _told_of(procedure: Procedure) -> tuple[PatternClaim, ...]:
    """Return the title of *procedure* and what follows it."""
    return _claimed(procedure.title), *_text_of(procedure)


def _claimed(text: Text) -> PatternClaim:
    return PatternClaim(pattern_of(text), text.span)


def _text_of(procedure: Procedure) -> Iterator[PatternClaim]:
    if procedure.lamp is not None:
        yield PatternClaim(f"{LAMP_COLORS[procedure.lamp.color]}.", procedure.span)
        yield PatternClaim(f"{LAMP_ACTS[procedure.lamp.act]}.", procedure.span)
    else:
        yield from _stance_of(procedure)
    for block in procedure.blocks:
        if isinstance(block, Caution):
            yield PatternClaim(block.signal.value, block.hazard.span)
            yield from map(_claimed, (block.hazard, block.consequence, block.avoid))
        else:
            yield _claimed(block.text)
    yield from map(_claimed, (*procedure.expect, *procedure.if_not))


def _stance_of(procedure: Procedure) -> Iterator[PatternClaim]:
    states = [STATES[aspect][state] for aspect, state in procedure.state]
    if states:
        yield PatternClaim(f"{', '.join(states)}.", procedure.span)
    if procedure.station:
        yield PatternClaim(f"{STATIONS[procedure.station]}.", procedure.span)
