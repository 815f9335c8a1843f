"""The objects of a PDF as the typesetter writes it.

Takes in a PDF with tables of objects; gives out its objects as bytes, and a file made of objects.
Refuses streams of objects: what stands in one cannot be kept as it was drawn.
"""

import itertools
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

REFERENCE = re.compile(rb"\b([0-9]+) 0 R\b")
_LINE = 20
"""Bytes of a line in the table of objects; ISO 32000-1, 7.5.4."""

_BEGIN = re.compile(rb"[0-9]+ 0 obj\s+")
_END = re.compile(rb"\s+endobj\s*\Z")


@dataclass(frozen=True, slots=True)
class PdfObjects:
    """A PDF taken apart."""

    header: bytes
    """All that comes before the first object."""

    objects: Mapping[int, bytes]
    """What stands between ``obj`` and ``endobj``, by number."""

    root: int
    info: int

    @classmethod
    def of(cls, pdf: bytes) -> "PdfObjects":
        """Take *pdf* apart; of an object that was updated the newest counts.

        Raises:
            ValueError: if it has no table of objects.
        """
        offsets: dict[int, int] = {}
        ends = list[int]()
        trailers = list[bytes]()
        at: int | None = int(pdf[pdf.rindex(b"startxref") :].split()[1])
        while at is not None:
            found, trailer = _table(pdf, at)
            offsets = {**found, **offsets}
            ends.append(at)
            trailers.append(trailer)
            before = re.search(rb"/Prev ([0-9]+)", trailer)
            at = int(before[1]) if before else None
        borders = sorted({*offsets.values(), *ends, *_all_offsets(pdf, ends)})
        after = dict(itertools.pairwise(borders))
        objects = {
            number: _END.sub(b"", _BEGIN.sub(b"", pdf[start : after[start]], count=1))
            for number, start in sorted(offsets.items())
        }
        root, info = (_number(trailers[0], name) for name in (b"Root", b"Info"))
        return cls(pdf[: borders[0]], objects, root, info)

    def reached(self, number: int) -> dict[int, int]:
        """Return new numbers, from 0 in the order of finding, of all that *number* leads to."""
        found = {number: 0}
        left = [number]
        while left:
            for each in references(self.objects[left.pop(0)]):
                if each not in found:
                    found[each] = len(found)
                    left.append(each)
        return found


def written(number: int, content: bytes) -> bytes:
    """Return the object *number* as it stands in a file."""
    return b"%d 0 obj\n%b\nendobj\n" % (number, content)


def table_line(offset: int) -> bytes:
    """Return the line of the table for an object at *offset*."""
    return b"%010d 00000 n\r\n" % offset


def references(content: bytes) -> Iterable[int]:
    """Yield the numbers of the objects that *content* names outside its stream."""
    return (int(each) for each in REFERENCE.findall(_split(content)[0]))


def renumbered(content: bytes, number_of: Callable[[int], int]) -> bytes:
    """Return *content* with other numbers in it; its stream stays as it was."""
    named, stream = _split(content)
    return REFERENCE.sub(lambda at: b"%d 0 R" % number_of(int(at[1])), named) + stream


def _split(content: bytes) -> tuple[bytes, bytes]:
    at = content.find(b"stream\n")
    return (content, b"") if at < 0 else (content[:at], content[at:])


def _table(pdf: bytes, at: int) -> tuple[dict[int, int], bytes]:
    """Return the offsets in the table at *at*, by number, and the trailer after it."""
    if not pdf.startswith(b"xref", at):
        raise ValueError("the PDF has no table of objects")
    place = pdf.index(b"\n", at) + 1
    found: dict[int, int] = {}
    while not pdf.startswith(b"trailer", place):
        end = pdf.index(b"\n", place) + 1
        first, count = map(int, pdf[place:end].split())
        for number in range(first, first + count):
            line = pdf[end : end + _LINE]
            if line[17:18] == b"n":
                found[number] = int(line[:10])
            end += _LINE
        place = end
    return found, pdf[place : pdf.index(b"startxref", place)]


def _all_offsets(pdf: bytes, tables: Iterable[int]) -> Iterable[int]:
    for at in tables:
        yield from _table(pdf, at)[0].values()


def _number(trailer: bytes, name: bytes) -> int:
    found = re.search(rb"/" + name + rb" ([0-9]+) 0 R", trailer)
    if found is None:
        raise ValueError(f"the PDF names no {name.decode()}")
    return int(found[1])
