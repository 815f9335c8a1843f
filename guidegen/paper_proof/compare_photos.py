"""Whether photos on paper are those of the guide.

Takes in photos and the pictures of dots that stand in their place; records what differs. Refuses
a picture of which one byte is not the photo's, one that is stretched or too small to be of use,
and one that says nothing to those who do not see it.
"""

import itertools
from collections.abc import Collection, Sequence

from guidegen.paper_proof import rules
from guidegen.paper_proof.sheet_model import Box, DrawnRead
from guidegen.photos.model import Photo
from guidegen.proof.faults import Faults

_LEAST_EDGE = 72 * 30 / 25.4
"""Points: 30 mm of the longer edge. Common practice, no source."""

_STRETCHED = 0.01
_SEE = "repair the template that sets photos"


def compare_photos(
    photos: Sequence[Photo],
    pictures: Sequence[DrawnRead],
    spoken: Collection[str],
    faults: Faults,
) -> None:
    """Hold the *pictures* that stand for *photos* against them, one by one.

    Args:
        photos: That must stand there, in order.
        pictures: That do.
        spoken: What is read aloud on their side.
        faults: Takes what differs.
    """
    for photo, picture in itertools.zip_longest(photos, pictures):
        known = photo or photos[-1]
        what = _fault_of(photo, picture)
        if what:
            faults.add(rules.PHOTO_DIFFERS, what, fix=_SEE, span=known.span, mark=known.id)
        elif photo.alt not in spoken:
            what = "is not read aloud as what it is"
            faults.add(rules.SPOKEN_DIFFERS, what, fix=_SEE, span=known.span, mark=known.id)


def _fault_of(photo: Photo | None, picture: DrawnRead | None) -> str:
    if photo is None:
        return "has a picture more than the guide"
    if picture is None:
        return "is not there"
    if picture.picture != photo.sha256:
        return "is another picture"
    return fault_of_shape(photo, picture.box)


def fault_of_shape(photo: Photo, box: Box) -> str:
    """Return whether *photo*, drawn in *box*, is stretched or tiny; nothing if it is not."""
    ratio = photo.width / photo.height
    if box.height <= 0 or abs(box.width / box.height / ratio - 1) > _STRETCHED:
        return "is stretched"
    if max(box.width, box.height) < _LEAST_EDGE:
        return f"is only {max(box.width, box.height) / 72 * 25.4:.0f} mm large"
    return ""
