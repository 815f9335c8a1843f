"""What the search index of one edition must say.

Takes in a guide; gives out, entry by entry and in order, where each leads and what it says.
Refuses words that the pages do not show: an index is a second print of the same guide.
"""

from collections.abc import Iterator
from typing import NamedTuple

from guidegen.guide.leaves import leaves_of
from guidegen.guide.model import Caution, Guide, Procedure
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


def search_claims_of(guide: Guide) -> tuple[SearchClaim, ...]:
    """Return every entry but the first, which names the truck."""
    return tuple(_entries(guide))


def _entries(guide: Guide) -> Iterator[SearchClaim]:
    for leaf in (leaf for chapter in guide.chapters for leaf in leaves_of(chapter)):
        page = f"{leaf.id}.html"
        which = f", {leaf.number} {LABELS['of']} {leaf.count}" if leaf.number > 1 else ""
        yield SearchClaim(page, PatternClaim(CHAPTERS[leaf.chapter] + which, None), ())
        for procedure in leaf.procedures:
            title = PatternClaim(pattern_of(procedure.title), procedure.title.span)
            yield SearchClaim(f"{page}#{procedure.id}", title, tuple(_text_of(procedure)))


def _text_of(procedure: Procedure) -> Iterator[PatternClaim]:
    if procedure.lamp is not None:
        yield PatternClaim(f"{LAMP_COLORS[procedure.lamp.color]}.", procedure.span)
        yield PatternClaim(f"{LAMP_ACTS[procedure.lamp.act]}.", procedure.span)
    else:
        yield from _stance_of(procedure)
    for block in procedure.blocks:
        if isinstance(block, Caution):
            yield PatternClaim(block.signal.value, block.hazard.span)
            for text in (block.hazard, block.consequence, block.avoid):
                yield PatternClaim(pattern_of(text), text.span)
        else:
            yield PatternClaim(pattern_of(block.text), block.text.span)
    for text in (*procedure.expect, *procedure.if_not):
        yield PatternClaim(pattern_of(text), text.span)


def _stance_of(procedure: Procedure) -> Iterator[PatternClaim]:
    states = [STATES[aspect][state] for aspect, state in procedure.state]
    if states:
        yield PatternClaim(f"{', '.join(states)}.", procedure.span)
    yield PatternClaim(f"{STATIONS[procedure.station]}.", procedure.span)
