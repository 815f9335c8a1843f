"""Where to cut.

Takes in the trimmed places on one face of a sheet and their bleed; gives out strokes in
millimeters around the block of cards. Refuses strokes that touch a card or its bleed; where cards
fill the sheet a stroke lies on the cut between them.
"""

from dataclasses import dataclass
from decimal import Decimal

from guidegen.decks.sizes import PRINTABLE_MARGIN
from guidegen.paper.rectangle import Rectangle, around
from guidegen.paper.sheet_grid import MARK_GAP, MARK_LENGTH, MOST_WASTE

HAIRLINE = Decimal("0.25")
"""Points: the thinnest line that office printers draw evenly; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A straight line, upright or level; millimeters from the lower left corner of the sheet."""

    x1: Decimal
    y1: Decimal
    x2: Decimal
    y2: Decimal


def trim_marks(trims: tuple[Rectangle, ...], bleed: Decimal) -> tuple[Stroke, ...]:
    """Return two marks for each line that is to be cut, one at either end of the block."""
    near = around(trims).grown(bleed + MARK_GAP)
    far = near.grown(MARK_LENGTH)
    columns = sorted({edge for trim in trims for edge in (trim.x, trim.right)})
    rows = sorted({edge for trim in trims for edge in (trim.y, trim.top)})
    upright = [
        Stroke(x, *ends) for x in columns for ends in ((far.y, x, near.y), (near.top, x, far.top))
    ]
    level = [
        Stroke(*ends)
        for y in rows
        for ends in ((far.x, y, near.x, y), (near.right, y, far.right, y))
    ]
    return (*upright, *level)


def cut_marks(trims: tuple[Rectangle, ...], area: Rectangle) -> tuple[Stroke, ...]:
    """Return two marks on each cut between cards that fill the sheet of *area*, one at either end.

    They reach in from the edge of the sheet until enough of them stands where any office printer
    prints; what stands on the cards keeps farther from the cut than they are thick.
    """
    length = PRINTABLE_MARGIN + MARK_LENGTH
    inner = area.grown(-MOST_WASTE)
    columns = sorted({edge for trim in trims for edge in (trim.x, trim.right)})
    rows = sorted({edge for trim in trims for edge in (trim.y, trim.top)})
    upright = [
        Stroke(x, *ends)
        for x in columns
        if inner.x < x < inner.right
        for ends in ((area.y, x, area.y + length), (area.top - length, x, area.top))
    ]
    level = [
        Stroke(*ends)
        for y in rows
        if inner.y < y < inner.top
        for ends in ((area.x, y, area.x + length, y), (area.right - length, y, area.right, y))
    ]
    return (*upright, *level)
