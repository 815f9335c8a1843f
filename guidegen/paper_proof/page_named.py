"""Pages that are named: in contents, in an index, beside the stops of a round.

Takes in numbers with what they lead to, and where that stands; records numbers of other pages and
links that lead elsewhere. Refuses a number that leads to nothing.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Self

from guidegen.paper_proof import rules
from guidegen.paper_proof.model import PAGE, Piece
from guidegen.paper_proof.placed import Placed
from guidegen.paper_proof.sheet_model import Box, SideRead, TextRead
from guidegen.paper_proof.stream import Stream
from guidegen.proof.faults import Faults
from guidegen.proof.read_text import ValueInText
from guidegen.source import Span

_LEAST = 1.0
"""Points: on a smaller link nobody can press. A line that goes on after the end of a column leaves
one without any height there."""


@dataclass(frozen=True, slots=True)
class PageNamed:
    """The number of a page as it is printed."""

    anchor: str
    """Of the piece that must stand on that page."""

    number: str
    of: str
    """What names it, for people."""

    span: Span | None
    side: int
    """On which it is printed, from 0."""

    reads: tuple[TextRead, ...]
    """The texts that it is printed in, with what leads to it."""

    @classmethod
    def at(cls, value: ValueInText, placed: Placed, stream: Stream) -> Self:
        """Return what *value* of a found piece names."""
        piece, side = placed.wanted.piece, placed.sides(stream)[1]
        anchor = value.fact.removeprefix(PAGE)
        return cls(anchor, value.text, piece.of, piece.span, side, placed.reads(stream))

    def is_under(self, box: Box) -> bool:
        """Whether *box* lies over one of its texts."""
        return any(read.box.touches(box) for read in self.reads)


def sides_of(placed: Sequence[Placed], stream: Stream) -> Mapping[str, int]:
    """Return for each anchor the side that its piece begins on, from 1."""
    return {
        each.wanted.piece.anchor: each.sides(stream)[0] + 1
        for each in placed
        if each.wanted.piece.anchor
    }


def compare_pages(named: Sequence[PageNamed], at: Mapping[str, int], faults: Faults) -> None:
    """Hold the numbers that are printed against where things stand.

    Args:
        named: All numbers of pages in the body.
        at: As of `sides_of`.
        faults: Takes what differs.
    """
    for each in named:
        page = at.get(each.anchor)
        if each.number != str(page):
            stands = f"stands on page {page}" if page else "stands nowhere"
            faults.add(
                rules.PAGE_NAMED_WRONGLY,
                f"{each.of} names page {each.number}, and what it names {stands}",
                fix="let the template take the number from where the thing is laid out",
                span=each.span,
                mark=f"side {each.side + 1}",
            )


def compare_bookmarks(
    wanted: Sequence[Piece], sides: Sequence[int], at: Mapping[str, int], faults: Faults
) -> None:
    """Hold the pages that bookmarks lead to against where their headings stand.

    Args:
        wanted: The headings, in the order of the outline.
        sides: The page that each bookmark leads to, from 0.
        at: As of `sides_of`.
        faults: Takes what differs.
    """
    for piece, side in zip(wanted, sides, strict=False):
        if side + 1 != at.get(piece.anchor):
            faults.add(
                rules.PAGE_NAMED_WRONGLY,
                f"the bookmark of {piece.of} leads to page {side + 1}, where it does not stand",
                fix="let bookmarks lead to their headings",
                span=piece.span,
            )


def compare_links(sides: Sequence[SideRead], named: Sequence[PageNamed], faults: Faults) -> None:
    """Hold links within the file against the numbers that they lie over."""
    by_side: dict[int, list[PageNamed]] = {}
    for each in named:
        by_side.setdefault(each.side, []).append(each)
    for number, side in enumerate(sides):
        for link in side.links:
            if min(link.box.width, link.box.height) < _LEAST:
                continue
            here, right = by_side.get(number, ()), str(link.side + 1)
            if not any(each.number == right and each.is_under(link.box) for each in here):
                printed = {each.number for each in here if each.is_under(link.box)}
                said = " or ".join(sorted(printed)) or "no page"
                faults.add(
                    rules.PAGE_NAMED_WRONGLY,
                    f"a link leads to page {link.side + 1} where {said} is printed",
                    fix="let link and number lead to one place",
                    mark=f"side {number + 1}",
                )
