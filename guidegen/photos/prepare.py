"""From a picture to the file that tablets keep and papers print.

Takes in the bytes of a picture file; gives out a small JPEG without metadata, the same bytes for
the same file wherever the same Pillow runs. Refuses what `open_picture` refuses.
"""

import hashlib
import io
from dataclasses import dataclass

LONGEST_EDGE = 960
"""Pixels: as wide as the text of a page on a tablet of 10 inches, at half as many again."""

MOST_PUBLISHED = 60_000
"""Bytes of one photo on the tablet. An own choice: a page then loads within a second from a yard's
weak signal, and a hundred photos are 6 MB of a pack."""

_QUALITIES = (82, 74, 66, 58, 50)
"""Of the JPEG, the best first; below the last one, fewer pixels show more."""

_SMALLER = 0.8


@dataclass(frozen=True, slots=True)
class Prepared:
    """A photo as it is published."""

    raw: bytes
    """A baseline JPEG of three colors in sRGB, with no other segments than it takes to draw it."""

    width: int
    height: int

    @property
    def sha256(self) -> str:
        """Of the bytes, in hexadecimal."""
        return hashlib.sha256(self.raw).hexdigest()


def prepare(raw: bytes) -> Prepared:
    """Return the picture in the file *raw*, upright, bare and small.

    Raises:
        NoPicture: If it holds none that can be shown.
    """
    # Pillow takes a while to be read in, and pictures that were prepared before are kept.
    from PIL.Image import Resampling  # noqa: PLC0415

    from guidegen.photos.open_picture import open_picture  # noqa: PLC0415

    image = open_picture(raw).image
    edge = float(LONGEST_EDGE)
    while True:
        # Neither enlarged nor put out of shape.
        small = image.copy()
        small.thumbnail((round(edge), round(edge)), Resampling.LANCZOS, reducing_gap=None)
        for quality in _QUALITIES:
            file = io.BytesIO()
            small.save(
                file,
                "JPEG",
                quality=quality,
                optimize=True,
                progressive=False,
                subsampling="4:2:0",
            )
            packed = file.getvalue()
            if len(packed) <= MOST_PUBLISHED:
                return Prepared(packed, *small.size)
        edge *= _SMALLER
