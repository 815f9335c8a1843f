"""The cords that carry a block heater, by length.

Takes in the heater's current and voltage and the gauge for each length of cord; gives out a table
with a stroke that is the thicker, the thicker the cord. Refuses a stroke where no cord will do: a
cross stands there.
"""

from guidegen.figures.model import Line
from guidegen.figures.sketch import Facts, Sketch, choice
from guidegen.procedures.figure_kinds import CORD_TABLE_ROWS

_WIDE, _TOP, _ROW = 590, 84, 44
_LENGTH_X, _GAUGE_X, _STROKE_X = 14, 212, 500
_STROKE_LONG = 70
_WIDTHS = {
    "awg_18": 3,
    "awg_16": 6,
    "awg_14": 10,
    "awg_12": 16,
    "mm2_1": 3,
    "mm2_1.5": 6,
    "mm2_2.5": 10,
    "mm2_4": 16,
}
"""Of strokes, by gauge; they tell thicker from thinner and are not to scale."""


def sketch_cord_table(facts: Facts) -> Sketch:
    """Return one row a length, shortest first, under the heater's current and voltage."""
    bottom = _TOP + len(CORD_TABLE_ROWS) * _ROW
    sketch = Sketch(_WIDE, bottom + 6)
    sketch.write(_LENGTH_X, 26, "heater")
    sketch.write(_GAUGE_X, 26, "@block_heater.current")
    sketch.write(_GAUGE_X + 120, 26, "@block_heater.voltage")
    sketch.write(_LENGTH_X, _TOP - 16, "cord_up_to")
    sketch.write(_GAUGE_X, _TOP - 16, "as_thick_as")
    sketch.say("Cord for a heater of ", "@block_heater.current", " at ", "@block_heater.voltage")
    sketch.say(". Thinnest gauge by length:")
    _draw_grid(sketch, bottom)
    for place, cord in enumerate(CORD_TABLE_ROWS):
        baseline = _TOP + place * _ROW + 29
        sketch.write(_LENGTH_X, baseline, f"@{cord}")
        sketch.write(_GAUGE_X, baseline, f"@{cord}_gauge")
        _draw_cord(sketch, choice(facts, f"{cord}_gauge"), baseline - 7)
        end = "." if place == len(CORD_TABLE_ROWS) - 1 else ";"
        sketch.say(" up to ", f"@{cord}", ": ", f"@{cord}_gauge", end)
    sketch.say(" The electrical code of the place comes first.")
    return sketch


def _draw_grid(sketch: Sketch, bottom: int) -> None:
    sketch.draw(Line(0, _TOP, _WIDE, _TOP, 4))
    for y in range(_TOP + _ROW, bottom + 1, _ROW):
        sketch.draw(Line(0, y, _WIDE, y, 2))
    sketch.draw(Line(_GAUGE_X - 14, _TOP - 40, _GAUGE_X - 14, bottom, 2))


def _draw_cord(sketch: Sketch, gauge: str, middle: int) -> None:
    left, right = _STROKE_X, _STROKE_X + _STROKE_LONG
    if gauge in _WIDTHS:
        sketch.draw(Line(left, middle, right, middle, _WIDTHS[gauge]))
        return
    center = (left + right) // 2
    sketch.draw(
        Line(center - 12, middle - 12, center + 12, middle + 12, 5),
        Line(center - 12, middle + 12, center + 12, middle - 12, 5),
    )
