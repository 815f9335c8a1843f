"""Long chapters on several pages.

Takes in a chapter; gives out its leaves: which procedures stand on one page, and what each page is
called in addresses. Refuses to part a procedure, and to change the order: the leaves of a chapter
one after another are the chapter.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.guide.model import Caution, Chapter, FactRef, Guide, Procedure, Text

_MOST = 18000
"""Letters on a page. With them a page with its marks stays below 12 kB as it is sent, which the
tests hold for every page of the demo fleet."""

_OF_A_TEXT = 12
"""Letters that the marks of a text, or a value, are worth beside its words; a text that has stood
on the page before is worth no more, since it is sent as a hint at the first."""

_OF_A_FIGURE = 600
_OF_A_SYMBOL = 200
"""Of a lamp; the same few shapes again and again."""


_CHAPTERS_KEPT = 256
"""Most trucks share their chapters with others: a fleet has few that differ."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """What stands on one page of a chapter."""

    id: str
    """The chapter's id on the first page; on others with the number of the page behind it."""

    chapter: str
    number: int
    """From 1."""

    count: int
    """Leaves of the chapter."""

    procedures: tuple[Procedure, ...]


_known: dict[tuple[object, ...], tuple[Leaf, ...]] = {}
"""By chapter and the places in memory of its procedures. Leaves keep these, so that nothing else
comes to stand there."""


def leaves_of(chapter: Chapter) -> tuple[Leaf, ...]:
    """Return the pages of *chapter* in order, of about the same length.

    Chapters of the very same procedures have the very same leaves: editions share what is fitted
    alike, and to compare chapters word by word takes longer than to part them.
    """
    key = (chapter.id, *map(id, chapter.procedures))
    leaves = _known.get(key)
    if leaves is None:
        if len(_known) >= _CHAPTERS_KEPT:
            _known.clear()
        leaves = _known[key] = _parted(chapter)
    return leaves


def _parted(chapter: Chapter) -> tuple[Leaf, ...]:
    met: set[str] = set()
    weights = [_weight(procedure, met) for procedure in chapter.procedures]
    count = max(1, -(-sum(weights) // _MOST))
    share = sum(weights) / count
    groups: list[list[Procedure]] = [[] for _ in range(count)]
    before = 0
    for procedure, weight in zip(chapter.procedures, weights, strict=True):
        # To the page in whose stretch the middle of the procedure lies.
        place = min(int((before + weight / 2) / share), count - 1) if share else 0
        groups[place].append(procedure)
        before += weight
    filled = [tuple(group) for group in groups if group] or [()]
    return tuple(
        Leaf(
            chapter.id if number == 1 else f"{chapter.id}-{number}",
            chapter.id,
            number,
            len(filled),
            procedures,
        )
        for number, procedures in enumerate(filled, start=1)
    )


def leaf_of_procedures(guide: Guide) -> Mapping[str, str]:
    """Return the id of the leaf that each procedure of *guide* stands on, by its id."""
    return {
        procedure.id: leaf.id
        for chapter in guide.chapters
        for leaf in leaves_of(chapter)
        for procedure in leaf.procedures
    }


def _weight(procedure: Procedure, met: set[str]) -> int:
    """Return the letters of *procedure*; its texts are added to those that were *met*."""
    drawn = _OF_A_FIGURE if procedure.lamp is None else _OF_A_SYMBOL
    letters = drawn if procedure.figure else 0
    for text in _texts(procedure):
        words = "\0".join("" if isinstance(e, FactRef) else e.text for e in text.parts)
        letters += _OF_A_TEXT * len(text.parts) + (0 if words in met else len(words))
        met.add(words)
    return letters


def _texts(procedure: Procedure) -> Iterator[Text]:
    yield procedure.title
    for block in procedure.blocks:
        if isinstance(block, Caution):
            yield from (block.hazard, block.consequence, block.avoid)
        else:
            yield block.text
    yield from (*procedure.expect, *procedure.if_not)
