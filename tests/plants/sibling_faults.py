"""Cards of a truck whose twin's card was proved before, with faults that sharing could let through.

The files are written as the press writes them: objects, one table, nothing else. What differs is
what the fault is about, so that none is noticed for its wrapping.
"""

import itertools
import re
import zlib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from plants.paper_press import Given, Shop

Objects = dict[int, bytes]
"""What stands between ``obj`` and ``endobj``; under 0 what comes before all, -1 after."""


@dataclass(frozen=True, slots=True)
class SiblingPlant:
    """A card of the twin with a fault."""

    what: str
    pdf: bytes


def taken_apart(pdf: bytes) -> Objects:
    at = int(pdf[pdf.rindex(b"startxref") :].split()[1])
    end = pdf.index(b"trailer", at)
    lines = pdf[at:end].split(b"\r\n")[1:-1]
    starts = {number: int(line[:10]) for number, line in enumerate(lines, start=1)}
    borders = sorted({*starts.values(), at})
    after = dict(itertools.pairwise(borders))
    objects = {
        number: re.sub(rb"\A[0-9]+ 0 obj\n|\nendobj\n\Z", b"", pdf[start : after[start]])
        for number, start in starts.items()
    }
    return {0: pdf[: borders[0]], **objects, -1: pdf[end : pdf.rindex(b"startxref")]}


def put_together(objects: Objects) -> bytes:
    pdf = objects[0]
    count = max(objects) + 1
    starts: dict[int, int] = {}
    for number in range(1, count):
        starts[number] = len(pdf)
        pdf += b"%d 0 obj\n%b\nendobj\n" % (number, objects[number])
    table = b"xref\n0 %d\n0000000000 65535 f\r\n" % count
    table += b"".join(b"%010d 00000 n\r\n" % starts[number] for number in range(1, count))
    trailer = re.sub(rb"/Size [0-9]+", b"/Size %d" % count, objects[-1])
    return pdf + table + trailer + b"startxref\n%d\n%%%%EOF\n" % len(pdf)


def stream(content: bytes) -> bytes:
    packed = zlib.compress(content)
    return b"<</Length %d/Filter/FlateDecode>>\nstream\n%b\nendstream" % (len(packed), packed)


def drawing(content: bytes) -> bytes:
    return zlib.decompress(content.partition(b"stream\n")[2].rpartition(b"\nendstream")[0])


def page_parts(objects: Objects, page: int = 0) -> tuple[int, int]:
    """Return the numbers of the plate and of all else that a page draws."""
    pages = [each for each in objects.values() if re.search(rb"/Type ?/Page\b", each)]
    found = re.search(rb"/Contents ?\[ ?([0-9]+) 0 R ([0-9]+) 0 R", pages[page])
    assert found
    return int(found[1]), int(found[2])


def _on_plate(edit: Callable[[bytes], bytes]) -> Callable[[Objects], None]:
    def change(objects: Objects) -> None:
        plate, _ = page_parts(objects)
        before = drawing(objects[plate])
        after = edit(before)
        assert after != before
        objects[plate] = stream(after)

    return change


def _on_rest(edit: Callable[[bytes], bytes], page: int) -> Callable[[Objects], None]:
    def change(objects: Objects) -> None:
        _, rest = page_parts(objects, page)
        before = drawing(objects[rest])
        after = edit(before)
        assert after != before
        objects[rest] = stream(after)

    return change


def _on_others(old: bytes, new: bytes) -> Callable[[Objects], None]:
    def change(objects: Objects) -> None:
        found = [number for number, each in objects.items() if re.search(old, each, re.DOTALL)]
        assert found, old
        for number in found:
            objects[number] = re.sub(old, new, objects[number], flags=re.DOTALL)

    return change


_HIDDEN = b"/Artifact BMC q BT 3 Tr /uf0 8 Tf 1 0 0 1 99 99 Tm (\\000\\001) Tj ET Q EMC "
_SMALL = b"/Artifact BMC q BT /uf0 1 Tf 1 0 0 1 99 99 Tm (\\000\\001) Tj ET Q EMC "
_BOX = b"/Artifact BMC q 40 60 200 200 re f Q EMC "
_NUMBER = re.compile(rb"(Tm)(\[[^\]]*\]TJ|\([^)]*\)Tj)")

