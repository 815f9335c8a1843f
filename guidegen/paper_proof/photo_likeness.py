"""Whether a picture of dots shows a photo, made smaller or not.

Takes in the bytes of a photo and of a picture, or what is seen of it; gives out what is wrong, in
words. Refuses a picture that is cut, stretched, turned, mirrored or of other colors, and one that
holds anything but its dots.
"""

import io

from PIL import Image, ImageChops

from guidegen.proof.read_jpeg import NotReadable, read_jpeg

_MOST_FIELDS = 24
_FIELD = 16
"""Fields along an edge, at most, and dots along a field, at least. Their mean colors are compared:
packing a picture anew changes single dots, and hardly the mean of hundreds."""

_MOST = 16
"""Of 255, that the mean of a field may differ by; a small thing that is moved changes it by more.
An own choice: making a photo
smaller and packing it came to 6, and a hundredth that was cut off to 24."""

_MOST_SEEN = 48
"""Ditto, of what is seen on the card: its edge can be a dot off."""

_RATIO = 0.01
"""Ditto, of width and height; more where that is less than a dot."""

_LEAST_DOTS = 240
"""An inch; about 300 are made. Common practice, no source."""


def fault_of_picture(photo: bytes, picture: bytes, inches: float) -> str:
    """Return what is wrong with the *picture* that stands for *photo*; nothing if all is well.

    Args:
        photo: A JPEG, as it is published.
        picture: As it is coded in a file.
        inches: Of its longer edge on paper.
    """
    try:
        read = read_jpeg(picture)
    except NotReadable:
        return "is another picture"
    if read.more_than_picture:
        return f"holds {', '.join(read.more_than_picture)}"
    with Image.open(io.BytesIO(photo)) as wanted, Image.open(io.BytesIO(picture)) as found:
        if found.mode != "RGB" or _apart(wanted, found) > _MOST:
            return "is another picture"
        ratio = wanted.width * found.height / (wanted.height * found.width)
        if abs(ratio - 1) > max(_RATIO, 1 / min(found.size)):
            return "is cut or stretched"
        dots = max(found.size)
        if dots < min(max(wanted.size), inches * _LEAST_DOTS) - 1:
            return f"has only {dots / inches:.0f} dots an inch"
    return ""


def fault_of_sight(photo: bytes, seen: Image.Image) -> str:
    """Return what is wrong with what is *seen* where *photo* stands; nothing if all is well.

    Args:
        photo: A JPEG, as it is published.
        seen: In gray.
    """
    with Image.open(io.BytesIO(photo)) as wanted:
        apart = _apart(wanted.convert("L"), seen.convert("L"))
    return "is covered, cut or turned" if apart > _MOST_SEEN else ""


def _apart(one: Image.Image, other: Image.Image) -> int:
    """Return by how much the two differ in the field and color in which they differ most."""
    least = map(min, zip(one.size, other.size, strict=True))
    across, down = (max(1, min(_MOST_FIELDS, dots // _FIELD)) for dots in least)
    fields = (
        each.convert("RGB").resize((across, down), Image.Resampling.BOX) for each in (one, other)
    )
    extrema = ImageChops.difference(*fields).getextrema()
    return max(int(most) for _, most in extrema)  # type: ignore[misc]  # pairs, of three colors
