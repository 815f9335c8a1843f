"""What all sheets for trainers must say.

Takes in a truck's guide, a sheet's title and its issue; gives out the head of each page, and what
the first page begins with. Refuses names: who signs is written by hand.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.decks.model import Issue
from guidegen.decks.sizes import Side
from guidegen.guide.model import Guide
from guidegen.paper_proof.model import SIDE_COUNT, SIDE_NUMBER, Group, Part, Piece
from guidegen.paper_proof.pieces import LEAST_SMALL, LEAST_TEXT, LEAST_UNIT
from guidegen.procedures.words import LABELS
from guidegen.proof.read_text import fold
from guidegen.source import Span
from guidegen.training.words import SIGNOFF_WORDS

_BLANKS = ("driver", "trainer", "date")


@dataclass(frozen=True, slots=True)
class SheetOrder:
    """Which sheet is asked for: of which truck, on which paper."""

    guide: Guide
    side: Side
    issue: Issue
    span: Span
    """Of what asks for the sheet."""

    known_revision: str = ""
    """Of the known truck's guide; if empty, the first digits of its edition."""


def sheet_head(title: str, order: SheetOrder) -> tuple[Piece, ...]:
    """Return what stands on each page, around the body."""
    side = f"{SIDE_NUMBER} {LABELS['of']} {SIDE_COUNT}"
    revision = f"{LABELS['revision']} {order.issue.revision}"
    return (
        Piece(Part.UNIT, fold(order.guide.number), "number of the truck", None, LEAST_TEXT),
        Piece(Part.TEXT, fold(f"{title}."), "title", None, LEAST_TEXT),
        Piece(Part.REVISION, revision, "revision", None, LEAST_SMALL),
        Piece(Part.REVISION, order.issue.date, "date", None, LEAST_SMALL),
        Piece(Part.SIDE, side, "number of the page", None, LEAST_SMALL),
    )


def sheet_opening(title: str, notes: tuple[str, ...], order: SheetOrder) -> Group:
    """Return what the first page begins with: truck, title, sentences, and blanks to fill in."""
    return Group(tuple(_opening(title, notes, order)))


def piece_of_words(words: str, of: str, span: Span | None, points: float = LEAST_TEXT) -> Piece:
    """Return what must be read for fixed *words*."""
    return Piece(Part.TEXT, fold(words), of, span, points)


def _opening(title: str, notes: tuple[str, ...], order: SheetOrder) -> Iterator[Piece]:
    number, span = order.guide.number, order.span
    yield Piece(Part.UNIT, fold(number), "number of the truck", span, LEAST_UNIT)
    yield piece_of_words(title, "title", span)
    for note in notes:
        yield piece_of_words(note, f"note `{note}`", span)
    for blank in _BLANKS:
        yield piece_of_words(SIGNOFF_WORDS[blank], f"blank for `{blank}`", span)
