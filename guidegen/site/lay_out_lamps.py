"""From a guide to the view of its lamp finder.

Takes in the layout of a guide; gives out the view: the colors that the truck's lamps have,
gravest first, and the lamps of each, with symbol, name, act and the way to their text.
Refuses to repeat what a lamp means and what to do about it: that stands in one place.
"""

from collections.abc import Iterator

from markupsafe import Markup

from guidegen.figures.compose import figure_of
from guidegen.figures.draw_svg import draw_svg
from guidegen.guide.model import Procedure
from guidegen.procedures.words import LAMP_ACTS, LAMPS_IN_GENERAL
from guidegen.site.lamp_views import LampColorView, LampFinderView, TileView
from guidegen.site.lay_out import LAMPS_PAGE, Layout, lamp_colors, pick_of
from guidegen.site.views import Link, Worded


class LampWithoutSymbol(ValueError):
    """A lamp has no drawing, and nobody could find it by its shape."""


def lay_out_lamps(layout: Layout) -> LampFinderView:
    """Return the view of the lamp finder; a truck without lamps on record has an empty one."""
    return LampFinderView(
        head=layout.head("lamp_finder"),
        colors=tuple(_color(layout, color) for color in lamp_colors(layout.guide)),
        onward=layout.onward(LAMPS_PAGE),
    )


def _color(layout: Layout, color: str) -> LampColorView:
    procedures = list(_procedures(layout))
    general = next((each for each in procedures if each.id == LAMPS_IN_GENERAL.get(color)), None)
    return LampColorView(
        pick=pick_of(color),
        tiles=tuple(
            _tile(layout, procedure)
            for procedure in procedures
            if procedure.lamp is not None and procedure.lamp.color == color
        ),
        general=None if general is None else _link(layout, general),
    )


def _procedures(layout: Layout) -> Iterator[Procedure]:
    for chapter in layout.guide.chapters:
        yield from chapter.procedures


def _tile(layout: Layout, procedure: Procedure) -> TileView:
    figure = figure_of(procedure, layout.guide.facts)
    if figure is None or procedure.lamp is None:
        raise LampWithoutSymbol(procedure.id)
    act = procedure.lamp.act
    link = _link(layout, procedure)
    return TileView(
        id=procedure.id,
        href=link.href,
        name=link.words,
        kind=figure.kind,
        symbol=Markup(draw_svg(figure, layout.texts.words)),  # noqa: S704 -- it escapes all words itself
        act=Worded(act, LAMP_ACTS[act]),
    )


def _link(layout: Layout, procedure: Procedure) -> Link:
    href = layout.procedure_page(procedure.id)
    words = layout.texts.text(procedure.title).words
    return Link(href, "data-procedure-link", procedure.id, words)
