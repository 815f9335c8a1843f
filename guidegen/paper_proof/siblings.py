"""Cards that differ from a proved card in nothing but number, code and name of the file.

Takes in the PDF of a card and what it must say, and remembers cards that were proved; gives out
what is proved of it without reading all of it again. Refuses to call two cards alike on any other
ground than equal bytes: what is the truck's own is read and proved by itself, and all else is
byte for byte what was proved for another truck that must read the same there.
"""

import re
from dataclasses import dataclass, field, replace

from guidegen.paper_proof.compare_code import CodeFaults, compare_code
from guidegen.paper_proof.compare_ink import slack_of
from guidegen.paper_proof.compare_paper import safe_of, trim_of
from guidegen.paper_proof.likeness import common_of, has_own_values, says_the_same, unit_of
from guidegen.paper_proof.model import Expected, PaperCounts
from guidegen.paper_proof.plate_stream import PlateUse, drawing_of, use_of
from guidegen.paper_proof.read_file import FileRead, OwnPlaces, own_places, read_file, resources
from guidegen.paper_proof.read_pdf import PdfRead, UnreadablePdf
from guidegen.paper_proof.sheet_model import Box, SideRead, TextRead
from guidegen.proof.faults import Faults
from guidegen.proof.read_text import fold

_PLAIN = re.compile(r"[0-9A-Za-z .,:/+-]+")
"""Titles that stand in a file as they are read."""

_IDENTIFIER = re.compile(rb"[A-Za-z0-9+/]{22}==")
_LENGTH = re.compile(rb"/Length ([0-9]+)")
_HAIR = 1.0
"""Points that are left free around a number."""

KEPT = 4
"""Proved cards of one kind to compare with: the room for the number can differ."""


@dataclass(frozen=True, slots=True)
class _Proved:
    """A card that was read in full, and how it was read."""

    expected: Expected
    counts: PaperCounts
    file: FileRead
    places: OwnPlaces
    common: object
    """All of `expected` that is not the truck's own."""

    use: PlateUse
    """Of what draws number and code."""

    resources: tuple[bytes, ...]
    first: SideRead
    number: TextRead
    """In `first`."""

    room: Box
    """Where no side draws anything but the number."""

    modules: int
    """Of the code."""


@dataclass(slots=True)
class ProvedCards:
    """What was proved of the cards of one edition at a time."""

    _edition: str = ""
    _cards: dict[str, list[_Proved]] = field(default_factory=dict)
    """By kind, the newest last."""

    _plates: dict[object, Box] = field(default_factory=dict)
    """Boxes of the numbers on plates that were read and proved."""

    def found(self, pdf: bytes, expected: Expected, kind: str) -> PaperCounts | None:
        """Return what is proved of *pdf* since a card like it was proved; nothing if none was.

        Args:
            pdf: Of one card.
            expected: All that it must say.
            kind: Id of the card.
        """
        candidates = self._of(expected).get(kind, [])
        file = read_file(pdf) if candidates else None
        if file is None:
            return None
        for proved in reversed(candidates):
            if (
                _differ_in_own_places_only(file, proved)
                and says_the_same(expected, proved.expected, proved.common)
                and _is_named(file, expected, proved)
            ):
                box = self._number_on(pdf, file, expected, proved)
                return proved.counts if box and proved.room.holds(box) else None
        return None

    def keep(
        self, pdf: bytes, expected: Expected, kind: str, counts: PaperCounts, read: "Reading"
    ) -> None:
        """Remember *pdf*, of which all was proved, as *read*."""
        proved = _proved(pdf, expected, counts, read)
        if proved is not None:
            self._of(expected).setdefault(kind, []).append(proved)
            del self._cards[kind][:-KEPT]

    def _of(self, expected: Expected) -> dict[str, list[_Proved]]:
        if expected.guide.edition != self._edition:
            self._edition = expected.guide.edition
            self._cards.clear()
            self._plates.clear()
        return self._cards

    def _number_on(
        self, pdf: bytes, file: FileRead, expected: Expected, proved: _Proved
    ) -> Box | None:
        """Return where the number stands, if number and code are the truck's; read them once."""
        plate = file.objects[proved.places.plate].partition(b" ")[2]
        drawn = tuple(each for each in proved.first.drawn if not each.is_plain)
        key = (
            *(expected.guide.number, expected.link, plate, proved.resources, proved.modules),
            *(proved.number, drawn, proved.first.paper, proved.first.trim, proved.first.visible),
            *(proved.expected.link, expected.side, expected.safe, expected.bleed),
        )
        if key not in self._plates:
            box = _read_plate(pdf, plate, expected, proved)
            if box is None:
                return None
            self._plates[key] = box
        return self._plates[key]


@dataclass(frozen=True, slots=True)
class Reading:
    """How a card was read when it was proved."""

    sides: tuple[SideRead, ...]
    modules: int
    """Of the code on the first side."""


