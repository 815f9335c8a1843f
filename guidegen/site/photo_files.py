"""The pictures that stand beside the pages of a truck.

Takes in a guide; gives out the file of each of its photos. Refuses a photo of which nothing but
the record is left.
"""

from collections.abc import Iterator

from guidegen.guide.model import Guide
from guidegen.guide.show_photos import photos_in


class NoPictureKept(LookupError):
    """A photo is told of, and its picture is not there; the message names it."""


def photo_files(guide: Guide) -> Iterator[tuple[str, bytes]]:
    """Yield path, from the root of the site, and bytes of each photo of *guide*.

    Raises:
        NoPictureKept: If one of them is without its picture.
    """
    for photo in photos_in(guide):
        if not photo.raw:
            raise NoPictureKept(photo.path)
        yield f"{guide.number}/{photo.path}", photo.raw
