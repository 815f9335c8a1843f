"""The operators that draw one face of a sheet.

Takes in placements, strokes and lines of text in millimeters; gives out a PDF content stream in
points. Refuses to round twice: what was planned in exact millimeters is rounded once, here.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from guidegen.paper.margin_font import MarginFont
from guidegen.paper.rectangle import Rectangle, points, written
from guidegen.paper.sheet_note import NOTE_SIZE, Line
from guidegen.paper.trim_marks import HAIRLINE, Stroke

_COSINE_AND_SINE = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}

FONT_NAME = "/Note"
"""In the resources of a sheet."""


@dataclass(frozen=True, slots=True)
class PageBox:
    """The page of a card with its bleed, in points as the card's file has it."""

    left: Decimal
    bottom: Decimal
    right: Decimal
    top: Decimal

    @property
    def width(self) -> Decimal:
        """Points."""
        return self.right - self.left

    @property
    def height(self) -> Decimal:
        """Points."""
        return self.top - self.bottom


def placing(box: PageBox, trim: Rectangle, rotated: int) -> tuple[Decimal, ...]:
    """Return the six numbers of the matrix that lays the middle of *box* on the middle of *trim*.

    Points; *rotated* is in degrees, counterclockwise.
    """
    cosine, sine = _COSINE_AND_SINE[rotated]
    across, up = (box.left + box.right) / 2, (box.bottom + box.top) / 2
    middle_x, middle_y = points(trim.x + trim.width / 2), points(trim.y + trim.height / 2)
    return (
        Decimal(cosine),
        Decimal(sine),
        Decimal(-sine),
        Decimal(cosine),
        middle_x - (cosine * across - sine * up),
        middle_y - (sine * across + cosine * up),
    )


def draw_card(name: str, matrix: Iterable[Decimal]) -> bytes:
    """Return the operators that draw the form *name*; it clips to its own box."""
    return f"q {_numbers(*matrix)} cm {name} Do Q\n".encode("ascii")


def draw_strokes(strokes: Iterable[Stroke]) -> bytes:
    """Return the operators that draw hairlines in black, which is one ink on any press."""
    lines = [f"q 0 G {written(HAIRLINE)} w 0 J"]
    for it in strokes:
        start = _numbers(points(it.x1), points(it.y1))
        lines.append(f"{start} m {_numbers(points(it.x2), points(it.y2))} l S")
    return ("\n".join(lines) + "\nQ\n").encode("ascii")


def draw_lines(lines: Iterable[Line], font: MarginFont) -> bytes:
    """Return the operators that write *lines* in black."""
    parts = [f"q 0 g BT {FONT_NAME} {written(NOTE_SIZE)} Tf\n".encode("ascii")]
    for line in lines:
        at = f"1 0 0 1 {_numbers(points(line.x), points(line.y))} Tm ".encode("ascii")
        parts += [at, font.shown(line.text), b" Tj\n"]
    return b"".join((*parts, b"ET Q\n"))


def _numbers(*numbers: Decimal) -> str:
    return " ".join(str(written(number)) for number in numbers)
