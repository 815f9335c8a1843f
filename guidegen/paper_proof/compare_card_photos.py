"""Whether the photos on a card are those of its truck, where they belong, whole and to be seen.

Takes in one group of a card, where its pieces were found, and the pictures of dots that stand in
it; records what differs. Refuses a photo that lies on words or lines, or that stands between a
caution and the step that it guards, and one that was left out although there is room for it.
"""

import itertools
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from PIL import Image

from guidegen.paper_proof import rules
from guidegen.paper_proof.compare_photos import fault_of_shape
from guidegen.paper_proof.model import Group
from guidegen.paper_proof.photo_likeness import fault_of_picture, fault_of_sight
from guidegen.paper_proof.sheet_model import Box, DrawnRead, SideRead, TextRead, around
from guidegen.photos.model import Photo
from guidegen.proof.faults import Faults

Look = Callable[[int, Box, int], Image.Image]
"""Returns what is seen of a part of a side, in gray: number of the side, part, dots an inch."""

_INCH = 72
_MILLIMETER = _INCH / 25.4
_DOTS_PER_INCH = 200
_SLACK = 1.0
"""Points that letters and pictures may reach over their lines."""

_LEAST_EDGE = 34 * _MILLIMETER
"""The smallest that a card shows; as of the printing, which holds it for itself."""

_SPARE = 5 * _MILLIMETER
"""White that is left above and below a photo beside a line of it, with something to spare."""

_LINE = 1.5
_LETTER = 0.6
"""Height of a line and width of a letter, in the height of its type; rather too much."""

_LONG_WORD = 12
"""Letters that have room in any column; with a longer one a caption may have none."""

_FIX = "repair what draws cards: photos stand behind their step, or behind the title"


@dataclass(frozen=True, slots=True)
class GroupOnSide:
    """One group of a card, as it was found."""

    group: Group
    number: int
    """Of the side, from 0."""

    side: SideRead
    reads: Mapping[int, Sequence[TextRead]]
    """Of each piece that was found, by its place in the group."""

    pictures: Sequence[DrawnRead]
    """Of dots, in the order of drawing."""


def compare_card_photos(it: GroupOnSide, look: Look, faults: Faults) -> None:
    """Hold the pictures of one group against its photos."""
    photos, places = it.group.photos, it.group.photos_after
    for photo, picture, after in itertools.zip_longest(photos, it.pictures, places):
        known = photo or next(iter((*photos, *it.group.left_out)))
        what = _fault_of(it, photo, picture, after, look)
        if what:
            faults.add(rules.PHOTO_DIFFERS, what, fix=_FIX, span=known.span, mark=known.id)
        elif photo.alt not in it.side.spoken:
            what = "is not read aloud as what it is"
            faults.add(rules.SPOKEN_DIFFERS, what, fix=_FIX, span=known.span, mark=known.id)
    for photo in it.group.left_out:
        if _has_room(it, photo):
            what = f"is left out on side {it.number + 1}, and there is room for it"
            faults.add(rules.PHOTO_LEFT_OUT, what, fix=_FIX, span=photo.span, mark=photo.id)


def _fault_of(
    it: GroupOnSide,
    photo: Photo | None,
    picture: DrawnRead | None,
    after: int | None,
    look: Look,
) -> str:
    if photo is None or after is None:
        return "has a picture more than the card must have"
    if picture is None:
        return "is not there"
    box = picture.box
    inches = max(box.width, box.height, 1.0) / _INCH
    return (
        fault_of_picture(photo.raw, picture.coded, inches)
        or fault_of_shape(photo, box)
        or _fault_of_place(it, picture, after)
        or _fault_of_neighbors(it.side, picture)
        or fault_of_sight(photo.raw, look(it.number, box, _DOTS_PER_INCH))
    )


def _fault_of_place(it: GroupOnSide, picture: DrawnRead, after: int) -> str:
    """Return whether it stands elsewhere than between its two pieces, in the file or on paper."""
    before, box = it.reads.get(after, ()), picture.box
    if any(each.place > picture.place or each.box.bottom < box.top - _SLACK for each in before):
        return f"stands before {it.group.pieces[after].of}"
    if after + 1 == len(it.group.pieces):
        return ""
    piece = it.group.pieces[after + 1]
    for each in it.reads.get(after + 1, ()):
        is_below = each.box.top <= box.bottom + _SLACK
        is_beside = piece.is_caption and each.box.left >= box.right - _SLACK
        if each.place < picture.place or not (is_below or is_beside):
            return f"stands behind {piece.of}"
    return ""


def _fault_of_neighbors(side: SideRead, picture: DrawnRead) -> str:
    box = picture.box
    for text in side.texts:
        if text.text.strip() and text.box.touches(box):
            return f"and `{text.text.strip()}` lie on each other"
    others = (each for each in side.drawn if each.place != picture.place)
    if any(each.box.touches(box) for each in others):
        return "and another drawing lie on each other"
    return ""


def _has_room(it: GroupOnSide, photo: Photo) -> bool:
    """Whether *photo*, as small as it may be, fits into what is white below the last line.

    It would then move nothing to another side. That it could fit otherwise, is not looked at.
    """
    found = [each for reads in it.reads.values() for each in reads if each.text.strip()]
    if not found or any(len(word) > _LONG_WORD for word in photo.caption.split()):
        return False
    column = around([each.box for each in found])
    body = [
        each.box.bottom
        for each in it.side.objects
        if not _is_around(each) and each.box.left < column.right and each.box.right > column.left
    ]
    lowest = min(body, default=column.bottom)
    left = min(text.box.left for text in it.side.texts if text.is_head)
    below = [
        text.box.top
        for text in it.side.texts
        if text.is_head and text.box.top < lowest and text.box.left < left + _SLACK
    ]
    if not below:
        return False
    ratio = min(1.0, photo.height / photo.width)
    points = max(each.points for each in found)
    lines = 1 + math.ceil(len(photo.caption) * _LETTER * points / _LEAST_EDGE)
    return lowest - max(below) > _LEAST_EDGE * ratio + lines * _LINE * points + _SPARE


def _is_around(each: TextRead | DrawnRead) -> bool:
    return each.is_head if isinstance(each, TextRead) else each.is_artifact
