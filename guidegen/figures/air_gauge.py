"""The air gauge of one truck.

Takes in the pressures of the low-air warning and of the governor; gives out a dial with the three
marks where the needle will stand. Refuses a second scale: the dial carries the measure that the
fleet puts first.
"""

import math
from collections.abc import Iterator
from fractions import Fraction

from guidegen.figures.model import Circle, Curve, Line
from guidegen.figures.sketch import Facts, Sketch
from guidegen.quantity.model import Quantity

MARKS = (
    ("brakes.air.low_air_warning", "low_air"),
    ("brakes.air.cut_in", "cut_in"),
    ("brakes.air.cut_out", "cut_out"),
)

SCALES = {
    "psi": (0, 30, 60, 90, 120, 150),
    "bar": (0, 2, 4, 6, 8, 10, 12),
    "kPa": (0, 200, 400, 600, 800, 1000, 1200),
}
"""Marks that the dial numbers, by the measure of the fleet. Common practice, no source."""

_X, _Y, _RADIUS = 150, 180, 120
_FIRST_BEARING, _SWEEP = 225, 270
"""Degrees clockwise from the top: from lower left around to lower right."""

_ROW_X, _ROW_HEIGHT, _LETTERS_DOWN = 312, 58, 6
_OUT = _RADIUS + 12
"""How far a mark stands out of the dial."""


def sketch_air_gauge(facts: Facts) -> Sketch:
    """Return the dial with its scale and the marks of this truck."""
    measure = _measure(facts)
    sketch = Sketch(560, 330)
    sketch.draw(Circle(_X, _Y, _RADIUS, width=4), Circle(_X, _Y, 8, solid=True))
    scale = SCALES[measure]
    for number in scale:
        bearing = _bearing(Fraction(number), scale[-1])
        sketch.draw(_stroke(bearing, _RADIUS - 16, _RADIUS, 4))
        x, y = _at(bearing, _RADIUS - 46)
        sketch.write(x, y + 7, str(number), "middle")
    sketch.write(_X, _Y + 70, measure, "middle")
    bearings = [_bearing(_amount(facts, name, measure), scale[-1]) for name, _ in MARKS]
    sketch.draw(_band(bearings[1], bearings[2]))
    for (name, word), bearing, row in zip(MARKS, bearings, _rows(bearings), strict=True):
        x, y = _at(bearing, _OUT)
        sketch.draw(
            _stroke(bearing, _RADIUS - 24, _OUT, 7), Line(x, y, x, row), Line(x, row, 304, row)
        )
        sketch.write(_ROW_X, row + _LETTERS_DOWN, word)
        sketch.write(_ROW_X, row + _LETTERS_DOWN + 24, f"@{name}")
    sketch.say("Air gauge. The low-air warning comes on at ", "@brakes.air.low_air_warning")
    sketch.say(" or above. The compressor starts at ", "@brakes.air.cut_in")
    sketch.say(" and stops at ", "@brakes.air.cut_out", ".")
    return sketch


def _measure(facts: Facts) -> str:
    """Return the symbol of the first measure that is printed, psi if the dial has no such scale."""
    fact = facts[MARKS[0][0]]
    first = next(iter(fact.shown), fact.value)
    symbol = first.measure.symbol if isinstance(first, Quantity) else ""
    return symbol if symbol in SCALES else "psi"


def _amount(facts: Facts, name: str, measure: str) -> Fraction:
    """Return a pressure in *measure*, exactly as it was typed or at least as it is printed."""
    fact = facts[name]
    amounts = [each for each in (fact.value, *fact.shown) if isinstance(each, Quantity)]
    alike = [each for each in amounts if each.measure.symbol == measure]
    return Fraction(alike[0].amount)


def _bearing(amount: Fraction, last: int) -> float:
    return _FIRST_BEARING + float(amount / last) * _SWEEP


def _at(bearing: float, radius: int) -> tuple[int, int]:
    turned = math.radians(bearing)
    return _X + round(radius * math.sin(turned)), _Y - round(radius * math.cos(turned))


def _stroke(bearing: float, inner: int, outer: int, width: int) -> Line:
    return Line(*_at(bearing, inner), *_at(bearing, outer), width)


def _band(start: float, end: float) -> Curve:
    """The stretch of the dial in which the needle stays while the truck runs."""
    (x1, y1), (x2, y2) = _at(start, _RADIUS - 8), _at(end, _RADIUS - 8)
    radius = _RADIUS - 8
    return Curve(f"M{x1} {y1}A{radius} {radius} 0 0 1 {x2} {y2}", width=10)


def _rows(bearings: list[float]) -> Iterator[int]:
    """Yield a height for the words of each mark: beside it, and below the words before."""
    lowest = 24
    for bearing in bearings:
        height = max(lowest, _at(bearing, _OUT)[1])
        yield height
        lowest = height + _ROW_HEIGHT
