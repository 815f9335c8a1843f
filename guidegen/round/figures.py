"""The shapes and writings that a drawing is made of.

Takes in nothing; gives out frozen values in units of the drawing, from its upper left corner.
Refuses colors and fonts: whoever draws them chooses.
"""

import enum
from dataclasses import dataclass


class Stroke(enum.Enum):
    """How a line or an edge is drawn."""

    BOLD = "bold"
    """The truck."""

    FINE = "fine"
    """From a number to its place."""

    DASHED = "dashed"
    """The walk around."""


class Anchor(enum.Enum):
    """Which end of a writing stands at its point."""

    LEFT = "left"
    MIDDLE = "middle"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle; filled if it has no stroke."""

    x: float
    y: float
    width: float
    height: float
    corner: float
    stroke: Stroke | None


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points."""

    points: tuple[tuple[float, float], ...]
    stroke: Stroke


@dataclass(frozen=True, slots=True)
class Shape:
    """A filled polygon."""

    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Dot:
    """A filled circle: a place where the driver stands or sits."""

    x: float
    y: float
    radius: float


@dataclass(frozen=True, slots=True)
class Writing:
    """One line of text; ``y`` is its base line."""

    x: float
    y: float
    text: str
    size: int
    anchor: Anchor
    is_bold: bool
    key: str
    """What it is, unlike any other of its drawing: ``front.2``, the second line of a place."""


Figure = Box | Line | Shape | Dot | Writing
