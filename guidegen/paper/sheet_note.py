"""What is written at head and foot of a sheet, for whoever prints and cuts it.

Takes in what the sheets are, and one sheet; gives out lines of text and measuring lines with their
places. Refuses a note that is too long for its strip, or has characters that the font lacks.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from guidegen.decks.sizes import INCH, PRINTABLE_MARGIN
from guidegen.finding import Findings
from guidegen.paper.margin_font import MarginFont
from guidegen.paper.rectangle import points
from guidegen.paper.sheet_rules import SHEET_NOTE_UNPRINTABLE
from guidegen.paper.stock import Duplex, Printing, Stock
from guidegen.paper.trim_marks import Stroke

NOTE_SIZE = Decimal(7)
"""Points."""

_LEADING = Decimal("2.7")
"""Millimeters between base lines in the strip at the head."""

_MOST_LINES = 3
"""That the strip at the head holds."""

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


def name_lines(
    named: Iterable[tuple[str, int]], stock: Stock, font: MarginFont
) -> tuple[Line, ...]:
    """Return the text at the head: which sides of which trucks' cards are on this face.

    Args:
        named: For each side the name of its card, as ``T-17 round``, and its number.
        stock: What the printer is fed with.
        font: Of the text.
    """
    by_card: dict[str, list[int]] = {}
    for name, side in named:
        by_card.setdefault(name, []).append(side)
    parts = [
        f"{name}, side{'s' if len(sides) > 1 else ''} {', '.join(map(str, sorted(sides)))}"
        for name, sides in by_card.items()
    ]
    words = "; ".join(parts).split(" ") if parts else []
    room = points(stock.width - 2 * PRINTABLE_MARGIN)
    lines: list[str] = []
    for word in words:
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and font.width(longer, NOTE_SIZE) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    first = stock.height - PRINTABLE_MARGIN - _LEADING
    return tuple(
        Line(PRINTABLE_MARGIN, first - number * _LEADING, text) for number, text in enumerate(lines)
    )


def check_names(
    named: Sequence[tuple[str, int]], stock: Stock, font: MarginFont, findings: Findings
) -> bool:
    """Say whether the head of a sheet can hold what is *named*, and report why not."""
    names = "; ".join(dict.fromkeys(name for name, _ in named))
    if missing := font.missing(names):
        what = f"the sheets' font has no `{'`, `'.join(missing)}`, which `{names}` needs"
    else:
        lines = name_lines(named, stock, font)
        room = points(stock.width - 2 * PRINTABLE_MARGIN)
        widest = max((font.width(line.text, NOTE_SIZE) for line in lines), default=0)
        if len(lines) <= _MOST_LINES and widest <= room:
            return True
        what = f"`{names}` is too long for the head of a `{stock.id}` sheet"
    fix = "give the cards shorter ids, or print fewer of them on one sheet"
    findings.add(SHEET_NOTE_UNPRINTABLE, None, what=what, fix=fix, place=names)
    return False


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
