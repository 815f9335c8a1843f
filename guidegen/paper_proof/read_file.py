"""A PDF as bytes, object by object.

Takes in the bytes of a PDF; gives out its objects, as they stand in the file.
Refuses every file that holds more than objects and one table of them: where two programs could
read two things, nothing is compared.
"""

import itertools
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

_ID = rb"\([A-Za-z0-9+/]{22}==\)"
_END = re.compile(
    rb"trailer\n<</Size ([0-9]+)/Root ([0-9]+) 0 R/Info ([0-9]+) 0 R/ID\[" + _ID + _ID + rb"\]>>\n"
    rb"startxref\n([0-9]+)\n%%EOF\n\Z"
)
"""ISO 32000-1, 7.5.5."""

_TABLE = re.compile(rb"(?:[0-9]{10} 00000 n\r\n)+\Z")
"""ISO 32000-1, 7.5.4, but for its first line."""

_LINE = 20
_LONGEST_END = 300
_REFERENCE = re.compile(rb"\b([0-9]+) 0 R\b")
_PAGE = re.compile(rb"/Type ?/Page\b")
_CONTENTS = re.compile(rb"/Contents ?\[ ?([0-9]+) 0 R [0-9]+ 0 R ?\]")
_RESOURCES = re.compile(rb"/Resources ([0-9]+) 0 R")
_METADATA = re.compile(rb"/Metadata ([0-9]+) 0 R")
_CONTAINERS = (b"/ObjStm", b"/XRef", b"/Encrypt")


@dataclass(frozen=True, slots=True)
class FileRead:
    """The objects of a file that is nothing but objects."""

    objects: tuple[bytes, ...]
    """By number, each from its number to ``endobj``; the first is what comes before all."""

    root: int
    info: int

    def named(self, number: int) -> bytes:
        """Return the object *number* without its stream."""
        content = self.objects[number]
        at = content.find(b"stream\n")
        return content if at < 0 else content[:at]


@dataclass(frozen=True, slots=True)
class OwnPlaces:
    """Which objects of a file can be a truck's own: all else that is drawn is other objects."""

    info: int
    """What names the file."""

    metadata: int
    """The same again, in XML."""

    plate: int
    """What each page draws before all else, and nothing else uses."""

    @property
    def all(self) -> frozenset[int]:
        """Their numbers."""
        return frozenset((self.info, self.metadata, self.plate))


def read_file(pdf: bytes) -> FileRead | None:
    """Return the objects of *pdf*, or nothing if it holds anything else."""
    end = _END.search(pdf, max(0, len(pdf) - _LONGEST_END))
    if end is None:
        return None
    size, root, info, at = map(int, end.groups())
    opening = b"xref\n0 %d\n0000000000 65535 f\r\n" % size
    table = pdf[at + len(opening) : end.start()]
    if not pdf.startswith(opening, at) or len(table) != _LINE * (size - 1):
        return None
    if not _TABLE.match(table) or not 0 < max(root, info) < size:
        return None
    starts = [int(table[place : place + 10]) for place in range(0, len(table), _LINE)]
    borders = sorted({*starts, at})
    if len(borders) != size or borders[-1] != at:
        return None
    after = dict(itertools.pairwise(borders))
    objects = [pdf[: borders[0]]]
    for number, start in enumerate(starts, start=1):
        content = pdf[start : after[start]]
        if not content.startswith(b"%d 0 obj\n" % number) or not content.endswith(b"\nendobj\n"):
            return None
        objects.append(content)
    return FileRead(tuple(objects), root, info)


def own_places(read: FileRead, sides: int) -> OwnPlaces | None:
    """Return what can be a truck's own in a file of *sides* pages; nothing if it is used twice."""
    named = [read.named(number) for number in range(len(read.objects))]
    metadata = _METADATA.search(named[read.root])
    pages = [each for each in named if _PAGE.search(each)]
    plates = [found[1] for each in pages for found in _CONTENTS.finditer(each)]
    if metadata is None or len(pages) != sides or len(plates) != sides or len(set(plates)) != 1:
        return None
    places = OwnPlaces(read.info, int(metadata[1]), int(plates[0]))
    used = [int(each) for content in named for each in _REFERENCE.findall(content)]
    counts = [used.count(place) for place in (places.info, places.metadata, places.plate)]
    if counts != [0, 1, sides] or len(places.all) != len(counts):
        return None
    if any(container in each for container in _CONTAINERS for each in named):
        return None
    return places


def resources(read: FileRead, names: Iterable[bytes]) -> tuple[bytes, ...] | None:
    """Return all that *names* stand for on the pages, if it is the same on every page.

    References are replaced by their order, so that equal fonts of two files are equal.
    """
    found = set[tuple[bytes, ...]]()
    dictionaries = {
        each[1]
        for number in range(len(read.objects))
        if _PAGE.search(read.named(number))
        for each in [_RESOURCES.search(read.named(number))]
        if each is not None
    }
    for number in dictionaries:
        entries = _entries(read.named(int(number)), names)
        if entries is None:
            return None
        found.add(_reached(read, entries))
    return found.pop() if len(found) == 1 else None


def _entries(dictionary: bytes, names: Iterable[bytes]) -> Mapping[bytes, int] | None:
    entries: dict[bytes, int] = {}
    for name in names:
        stated = re.findall(re.escape(name) + rb"(?![0-9A-Za-z])(?: ([0-9]+) 0 R\b)?", dictionary)
        if len(stated) != 1 or not stated[0]:
            return None
        entries[name] = int(stated[0])
    return entries


def _reached(read: FileRead, entries: Mapping[bytes, int]) -> tuple[bytes, ...]:
    order: dict[int, int] = {}
    found = [name for name, _ in sorted(entries.items())]
    left = [number for _, number in sorted(entries.items())]
    while left:
        number = left.pop(0)
        found.append(b"%d" % order.setdefault(number, len(order)))
        if order[number] != len(order) - 1:
            continue
        content = read.objects[number].partition(b" 0 obj\n")[2]
        named = read.named(number).partition(b" 0 obj\n")[2]
        next_ones = [int(each) for each in _REFERENCE.findall(named)]
        found.extend((_REFERENCE.sub(b"R", named), content[len(named) :]))
        left.extend(next_ones)
    return tuple(found)
