"""The fleet's mark on paper.

Takes in the mark alone, and sides that it may stand on; gives out the sides without it, for the
rest of the proof. Refuses a mark of another form or color, in another place, or under other print:
what is left of it is then a stray drawing.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from guidegen.paper_proof import rules
from guidegen.paper_proof.compare_ink import MILLIMETER
from guidegen.paper_proof.sheet_model import Box, DrawnRead, SideRead
from guidegen.proof.faults import Faults

_NEAR = 0.3
"""Points that a part of it may lie off the others: half a hairline."""

_OFF = 2.0
"""Points that all of it may lie off: half of the strokes that the code beside it is drawn with."""

_SQUARE = 0.05
"""That a code may be wider than high, ditto."""

_SMALLEST_CODE = 12 * MILLIMETER
_QUIET = 2 * MILLIMETER
"""Four modules of half a millimeter around a code; ISO/IEC 18004."""


@dataclass(frozen=True, slots=True)
class LogoRead:
    """The mark alone, as it was read."""

    parts: tuple[DrawnRead, ...]
    paper: Box
    alt: str
    """What is read aloud for it."""


@dataclass(frozen=True, slots=True)
class LogoPlace:
    """Where it may stand: beside the code, their upper edges on one line."""

    width: float
    """Millimeters that it has; it fills them or the height."""

    height: float
    is_left: bool = True
    """Whether it stands left of the code, with its quiet zone between them."""

    scale: float = 1
    """Of the code."""

    gap: float = 0
    """Millimeters more between them."""


ON_CARDS = LogoPlace(18, 6)
ON_SHEETS = LogoPlace(30, 12)
ON_COVERS = LogoPlace(30, 12, is_left=False, scale=1.4, gap=10)


def read_logo(pdf: bytes, alt: str) -> LogoRead:
    """Return the mark that stands alone on the first page of *pdf*."""
    # A shop without a mark reads nothing, and PDFium takes a while to be read in.
    from guidegen.paper_proof.read_pdf import PdfRead  # noqa: PLC0415

    with PdfRead(pdf) as read:
        side = read.side(0)
    return LogoRead(side.drawn, side.paper, alt)


def without_logo(
    side: SideRead, logo: LogoRead, place: LogoPlace, mark: str, faults: Faults
) -> SideRead:
    """Return *side* without its mark, or all of it if the mark is not there as it must be."""
    box = _box_of(side, logo, place)
    if box is None:
        return side
    drawn = side.drawn
    count = len(logo.parts)
    for start in range(len(drawn) - count + 1):
        found = drawn[start : start + count]
        if _are_same(logo, found, box):
            if any(text.box.touches(box) for text in side.texts if text.text.strip()):
                what = "has text on the logo, or the logo on text"
                fix = "repair the template that places the logo"
                faults.add(rules.TEXT_HIDDEN, what, fix=fix, mark=mark)
            gone = {each.place for each in found}
            return replace(side, objects=tuple(o for o in side.objects if o.place not in gone))
    return side


def _box_of(side: SideRead, logo: LogoRead, place: LogoPlace) -> Box | None:
    codes = [
        each.box
        for each in side.drawn
        if not each.is_plain
        and each.box.height > _SMALLEST_CODE
        and abs(each.box.width - each.box.height) < _SQUARE * each.box.width
    ]
    if not codes:
        return None
    code = max(codes, key=lambda box: box.width)
    ratio = logo.paper.width / logo.paper.height
    width = min(place.width, place.height * ratio) * MILLIMETER
    quiet, top = _QUIET * place.scale, code.top + _QUIET * place.scale
    gap = quiet + place.gap * MILLIMETER
    left = code.left - gap - width if place.is_left else code.right + gap
    return Box(left, top - width / ratio, left + width, top)


def _are_same(logo: LogoRead, found: Sequence[DrawnRead], box: Box) -> bool:
    scale = box.width / logo.paper.width
    first, laid = logo.parts[0].box, found[0].box
    across = laid.left - (box.left + scale * (first.left - logo.paper.left))
    up = laid.bottom - (box.bottom + scale * (first.bottom - logo.paper.bottom))
    if max(abs(across), abs(up)) > _OFF:
        return False
    box = Box(box.left + across, box.bottom + up, box.right + across, box.top + up)
    for one, two in zip(logo.parts, found, strict=True):
        wanted = Box(
            box.left + scale * (one.box.left - logo.paper.left),
            box.bottom + scale * (one.box.bottom - logo.paper.bottom),
            box.left + scale * (one.box.right - logo.paper.left),
            box.bottom + scale * (one.box.top - logo.paper.bottom),
        )
        is_near = all(abs(a - b) <= _NEAR for a, b in zip(wanted, two.box, strict=True))
        looks = (one.is_path, one.fills, one.strokes, one.is_plain, one.color)
        if one.is_plain and one.ends != two.ends:
            return False
        if not is_near or looks != (two.is_path, two.fills, two.strokes, two.is_plain, two.color):
            return False
    return True
