"""Whether the plan of an inspection round is as the round says.

Takes in what was read of the page's drawings and what the plan must show; records elements that
are missing, moved, added or of another look, and numbers that stand at another station.
Refuses to trust the drawing's own words: every line of numbers is read back into stops.
"""

import itertools
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import assert_never

from guidegen.procedures.words import STATIONS
from guidegen.proof import rules
from guidegen.proof.faults import Faults
from guidegen.proof.marks import LETTERING, Holder, Mark
from guidegen.proof.model import Drawing, Drawn, Reading, Within
from guidegen.proof.round_claims import RoundClaims
from guidegen.round.figures import Anchor, Box, Dot, Figure, Line, Shape, Stroke, Writing

PLAN = "round-plan"
"""What the figure of the plan is marked as."""

_SEE_DRAWING = "repair what draws the plan; its numbers are held against the round apart from it"
_SEE_STYLE = "take what hides it out of the stylesheet or page template, or narrow its selector"
_MARK = f'{Holder.FIGURE.value}="{PLAN}"'
_INK = "currentcolor"
_TITLE, _DESCRIPTION = f"{PLAN}-title", f"{PLAN}-description"
_RANGE = re.compile(r"(\d+)(?:\N{EN DASH}(\d+))?")

Attributes = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Plan:
    """The plan on one page, held against its round."""

    claims: RoundClaims
    faults: Faults

    def compare(self, drawings: Sequence[Drawing], readings: Iterable[Reading]) -> None:
        """Hold the drawings of the page, and the words in them, against the round."""
        plans = [each for each in drawings if each.within == Within(figure=PLAN)]
        if not plans:
            self._add("there is no plan")
        if len(drawings) > 1 or len(plans) != len(drawings):
            self._add("a drawing stands where the round has none")
        for drawing in plans[:1]:
            self._compare_parts(drawing)
        written = [e for e in readings if e.claim.mark in (Mark.PLAN, Mark.PLAN_WORDS)]
        self._compare_writing(written)
        self._compare_numbers(written)

    def _compare_parts(self, drawing: Drawing) -> None:
        expected = tuple(_parts_of(self.claims))
        pairs = itertools.zip_longest(drawing.parts, expected)
        for number, (read, wanted) in enumerate(pairs, start=1):
            if _plain(read) != wanted:
                self._add(f"element {number} is {_shown(read)} and not {_shown(wanted)}")
                break
        if drawing.hidden:
            what = f"a part of it cannot be seen as it stands there, by {drawing.hidden}"
            self.faults.add(rules.FIGURE_HIDDEN, what, fix=_SEE_STYLE, mark=_MARK)

    def _compare_writing(self, written: Sequence[Reading]) -> None:
        """Hold which words stand there against those that must; what they say is held apart."""
        wanted = [
            (Mark.PLAN_WORDS, "title"),
            (Mark.PLAN_WORDS, "description"),
            *((Mark.PLAN, line.key) for line in self.claims.plan.writings),
        ]
        found = [reading.claim[:2] for reading in written]
        if found != wanted:
            places = itertools.zip_longest(found, wanted)
            read, expected = next((a, b) for a, b in places if a != b)
            self._add(f"says {_named(read)} where {_named(expected)} belongs")
        for reading in written:
            if reading.claim.within != Within(figure=PLAN):
                self._add(f"`{reading.text}` does not stand in the plan")

    def _compare_numbers(self, written: Sequence[Reading]) -> None:
        """Read the numbers at each station back, off the plan and out of its words."""
        beside: dict[str, list[str]] = {}
        description = ""
        for reading in written:
            station, _, line = reading.claim.key.rpartition(".")
            if reading.claim.mark is Mark.PLAN and line.isdigit():
                beside.setdefault(station, []).append(reading.text)
            elif reading.claim[:2] == (Mark.PLAN_WORDS, "description"):
                description = reading.text
        for station in {**self.claims.places, **beside}:
            wanted = self.claims.places.get(station, ())
            words = STATIONS.get(station, "")
            label = " ".join(beside.get(station, ()))
            if _numbers(label.removesuffix(words)) != wanted or not label.endswith(words):
                self._add(f"says `{label}` {words}, and the stops there are {wanted}")
            told = description.partition(f" {words}: ")[2].partition(".")[0]
            if _numbers(told) != wanted:
                self._add(f"tells of `{told}` {words}, and the stops there are {wanted}")

    def _add(self, what: str) -> None:
        rule = rules.FIGURE_MISSING if what == "there is no plan" else rules.FIGURE_DIFFERS
        self.faults.add(rule, what, fix=_SEE_DRAWING, mark=_MARK)


