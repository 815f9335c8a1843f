"""The sheets that a printer is fed with, and how it turns them.

Takes in nothing; gives out stock sizes in exact millimeters, and the mirror image of a place on a
sheet that is turned. Refuses stock that lies: sheets are fed upright, and cards are turned instead.
"""

import enum
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import assert_never

from guidegen.decks.sizes import SIDES
from guidegen.paper.rectangle import Rectangle


class Duplex(enum.Enum):
    """Whether a sheet is printed on both sides, and on which edge the printer turns it."""

    SIMPLEX = "simplex"
    LONG = "long"
    """As a page of a book."""

    SHORT = "short"
    """As a page of a wall calendar."""

    @property
    def faces(self) -> int:
        """How many sides of a sheet are printed."""
        return 1 if self is Duplex.SIMPLEX else 2


@dataclass(frozen=True, slots=True)
class Stock:
    """A sheet before it is cut; it stands upright."""

    id: str
    """As the printer's tray is called: ``letter``."""

    width: Decimal
    """Millimeters."""

    height: Decimal

    @property
    def area(self) -> Rectangle:
        """The whole sheet."""
        return Rectangle(Decimal(0), Decimal(0), self.width, self.height)


@dataclass(frozen=True, slots=True)
class Printing:
    """What goes into the printer's dialog."""

    stock: Stock
    duplex: Duplex


def _stock(name: str) -> Stock:
    side = SIDES[name]
    return Stock(name, side.width, side.height)


STOCKS = MappingProxyType({name: _stock(name) for name in ("letter", "a4")})
"""By the name that is typed."""


def behind(place: Rectangle, printing: Printing) -> Rectangle:
    """Return where *place* of the front lies on the back, as the back is looked at."""
    stock = printing.stock
    match printing.duplex:
        case Duplex.LONG:
            return Rectangle(stock.width - place.right, place.y, place.width, place.height)
        case Duplex.SHORT:
            return Rectangle(place.x, stock.height - place.top, place.width, place.height)
        case Duplex.SIMPLEX:
            raise ValueError("a sheet that is printed on one side has no back")
        case _:
            assert_never(printing.duplex)


def turned_behind(rotated: int, duplex: Duplex) -> int:
    """Return by how much the back of a card is rotated whose front is rotated by *rotated*.

    A cut card is turned like a page of a book, whatever edge the printer turned the sheet on:
    the top of the back lies behind the top of the front. Degrees, counterclockwise.

    >>> turned_behind(90, Duplex.LONG), turned_behind(0, Duplex.SHORT)
    (270, 180)
    """
    # Mirrored left to right, an upward arrow stays and a leftward one turns about; mirrored top
    # to bottom, it is the other way.
    lies = rotated % 180 != 0
    turns_about = lies == (duplex is Duplex.LONG)
    return (rotated + 180) % 360 if turns_about else rotated
