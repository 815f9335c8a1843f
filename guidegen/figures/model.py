"""What a figure is.

Takes in whole numbers on a grid; gives out shapes and writing as frozen values.
Refuses color and free words: what is written is a value of the truck or a word of the list, and
every shape is line or solid in the color of the text around it.
"""

from dataclasses import dataclass

from guidegen.guide.model import FactRef, Text


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke."""

    x1: int
    y1: int
    x2: int
    y2: int
    width: int = 3


@dataclass(frozen=True, slots=True)
class Circle:
    """A ring, or a disc if solid."""

    x: int
    y: int
    radius: int
    solid: bool = False
    width: int = 3


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with its sides along the grid."""

    x: int
    y: int
    width_along: int
    height: int
    rounding: int = 0
    solid: bool = False
    width: int = 3
    """Of its outline."""


@dataclass(frozen=True, slots=True)
class Curve:
    """A path in the notation of SVG: moves, lines and arcs in whole numbers."""

    path: str
    solid: bool = False
    width: int = 3


Shape = Line | Circle | Box | Curve


@dataclass(frozen=True, slots=True)
class Written:
    """A word or a value in the drawing."""

    x: int
    y: int
    """Of the line that the letters stand on."""

    says: str | FactRef
    """Key of ``FIGURE_WORDS``, or a value."""

    anchor: str = "start"
    """``start``, ``middle`` or ``end``: which part of it stands at *x*."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One drawing of one truck; its writing lies over its shapes."""

    id: str
    """``air-build-up.figure``."""

    kind: str
    alt: Text
    """The same in words, for all who do not see the drawing; printed below it."""

    width: int
    """Of the grid. Letters are `LETTERS` high on it."""

    height: int
    shapes: tuple[Shape, ...]
    writing: tuple[Written, ...]
    """In reading order."""


@dataclass(frozen=True, slots=True)
class Emblem:
    """A drawing without a caption: the words beside it say the same."""

    width: int
    height: int
    shapes: tuple[Shape, ...]
    writing: tuple[Written, ...] = ()


Picture = Figure | Emblem

LETTERS = 20
"""Height of letters on the grid."""
