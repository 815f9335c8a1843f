"""What is a truck's own on each side of its cards: number and code.

Takes in a PDF of two pages, the first with all letters of numbers, the second with the plate;
gives out what draws the plate, and the fonts and colors that it draws with. Refuses to be more
than one page: all sides of one size get the same plate.
"""

import re
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.paper.pdf_objects import PdfObjects, renumbered

_NAMES = re.compile(rb"/([a-z])([0-9]+)(?![0-9A-Za-z])")
"""Of fonts and colors, as the typesetter gives them: ``/f0``, ``/c1``."""

_OWN = rb"/u\1\2"
"""Names that no side has."""

_RESOURCES = (b"ColorSpace", b"Font", b"ExtGState")
"""Kinds of what a plate may draw with."""


@dataclass(frozen=True, slots=True)
class Plate:
    """What is drawn behind a side before all else."""

    drawing: bytes
    """A whole stream object that names nothing by number."""

    names: Mapping[bytes, bytes]
    """Entries for the resources of a side, by kind; they name `parts` by number, from 0."""

    parts: tuple[bytes, ...]
    """Fonts, colors and what belongs to them; the same for all trucks."""

    @classmethod
    def of(cls, pdf: bytes) -> "Plate":
        """Return the plate on the second page of *pdf*.

        Raises:
            ValueError: if it has other than two pages, or draws with more than fonts and colors.
        """
        drawn = PdfObjects.of(pdf)
        pages = [each for each in drawn.objects.values() if _is_page(each)]
        if len(pages) != 2:  # noqa: PLR2004 -- letters and plate
            raise ValueError(f"a plate has 2 pages and not {len(pages)}")
        content = _stream(drawn.objects[_named(pages[1], b"Contents")])
        number = _named(pages[1], b"Resources")
        found = drawn.reached(number)
        # The resources themselves come first and go into those of each side.
        parts = tuple(
            renumbered(drawn.objects[old], lambda each: found[each] - 1) for old in list(found)[1:]
        )
        own = renumbered(drawn.objects[number], lambda each: found[each] - 1)
        names = dict(_entries(own))
        packed = zlib.compress(_NAMES.sub(_OWN, content), 9)
        head = b"<</Length %d/Filter/FlateDecode>>" % len(packed)
        return cls(head + b"\nstream\n" + packed + b"\nendstream", names, parts)


def _entries(resources: bytes) -> Iterator[tuple[bytes, bytes]]:
    rest = re.sub(rb"/ProcSet\[[^\]]*\]", b"", resources)
    for kind in _RESOURCES:
        found = re.search(rb"/" + kind + rb"<<([^<>]*)>>", rest)
        if found:
            yield kind, _NAMES.sub(_OWN, found[1])
            rest = rest.replace(found[0], b"")
    if rest != b"<<>>":
        raise ValueError(f"a plate draws with {rest!r}")


def _is_page(content: bytes) -> bool:
    return re.search(rb"/Type ?/Page\b", content) is not None


def _named(content: bytes, name: bytes) -> int:
    found = re.search(rb"/" + name + rb" ([0-9]+) 0 R", content)
    if found is None:
        raise ValueError(f"a page has no {name.decode()}")
    return int(found[1])


def _stream(content: bytes) -> bytes:
    start = content.index(b"stream\n") + len(b"stream\n")
    return zlib.decompress(content[start : content.rindex(b"\nendstream")])
