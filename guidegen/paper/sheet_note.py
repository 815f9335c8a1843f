"""What is written at the foot of a sheet, for whoever prints and cuts it.

Takes in what the sheets are, and one sheet; gives out lines of text and measuring lines with their
places. Refuses a note that is too long for the foot, or has characters that the font lacks.
"""

from dataclasses import dataclass
from decimal import Decimal

from guidegen.decks.sizes import INCH
from guidegen.finding import Findings
from guidegen.paper.margin_font import MarginFont
from guidegen.paper.rectangle import points
from guidegen.paper.sheet_grid import PRINTABLE_MARGIN
from guidegen.paper.sheet_rules import SHEET_NOTE_UNPRINTABLE
from guidegen.paper.stock import Duplex, Printing, Stock
from guidegen.paper.trim_marks import Stroke

NOTE_SIZE = Decimal(7)
"""Points."""

_UPPER = PRINTABLE_MARGIN + Decimal("4.6")
_LOWER = PRINTABLE_MARGIN + 1
"""Millimeters from the foot of the sheet to the base lines."""

_RULERS = ((_UPPER, Decimal(50), "50 mm"), (_LOWER, 2 * INCH, "2 in"))
_LONGEST = max(length for _, length, _ in _RULERS)
_TICK = Decimal("2.2")
_LABEL_WIDTH = Decimal(11)
_GAP = Decimal(2)
_FACES = ("front", "back")
_HOW = {
    Duplex.SIMPLEX: "Print at 100 %, on one side.",
    Duplex.LONG: "Print at 100 %, on both sides, flip on the long edge.",
    Duplex.SHORT: "Print at 100 %, on both sides, flip on the short edge.",
}
_THEN = "Measure the two lines before you cut."


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text; millimeters from the lower left corner of the sheet to its base line."""

    x: Decimal
    y: Decimal
    text: str


@dataclass(frozen=True, slots=True)
class SheetNumber:
    """Which of how many, and which face of it."""

    number: int
    sheets: int
    face: int
    """0 is the front."""


def note_lines(caption: str, which: SheetNumber, printing: Printing) -> tuple[Line, ...]:
    """Return the text at the foot: what this is, how to print it, what the lines measure."""
    face = f", {_FACES[which.face]}" if printing.duplex.faces > 1 else ""
    sheet = f"{caption}: sheet {which.number} of {which.sheets}{face}"
    return (
        Line(PRINTABLE_MARGIN, _UPPER, sheet),
        Line(PRINTABLE_MARGIN, _LOWER, f"{_HOW[printing.duplex]} {_THEN}"),
        *(Line(_ruler_start(printing.stock) - _LABEL_WIDTH, y, name) for y, _, name in _RULERS),
    )


def measuring_lines(stock: Stock) -> tuple[Stroke, ...]:
    """Return lines of 50 mm and of 2 in, each with a tick at either end."""
    start = _ruler_start(stock)
    strokes: list[Stroke] = []
    for base, length, _ in _RULERS:
        end, middle = start + length, base + _TICK / 2
        strokes.append(Stroke(start, middle, end, middle))
        strokes += [Stroke(x, base, x, base + _TICK) for x in (start, end)]
    return tuple(strokes)


def check_caption(
    caption: str, last: SheetNumber, printing: Printing, font: MarginFont, findings: Findings
) -> bool:
    """Say whether *caption* can be written at the foot of every sheet, and report why not."""
    if missing := font.missing(caption):
        findings.add(
            SHEET_NOTE_UNPRINTABLE,
            None,
            what=f"the sheets' font has no `{'`, `'.join(missing)}`, which `{caption}` needs",
            fix="write the title with other letters",
            place=caption,
        )
        return False
    room = points(_ruler_start(printing.stock) - _LABEL_WIDTH - _GAP - PRINTABLE_MARGIN)
    longest = note_lines(caption, last, printing)[0]
    if font.width(longest.text, NOTE_SIZE) > room:
        findings.add(
            SHEET_NOTE_UNPRINTABLE,
            None,
            what=f"`{caption}` is too long for the foot of a `{printing.stock.id}` sheet",
            fix="shorten the title",
            place=caption,
        )
        return False
    return True


def _ruler_start(stock: Stock) -> Decimal:
    return stock.width - PRINTABLE_MARGIN - _LONGEST
