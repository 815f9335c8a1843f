"""Whether the body says all that it must say, in order, and nothing more.

Takes in the pieces that must be read and the stream of all sides; gives out where each was found,
and records the rest. Refuses a word that belongs to no piece.
"""

from dataclasses import dataclass, field
from typing import NamedTuple

from guidegen.paper_proof.diagnose import Gap, report_gap
from guidegen.paper_proof.match import ends_after, match, match_loosely
from guidegen.paper_proof.model import PAGE
from guidegen.paper_proof.page_named import PageNamed
from guidegen.paper_proof.placed import Placed, Wanted
from guidegen.paper_proof.stream import Stream
from guidegen.paper_proof.values import Values
from guidegen.proof.faults import Faults
from guidegen.proof.read_text import ValueInText

_SEE_WORDING = "repair how guidegen words the value; spec and procedure are as they should be"
_FEW = 5
"""Letters that can stand anywhere."""

_FURTHEST = 400
"""Pieces and texts that are skipped together in looking for where the words go on."""


class _Place(NamedTuple):
    """How far has been read."""

    piece: int
    position: int


@dataclass(slots=True)
class Words:
    """The stream of one PDF held against its pieces."""

    wanted: tuple[Wanted, ...]
    stream: Stream
    values: Values
    faults: Faults
    placed: list[Placed] = field(default_factory=list)
    pages: list[PageNamed] = field(default_factory=list)
    read_values: int = 0
    """Values that were read back equal."""

    openings: frozenset[str] = frozenset()
    """First words of all pieces that begin with words enough to tell them."""

    def __post_init__(self) -> None:
        """Gather the first words of all pieces."""
        self.openings = frozenset(filter(None, map(_opening, self.wanted)))

    def compare(self) -> None:
        """Hold the whole stream against the pieces."""
        at = _Place(0, 0)
        while at.piece < len(self.wanted) or at.position < len(self.stream.text):
            at = self._read(at) or self._read_wrong(at) or self._skip(at)
            if self.stream.text[at.position : at.position + 1] in (" ", "\n"):
                at = _Place(at.piece, at.position + 1)

    def _read(self, at: _Place) -> _Place | None:
        if at.piece == len(self.wanted):
            return None
        wanted = self.wanted[at.piece]
        found = match(wanted.piece.pattern, self.stream.text, at.position, self.values)
        if found is None:
            return None
        self._judge(Placed(wanted, at.position, found.end), found.values)
        return _Place(at.piece + 1, found.end)

    def _read_wrong(self, at: _Place) -> _Place | None:
        """Read a piece whose words are right and whose values are not."""
        if at.piece == len(self.wanted):
            return None
        wanted = self.wanted[at.piece]
        if "\0" not in wanted.piece.pattern:
            return None
        for end in ends_after(self.stream.text, at.position):
            if self._is_piece(end + 1):
                found = match_loosely(wanted.piece.pattern, self.stream.text, at.position, end)
                if found is None or not self._begins(at.piece + 1, end):
                    return None
                self._judge(Placed(wanted, at.position, end), found.values)
                return _Place(at.piece + 1, end)
        return None

    def _is_piece(self, position: int) -> bool:
        """Whether some piece begins at *position*, as far as its first words tell."""
        text = self.stream.text
        return position >= len(text) or any(
            text.startswith(opening, position) for opening in self.openings
        )

    def _begins(self, piece: int, end: int) -> bool:
        """Whether *piece* begins after *end*, as far as its first words tell."""
        if piece == len(self.wanted):
            return end >= len(self.stream.text.rstrip())
        opening = _opening(self.wanted[piece])
        return self.stream.text.startswith(opening, end + 1) if opening else True

    def _judge(self, placed: Placed, values: tuple[ValueInText, ...]) -> None:
        wanted = placed.wanted
        self.placed.append(placed)
        for value in values:
            if value.fact.startswith(PAGE):
                self.pages.append(PageNamed.at(value, placed, self.stream))
                continue
            rule, fault = self.values.judge(value.fact, value.text)
            if fault:
                span = self.values.facts[value.fact].provenance.span
                of = wanted.piece.of
                self.faults.add(rule, f"{of} {fault}", fix=_SEE_WORDING, span=span, mark=of)
            else:
                self.read_values += 1

    def _skip(self, at: _Place) -> _Place:
        """Find where the words go on, and record what lies between."""
        after = self._resume(at)
        gap = Gap(
            self.wanted[at.piece : after.piece],
            self.stream.text[at.position : after.position].strip(),
            self.wanted,
            self.stream,
            self.values,
            at.position,
        )
        report_gap(gap, self.faults)
        return after

    def _resume(self, at: _Place) -> _Place:
        starts = [each for each in self.stream.starts if each >= at.position]
        for cost in range(_FURTHEST):
            for texts in range(min(cost, len(starts) - 1) + 1):
                piece = at.piece + cost - texts
                if piece < len(self.wanted) and starts and self._holds(piece, starts[texts]):
                    return _Place(piece, starts[texts])
        return _Place(len(self.wanted), len(self.stream.text))

    def _holds(self, piece: int, position: int) -> bool:
        """Whether *piece* and the one after it stand at *position*."""
        pattern = self.wanted[piece].piece.pattern
        found = match(pattern, self.stream.text, position, self.values)
        if found is None:
            return False
        return piece + 1 == len(self.wanted) or self._goes_on(piece + 1, found.end)

    def _goes_on(self, piece: int, end: int) -> bool:
        if piece == len(self.wanted):
            return end >= len(self.stream.text.rstrip())
        pattern = self.wanted[piece].piece.pattern
        return match(pattern, self.stream.text, end + 1, self.values) is not None


def _opening(wanted: Wanted) -> str:
    """Return the words that a piece begins with, or nothing if they are few."""
    words = wanted.piece.pattern.partition("\0")[0]
    return words if len(words) >= _FEW else ""
