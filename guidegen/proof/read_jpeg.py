"""What a JPEG holds, read segment by segment.

Takes in bytes; gives out the size of the picture and the names of all segments that are not
needed to draw it. Refuses what is cut short, and what follows behind the end of the picture.
Source: ITU-T T.81 (JPEG), annex B; JFIF 1.02.
"""

from typing import NamedTuple

_START, _END, _SCAN = 0xD8, 0xD9, 0xDA
_FRAMES = frozenset({0xC0, 0xC1, 0xC2})
"""Baseline, extended and progressive: what browsers draw."""

_TABLES = frozenset({0xC4, 0xDB, 0xDD})
"""Codes, quantization, restart interval."""

_JFIF = 0xE0
_RESTARTS = frozenset(range(0xD0, 0xD8))
_NAMES = {
    0xE1: "EXIF or XMP",
    0xE2: "a color profile",
    0xED: "IPTC",
    0xEE: "Adobe",
    0xFE: "a comment",
}
_PLAIN_JFIF = 16
"""Bytes of its segment when no thumbnail stands in it."""


class NotReadable(ValueError):
    """It is no JPEG from its first byte to its last; the message says why."""


class JpegRead(NamedTuple):
    """A JPEG as it was read."""

    width: int
    height: int
    more_than_picture: tuple[str, ...]
    """What else it holds, in words."""


def read_jpeg(raw: bytes) -> JpegRead:
    """Return what the JPEG *raw* holds.

    Raises:
        NotReadable: If it is none, or is cut short.
    """
    if not raw.startswith(bytes((0xFF, _START))):
        raise NotReadable("it does not begin as one")
    place, size, more = 2, (0, 0), list[str]()
    while place + 4 <= len(raw):
        if raw[place] != 0xFF:  # noqa: PLR2004 -- begins every marker, T.81 B.1.1.2
            raise NotReadable(f"there is no segment at byte {place}")
        code = raw[place + 1]
        length = int.from_bytes(raw[place + 2 : place + 4], "big")
        body = raw[place + 4 : place + 2 + length]
        if code in _FRAMES:
            size = int.from_bytes(body[3:5], "big"), int.from_bytes(body[1:3], "big")
        elif code == _JFIF and body.startswith(b"JFIF\0"):
            more += ["a thumbnail"] if length != _PLAIN_JFIF else []
        elif code == _SCAN:
            _read_to_end(raw, place + 2 + length)
            return JpegRead(*size, tuple(more))
        elif code not in _TABLES:
            more.append(_NAMES.get(code, f"a segment {code:02X}"))
        place += 2 + length
    raise NotReadable("it ends before the picture begins")


def _read_to_end(raw: bytes, place: int) -> None:
    """Go through the coded picture of one scan.

    Raises:
        NotReadable: If another segment, or anything else, follows it.
    """
    while True:
        place = raw.find(b"\xff", place)
        if place < 0 or place + 1 >= len(raw):
            raise NotReadable("the picture is cut short")
        code = raw[place + 1]
        if code == _END:
            if place + 2 != len(raw):
                raise NotReadable("something follows behind the picture")
            return
        if code != 0 and code not in _RESTARTS:
            raise NotReadable("it is drawn in more than one pass")
        place += 2
