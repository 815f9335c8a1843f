"""Places on paper, in exact millimeters.

Takes in decimal measures; gives out rectangles that can be grown and compared, and points. Refuses
binary fractions: a back that is to lie behind its front is compared without tolerance.
"""

from dataclasses import dataclass
from decimal import Decimal

from guidegen.decks.sizes import INCH

POINTS_AN_INCH = 72
"""ISO 32000-1, 8.3.2.3: the default unit of user space is 1/72 inch."""

_STEP = Decimal("0.00001")
"""Points; 3.5 nanometers, and what PDF writers commonly print."""


@dataclass(frozen=True, slots=True)
class Rectangle:
    """An upright rectangle; millimeters from the lower left corner of the sheet."""

    x: Decimal
    y: Decimal
    width: Decimal
    height: Decimal

    @property
    def right(self) -> Decimal:
        """Of its right edge."""
        return self.x + self.width

    @property
    def top(self) -> Decimal:
        """Of its upper edge."""
        return self.y + self.height

    def grown(self, by: Decimal) -> "Rectangle":
        """Return it with each edge moved outward; inward if *by* is negative."""
        return Rectangle(self.x - by, self.y - by, self.width + 2 * by, self.height + 2 * by)

    def overlaps(self, other: "Rectangle") -> bool:
        """Whether they share an area; edges may touch."""
        beside = self.right <= other.x or other.right <= self.x
        return not (beside or self.top <= other.y or other.top <= self.y)

    def lies_within(self, other: "Rectangle") -> bool:
        """Whether no part of it lies outside of *other*."""
        across = other.x <= self.x and self.right <= other.right
        return across and other.y <= self.y and self.top <= other.top


def around(rectangles: tuple[Rectangle, ...]) -> Rectangle:
    """Return the smallest rectangle that holds all of *rectangles*, of which there must be one."""
    x = min(each.x for each in rectangles)
    y = min(each.y for each in rectangles)
    right = max(each.right for each in rectangles)
    top = max(each.top for each in rectangles)
    return Rectangle(x, y, right - x, top - y)


def points(millimeters: Decimal) -> Decimal:
    """Return *millimeters* in points, to five decimals.

    >>> points(Decimal("215.9"))
    Decimal('612.00000')
    """
    return (millimeters * POINTS_AN_INCH / INCH).quantize(_STEP)


def point_box(rectangle: Rectangle) -> list[Decimal]:
    """Return left, bottom, right and top of *rectangle* in points, as a PDF box holds them."""
    edges = (rectangle.x, rectangle.y, rectangle.right, rectangle.top)
    return [written(points(edge)) for edge in edges]


def written(number: Decimal) -> Decimal:
    """Return *number* without zeros at its end and without an exponent, which PDF lacks.

    >>> str(written(Decimal("612.00000"))), str(written(Decimal("0.250")))
    ('612', '0.25')
    """
    rounded = number.quantize(_STEP)
    if rounded == rounded.to_integral_value():
        return rounded.quantize(Decimal(1)) + 0
    return Decimal(f"{rounded:f}".rstrip("0"))
