"""What the search index of one edition must say.

Takes in the pages of a guide and the patterns of its texts; gives out, entry by entry and in
order, where each leads and what it says.
Refuses words that the pages do not show: an index is a second print of the same guide.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from guidegen.guide.leaves import Leaf
from guidegen.guide.model import Caution, Procedure
from guidegen.procedures.words import CHAPTERS, LABELS, LAMP_ACTS, LAMP_COLORS, STATES, STATIONS
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


def search_claims_of(
    leaves: Iterable[Leaf], patterns: Mapping[str, str]
) -> tuple[SearchClaim, ...]:
    """Return every entry but the first, which names the truck.

    Args:
        leaves: All pages of the chapters of a guide, in order.
        patterns: Of all its texts, by id.
    """
    return tuple(_entries(leaves, patterns))


def _entries(leaves: Iterable[Leaf], patterns: Mapping[str, str]) -> Iterator[SearchClaim]:
    for leaf in leaves:
        page = f"{leaf.id}.html"
        which = f", {leaf.number} {LABELS['of']} {leaf.count}" if leaf.number > 1 else ""
        yield SearchClaim(page, PatternClaim(CHAPTERS[leaf.chapter] + which, None), ())
        for procedure in leaf.procedures:
            title = PatternClaim(patterns[procedure.title.id], procedure.title.span)
            text = tuple(_text_of(procedure, patterns))
            yield SearchClaim(f"{page}#{procedure.id}", title, text)


def _text_of(procedure: Procedure, patterns: Mapping[str, str]) -> Iterator[PatternClaim]:
    if procedure.lamp is not None:
        yield PatternClaim(f"{LAMP_COLORS[procedure.lamp.color]}.", procedure.span)
        yield PatternClaim(f"{LAMP_ACTS[procedure.lamp.act]}.", procedure.span)
    else:
        yield from _stance_of(procedure)
    for block in procedure.blocks:
        if isinstance(block, Caution):
            yield PatternClaim(block.signal.value, block.hazard.span)
            for text in (block.hazard, block.consequence, block.avoid):
                yield PatternClaim(patterns[text.id], text.span)
        else:
            yield PatternClaim(patterns[block.text.id], block.text.span)
    for text in (*procedure.expect, *procedure.if_not):
        yield PatternClaim(patterns[text.id], text.span)


def _stance_of(procedure: Procedure) -> Iterator[PatternClaim]:
    states = [STATES[aspect][state] for aspect, state in procedure.state]
    if states:
        yield PatternClaim(f"{', '.join(states)}.", procedure.span)
    if procedure.station:
        yield PatternClaim(f"{STATIONS[procedure.station]}.", procedure.span)
