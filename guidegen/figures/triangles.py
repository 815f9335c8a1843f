"""Where warning devices stand: on a two-way and a one-way road, and where a hill hides the truck.

Takes in the distances of the jurisdiction; gives out the road from above with the truck and the
devices. Refuses a scale: the farthest device would be off the page.
"""

from guidegen.figures.model import Box, Curve, Line
from guidegen.figures.sketch import Facts, Sketch

NEAR, FAR, FARTHEST = (
    "law.warning_device_near",
    "law.warning_device_far",
    "law.warning_device_far_one_way",
)

LEAST, MOST = "law.warning_device_obstruction_from", "law.warning_device_obstruction_to"
"""From the truck, of the device on the side of a hill, a curve or whatever hides the truck."""

_WIDE = 600
_ROAD_TOP, _LANE, _ROAD_BOTTOM = 52, 102, 152
_TRUCK_LONG, _TRUCK_HIGH = 110, 34
_TRUCK_TOP = _ROAD_BOTTOM - _TRUCK_HIGH - 6
_IN_LANE, _TRAFFIC_SIDE = 114, 104
"""Heights of the tips of devices: in the middle of the lane, and toward the traffic."""

_FIRST_SPAN, _SPAN_STEP = 176, 44


def sketch_two_way(_facts: Facts) -> Sketch:
    """Return a two-way road: one device near, one far behind and one far ahead."""
    rear = 310
    sketch = _road(rear, 250)
    # Drivers who come the other way see the device ahead of the truck.
    sketch.draw(Line(444, 32, 500, 32, 4), Line(454, 24, 444, 32, 4), Line(454, 40, 444, 32, 4))
    sketch.write(592, 38, "traffic", "end")
    sketch.draw(*_device(70, _IN_LANE), *_device(250, _TRAFFIC_SIDE), *_device(560, _IN_LANE))
    _span(sketch, (250, rear), 0, NEAR)
    _span(sketch, (70, rear), 1, FAR)
    _span(sketch, (rear + _TRUCK_LONG, 560), 1, FAR)
    sketch.say(
        "Two-way road from above, traffic on the right, not to scale: one device ",
        f"@{NEAR}",
        " and one ",
    )
    sketch.say(f"@{FAR}", " behind the truck, one ", f"@{FAR}", " ahead of it.")
    return sketch


def sketch_one_way(_facts: Facts) -> Sketch:
    """Return a one-way or divided road: all devices behind the truck."""
    rear = 460
    sketch = _road(rear, 294)
    sketch.draw(*_device(60, _IN_LANE), *_device(230, _IN_LANE), *_device(410, _TRAFFIC_SIDE))
    _span(sketch, (410, rear), 0, NEAR)
    _span(sketch, (230, rear), 1, FAR)
    _span(sketch, (60, rear), 2, FARTHEST)
    sketch.say("One-way or divided road from above, not to scale. Behind the truck stand devices ")
    sketch.say(f"@{NEAR}", ", ", f"@{FAR}", " and ", f"@{FARTHEST}", " away.")
    return sketch


def sketch_hill(_facts: Facts) -> Sketch:
    """Return a road with a hill or curve behind the truck: one device before it."""
    rear = 460
    sketch = _road(rear, 250)
    sketch.draw(*(Line(x, _ROAD_TOP - 26, x, _ROAD_BOTTOM + 8, 5) for x in (250, 262)))
    sketch.write(256, _ROAD_TOP - 32, "hill_or_curve", "middle")
    sketch.draw(*_device(150, _IN_LANE))
    y = _FIRST_SPAN
    sketch.draw(Line(150, y, rear, y, 2), Line(150, y - 8, 150, y + 8, 2))
    sketch.draw(Line(rear, y - 8, rear, y + 8, 2))
    sketch.write(286, y + 24, f"@{LEAST}", "end")
    sketch.write(305, y + 24, "up_to", "middle")
    sketch.write(324, y + 24, f"@{MOST}")
    sketch.say(
        "Road from above, not to scale: the device stands before the hill or curve, at least "
    )
    sketch.say(f"@{LEAST}", " and at most ", f"@{MOST}", " from the truck.")
    return sketch


def _road(rear: int, height: int) -> Sketch:
    """Return a road with the truck stopped at its edge; traffic comes from behind, at the left."""
    sketch = Sketch(_WIDE, height)
    for y in (_ROAD_TOP, _ROAD_BOTTOM):
        sketch.draw(Line(0, y, _WIDE, y, 4))
    for x in range(10, _WIDE - 20, 40):
        sketch.draw(Line(x, _LANE, x + 20, _LANE, 2))
    front = rear + _TRUCK_LONG
    sketch.draw(
        Box(rear, _TRUCK_TOP, _TRUCK_LONG, _TRUCK_HIGH, rounding=4, width=4),
        Line(front - 22, _TRUCK_TOP, front - 22, _TRUCK_TOP + _TRUCK_HIGH, 3),
        Line(94, 32, 150, 32, 4),
        Line(140, 24, 150, 32, 4),
        Line(140, 40, 150, 32, 4),
    )
    sketch.write(8, 38, "traffic")
    sketch.write(rear + 44, _TRUCK_TOP + 24, "truck", "middle")
    return sketch


def _device(x: int, y: int) -> tuple[Curve]:
    return (Curve(f"M{x} {y}L{x + 15} {y + 26}L{x - 15} {y + 26}Z", width=5),)


def _span(sketch: Sketch, ends: tuple[int, int], row: int, fact: str) -> None:
    """Draw how far a device stands from the truck, with the distance in the middle below."""
    start, end = ends
    y = _FIRST_SPAN + row * _SPAN_STEP
    sketch.draw(
        Line(start, y, end, y, 2),
        Line(start, y - 8, start, y + 8, 2),
        Line(end, y - 8, end, y + 8, 2),
    )
    sketch.write((start + end) // 2, y + 24, f"@{fact}", "middle")
