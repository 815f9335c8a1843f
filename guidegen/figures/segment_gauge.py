"""Gauges that show a share: DEF by bars, fuel by a needle, charge by percent.

Takes in the number of bars, the tanks or the least charge; gives out the gauge as the driver reads
it.
Refuses to draw more bars than the truck's own gauge has.
"""

from fractions import Fraction

from guidegen.figures.model import Box, Line
from guidegen.figures.sketch import Facts, Sketch
from guidegen.quantity.model import Quantity

_LEFT, _TOP, _LONG, _HIGH = 40, 16, 420, 56
_GAP = 8


def sketch_def_gauge(facts: Facts) -> Sketch:
    """Return the DEF gauge with all its bars lit."""
    bars = int(str(facts["def_system.gauge_segments"].value))
    sketch = Sketch(500, 130)
    sketch.draw(Box(_LEFT - 10, _TOP - 8, _LONG + 20, _HIGH + 16, rounding=8))
    wide = (_LONG - _GAP * (bars - 1)) // bars
    for place in range(bars):
        sketch.draw(Box(_LEFT + place * (wide + _GAP), _TOP, wide, _HIGH, solid=True, width=1))
    sketch.write(_LEFT - 6, _TOP + _HIGH + 36, "empty")
    sketch.write(230, _TOP + _HIGH + 36, "@def_system.gauge_segments", "end")
    sketch.write(238, _TOP + _HIGH + 36, "bars")
    sketch.write(_LEFT + _LONG + 6, _TOP + _HIGH + 36, "full", "end")
    sketch.say("DEF gauge with a full tank: all ", "@def_system.gauge_segments", " bars are lit.")
    return sketch


def sketch_fuel_gauge(_facts: Facts) -> Sketch:
    """Return the fuel gauge with its needle at full, and what the tanks then hold."""
    sketch = Sketch(500, 186)
    sketch.draw(Box(_LEFT - 10, _TOP - 8, _LONG + 20, _HIGH + 16, rounding=8))
    bottom = _TOP + _HIGH
    for quarter in range(5):
        x = _LEFT + quarter * _LONG // 4
        sketch.draw(Line(x, bottom - 22, x, bottom, 3))
    sketch.draw(Line(_LEFT + _LONG, _TOP, _LEFT + _LONG, bottom, 9))
    sketch.write(_LEFT - 6, bottom + 36, "empty")
    sketch.write(_LEFT + _LONG + 6, bottom + 36, "full", "end")
    sketch.write(190, bottom + 66, "@fuel_tanks.count", "end")
    sketch.write(200, bottom + 66, "tanks_of")
    sketch.write(_LEFT + _LONG // 2, bottom + 96, "@fuel_tanks.capacity_each", "middle")
    sketch.say("Fuel gauge at full. Fuel tanks: ", "@fuel_tanks.count")
    sketch.say(". Each then holds ", "@fuel_tanks.capacity_each", ".")
    return sketch


def sketch_charge_gauge(facts: Facts) -> Sketch:
    """Return the charge gauge, solid up to the least charge to leave the yard with."""
    least = facts["high_voltage.lowest_charge"].value
    share = Fraction(least.amount) / 100 if isinstance(least, Quantity) else Fraction(0)
    mark = _LEFT + round(share * _LONG)
    sketch = Sketch(500, 150)
    sketch.draw(
        Box(_LEFT, _TOP, _LONG, _HIGH, rounding=6),
        Box(_LEFT + _LONG + 3, _TOP + 16, 12, 24, solid=True, width=1),
        Box(_LEFT + 5, _TOP + 5, mark - _LEFT - 5, _HIGH - 10, solid=True, width=1),
        Line(mark, _TOP - 8, mark, _TOP + _HIGH + 14, 5),
    )
    sketch.write(_LEFT, _TOP + _HIGH + 24, "empty")
    sketch.write(_LEFT + _LONG, _TOP + _HIGH + 24, "full", "end")
    sketch.write(mark, _TOP + _HIGH + 38, "least", "middle")
    sketch.write(mark, _TOP + _HIGH + 62, "@high_voltage.lowest_charge", "middle")
    sketch.say("Charge gauge. Leave the yard with at least ", "@high_voltage.lowest_charge", ".")
    return sketch