EDITS: dict[str, Callable[[Objects], None]] = {
    "hidden letters before the plate": _on_plate(lambda each: _HIDDEN + each),
    "small letters after the plate": _on_plate(lambda each: each + _SMALL),
    "a black box on the plate": _on_plate(lambda each: each + _BOX),
    "a plate that leaves the page shrunk": _on_plate(lambda each: each + b" .5 0 0 .5 0 0 cm"),
    "a plate that leaves a mask": _on_plate(lambda each: each + b" 0 0 9 9 re W n"),
    "a plate that never ends": _on_plate(lambda each: each + b" q 0 0 9 9 re W n"),
    "a number without letters": _on_plate(lambda each: _NUMBER.sub(rb"\1()Tj", each, count=1)),
    "a number set smaller": _on_plate(lambda each: each.replace(b"/uf0 26 Tf", b"/uf0 12 Tf")),
    "a number moved to the edge": _on_plate(
        lambda each: re.sub(
            rb"q 1 0 0 -1 ([0-9.]+) ([0-9.]+) cm", rb"q 1 0 0 -1 2 \2 cm", each, count=1
        )
    ),
    "a number drawn twice": _on_plate(lambda each: _NUMBER.sub(rb"\1\2 \2", each, count=1)),
    "a code of which half is gone": _on_plate(
        lambda each: each[: each.rindex(b"18.5 m")] + b"h B Q Q EMC"
    ),
    "a word gone on the last side": _on_rest(
        lambda each: re.sub(rb"BT((?!BT).)*?ET", b"", each, count=5, flags=re.DOTALL), -1
    ),
    "letters hidden on the second side": _on_rest(
        lambda each: each.replace(b"BT 0 Tr", b"BT 3 Tr"), 1
    ),
    "letters that read as others": _on_others(rb"/ToUnicode [0-9]+ 0 R", b""),
    "fonts that are not in the file": _on_others(rb"/FontFile[23] [0-9]+ 0 R", b""),
    "the twin's name on the file": _on_others(rb"\(T-18: ", b"(T-17: "),
    "a page without a trim": _on_others(rb"/TrimBox \[[^\]]*\]", b""),
    "a note over the page": _on_others(
        rb"/Type /Page >>",
        b"/Annots [<</Type/Annot/Subtype/FreeText/Rect[20 20 90 60]/Contents(T-17)>>] "
        b"/Type /Page >>",
    ),
}

HARMLESS: dict[str, Callable[[Objects], None]] = {
    "a plate that leaves letters unfilled": _on_plate(lambda each: each + b" 3 Tr"),
    "a plate that leaves white ink": _on_plate(lambda each: each + b" /uc1 cs 1 1 1 scn"),
    "a number moved toward the title": _on_plate(
        lambda each: re.sub(
            rb"q 1 0 0 -1 ([0-9.]+) [0-9.]+ cm", rb"q 1 0 0 -1 \1 410 cm", each, count=1
        )
    ),
}
"""What a card that is read in full may have, and a card that is taken for its twin's may not."""


def edited_files(
    whole: bytes, edits: Mapping[str, Callable[[Objects], None]] = MappingProxyType(EDITS)
) -> Iterator[SiblingPlant]:
    """Yield the twin's card with each edit."""
    for what, edit in edits.items():
        objects = taken_apart(whole)
        edit(objects)
        yield SiblingPlant(what, put_together(objects))


def drawn_otherwise(  # noqa: C901 -- one small edit after another
    shop: Shop, unit: str, kind: str
) -> Iterator[SiblingPlant]:
    """Yield cards whose matter is changed: values, cautions, steps, number, code, title."""
    order = shop.order(unit, kind)
    assert order is not None

    def value(given: Given) -> None:
        for group in given["groups"]:
            for piece in group["pieces"]:
                for part in piece.get("text", ()):
                    if len(part) > 1 and part[1] == "v":
                        part[0] = re.sub("[0-9]", "9", part[0], count=1)
                        return
        raise AssertionError("no value")

    def caution(given: Given) -> None:
        for group in given["groups"]:
            for piece in group["pieces"]:
                if "signal" in piece:
                    group["pieces"].remove(piece)
                    return
        raise AssertionError("no caution")

    def step(given: Given) -> None:
        given["groups"][-1]["pieces"].pop()

    def stamped(**words: str) -> Callable[[Given], None]:
        return lambda given: given["stamp"].update(words)

    def code(given: Given) -> None:
        twin = shop.order("T-17", kind)
        assert twin is not None
        given["stamp"]["code"] = shop.given(twin)["stamp"]["code"]

    edits = {
        "another value": value,
        "no caution": caution,
        "no last step": step,
        "the twin's number": stamped(unit="T-17"),
        "another truck's number": stamped(unit="K-22"),
        "a long number": stamped(unit="T-18-T-18-T-18"),
        "no number": stamped(unit=""),
        "the twin's title": stamped(document="T-17: Brake check"),
        "another revision": stamped(revision="Revision 00000000"),
        "another date": stamped(date="2025-11-20"),
        "the twin's code": code,
    }
    for what, edit in edits.items():

        def change(given: Given, edit: Callable[[Given], None] = edit) -> Given:
            edit(given)
            return given

        yield SiblingPlant(what, shop.draw(order, change))
