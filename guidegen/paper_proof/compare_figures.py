"""Whether drawings on paper are as their figures.

Takes in a figure and the pictures that stand in its place; records what differs. Refuses a shape
more, a shape less, and one whose corners lie elsewhere on the grid.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import assert_never

from guidegen.figures.model import Box, Circle, Curve, Figure, Line, Shape
from guidegen.paper_proof import rules
from guidegen.paper_proof.sheet_model import DrawnRead, Point
from guidegen.proof.faults import Faults

_COMMAND = re.compile(r"([A-Za-z])([^A-Za-z]*)")
_NUMBER = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
_NEAR = 0.05
"""Of the grid: as far as a corner may lie from where it is drawn."""

_SEE = "repair what draws the figure; its writing is held against the facts apart from it"


def compare_figure(figure: Figure, pictures: Sequence[DrawnRead], faults: Faults) -> None:
    """Hold the *pictures* that stand for *figure* against it, shape by shape."""
    what = ""
    shapes = [shape for shape in figure.shapes if not _is_point(shape)]
    if len(pictures) != len(shapes):
        what = f"{len(pictures)} shapes and not {len(shapes)}"
    else:
        for number, (shape, picture) in enumerate(zip(shapes, pictures, strict=True), start=1):
            if not _is_same(shape, picture):
                what = f"shape {number} of another form"
                break
    if what:
        span = figure.alt.span
        faults.add(
            rules.FIGURE_DIFFERS, f"`{figure.id}` has {what}", fix=_SEE, span=span, mark=figure.id
        )


def report_loose(places: Iterable[str], faults: Faults) -> None:
    """Record sides with pictures that no figure accounts for."""
    for place in places:
        faults.add(
            rules.FIGURE_DIFFERS,
            "has a picture where the guide has none",
            fix="draw the figures of the guide and nothing else",
            mark=place,
        )


def _is_same(shape: Shape, picture: DrawnRead) -> bool:
    is_solid = not isinstance(shape, Line) and shape.solid
    if not picture.is_path or not picture.strokes or picture.fills != is_solid:
        return False
    left = list(picture.ends)
    for corner in _corners(shape):
        near = next((place for place, end in enumerate(left) if _is_near(corner, end)), None)
        if near is None:
            return False
        left = left[near + 1 :]
    return True


def _is_point(shape: Shape) -> bool:
    """Whether it is a line of no length, which leaves no ink."""
    return isinstance(shape, Line) and (shape.x1, shape.y1) == (shape.x2, shape.y2)


def _is_near(corner: Point, end: Point) -> bool:
    return abs(corner[0] - end[0]) < _NEAR and abs(corner[1] - end[1]) < _NEAR


def _corners(shape: Shape) -> Iterator[Point]:
    """Yield points that the outline must come to, in its order."""
    match shape:
        case Line(x1, y1, x2, y2):
            yield from ((x1, y1), (x2, y2))
        case Circle(x, y, radius):
            yield (x + radius, y)
            yield (x - radius, y)
        case Box(x, y, along, height, rounding):
            yield (x + rounding, y)
            yield (x + along - rounding, y)
            yield (x + along, y + height - rounding)
            yield (x + rounding, y + height)
        case Curve(path):
            yield from _corners_of_path(path)
        case _:
            assert_never(shape)


def _corners_of_path(path: str) -> Iterator[Point]:
    """Yield the ends of moves, lines and arcs, all in whole numbers from the corner of the grid."""
    at: Point = (0, 0)
    for letter, said in _COMMAND.findall(path):
        numbers = [float(each) for each in _NUMBER.findall(said)]
        step = {"A": 7, "H": 1, "V": 1}.get(letter.upper(), 2)
        for start in range(0, len(numbers), step):
            end = numbers[start : start + step]
            at = _moved(at, letter, end)
            yield at


def _moved(at: Point, letter: str, numbers: Sequence[float]) -> Point:
    across, along = at if letter.islower() else (0.0, 0.0)
    if letter.upper() == "H":
        return across + numbers[0], at[1]
    if letter.upper() == "V":
        return at[0], along + numbers[0]
    return across + numbers[-2], along + numbers[-1]
