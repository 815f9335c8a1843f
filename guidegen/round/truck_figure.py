"""A truck from above, as shapes.

Takes in the footprint of a truck; gives out its figures, front up, and where a point of the truck
is on the drawing.
Refuses to be measured: all trucks are drawn as wide, and a long one is squeezed.
"""

from dataclasses import dataclass

from guidegen.round.figures import Anchor, Box, Figure, Shape, Stroke, Writing
from guidegen.round.positions import REACH, Footprint

WIDTH = 750
"""Of the drawing, in its own units; beside its list a tablet shows three pixels for four."""

SMALL = 24
"""Height of words; half as many pixels on a phone."""

FRONT = "FRONT"
NOSE = "nose"
"""Key of that writing."""

_TRUCK_LENGTH = 520
_SHORT = 8500
"""A truck of this length, in millimeters, is as long as the drawing; a shorter one is shorter."""


@dataclass(frozen=True, slots=True)
class Scale:
    """From the truck's millimeters to units of the drawing."""

    truck: Footprint
    top: float
    """Of the walk around the truck."""

    def across(self, y: float) -> float:
        """Return *y* in units of the drawing: all trucks are as wide."""
        return WIDTH / 2 + y * _TRUCK_LENGTH / _SHORT

    def along(self, x: float) -> float:
        """Return *x* in units of the drawing: a long truck is squeezed, to fit the page."""
        return self.top + (REACH + x) * _TRUCK_LENGTH / max(self.truck.length, _SHORT)

    def box(self, x: tuple[float, float], y: tuple[float, float], corner: float) -> Box:
        """Return the box from *x* to *x* and *y* to *y*, in millimeters."""
        left, top = self.across(y[0]), self.along(x[0])
        width, height = self.across(y[1]) - left, self.along(x[1]) - top
        return Box(left, top, width, height, corner, Stroke.BOLD)


def draw_truck(scale: Scale) -> list[Figure]:
    """Draw wheels, cab, hood and what is behind the cab, with an arrow to the front."""
    truck = scale.truck
    half = truck.width / 2
    figures: list[Figure] = []
    for axle in truck.axles:
        wheels = (half - 330,) if axle.is_steered else (half - 330, half - 690)
        for wheel in wheels:
            for side in (-1, 1):
                near, far = sorted((side * wheel, side * (wheel + 300)))
                box = scale.box((axle.x - 480, axle.x + 480), (near, far), 6)
                figures.append(Box(box.x, box.y, box.width, box.height, 6, None))
    figures.append(scale.box((truck.hood, truck.cab), (-half, half), 14))
    if truck.hood:
        figures.append(scale.box((0, truck.hood), (-half * 0.72, half * 0.72), 18))
    figures.append(scale.box((truck.cab + 120, truck.length), (-half, half), 6))
    nose = scale.along(0) + 10
    points = ((WIDTH / 2, nose), (WIDTH / 2 - 16, nose + 24), (WIDTH / 2 + 16, nose + 24))
    # Without a hood the seat is beside the nose, and the word stands behind it.
    level = nose + 24 + SMALL * (1 if truck.hood else 2.4)
    front = Writing(WIDTH / 2, level, FRONT, SMALL, Anchor.MIDDLE, is_bold=True, key=NOSE)
    return [*figures, Shape(points), front]


def draw_walk(scale: Scale) -> list[Figure]:
    """Draw the line around the truck with two heads: forward on the left, back on the right."""
    truck = scale.truck
    half = truck.width / 2 + REACH
    edge = scale.box((-REACH, truck.length + REACH), (-half, half), 24)
    left, right = edge.x, edge.x + edge.width
    middle = edge.y + edge.height * 0.62
    return [
        Box(edge.x, edge.y, edge.width, edge.height, edge.corner, Stroke.DASHED),
        Shape(((left, middle - 14), (left - 10, middle + 8), (left + 10, middle + 8))),
        Shape(((right, middle + 14), (right - 10, middle - 8), (right + 10, middle - 8))),
    ]
