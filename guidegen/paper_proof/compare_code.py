"""Whether the code on a side can be read by a camera, and where it leads.

Takes in one side and pictures of it; records a code that is missing, leads elsewhere, is too
small or too weak, or has other print in its quiet zone. Refuses to take a code for sound because a
reader of codes reads it: readers read codes without any quiet zone.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import ceil, hypot
from typing import Any

import zxingcpp
from PIL import Image, ImageFilter

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.compare_ink import MILLIMETER
from guidegen.paper_proof.sheet_model import Box, SideRead
from guidegen.proof.faults import Faults

DOTS_PER_INCH = 150
"""What is left of a code before the camera of a cheap tablet, at arm's length; common practice."""

DOTS_FOR_MEASURING = 300
"""Per inch: six to a module, so that its edges are found to a sixth of it."""

BLUR = 1
"""Dots: a third of a module, as of a shaking hand; common practice, no source."""

QUIET = 4
"""Modules of white on all sides; ISO/IEC 18004."""

LEAST_MODULE = 0.5
"""Millimeters; common practice, no source."""

LEVEL = "Q"
"""A quarter of the code may be lost; ISO/IEC 18004."""

_CODES = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
_SMALLEST = 6 * MILLIMETER
_SLACK = 0.98
_LIGHT = 200
"""Of 255: paper, whatever the picture makes of its edges."""

Picture = Callable[[Box, int], Image.Image]
"""From a part of the side and dots per inch to its picture."""


@dataclass(frozen=True, slots=True)
class CodeRead:
    """A code as a reader reads it."""

    says: str
    level: str
    modules: int
    corners: tuple[tuple[float, float], ...]
    """In dots of the picture: upper left, upper right, lower right, lower left."""

    @property
    def side(self) -> float:
        """The shortest of its sides, in dots."""
        ends = zip(self.corners, (*self.corners[1:], self.corners[0]), strict=True)
        return min(hypot(one[0] - two[0], one[1] - two[1]) for one, two in ends)


def compare_code(
    side: SideRead, trim: Box, link: str, picture: Picture, faults: "CodeFaults"
) -> int:
    """Hold the code on *side* against *link*; return its modules in a row, 0 if it has faults."""
    for area in _areas(side, trim):
        seen = picture(area, DOTS_PER_INCH)
        read = read_code(seen)
        if read is None:
            continue
        blurred = read_code(seen.filter(ImageFilter.GaussianBlur(BLUR)))
        sharp = picture(area, DOTS_FOR_MEASURING)
        measured = read_code(sharp) or read
        found = [
            *_faults_of_words(read, blurred, link),
            *_faults_of_size(measured, sharp, _paper_in(area, trim, sharp)),
        ]
        for rule, what in found:
            faults.add(rule, what)
        return 0 if found else measured.modules
    faults.add(rules.CODE_MISSING, "has no code that a reader of codes finds")
    return 0


@dataclass(frozen=True, slots=True)
class CodeFaults:
    """Takes what is wrong with the code of one side."""

    faults: Faults
    mark: str

    def add(self, rule: Rule, what: str) -> None:
        """Record one fault."""
        fix = "repair what draws the code, or where the template places it"
        self.faults.add(rule, what, fix=fix, mark=self.mark)


def read_code(picture: Image.Image) -> CodeRead | None:
    """Return the QR code in *picture*, or nothing."""
    found = zxingcpp.read_barcodes(picture, formats=_CODES, try_downscale=False, try_invert=False)
    return _code(found[0]) if len(found) == 1 else None


def _code(read: Any) -> CodeRead:  # noqa: ANN401 -- a type of the reader's
    at = read.position
    corners = (at.top_left, at.top_right, at.bottom_right, at.bottom_left)
    return CodeRead(
        read.text,
        read.ec_level,
        17 + 4 * int(read.extra["Version"]),
        tuple((float(each.x), float(each.y)) for each in corners),
    )


