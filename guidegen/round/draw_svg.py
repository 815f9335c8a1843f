"""The plan of a round as SVG.

Takes in a round; gives out one ``svg`` element as text, the same for the same round.
Refuses color: everything is drawn in ``currentColor``, so that it reads in print, by day and at
night, and nothing is told by color alone.
"""

from typing import assert_never
from xml.sax.saxutils import escape

from guidegen.round.figures import Anchor, Box, Dot, Figure, Line, Shape, Stroke, Writing
from guidegen.round.model import Round
from guidegen.round.plan_view import PlanView, view_round

_ID = "round-plan"
"""Begins the ids of title and description; a page holds one plan."""

_STROKES = {
    Stroke.BOLD: 'stroke-width="4"',
    Stroke.FINE: 'stroke-width="2"',
    Stroke.DASHED: 'stroke-width="3" stroke-dasharray="12 9"',
}
_ANCHORS = {Anchor.LEFT: "start", Anchor.MIDDLE: "middle", Anchor.RIGHT: "end"}


def round_svg(tour: Round) -> str:
    """Return the plan of *tour* as an ``svg`` element, with title and description in words.

    It has a view box and no size: it takes the width that it is given. Its font is the page's.
    """
    return draw_svg(view_round(tour))


def draw_svg(view: PlanView) -> str:
    """Return *view* as an ``svg`` element."""
    figures = "\n".join(_figure(figure) for figure in view.figures)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(view.width)} {_n(view.height)}" '
        f'role="img" aria-labelledby="{_ID}-title {_ID}-description" '
        'fill="none" stroke="currentColor" stroke-linecap="round" stroke-linejoin="round">\n'
        f'<title id="{_ID}-title" data-plan-words="title">{escape(view.title)}</title>\n'
        f'<desc id="{_ID}-description" data-plan-words="description">'
        f"{escape(view.description)}</desc>\n"
        f"{figures}\n</svg>\n"
    )


def _figure(figure: Figure) -> str:
    match figure:
        case Box():
            return _box(figure)
        case Line(points=points, stroke=stroke):
            return f'<polyline points="{_points(points)}" {_STROKES[stroke]}/>'
        case Shape(points=points):
            return f'<polygon points="{_points(points)}" fill="currentColor" stroke="none"/>'
        case Dot(x=x, y=y, radius=radius):
            place = f'cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}"'
            return f'<circle {place} fill="currentColor" stroke="none"/>'
        case Writing():
            return _writing(figure)
        case _:
            assert_never(figure)


def _box(box: Box) -> str:
    place = f'x="{_n(box.x)}" y="{_n(box.y)}" width="{_n(box.width)}" height="{_n(box.height)}"'
    look = 'fill="currentColor" stroke="none"' if box.stroke is None else _STROKES[box.stroke]
    return f'<rect {place} rx="{_n(box.corner)}" {look}/>'


def _writing(writing: Writing) -> str:
    weight = ' font-weight="700"' if writing.is_bold else ""
    return (
        f'<text data-plan="{writing.key}" x="{_n(writing.x)}" y="{_n(writing.y)}" '
        f'font-size="{writing.size}" '
        f'text-anchor="{_ANCHORS[writing.anchor]}"{weight} fill="currentColor" stroke="none">'
        f"{escape(writing.text)}</text>"
    )


def _points(points: tuple[tuple[float, float], ...]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _n(number: float) -> str:
    """Return *number* with one digit after the point at most: less than anybody sees."""
    return f"{number:.1f}".removesuffix(".0")
