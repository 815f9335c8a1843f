"""From a guide to the view of its lamp finder.

Takes in the layout of a guide; gives out the view: the colors that the truck's lamps have,
gravest first, and the lamps of each, with symbol, name, act and the way to their text.
Refuses to repeat what a lamp means and what to do about it: that stands in one place.
"""

from collections.abc import Iterator

from guidegen.procedures.words import LAMP_ACTS, LAMPS_IN_GENERAL
from guidegen.site.draw_procedures import DrawnProcedure
from guidegen.site.lamp_views import LampColorView, LampFinderView, TileView
from guidegen.site.lay_out import Layout, pick_of
from guidegen.site.views import Worded
from guidegen.site.ways import LAMPS_PAGE, page_head


class LampWithoutSymbol(ValueError):
    """A lamp has no drawing, and nobody could find it by its shape."""


def lay_out_lamps(layout: Layout) -> LampFinderView:
    """Return the view of the lamp finder; a truck without lamps on record has an empty one."""
    return LampFinderView(
        head=page_head("lamp_finder"),
        colors=tuple(_color(layout, color) for color in layout.ways.colors),
        onward=layout.ways.onward(LAMPS_PAGE),
    )


def _color(layout: Layout, color: str) -> LampColorView:
    general = LAMPS_IN_GENERAL.get(color)
    return LampColorView(
        pick=pick_of(color),
        tiles=tuple(_tiles(layout, color)),
        general=layout.procedure_link(general) if general and general in layout.drawn else None,
    )


def _tiles(layout: Layout, color: str) -> Iterator[TileView]:
    for drawn in layout.drawn.values():
        lamp = drawn.procedure.lamp
        if lamp is not None and lamp.color == color:
            yield _tile(layout, drawn, lamp.act)


def _tile(layout: Layout, drawn: DrawnProcedure, act: str) -> TileView:
    id_, figure = drawn.procedure.id, drawn.figure
    if figure is None:
        raise LampWithoutSymbol(id_)
    link = layout.procedure_link(id_)
    return TileView(
        id=id_,
        href=link.href,
        name=link.words,
        kind=figure.kind,
        symbol=figure.drawing,
        act=Worded(act, LAMP_ACTS[act]),
    )
