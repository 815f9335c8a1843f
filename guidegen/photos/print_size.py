"""From a photo as it is published to the one that is printed on a card.

Takes in the bytes of a published photo and how large it is to be; gives out a JPEG with the dots
that a printer can show, the same bytes for the same photo wherever the same Pillow runs. Refuses
to enlarge: a printer does that as well.
"""

import io
from functools import lru_cache

DOTS_PER_INCH = 300
"""Of a photo in print. Common practice, no source."""

_MILLIMETERS = 25.4
_QUALITY = 85
"""Of the JPEG, which is made of one that was packed before."""

_KEPT = 64


@lru_cache(maxsize=_KEPT)
def print_size(raw: bytes, edge: int) -> bytes:
    """Return the photo *raw*, with its longer edge *edge* millimeters long in print."""
    from PIL import Image  # noqa: PLC0415 -- takes a while, and few runs print a photo

    dots = round(edge / _MILLIMETERS * DOTS_PER_INCH)
    with Image.open(io.BytesIO(raw)) as image:
        if max(image.size) <= dots:
            return raw
        # Neither enlarged nor put out of shape.
        image.thumbnail((dots, dots), Image.Resampling.LANCZOS, reducing_gap=None)
        file = io.BytesIO()
        image.save(file, "JPEG", quality=_QUALITY, optimize=True, subsampling="4:2:0")
    # Fine grain can take more room in fewer dots, packed less tightly.
    return min(file.getvalue(), raw, key=len)
