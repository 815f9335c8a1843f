"""The plan of a round: the truck from above, with the numbers of the stops where they are.

Takes in a round; gives out a drawing as plain shapes and writings, front up.
Refuses colors and languages of drawing: whoever draws it chooses them.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from guidegen.procedures.words import STATIONS
from guidegen.round.figures import Anchor, Dot, Figure, Line, Stroke, Writing
from guidegen.round.ground import AROUND
from guidegen.round.model import Round
from guidegen.round.positions import REACH, walk_of
from guidegen.round.truck_figure import SMALL, WIDTH, Scale, draw_truck, draw_walk

LARGE = 33
"""Height of the numbers."""

TITLE = "Inspection round, seen from above"

_COLUMN = 222
_TOP = 16
_LINE = 1.16
_NUMBERS_A_LINE = 12
_WORDS_A_LINE = 17
_GAP = 14
_TO = "\N{EN DASH}"


@dataclass(frozen=True, slots=True)
class Mark:
    """The stops at one station."""

    station: str
    """Key of `guidegen.procedures.words.STATIONS`."""

    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PlanView:
    """A drawing in units of its own, from the upper left corner."""

    width: float
    height: float
    title: str
    description: str
    """The same in words, for those who do not see the drawing."""

    marks: tuple[Mark, ...]
    figures: tuple[Figure, ...]
    """In the order of drawing."""

    @property
    def writings(self) -> tuple[Writing, ...]:
        """All that is written in it, in the order of drawing."""
        return tuple(figure for figure in self.figures if isinstance(figure, Writing))


@dataclass(frozen=True, slots=True)
class _Label:
    """The writing beside or below a place."""

    mark: Mark
    to: tuple[float, float]
    """The place."""

    @property
    def lines(self) -> tuple[tuple[str, int], ...]:
        """Each line with its height, numbers first."""
        numbers = _wrapped(numbers_in_words(self.mark.numbers).split(" "), _NUMBERS_A_LINE)
        # Above and below the truck there is room for the words on one line.
        longest = WIDTH if self.mark.station in ("front", "rear") else _WORDS_A_LINE
        words = _wrapped(STATIONS[self.mark.station].split(" "), longest)
        return (*((line, LARGE) for line in numbers), *((line, SMALL) for line in words))

    @property
    def height(self) -> float:
        return sum(size * _LINE for _, size in self.lines)


@lru_cache(maxsize=64)  # whoever draws it and whoever proves it ask one after the other
def view_round(tour: Round) -> PlanView:
    """Return the plan of *tour*."""
    marks = marks_of(tour)
    above = [_Label(mark, (0, 0)).height for mark in marks if mark.station == "front"]
    scale = Scale(tour.truck, _TOP + sum(above) + (_GAP if above else 0))
    sides: dict[Anchor, list[_Label]] = {anchor: [] for anchor in Anchor}
    for mark in marks:
        label, side = _label(mark, scale)
        sides[side].append(label)
    end = scale.along(tour.truck.length + REACH)
    figures: list[Figure] = [*draw_truck(scale)]
    if any(mark.station == AROUND for mark in marks):
        figures += draw_walk(scale)
    middle, bottom = _in_the_middle(sides[Anchor.MIDDLE], end)
    left, left_end = _in_a_column(sides[Anchor.RIGHT], _COLUMN, Anchor.RIGHT)
    right, right_end = _in_a_column(sides[Anchor.LEFT], WIDTH - _COLUMN, Anchor.LEFT)
    height = max(bottom, left_end, right_end, end) + _GAP
    figures += [*middle, *left, *right]
    return PlanView(WIDTH, height, TITLE, _description(marks), marks, tuple(figures))


def marks_of(tour: Round) -> tuple[Mark, ...]:
    """Return the stops by station, in the order of the closed list."""
    numbers: dict[str, list[int]] = {}
    for stop in tour.stops:
        numbers.setdefault(stop.station, []).append(stop.number)
    return tuple(
        Mark(station, tuple(numbers[station])) for station in STATIONS if station in numbers
    )


def numbers_in_words(numbers: Sequence[int]) -> str:
    """Return *numbers*, with a dash between the ends of three or more in a row.

    >>> numbers_in_words([1, 9, 10])
    '1, 9, 10'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    shown: list[str] = []
    for run in runs:
        is_range = len(run) > 2  # noqa: PLR2004 -- two numbers are as short as a range
        shown += [f"{run[0]}{_TO}{run[-1]}"] if is_range else map(str, run)
    return ", ".join(shown)