def _areas(side: SideRead, trim: Box) -> Iterator[Box]:
    """Yield where a code can be: around what is drawn about as high as wide, then all of it."""
    square = [
        each.box
        for each in side.drawn
        if each.box.width > _SMALLEST and 0.9 < each.box.width / max(each.box.height, 1) < 1.1  # noqa: PLR2004 -- about as high as wide
    ]
    for box in sorted(square, key=lambda each: -each.width):
        yield _within(box.grown(box.width / 5), side.visible)
    yield _within(trim, side.visible)


def _within(box: Box, visible: Box) -> Box:
    return Box(
        max(box.left, visible.left),
        max(box.bottom, visible.bottom),
        min(box.right, visible.right),
        min(box.top, visible.top),
    )


def _paper_in(area: Box, trim: Box, seen: Image.Image) -> tuple[float, float, float, float]:
    """Return the trimmed side in dots of the picture of *area*: left, top, right, bottom."""
    across, along = seen.width / area.width, seen.height / area.height
    return (
        (trim.left - area.left) * across,
        (area.top - trim.top) * along,
        (trim.right - area.left) * across,
        (area.top - trim.bottom) * along,
    )


def _faults_of_words(
    read: CodeRead, blurred: CodeRead | None, link: str
) -> Iterator[tuple[Rule, str]]:
    if read.says != link:
        yield rules.CODE_DIFFERS, f"code says `{read.says}` and not `{link}`"
    if blurred is None or blurred.says != read.says:
        yield rules.CODE_MISSING, "code cannot be read when it is seen a little blurred"
    if read.level != LEVEL:
        yield rules.CODE_LEVEL_DIFFERS, f"code is of level {read.level} and not of {LEVEL}"


def _faults_of_size(
    read: CodeRead, seen: Image.Image, paper: tuple[float, float, float, float]
) -> Iterator[tuple[Rule, str]]:
    module = read.side / read.modules
    size = module / DOTS_FOR_MEASURING * 25.4
    if size < LEAST_MODULE * _SLACK:
        what = f"modules of the code measure {size:.2f} mm and not {LEAST_MODULE} mm or more"
        yield rules.CODE_TOO_SMALL, what
    if not _is_quiet(read, module, seen, paper):
        what = f"around the code there are not {QUIET} modules of white paper"
        yield rules.CODE_WITHOUT_QUIET_ZONE, what


def _is_quiet(
    read: CodeRead,
    module: float,
    seen: Image.Image,
    paper: tuple[float, float, float, float],
) -> bool:
    """Whether the ring of four modules around the code is on the paper and empty.

    A quarter of a module at either edge of the ring is left to the reader, which finds corners to
    a dot.
    """
    across, along = [x for x, _ in read.corners], [y for _, y in read.corners]
    inner = (min(across), min(along), max(across), max(along))
    outer = tuple(
        edge + sign * (QUIET - 0.25) * module
        for edge, sign in zip(inner, (-1, -1, 1, 1), strict=True)
    )
    if any(
        sign * (limit - edge) < -1
        for edge, limit, sign in zip(outer, paper, (-1, -1, 1, 1), strict=True)
    ):
        return False
    left, top, right, bottom = (round(edge) for edge in outer)
    gap = ceil(module / 4) + 1
    strips = (
        (left, top, right, round(inner[1]) - gap),
        (left, round(inner[3]) + gap, right, bottom),
        (left, top, round(inner[0]) - gap, bottom),
        (round(inner[2]) + gap, top, right, bottom),
    )
    return all(_is_light(seen, strip) for strip in strips)


def _is_light(seen: Image.Image, strip: tuple[int, int, int, int]) -> bool:
    left, top, right, bottom = strip
    box = (max(0, left), max(0, top), min(seen.width, right), min(seen.height, bottom))
    darkest, _ = seen.crop(box).getextrema()
    return isinstance(darkest, int | float) and darkest >= _LIGHT
