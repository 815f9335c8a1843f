"""What was read of a PDF.

Takes in nothing; gives out sides, their texts and drawn objects as frozen values.
Refuses to tell words from more words: texts are as the file has them, in its order.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

Point = tuple[float, float]


class Box(NamedTuple):
    """A rectangle in points of 1/72 inch, from the lower left corner of the paper."""

    left: float
    bottom: float
    right: float
    top: float

    def grown(self, by: float) -> "Box":
        """Return it with every side further out."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def holds(self, other: "Box", slack: float = 0) -> bool:
        """Whether all of *other*, but for *slack*, is in it."""
        return (
            other.left >= self.left - slack
            and other.bottom >= self.bottom - slack
            and other.right <= self.right + slack
            and other.top <= self.top + slack
        )

    def touches(self, other: "Box", least: float = 0.3) -> bool:
        """Whether the two share more than *least* points in width and in height."""
        left, bottom, right, top = self
        # The most common answer first: asked of every pair of a side's texts and drawings.
        if right - other.left <= least or top - other.bottom <= least:
            return False
        return (
            min(right, other.right) - max(left, other.left) > least
            and min(top, other.top) - max(bottom, other.bottom) > least
        )

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom


def around(boxes: Sequence[Box]) -> Box:
    """Return the least box that holds all of *boxes*, of which there is one at least."""
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return Box(min(lefts), min(bottoms), max(rights), max(tops))


class TextRead(NamedTuple):
    """Letters that are drawn in one go."""

    place: int
    """Among all objects of the side, in the order of drawing."""

    text: str
    box: Box
    """Of the ink."""

    baseline: float
    points: float
    """Height of type as printed; the smaller where it is stretched."""

    font: str
    is_embedded: bool
    color: tuple[int, int, int]
    hidden: str
    """What keeps the letters from being seen as they are read; empty if nothing does."""

    is_head: bool
    """Whether it is marked as standing on each side, apart from the body."""


class DrawnRead(NamedTuple):
    """Lines, shapes or a picture."""

    place: int
    is_path: bool
    """Lines and shapes; else a picture of dots, or something stranger."""

    fills: bool
    strokes: bool
    is_plain: bool
    """Whether it has no more than a few segments: a line, a border, a ground."""

    box: Box
    """Of the ink, half a stroke too wide at most."""

    color: tuple[int, int, int]
    """Of the filling."""

    is_artifact: bool
    ends: tuple[Point, ...]
    """Of the segments of a picture, on its own grid."""

    picture: str = ""
    """SHA-256 of the file that a picture of dots is, as it was put in; empty for all else."""

    coded: bytes = b""
    """That file."""


class LinkRead(NamedTuple):
    """A link to a page of the same file."""

    box: Box
    side: int
    """That it leads to, from 0."""


Object = TextRead | DrawnRead


@dataclass(frozen=True, slots=True)
class SideRead:
    """One page."""

    paper: Box
    """Its media box."""

    trim: Box | None
    """Its trim box, if it states one."""

    visible: Box
    """Its crop box: what viewers show."""

    is_turned: bool
    """Whether it is shown turned."""

    annotations: int
    """Notes, links to elsewhere and the like, but for `links`."""

    objects: tuple[Object, ...]
    spoken: tuple[str, ...]
    """Read aloud in place of pictures."""

    links: tuple[LinkRead, ...] = ()

    @property
    def texts(self) -> tuple[TextRead, ...]:
        """The texts alone."""
        return tuple(each for each in self.objects if isinstance(each, TextRead))

    @property
    def drawn(self) -> tuple[DrawnRead, ...]:
        """All but texts."""
        return tuple(each for each in self.objects if isinstance(each, DrawnRead))
