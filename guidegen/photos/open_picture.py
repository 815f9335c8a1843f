"""From the bytes of a picture file to the picture as people see it.

Takes in bytes from anywhere; gives out an upright picture of three colors in sRGB, with nothing
else that the file may hold. Refuses what is no still picture, what is cut short, and what would
unpack to more than a computer of an office can hold.

The only door to Pillow for pictures that come from outside.
"""

import io
import warnings
from dataclasses import dataclass

from PIL import Image, ImageCms, ImageOps

from guidegen.photos import rules
from guidegen.photos.no_picture import MOST_BYTES, NoPicture, too_many_bytes

MOST_PIXELS = 64_000_000
"""Of a picture: 200 MB once it is unpacked. Phones take 12 or 50 million. An own choice."""

LEAST_EDGE = 320
"""Pixels of the longer edge: some 8 cm on a tablet. An own choice."""

_FORMATS = ("JPEG", "PNG", "WEBP")
_SAVE_AS_JPEG = "open it on a computer and save it as JPEG"
_PHONE_FIX = (
    "save it as JPEG, or set the phone's camera to its most compatible format and take it anew"
)
_STARTS = (
    (0, b"GIF8", "a GIF", _SAVE_AS_JPEG),
    (0, b"BM", "a Windows bitmap", _SAVE_AS_JPEG),
    (0, b"II*\0", "a TIFF or raw picture", _SAVE_AS_JPEG),
    (0, b"MM\0*", "a TIFF or raw picture", _SAVE_AS_JPEG),
    (0, b"%PDF", "a PDF", "take a picture of the thing itself, or save the page as JPEG"),
    (4, b"ftypavif", "an AVIF", _SAVE_AS_JPEG),
    (4, b"ftypheic", "a HEIC, as some phones take them", _PHONE_FIX),
    (4, b"ftypheix", "a HEIC, as some phones take them", _PHONE_FIX),
    (4, b"ftyphevc", "a HEIC, as some phones take them", _PHONE_FIX),
    (4, b"ftypmif1", "a HEIC, as some phones take them", _PHONE_FIX),
    (4, b"ftypmsf1", "a HEIC, as some phones take them", _PHONE_FIX),
    (4, b"ftyp", "a video", "take a still picture"),
)
"""First bytes of files that people take for pictures: where, what, and what to do. ISO/IEC 23008-12
names the brands of HEIC."""

_SIXTEEN_BITS = 256
"""Steps of a 16-bit value that one 8-bit value stands for."""

_ENOUGH = (2000, 2000)
"""Pixels that a picture keeps at least, where it has as many: twice what is published."""

_WHITE = (255, 255, 255, 255)


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as people see it."""

    image: Image.Image
    """Of mode RGB, in sRGB, upright; it carries nothing but its pixels."""


def open_picture(raw: bytes) -> Picture:
    """Return the picture that the file *raw* holds.

    Raises:
        NoPicture: If it holds none that can be shown.
    """
    if len(raw) > MOST_BYTES:
        raise too_many_bytes(len(raw))
    with warnings.catch_warnings():
        # Odd metadata is warned of, and all of it is dropped.
        warnings.simplefilter("ignore")
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        image = _opened(raw)
        _refuse_size(image.size)
        if image.format in ("PNG", "WEBP") and getattr(image, "is_animated", False):
            what, fix = "is a picture that moves", "save one still picture of it as JPEG"
            raise NoPicture(rules.PHOTO_MOVES, what, fix)
        try:
            # A JPEG is unpacked no larger than it takes.
            image.draft(None, _ENOUGH)
            image.load()
            return Picture(_bare(_in_srgb(_upright(image))))
        except Exception as fault:
            # A decoder breaks in any way on a file that was made to break it.
            raise _damaged() from fault


def _opened(raw: bytes) -> Image.Image:
    try:
        return Image.open(io.BytesIO(raw), formats=_FORMATS)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as fault:
        raise _too_many_pixels("more pixels than any camera takes") from fault
    except Exception as fault:
        # As above: any bytes may come, and what they are is told by how they begin.
        raise _unread(raw) from fault


def _unread(raw: bytes) -> NoPicture:
    for start, sign, words, fix in _STARTS:
        if raw[start:].startswith(sign):
            return NoPicture(rules.PHOTO_OF_UNREAD_KIND, f"is {words}", fix)
    is_webp = raw.startswith(b"RIFF") and raw[8:12] == b"WEBP"
    if is_webp or raw.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")):
        return _damaged()
    what = "is no picture" if raw else "is empty"
    fix = "put the picture there as JPEG, PNG or WebP; another ending alone makes no picture of it"
    return NoPicture(rules.PHOTO_NOT_AN_IMAGE, what, fix)


def _damaged() -> NoPicture:
    what = "is damaged: it cannot be read to its end"
    fix = "copy it from the camera again, and open it once to see that it is whole"
    return NoPicture(rules.PHOTO_DAMAGED, what, fix)


def _refuse_size(size: tuple[int, int]) -> None:
    width, height = size
    if width * height > MOST_PIXELS:
        raise _too_many_pixels(f"{width} by {height} pixels")
    if max(size) < LEAST_EDGE:
        what = f"has {width} by {height} pixels, and {LEAST_EDGE} on the longer edge are the least"
        fix = "take it anew, or find the original: this may be the small copy of a message"
        raise NoPicture(rules.PHOTO_TOO_SMALL, what, fix)


def _too_many_pixels(words: str) -> NoPicture:
    what = f"has {words}, and {MOST_PIXELS / 1e6:.0f} million are the most"
    return NoPicture(rules.PHOTO_TOO_LARGE, what, "save it smaller, such as 2,000 pixels wide")


def _upright(image: Image.Image) -> Image.Image:
    """Return *image* turned as its camera says that it was held."""
    try:
        return ImageOps.exif_transpose(image)
    except Exception:  # noqa: BLE001 -- metadata that cannot be read says nothing of the camera
        return image


def _in_srgb(image: Image.Image) -> Image.Image:
    """Return *image* on white, in three colors, as a screen shows it."""
    profile = image.info.get("icc_profile")
    flat = _flat(image)
    if isinstance(profile, bytes) and profile:
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            screen = ImageCms.createProfile("sRGB")
            to_screen = ImageCms.buildTransform(source, screen, flat.mode, "RGB")
            return ImageCms.applyTransform(flat, to_screen) or flat.convert("RGB")
        except (ImageCms.PyCMSError, OSError, ValueError):
            pass  # a profile that does not fit its picture says nothing of it
    return flat.convert("RGB")


def _flat(image: Image.Image) -> Image.Image:
    """Return *image* with eight bits a color and nothing to be seen through."""
    if image.mode.startswith(("I;16", "I")):
        # The eight bits that weigh most; Pillow itself would cut off what is above 255.
        return image.convert("I").point(lambda value: value * (1 / _SIXTEEN_BITS)).convert("L")
    if image.mode == "1":
        return image.convert("L")
    if image.has_transparency_data:
        clear = image.convert("RGBA")
        white = Image.new("RGBA", image.size, _WHITE)
        return Image.alpha_composite(white, clear).convert("RGB")
    return image.convert("RGB") if image.mode == "P" else image


def _bare(image: Image.Image) -> Image.Image:
    """Return the pixels of *image* alone: comments, places and thumbnails hang on the object."""
    return Image.frombytes("RGB", image.size, image.tobytes())