def _numbers(words: str) -> tuple[int, ...]:
    """Read numbers and ranges, as a driver does; nothing if anything else stands there."""
    found: list[int] = []
    for part in words.strip().split(", "):
        read = _RANGE.fullmatch(part)
        if read is None:
            return ()
        found += range(int(read[1]), int(read[2] or read[1]) + 1)
    return tuple(found)


def _plain(part: Drawn | None) -> Drawn | None:
    """Return *part* with its ink in small letters, and no more changed than that."""
    if part is None:
        return None
    kept = ((name, _INK if value.lower() == _INK else value) for name, value in part.attributes)
    return Drawn(part.tag, tuple(kept))


def _parts_of(claims: RoundClaims) -> Iterator[Drawn]:
    """Yield the elements of the plan, its frame and the words for those who do not see it first."""
    plan = claims.plan
    yield _element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewbox": f"0 0 {_n(plan.width)} {_n(plan.height)}",
            "role": "img",
            "aria-labelledby": f"{_TITLE} {_DESCRIPTION}",
            "fill": "none",
            "stroke": _INK,
            "stroke-linecap": "round",
            "stroke-linejoin": "round",
        },
    )
    yield _element("title", {"id": _TITLE})
    yield _element("desc", {"id": _DESCRIPTION})
    yield from map(_part_of, plan.figures)


def _part_of(figure: Figure) -> Drawn:
    match figure:
        case Box(x, y, width, height, corner, stroke):
            place = {"x": _n(x), "y": _n(y), "width": _n(width), "height": _n(height)}
            look = _SOLID if stroke is None else _LINES[stroke]
            return _element("rect", {**place, "rx": _n(corner), **look})
        case Line(points, stroke):
            return _element("polyline", {"points": _points(points), **_LINES[stroke]})
        case Shape(points):
            return _element("polygon", {"points": _points(points), **_SOLID})
        case Dot(x, y, radius):
            return _element("circle", {"cx": _n(x), "cy": _n(y), "r": _n(radius), **_SOLID})
        case Writing():
            return _lettering(figure)
        case _:
            assert_never(figure)


def _lettering(writing: Writing) -> Drawn:
    weight = {"font-weight": "700"} if writing.is_bold else {}
    place = {"x": _n(writing.x), "y": _n(writing.y), "font-size": str(writing.size)}
    anchor = {Anchor.LEFT: "start", Anchor.MIDDLE: "middle", Anchor.RIGHT: "end"}[writing.anchor]
    return _element(LETTERING, {**place, "text-anchor": anchor, **weight, **_SOLID})


_SOLID: Attributes = {"fill": _INK, "stroke": "none"}
_LINES: Mapping[Stroke, Attributes] = {
    Stroke.BOLD: {"stroke-width": "4"},
    Stroke.FINE: {"stroke-width": "2"},
    Stroke.DASHED: {"stroke-width": "3", "stroke-dasharray": "12 9"},
}


def _points(points: Iterable[tuple[float, float]]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _n(number: float) -> str:
    """Return *number* in tenths, as short as it can be written."""
    tenths = round(float(number), 1)
    return str(int(tenths)) if tenths.is_integer() else str(tenths)


def _element(tag: str, attributes: Attributes) -> Drawn:
    return Drawn(tag, tuple(sorted(attributes.items())))


def _named(words: tuple[Mark, str] | None) -> str:
    return "nothing" if words is None else f'`{words[0].value}="{words[1]}"`'


def _shown(part: Drawn | None) -> str:
    if part is None:
        return "missing"
    return f"`<{' '.join((part.tag, *(f'{name}={value}' for name, value in part.attributes)))}>`"
