"""Texts as they follow each other on paper.

Takes in texts in the order of the file; gives out one string with the text that each place of it
belongs to. Refuses to join words: between lines stands a blank, or a break where a line may end
within a word.
"""

import bisect
import re
from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.paper_proof.sheet_model import TextRead

BREAK = "\n"
"""In a string: the end of a line after a hyphen, dash or slash. Whether a blank belongs there
cannot be seen."""

BREAKING = "-\u2010\u2013\u2014/"
"""Characters after which a line may end within a word."""

_BLANKS = re.compile(r"[ \t\r\n\u00a0\u202f\u2009]+")
_SAME_LINE = 1.0
"""Points that the lines of two texts may be apart for them to stand on one."""


@dataclass(frozen=True, slots=True)
class Stream:
    """Texts of one or more sides, as one string."""

    text: str
    """White space folded."""

    reads: tuple[TextRead, ...]
    sides: tuple[int, ...]
    """For each of `reads` the number of its side, from 0."""

    starts: tuple[int, ...]
    """For each of `reads` where its text begins."""

    def place(self, position: int) -> int:
        """Return which of `reads` the letter at *position* belongs to."""
        return max(0, bisect.bisect_right(self.starts, position) - 1)

    def side(self, position: int) -> int:
        """Return the side of the letter at *position*."""
        return self.sides[self.place(position)]


def stream_of(reads: Iterable[tuple[int, TextRead]]) -> Stream:
    """Return *reads*, each with the number of its side, as one string."""
    kept = [(side, read) for side, read in reads if read.text]
    joined = ""
    starts = list[int]()
    pieces = list[str]()
    length = 0
    before: tuple[int, TextRead] | None = None
    for side, read in kept:
        words = _BLANKS.sub(" ", read.text)
        if before is not None:
            between = _between(before, (side, read), joined, words)
            pieces.append(between)
            length += len(between)
            if joined.endswith((" ", BREAK)) or between:
                words = words.removeprefix(" ")
        starts.append(length)
        pieces.append(words)
        length += len(words)
        joined = words or joined
        before = side, read
    return Stream(
        "".join(pieces),
        tuple(read for _, read in kept),
        tuple(side for side, _ in kept),
        tuple(starts),
    )


def _between(
    before: tuple[int, TextRead], after: tuple[int, TextRead], joined: str, words: str
) -> str:
    if joined.endswith(" ") or words.startswith(" "):
        return "" if joined.endswith(" ") else " "
    first, second = before[1], after[1]
    if (
        before[0] == after[0]
        and abs(first.baseline - second.baseline) < _SAME_LINE
        and 0 <= second.box.left - first.box.right + first.points / 2 < 2 * first.points
    ):
        return ""
    return BREAK if joined.endswith(tuple(BREAKING)) else " "