def _proved(pdf: bytes, expected: Expected, counts: PaperCounts, read: Reading) -> _Proved | None:
    file = read_file(pdf)
    places = own_places(file, len(read.sides)) if file else None
    if file is None or places is None or not read.modules:
        return None
    drawing = drawing_of(file.objects[places.plate])
    use = use_of(drawing) if drawing else None
    reached = resources(file, use.names) if use else None
    numbers = [_number_read(side, expected) for side in read.sides]
    number = numbers[0]
    if use is None or reached is None or number is None or has_own_values(expected):
        return None
    if any(each is None or each._replace(place=number.place) != number for each in numbers):
        return None
    room = _room(number, read.sides, expected)
    return _Proved(
        expected,
        counts,
        file,
        places,
        common_of(expected),
        use,
        reached,
        read.sides[0],
        number,
        room,
        read.modules,
    )


def _number_read(side: SideRead, expected: Expected) -> TextRead | None:
    wanted = unit_of(expected).pattern
    found = [each for each in side.texts if each.is_head and fold(each.text) == wanted]
    return found[0] if len(found) == 1 else None


def _room(number: TextRead, sides: tuple[SideRead, ...], expected: Expected) -> Box:
    """Return how far the number could reach before it touched anything or left the safe area."""
    safe = safe_of(sides[0], expected).grown(slack_of(number))
    band = number.box.grown(_HAIR)
    left, right = safe.left, safe.right - _HAIR
    for side in sides:
        for each in side.objects:
            box = each.box
            if each.place == number.place or box.top < band.bottom or box.bottom > band.top:
                continue
            if box.right < number.box.left:
                left = max(left, box.right)
            elif box.left > number.box.right:
                right = min(right, box.left - _HAIR)
            else:
                # Something is under the number, or too near: it has the room that it takes.
                return number.box
    return Box(left, max(band.bottom, safe.bottom), right, min(band.top, safe.top))


def _differ_in_own_places_only(file: FileRead, proved: _Proved) -> bool:
    mine, known = file.objects, proved.file.objects
    if len(mine) != len(known) or (file.root, file.info) != (proved.file.root, proved.file.info):
        return False
    own = proved.places.all
    return all(number in own or content == known[number] for number, content in enumerate(mine))


def _is_named(file: FileRead, expected: Expected, proved: _Proved) -> bool:
    """Whether the file is called as it must be, and is otherwise described as the proved one."""
    mine, known = expected.document, proved.expected.document
    if not _PLAIN.fullmatch(mine) or not _PLAIN.fullmatch(known):
        return False
    for place, frame in ((proved.places.info, b"(%b)"), (proved.places.metadata, b">%b<")):
        content, other = file.objects[place], proved.file.objects[place]
        titles = frame % mine.encode(), frame % known.encode()
        if content.count(titles[0]) != 1 or other.count(titles[1]) != 1:
            return False
        rest = _described(other.replace(titles[1], b""))
        if _described(content.replace(titles[0], b"")) != rest or _names(rest, proved):
            return False
    length = _LENGTH.search(file.objects[proved.places.metadata])
    stream = file.objects[proved.places.metadata].partition(b"stream\n")[2]
    return length is not None and int(length[1]) == len(stream.removesuffix(_AFTER))


def _names(content: bytes, proved: _Proved) -> bool:
    """Whether *content* holds the number of the proved truck as a word of its own."""
    number = re.escape(proved.expected.guide.number.encode())
    return re.search(rb"(?<![0-9A-Za-z])" + number + rb"(?![0-9A-Za-z])", content) is not None


_AFTER = b"\nendstream\nendobj\n"


def _described(content: bytes) -> bytes:
    """Return what describes a file, without what the file is identified by."""
    return _LENGTH.sub(b"", _IDENTIFIER.sub(b"", content), count=1)


def _read_plate(pdf: bytes, plate: bytes, expected: Expected, proved: _Proved) -> Box | None:
    """Return where the number stands if the first side is the proved one but for the truck's own.

    The number must be the truck's, as large, at the same place and as visible; the code must be
    read as the truck's.
    """
    drawing = drawing_of(b"0 " + plate)
    use = proved.use
    if drawing is None or use_of(drawing) != use:
        return None
    faults = Faults(expected.guide.number, expected.file)
    known = proved.first.objects
    try:
        with PdfRead(pdf) as read:
            if len(read) != proved.counts.sides or read.count(0) != len(known):
                return None
            # The plate is drawn first, and all after it by the same bytes as on the proved side.
            side = replace(
                proved.first, objects=(*read.first_objects(0, use.shown), *known[use.shown :])
            )
            number = _number_read(side, expected)
            if number is None or not _are_alike(side, number, proved):
                return None
            modules = compare_code(
                side,
                trim_of(side, expected),
                expected.link,
                lambda box, dots: read.picture(0, box, dots),
                CodeFaults(faults, "side 1"),
            )
    except UnreadablePdf:
        return None
    return number.box if modules == proved.modules and not faults.found else None


def _are_alike(side: SideRead, number: TextRead, proved: _Proved) -> bool:
    """Whether *side* is the proved one, but for the letters and the width of the number."""
    known = proved.number
    if number._replace(text=known.text, box=known.box) != known:
        return False
    alike = tuple(known if each is number else each for each in side.objects)
    return alike == proved.first.objects
