"""Pieces and where they were found.

Takes in groups and a stream; gives out each piece that was found, with the texts and sides that it
stands on. Refuses to find a piece in two places.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.paper_proof.model import Group, Piece
from guidegen.paper_proof.sheet_model import TextRead
from guidegen.paper_proof.stream import Stream


@dataclass(frozen=True, slots=True)
class Wanted:
    """A piece that must be found."""

    piece: Piece
    group: int
    """Number of its group, from 0."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece that was found."""

    wanted: Wanted
    start: int
    end: int
    """In the stream."""

    def reads(self, stream: Stream) -> tuple[TextRead, ...]:
        """Return the texts that it stands in."""
        return stream.reads[stream.place(self.start) : stream.place(self.end - 1) + 1]

    def sides(self, stream: Stream) -> tuple[int, int]:
        """Return the sides on which it begins and ends."""
        return stream.side(self.start), stream.side(self.end - 1)


def wanted_of(groups: tuple[Group, ...]) -> Iterator[Wanted]:
    """Yield every piece of *groups*, in order."""
    for number, group in enumerate(groups):
        yield from (Wanted(piece, number) for piece in group.pieces)
