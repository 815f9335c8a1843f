"""The plan shows the numbers of the list, at their places, in print and at night."""

import re
from collections.abc import Mapping
from dataclasses import replace
from itertools import combinations
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.procedures.words import STATIONS
from guidegen.round.draw_svg import draw_svg, round_svg
from guidegen.round.figures import Anchor, Dot, Writing
from guidegen.round.model import Leg, Reason, ReasonKind, Round, Stop
from guidegen.round.plan_view import LARGE, PlanView, marks_of, numbers_in_words, view_round
from guidegen.round.positions import Footprint
from guidegen.round.truck_figure import SMALL

SVG = "{http://www.w3.org/2000/svg}"


def shown(words: str) -> list[int]:
    """Read numbers and ranges back, as a driver does."""
    found: list[int] = []
    for part in words.split(", "):
        begin, _, end = part.partition("\N{EN DASH}")
        found += range(int(begin), int(end or begin) + 1)
    return found


def lines(view: PlanView) -> list[Writing]:
    return [figure for figure in view.figures if isinstance(figure, Writing)]


def numbers_beside_words(view: PlanView) -> dict[str, list[int]]:
    """Read the labels off the drawing: bold lines of numbers, then the words of the place."""
    found: dict[str, list[int]] = {}
    numbers, words = "", ""
    for line in lines(view):
        if line.size == LARGE:
            numbers, words = (f"{numbers} {line.text}" if not words else line.text), ""
        elif numbers:
            words = f"{words} {line.text}".strip()
        if words in STATIONS.values():
            found[words] = shown(numbers.strip())
            numbers, words = "", ""
    return found


def test_numbers_on_the_plan_are_the_numbers_of_the_list(tour: Round) -> None:
    expected: dict[str, list[int]] = {}
    for stop in tour.stops:
        expected.setdefault(STATIONS[stop.station], []).append(stop.number)

    assert numbers_beside_words(view_round(tour)) == expected


@given(st.sets(st.integers(1, 60), min_size=1))
def test_numbers_in_words_are_read_back_as_they_were(numbers: set[int]) -> None:
    assert shown(numbers_in_words(sorted(numbers))) == sorted(numbers)


def box_of(line: Writing) -> tuple[float, float, float, float]:
    """Guess the box of a line: 0.54 of its height a letter.

    Atkinson Hyperlegible, as Chromium sets these words, takes 0.45.
    """
    width = len(line.text) * line.size * 0.54
    left = {Anchor.LEFT: 0.0, Anchor.MIDDLE: width / 2, Anchor.RIGHT: width}[line.anchor]
    return (
        line.x - left,
        line.y - line.size * 0.8,
        line.x - left + width,
        line.y + line.size * 0.2,
    )


def everywhere(length: int) -> Round:
    """Return a round with many stops at every station: the most that a plan must hold."""
    stations = list(STATIONS) * 3
    stops = tuple(
        Stop(
            number=number,
            procedure="look",
            step=None,
            station=station,
            state=(),
            millimeters=0,
            reasons=(Reason(ReasonKind.ANY_TIME),),
        )
        for number, station in enumerate(stations, start=1)
    )
    truck = Footprint(length, 2590, 1700, 3300, 2400, 1000, (), is_length_known=True)
    return Round(stops, tuple(Leg(0, ()) for _ in stops), 0, 0, (), truck)


def assert_nothing_overlaps(view: PlanView) -> None:
    boxes = [(line.text, box_of(line)) for line in lines(view)]
    for text, (left, top, right, bottom) in boxes:
        assert left >= 0, text
        assert top >= 0, text
        assert right <= view.width, text
        assert bottom <= view.height, text
    for dot in (figure for figure in view.figures if isinstance(figure, Dot)):
        x, y, radius = dot.x, dot.y, dot.radius
        boxes.append(("a dot", (x - radius, y - radius, x + radius, y + radius)))
    for (one, a), (other, b) in combinations(boxes, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, (one, other)


def test_no_writing_of_a_demo_plan_is_cut_off_or_covers_another(tour: Round) -> None:
    assert_nothing_overlaps(view_round(tour))


@pytest.mark.parametrize("length", [3048, 5000, 8500, 12000, 22860])
def test_no_writing_is_cut_off_or_covers_another_however_many_stops(length: int) -> None:
    assert_nothing_overlaps(view_round(everywhere(length)))


def test_the_svg_is_well_formed_and_has_a_title_and_the_same_in_words(tour: Round) -> None:
    root = ET.fromstring(round_svg(tour))  # noqa: S314 -- our own text
    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")

    assert title is not None
    assert description is not None
    assert root.get("aria-labelledby") == f"{title.get('id')} {description.get('id')}"
    assert root.get("role") == "img"
    assert title.text
    for mark in marks_of(tour):
        words = f"{STATIONS[mark.station]}: {numbers_in_words(mark.numbers)}."
        assert words in (description.text or "")


def test_the_svg_takes_its_color_and_size_from_where_it_stands(tour: Round) -> None:
    text = round_svg(tour)
    root = ET.fromstring(text)  # noqa: S314 -- our own text
    colors = {
        value
        for element in root.iter()
        for name, value in element.attrib.items()
        if name in ("fill", "stroke")
    }

    assert colors == {"currentColor", "none"}
    assert "style" not in text
    assert root.get("viewBox")
    assert root.get("width") is None
    assert root.get("height") is None
    assert not re.search(r"#[0-9a-f]{3,6}\b|rgb\(|https?://(?!www\.w3\.org/2000/svg)", text)


def test_writing_is_large_enough_on_a_tablet_of_800_pixels(tour: Round) -> None:
    """WCAG 2.2 calls 18 point, which is 24 pixels, large text; numbers are larger than that."""
    view = view_round(tour)
    sizes = {line.size for line in lines(view)}

    assert sizes == {LARGE, SMALL}
    assert LARGE * 800 / view.width >= 24
    assert SMALL * 800 / view.width >= 24


def test_texts_of_the_svg_are_the_writings_of_the_view(tour: Round) -> None:
    view = view_round(tour)
    root = ET.fromstring(draw_svg(view))  # noqa: S314 -- our own text

    assert [element.text for element in root.iter(f"{SVG}text")] == [w.text for w in lines(view)]


def test_nothing_of_a_plan_names_a_truck(tours: Mapping[str, Round]) -> None:
    for number, tour in tours.items():
        assert number not in round_svg(tour)


def test_markup_in_words_is_escaped() -> None:
    view = view_round(everywhere(8500))
    hostile = replace(view, title='<script>&"', description="a < b & c")
    root = ET.fromstring(draw_svg(hostile))  # noqa: S314 -- our own text

    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert description is not None
    assert (title.text, description.text) == ('<script>&"', "a < b & c")


def test_a_plan_is_drawn_the_same_each_time(tour: Round) -> None:
    assert round_svg(tour) == round_svg(tour)
