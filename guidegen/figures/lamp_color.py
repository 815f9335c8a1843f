"""The mark of a color of lamps.

Takes in a color; gives out its mark, which is told from the others by its outline alone.
Refuses two colors of one outline: at night under red light, and to many eyes, color tells nothing.
"""

from collections.abc import Mapping
from types import MappingProxyType

from guidegen.figures.model import Box, Circle, Curve, Emblem, Shape

LAMP_COLOR = "lamp_color"
"""What pages mark these drawings as."""

_GRID = 48
_OUTLINES: Mapping[str, tuple[Shape, ...]] = MappingProxyType(
    {
        "red": (Curve("M24 3L45 24L24 45L3 24Z", solid=True, width=2),),
        "amber": (Curve("M24 5L45 42L3 42Z", solid=True, width=2),),
        "green": (Circle(24, 24, 20, solid=True, width=2),),
        "blue": (Circle(24, 24, 19, width=6), Circle(24, 24, 6, solid=True, width=2)),
        "white": (Box(6, 6, 36, 36, width=6),),
    }
)
"""Chosen for this library; no standard gives colors a shape."""


def mark_of_color(color: str) -> Emblem:
    """Return the mark of *color*, which is one of ``LAMP_COLORS``."""
    return Emblem(_GRID, _GRID, _OUTLINES[color])
