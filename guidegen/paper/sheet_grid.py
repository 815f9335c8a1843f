"""How many cards of one size go on one sheet.

Takes in a stock, the trimmed side, its bleed and how much of it is blank along its edge; gives out
the places of the cards. Refuses a sheet without room for bleed, trim marks and the note; only cards
that fill the sheet to its edges, and print nothing there, go without them.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from guidegen.decks.sizes import PRINTABLE_MARGIN, Side
from guidegen.paper.rectangle import Rectangle
from guidegen.paper.stock import Stock

MARK_GAP = Decimal(1)
"""Millimeters between the bleed and the mark: common practice, no source."""

MARK_LENGTH = Decimal(4)
"""Millimeters: common practice, no source."""

MOST_WASTE = Decimal(1)
"""Millimeters of the sheet that cards which fill it may leave over: two A5 are 1 mm less than an
A4 by ISO 216. It is left on the cards, half on either: a pouch has more room than that."""

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

    is_shared: bool = False
    """Whether cards fill the sheet and share their cuts: there is no waste to write on, and each
    cut is marked on itself, where it leaves the sheet."""

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


def lay_grid(side: Side, bleed: Decimal, stock: Stock, free: Decimal = Decimal(0)) -> Grid | None:
    """Return the grid that holds most cards of *side*, or nothing if none fits.

    Cards stand upright unless more fit when they lie. They fill the sheet, with one cut between
    two, if more fit so and neither the printer's blank edge nor a cut that is a little off can take
    anything of them.

    Args:
        side: Trimmed.
        bleed: Millimeters on each of its four sides.
        stock: What the printer is fed with.
        free: Millimeters from the trim inward that nothing is drawn on, nor outside of it; 0 if
            something bleeds.
    """
    if (side.width, side.height) == (stock.width, stock.height):
        # What bleeds off the sheet is not printed, so the bleed takes no room here.
        return Grid(stock, 1, 1, side.width, side.height, Decimal(0), 0, fills_stock=True)
    upright = _grid(stock, side.width, side.height, bleed, 0)
    lying = _grid(stock, side.height, side.width, bleed, 90)
    grids = [upright, lying]
    if free >= PRINTABLE_MARGIN:
        grids += _filling(stock, side.width, side.height, 0)
        grids += _filling(stock, side.height, side.width, 90)
    best = max(grids, key=lambda grid: grid.columns * grid.rows)
    return best if best.columns * best.rows else None


def _filling(stock: Stock, width: Decimal, height: Decimal, rotated: int) -> Iterator[Grid]:
    """Yield the grid whose cards fill the sheet, if there is one."""
    columns, rows = int(stock.width // width), int(stock.height // height)
    waste = max(stock.width - columns * width, stock.height - rows * height)
    if waste <= MOST_WASTE:
        none = Decimal(0)
        yield Grid(
            stock, columns, rows, width, height, none, rotated, fills_stock=False, is_shared=True
        )


def _grid(stock: Stock, width: Decimal, height: Decimal, bleed: Decimal, rotated: int) -> Grid:
    edge = 2 * (PRINTABLE_MARGIN + MARK_LENGTH + MARK_GAP)
    columns = max(0, int((stock.width - edge) // (width + 2 * bleed)))
    rows = max(0, int((stock.height - edge - 2 * NOTE_HEIGHT) // (height + 2 * bleed)))
    return Grid(stock, columns, rows, width, height, bleed, rotated, fills_stock=False)