def _description(marks: Iterable[Mark]) -> str:
    places = (f"{STATIONS[mark.station]}: {numbers_in_words(mark.numbers)}." for mark in marks)
    return " ".join(["The truck with its front up, and the numbers of the stops.", *places])


def _label(mark: Mark, scale: Scale) -> tuple[_Label, Anchor]:
    """Return the label of *mark* and the side on which it stands."""
    truck = scale.truck
    walk = scale.across(truck.width / 2 + REACH)
    if mark.station == AROUND:
        return _Label(mark, (walk, scale.along(truck.length * 0.3))), Anchor.LEFT
    place = walk_of(truck).places[mark.station]
    if mark.station in ("front", "rear"):
        beyond = -REACH if mark.station == "front" else REACH
        return _Label(mark, (WIDTH / 2, scale.along(place.x + beyond))), Anchor.MIDDLE
    across = scale.across(place.y) if mark.station == "cab" else WIDTH - walk
    if mark.station in ("outlet", "pump"):
        # Off the walk, but there is no room for how far; nobody knows it anyway.
        across -= 22
    if place.y > 0:
        return _Label(mark, (walk, scale.along(place.x))), Anchor.LEFT
    return _Label(mark, (across, scale.along(place.x))), Anchor.RIGHT


def _in_a_column(labels: Iterable[_Label], x: float, anchor: Anchor) -> tuple[list[Figure], float]:
    """Write *labels* below one another, each as near to its place as the others leave room for."""
    figures: list[Figure] = []
    below = 0.0
    in_order = sorted(labels, key=lambda label: label.to[1])
    for label, top in zip(in_order, _tops(in_order), strict=True):
        level = min(max(label.to[1], top + LARGE / 2), top + label.height - LARGE / 2)
        begin = (x + (8 if anchor is Anchor.RIGHT else -8), level)
        figures += [Line((begin, label.to), Stroke.FINE), Dot(*label.to, 8)]
        figures += _written(label, x, top, anchor)
        below = top + label.height + _GAP
    return figures, below


def _tops(labels: Sequence[_Label]) -> list[float]:
    """Return where each label begins: as near to their places as they all can be.

    Labels that would overlap are pushed apart as one block, up as far as down, but not over the
    upper edge.
    """
    blocks: list[tuple[list[_Label], float]] = []
    for label in labels:
        block, top = [label], max(label.to[1] - label.height / 2, 0.0)
        while blocks and blocks[-1][1] + _height(blocks[-1][0]) > top:
            block = blocks.pop()[0] + block
            top = max(_best_top(block), 0.0)
        blocks.append((block, top))
    tops: list[float] = []
    for block, top in blocks:
        tops += [top + _height(block[:number]) for number in range(len(block))]
    return tops


def _best_top(block: Sequence[_Label]) -> float:
    """Return where *block* begins if its labels are to be as near to their places as can be."""
    wanted = [
        label.to[1] - label.height / 2 - _height(block[:number])
        for number, label in enumerate(block)
    ]
    return sum(wanted) / len(wanted)


def _height(block: Sequence[_Label]) -> float:
    return sum(label.height + _GAP for label in block)


def _in_the_middle(labels: Iterable[_Label], end: float) -> tuple[list[Figure], float]:
    """Write what is in front above the truck, and what is behind below it."""
    figures: list[Figure] = []
    bottom = end
    for label in labels:
        top = end + _GAP
        if label.mark.station == "front":
            top = label.to[1] - _GAP - label.height
        else:
            bottom = top + label.height
        figures += [Dot(*label.to, 8), *_written(label, WIDTH / 2, top, Anchor.MIDDLE)]
    return figures, bottom


def _written(label: _Label, x: float, top: float, anchor: Anchor) -> list[Figure]:
    figures: list[Figure] = []
    base = top
    for number, (text, size) in enumerate(label.lines, start=1):
        base += size * _LINE
        key = f"{label.mark.station}.{number}"
        figures.append(Writing(x, base - size * 0.25, text, size, anchor, size == LARGE, key))
    return figures


def _wrapped(words: Iterable[str], longest: int) -> list[str]:
    lines: list[str] = []
    for word in words:
        if lines and len(lines[-1]) + 1 + len(word) <= longest:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines
