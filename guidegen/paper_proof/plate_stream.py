"""Whether what draws a truck's number and code does nothing else.

Takes in a stream of drawing; gives out the names that it draws with.
Refuses a stream that leaves the pen other than it found it, or calls for drawings of other
objects: what comes after it would then not look as it looked for another truck.
"""

import re
import zlib
from dataclasses import dataclass

_TOKEN = re.compile(
    rb"[\x00\t\n\x0c\r ]+"
    rb"|(?P<name>/[^\x00\t\n\x0c\r ()<>\[\]{}/%]+)"
    rb"|\((?:[^\\()]|\\.)*\)|<[0-9A-Fa-f]*>|<<|>>|[\[\]]"
    rb"|[-+]?[0-9]*\.?[0-9]+(?![A-Za-z])"
    rb"|(?P<operator>[A-Za-z][A-Za-z0-9]*\*?)",
    re.DOTALL,
)
_DRAWS = frozenset(
    b"cm cs CS sc SC scn SCN w J j M d m l c v y h re S s f f* B B* b b* n W W* "
    b"BT ET Tf Tr Tm Td Tj TJ".split()
)
"""Operators of ISO 32000-1, annex A, whose effect ends with the ``Q`` after them."""

_SHOWS = frozenset(b"S s f f* B B* b b* Tj TJ".split())
_USES = frozenset((b"Tf", b"cs", b"CS"))
"""Operators that take the name of a font or of colors."""

_WORDS = frozenset((b"true", b"false", b"null"))
_STREAM = re.compile(rb"[0-9]+ 0 obj\n<</Length ([0-9]+)/Filter/FlateDecode>>\nstream\n", re.DOTALL)
_AFTER = b"\nendstream\nendobj\n"


def drawing_of(content: bytes) -> bytes | None:
    """Return what the object *content* draws, or nothing if it is more than a plain stream."""
    head = _STREAM.match(content)
    if head is None or content[head.end() + int(head[1]) :] != _AFTER:
        return None
    unpack = zlib.decompressobj()
    try:
        drawing = unpack.decompress(content[head.end() : -len(_AFTER)]) + unpack.flush()
    except zlib.error:
        return None
    return drawing if unpack.eof and not unpack.unused_data else None


@dataclass(frozen=True, slots=True)
class PlateUse:
    """What a drawing takes and leaves."""

    names: frozenset[bytes]
    """Of fonts and colors that it draws with."""

    shown: int
    """How many texts and paths it draws."""


def use_of(drawing: bytes) -> PlateUse | None:
    """Return what *drawing* takes and leaves, or nothing if it does not stand alone."""
    names = set[bytes]()
    shown = 0
    open_ones = list[bytes]()
    name, place = b"", 0
    while place < len(drawing):
        token = _TOKEN.match(drawing, place)
        if token is None:
            return None
        place = token.end()
        name = token["name"] or name
        operator = token["operator"]
        if operator in _USES:
            names.add(name)
        shown += operator in _SHOWS
        if operator and operator not in _WORDS and not _goes_on(operator, open_ones):
            return None
    return PlateUse(frozenset(names), shown) if not open_ones else None


def _goes_on(operator: bytes, open_ones: list[bytes]) -> bool:
    """Whether *operator* may stand here; keep what is open."""
    if operator in {b"q", b"BDC", b"BMC"}:
        open_ones.append(b"q" if operator == b"q" else b"B")
        return True
    if operator in {b"Q", b"EMC"}:
        return bool(open_ones) and open_ones.pop() == (b"q" if operator == b"Q" else b"B")
    return operator in _DRAWS and b"q" in open_ones
