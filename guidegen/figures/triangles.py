"""Where warning devices stand on a two-way road.

Takes in the distances of the jurisdiction; gives out the road from above with the truck and the
devices. Refuses a scale: the far device would be off the page.
"""

from guidegen.figures.model import Box, Curve, Line
from guidegen.figures.sketch import Facts, Sketch

NEAR, FAR = "law.warning_device_near", "law.warning_device_far"

_DEVICES = (60, 250, 500)
_ROAD_TOP, _ROAD_BOTTOM, _LANE = 60, 160, 110


def sketch_warning_devices(_facts: Facts) -> Sketch:
    """Return a two-way road, with the truck at its right edge, driving to the right."""
    sketch = Sketch(560, 250)
    sketch.draw(Line(0, _ROAD_TOP, 560, _ROAD_TOP, 4), Line(0, _ROAD_BOTTOM, 560, _ROAD_BOTTOM, 4))
    for x in range(10, 550, 40):
        sketch.draw(Line(x, _LANE, x + 20, _LANE, 2))
    sketch.draw(Box(310, 122, 110, 34, rounding=4, width=4), Line(396, 122, 396, 156, 3))
    for x in _DEVICES:
        y = 118 if x == _DEVICES[1] else 128
        sketch.draw(Curve(f"M{x} {y}L{x + 14} {y + 24}L{x - 14} {y + 24}Z", width=4))
    sketch.draw(*_span(74, 310, 184), *_span(264, 310, 216), *_span(420, 486, 184))
    sketch.write(6, 40, "traffic")
    sketch.draw(Line(76, 34, 130, 34, 4), Line(120, 26, 130, 34, 4), Line(120, 42, 130, 34, 4))
    sketch.write(365, 146, "truck", "middle")
    sketch.write(150, 206, f"@{FAR}", "middle")
    sketch.write(287, 240, f"@{NEAR}", "middle")
    sketch.write(453, 206, f"@{FAR}", "middle")
    sketch.say("Warning devices on a two-way road, seen from above, not to scale: one at ")
    sketch.say(f"@{NEAR}", " and one at ", f"@{FAR}", " behind the truck, one at ", f"@{FAR}")
    sketch.say(" ahead of it. Hills, curves and one-way roads need other places.")
    return sketch


def _span(start: int, end: int, y: int) -> tuple[Line, ...]:
    return (
        Line(start, y, end, y, 2),
        Line(start, y - 8, start, y + 8, 2),
        Line(end, y - 8, end, y + 8, 2),
    )
