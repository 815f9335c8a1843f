"""What was read of a sheet that sides of cards are laid on.

Takes in nothing; gives out the faces of sheets, and places on them, as frozen values.
Refuses to know what laid them there: a place is known by where it is drawn.
"""

from dataclasses import dataclass
from typing import NamedTuple

from guidegen.paper_proof.sheet_model import Box, Object, Point


class Turn(NamedTuple):
    """An affine transformation: x becomes ``a x + c y + e``, y becomes ``b x + d y + f``."""

    a: float
    b: float
    c: float
    d: float
    e: float
    f: float

    def point(self, at: Point) -> Point:
        """Return where *at* comes to lie."""
        x, y = at
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def box(self, box: Box) -> Box:
        """Return where *box* comes to lie; upright if it is turned by quarters."""
        (x1, y1), (x2, y2) = self.point((box.left, box.bottom)), self.point((box.right, box.top))
        return Box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))

    def then(self, other: "Turn") -> "Turn":
        """Return both, *other* last."""
        x, y = other.point((self.e, self.f))
        return Turn(
            other.a * self.a + other.c * self.b,
            other.b * self.a + other.d * self.b,
            other.a * self.c + other.c * self.d,
            other.b * self.c + other.d * self.d,
            x,
            y,
        )

    def back(self) -> "Turn":
        """Return what undoes it; it must not flatten."""
        whole = self.a * self.d - self.b * self.c
        a, b, c, d = self.d / whole, -self.b / whole, -self.c / whole, self.a / whole
        return Turn(a, b, c, d, -(a * self.e + c * self.f), -(b * self.e + d * self.f))


class FormRead(NamedTuple):
    """A page that is laid on another."""

    turn: Turn
    """From its own points to those of the sheet."""

    objects: tuple[Object, ...]
    """As on the page itself, in its own points."""


@dataclass(frozen=True, slots=True)
class FaceRead:
    """One face of a sheet."""

    paper: Box
    """Its media box."""

    visible: Box
    """Its crop box."""

    turned: int
    """Degrees clockwise by which it is shown turned."""

    annotations: int
    forms: tuple[FormRead, ...]
    loose: tuple[Object, ...]
    """What is drawn on the face itself."""


@dataclass(frozen=True, slots=True)
class Dialog:
    """What a file asks of the printer."""

    is_full_size: bool
    flips: str
    """``long``, ``short``, ``simplex``, or empty."""


@dataclass(frozen=True, slots=True)
class Slot:
    """One side of a card on one face."""

    card: int
    """Which of the cards that were laid out, from 0."""

    side: int
    """From 0."""

    turn: Turn
    """From points of the card's own page to points of the face as it is seen."""

    trim: Box
    """On the face as it is seen."""

    @property
    def up(self) -> tuple[int, int]:
        """Where the top of the card points: ``(0, 1)`` is upward on the face."""
        return round(self.turn.c), round(self.turn.d)
