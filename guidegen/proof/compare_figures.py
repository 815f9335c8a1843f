"""Whether drawings show what the guide draws.

Takes in the drawings read of a page and the figures of its edition; records every element that is
missing, moved, added, covered or of another look. Refuses to tell harmless differences from
harmful ones: a drawing is as its figure says, element by element, or it fails.
"""

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import assert_never

from guidegen.figures.lamp_color import LAMP_COLOR, mark_of_color
from guidegen.figures.model import Box, Circle, Curve, Figure, Line, Picture, Shape, Written
from guidegen.proof import rules
from guidegen.proof.claims import EditionClaims, PageClaims
from guidegen.proof.faults import Faults
from guidegen.proof.marks import LETTERING, Holder, Mark
from guidegen.proof.model import Drawing, Drawn, Within
from guidegen.source import Span

_SEE_DRAWING = "repair what draws the figure; its values are held against the facts apart from it"
_SEE_STYLE = "take what hides it out of the stylesheet or page template, or narrow its selector"

_INK = "currentcolor"

Attributes = Mapping[str, str | int]


@dataclass(frozen=True, slots=True)
class Figures:
    """The drawings of one page held against those that must be there."""

    wanted: Mapping[Within, Picture]
    """By the elements that each stands in."""

    faults: Faults

    def compare(self, drawings: Sequence[Drawing]) -> None:
        """Hold every drawing against its figure, and look for those that are not there."""
        seen = list[Within]()
        for drawing in drawings:
            figure = self.wanted.get(drawing.within)
            if figure is None or drawing.within in seen:
                self._add(drawing.within, "stands where the guide has no drawing")
            else:
                self._compare_parts(drawing, figure)
            seen.append(drawing.within)
        for within in self.wanted:
            if within not in seen:
                self._add(within, "there is no drawing")

    def _compare_parts(self, drawing: Drawing, figure: Picture) -> None:
        expected = tuple(_parts_of(figure))
        for number, (read, wanted) in enumerate(
            itertools.zip_longest(drawing.parts, expected), start=1
        ):
            if _plain(read) != wanted:
                self._add(
                    drawing.within,
                    f"element {number} is {_shown(read)} and not {_shown(wanted)}",
                )
                break
        if drawing.hidden:
            self.faults.add(
                rules.FIGURE_HIDDEN,
                f"a part of it cannot be seen as it stands there, by {drawing.hidden}",
                fix=_SEE_STYLE,
                span=_span_of(figure),
                mark=_mark(drawing.within),
            )

    def _add(self, within: Within, what: str) -> None:
        rule = rules.FIGURE_MISSING if what == "there is no drawing" else rules.FIGURE_DIFFERS
        span = _span_of(self.wanted.get(within))
        self.faults.add(rule, what, fix=_SEE_DRAWING, span=span, mark=_mark(within))


def figures_on(page: PageClaims, claims: EditionClaims) -> Iterator[tuple[Within, Picture]]:
    """Yield the drawings that *page* must show, by the elements that each stands in."""
    for claim in page.sequence:
        figure = claims.figures.get(claim.within.procedure)
        if figure is not None and claim.mark is Mark.TEXT and claim.key == figure.alt.id:
            yield claim.within, figure
    for claim in page.loose:
        if claim.within.pick:
            yield claim.within._replace(figure=LAMP_COLOR), mark_of_color(claim.key)


def _span_of(figure: Picture | None) -> Span | None:
    return figure.alt.span if isinstance(figure, Figure) else None


def _mark(within: Within) -> str:
    holders = {
        Holder.PROCEDURE: within.procedure,
        Holder.PICK: within.pick,
        Holder.COLOR: within.color,
        Holder.TILE: within.tile,
        Holder.FIGURE: within.figure,
    }
    return " ".join(f'{holder.value}="{key}"' for holder, key in holders.items() if key)


def _plain(part: Drawn | None) -> Drawn | None:
    """Return *part* with its ink in small letters, and no more changed than that."""
    if part is None:
        return None
    kept = ((name, _INK if value.lower() == _INK else value) for name, value in part.attributes)
    return Drawn(part.tag, tuple(kept))


def _parts_of(figure: Picture) -> Iterator[Drawn]:
    """Yield the elements that a drawing of *figure* is made of, its frame first."""
    yield _element(
        "svg",
        {
            "viewbox": f"0 0 {figure.width} {figure.height}",
            "width": figure.width,
            "height": figure.height,
            "class": "gg-figure__drawing",
            "aria-hidden": "true",
            "focusable": "false",
        },
    )
    yield from map(_part_of, figure.shapes)
    yield from map(_lettering, figure.writing)


def _part_of(shape: Shape) -> Drawn:
    match shape:
        case Line(x1, y1, x2, y2):
            place: Attributes = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
            return _element("line", {**place, **_look(shape)})
        case Circle(x, y, radius):
            return _element("circle", {"cx": x, "cy": y, "r": radius, **_look(shape)})
        case Box(x, y, along, height, rounding):
            place = {"x": x, "y": y, "width": along, "height": height, "rx": rounding}
            return _element("rect", {**place, **_look(shape)})
        case Curve(path):
            return _element("path", {"d": path, **_look(shape)})
        case _:
            assert_never(shape)


def _look(shape: Shape) -> Attributes:
    is_solid = not isinstance(shape, Line) and shape.solid
    return {"fill": _INK if is_solid else "none", "stroke": _INK, "stroke-width": shape.width}


def _lettering(written: Written) -> Drawn:
    place: Attributes = {
        "x": written.x,
        "y": written.y,
        "text-anchor": written.anchor,
        "fill": _INK,
    }
    return _element(LETTERING, place)


def _element(tag: str, attributes: Attributes) -> Drawn:
    return Drawn(tag, tuple(sorted((name, str(value)) for name, value in attributes.items())))


def _shown(part: Drawn | None) -> str:
    if part is None:
        return "missing"
    return f"`<{' '.join((part.tag, *(f'{name}={value}' for name, value in part.attributes)))}>`"
