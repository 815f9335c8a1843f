"""A figure as SVG.

Takes in a figure and the words of its values; gives out one `svg` element as text.
Refuses color: everything takes the color of the text around it, so that it is read in print and
at night.
"""

from collections.abc import Mapping
from html import escape
from typing import assert_never

from guidegen.figures.model import Box, Circle, Curve, Line, Picture, Shape, Written
from guidegen.guide.model import FactRef
from guidegen.procedures.figure_kinds import FIGURE_WORDS


def draw_svg(figure: Picture, values: Mapping[str, str]) -> str:
    """Return *figure* as SVG.

    Args:
        figure: What to draw.
        values: The words of each value, by name of the fact.

    The drawing is hidden from readers of the screen: the caption beside it says the same.
    """
    parts = [_shape(shape) for shape in figure.shapes]
    parts += [_written(written, values) for written in figure.writing]
    head = (
        f'<svg class="gg-figure__drawing" viewBox="0 0 {figure.width} {figure.height}" '
        f'width="{figure.width}" height="{figure.height}" aria-hidden="true" focusable="false">'
    )
    return "".join((head, *parts, "</svg>"))


def _shape(shape: Shape) -> str:
    match shape:
        case Line():
            where = f'x1="{shape.x1}" y1="{shape.y1}" x2="{shape.x2}" y2="{shape.y2}"'
            return f"<line {where} {_paint(shape.width)}/>"
        case Circle():
            where = f'cx="{shape.x}" cy="{shape.y}" r="{shape.radius}"'
            return f"<circle {where} {_paint(shape.width, solid=shape.solid)}/>"
        case Box():
            where = (
                f'x="{shape.x}" y="{shape.y}" width="{shape.width_along}" '
                f'height="{shape.height}" rx="{shape.rounding}"'
            )
            return f"<rect {where} {_paint(shape.width, solid=shape.solid)}/>"
        case Curve():
            return f'<path d="{shape.path}" {_paint(shape.width, solid=shape.solid)}/>'
        case _:
            assert_never(shape)


def _paint(width: int, *, solid: bool = False) -> str:
    fill = "currentColor" if solid else "none"
    return f'fill="{fill}" stroke="currentColor" stroke-width="{width}"'


def _written(written: Written, values: Mapping[str, str]) -> str:
    if isinstance(written.says, FactRef):
        name = written.says.name
        mark, words = f'data-fact="{name}"', values[name]
    else:
        mark, words = f'data-figure-word="{written.says}"', FIGURE_WORDS[written.says]
    where = f'x="{written.x}" y="{written.y}" text-anchor="{written.anchor}"'
    return f'<text {mark} {where} fill="currentColor">{escape(words, quote=False)}</text>'
