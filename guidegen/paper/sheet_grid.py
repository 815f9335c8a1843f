"""How many cards of one size go on one sheet.

Takes in a stock, the trimmed side and its bleed; gives out the places of the cards.
Refuses a sheet without room for bleed, trim marks and the note; only a card that is as big as the
sheet goes without them.
"""

from dataclasses import dataclass
from decimal import Decimal

from guidegen.decks.sizes import Side
from guidegen.paper.rectangle import Rectangle
from guidegen.paper.stock import Stock

PRINTABLE_MARGIN = Decimal(6)
"""Millimeters along each edge that office printers may leave blank: common practice, no source."""

MARK_GAP = Decimal(1)
"""Millimeters between the bleed and the mark: common practice, no source."""

MARK_LENGTH = Decimal(4)
"""Millimeters: common practice, no source."""

NOTE_HEIGHT = Decimal(8)
"""Millimeters of the strip at the foot; the head has one too, so that the block stands centered
and frames lie behind frames even when the printer turns the sheet on the wrong edge."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Equal cards in columns and rows, their bleeds edge to edge, centered on the sheet."""

    stock: Stock
    columns: int
    rows: int
    width: Decimal
    """Millimeters, of one trimmed card as it lies on the sheet."""

    height: Decimal
    bleed: Decimal
    """Millimeters on each of the four sides of a card."""

    rotated: int
    """Degrees counterclockwise that cards are turned by: 0 or 90."""

    fills_stock: bool
    """Whether the card is the sheet: nothing is cut, and there are no marks."""

    @property
    def places(self) -> tuple[Rectangle, ...]:
        """Trimmed cards, row by row from the head, each row from the left."""
        across, up = self.width + 2 * self.bleed, self.height + 2 * self.bleed
        left = (self.stock.width - self.columns * across) / 2 + self.bleed
        bottom = (self.stock.height - self.rows * up) / 2 + self.bleed
        return tuple(
            Rectangle(left + column * across, bottom + row * up, self.width, self.height)
            for row in reversed(range(self.rows))
            for column in range(self.columns)
        )


def lay_grid(side: Side, bleed: Decimal, stock: Stock) -> Grid | None:
    """Return the grid that holds most cards of *side* with *bleed* in mm, or nothing if none fits.

    Cards stand upright unless more fit when they lie.
    """
    if (side.width, side.height) == (stock.width, stock.height):
        # What bleeds off the sheet is not printed, so the bleed takes no room here.
        return Grid(stock, 1, 1, side.width, side.height, Decimal(0), 0, fills_stock=True)
    upright = _grid(stock, side.width, side.height, bleed, 0)
    lying = _grid(stock, side.height, side.width, bleed, 90)
    best = max(upright, lying, key=lambda grid: grid.columns * grid.rows)
    return best if best.columns * best.rows else None


def _grid(stock: Stock, width: Decimal, height: Decimal, bleed: Decimal, rotated: int) -> Grid:
    edge = 2 * (PRINTABLE_MARGIN + MARK_LENGTH + MARK_GAP)
    columns = max(0, int((stock.width - edge) // (width + 2 * bleed)))
    rows = max(0, int((stock.height - edge - 2 * NOTE_HEIGHT) // (height + 2 * bleed)))
    return Grid(stock, columns, rows, width, height, bleed, rotated, fills_stock=False)
