"""A card without what is a truck's own, and the card of any truck of the edition made from it.

Takes in a drawn card without number and code, and a plate; gives out the whole file, the same
bytes for the same truck. Refuses a plate that is drawn with other fonts or colors.
"""

import base64
import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.paper.pdf_objects import PdfObjects, renumbered, table_line, written
from guidegen.paper.plate import Plate

_ID = re.compile(rb"<xmpMM:(InstanceID|DocumentID)>([^<]*)<")
_TITLE = b"/Title(%b: "
_TITLE_IN_XML = b">%b: "
_METADATA = re.compile(rb"/Metadata ([0-9]+) 0 R")


@dataclass(frozen=True, slots=True)
class BlankCard:
    """What all trucks of an edition share of a card, as a part of a file."""

    shared: bytes
    """The file from its beginning to the first object that is a truck's own."""

    table: tuple[bytes, ...]
    """Lines of the table of objects by number; empty for objects that are a truck's own."""

    number: str
    """Of the truck that it was drawn for; it stands in `info` and `metadata` only."""

    info: tuple[int, bytes]
    """Number and content of what names the file."""

    metadata: tuple[int, bytes]
    plate: int
    """Number that is kept for the plate."""

    root: int
    names: Mapping[bytes, bytes]
    parts: tuple[bytes, ...]
    """Of the plates that go with it."""

    @classmethod
    def of(cls, pdf: bytes, number: str, plate: Plate) -> "BlankCard":
        """Return the card *pdf*, drawn without a plate for truck *number*, ready for plates.

        Raises:
            ValueError: if *pdf* is not as the typesetter writes it.
        """
        drawn = PdfObjects.of(pdf)
        objects = dict(drawn.objects)
        found = _METADATA.search(objects[drawn.root])
        if found is None:
            raise ValueError("the card has no metadata")
        metadata = int(found[1])
        first = max(objects) + 1
        own = first + len(plate.parts)
        _make_room(objects, plate, first, own)
        objects.update(
            (first + place, renumbered(part, lambda each: first + each))
            for place, part in enumerate(plate.parts)
        )
        own_info, own_metadata = objects.pop(drawn.info), objects.pop(metadata)
        table = [b"0000000000 65535 f\r\n"] + [b""] * own
        pieces = [drawn.header]
        length = len(drawn.header)
        for each, content in sorted(objects.items()):
            table[each] = table_line(length)
            pieces.append(written(each, content))
            length += len(pieces[-1])
        return cls(
            b"".join(pieces),
            tuple(table),
            number,
            (drawn.info, own_info),
            (metadata, own_metadata),
            own,
            drawn.root,
            plate.names,
            plate.parts,
        )

    def takes(self, plate: Plate) -> bool:
        """Whether *plate* is drawn with the fonts and colors that are in the file already."""
        return self.names == plate.names and self.parts == plate.parts

    @property
    def is_shared(self) -> bool:
        """Whether other trucks than its own can be named in it."""
        number = self.number.encode()
        return (
            self.info[1].count(_TITLE % number) == 1
            and self.metadata[1].count(_TITLE_IN_XML % number) == 1
        )

    def filled(self, number: str, plate: Plate) -> bytes:
        """Return the card of the truck *number*.

        Raises:
            ValueError: if *plate* is drawn with other fonts or colors.
        """
        if not self.takes(plate):
            raise ValueError("the plate is drawn with other fonts or colors than the card has")
        info = self._named(self.info[1], _TITLE, number)
        document, instance = _ids(self.shared, info, plate.drawing)
        metadata = _with_ids(
            self._named(self.metadata[1], _TITLE_IN_XML, number), document, instance
        )
        lines = list(self.table)
        parts = [self.shared]
        length = len(self.shared)
        for each, content in (
            (self.info[0], info),
            (self.metadata[0], metadata),
            (self.plate, plate.drawing),
        ):
            lines[each] = table_line(length)
            parts.append(written(each, content))
            length += len(parts[-1])
        parts.append(b"xref\n0 %d\n" % len(lines))
        parts.extend(lines)
        parts.append(
            b"trailer\n<</Size %d/Root %d 0 R/Info %d 0 R/ID[(%b)(%b)]>>\nstartxref\n%d\n%%%%EOF\n"
            % (len(lines), self.root, self.info[0], document, instance, length)
        )
        return b"".join(parts)

    def _named(self, content: bytes, frame: bytes, number: str) -> bytes:
        """Return *content* with the truck named in its title."""
        return content.replace(frame % self.number.encode(), frame % number.encode())


def _make_room(objects: dict[int, bytes], plate: Plate, first: int, own: int) -> None:
    """Let each page draw the plate with the number *own* first, with parts from *first* on."""
    names = {
        kind: renumbered(entries, lambda each: first + each)
        for kind, entries in plate.names.items()
    }
    resources = set[int]()
    for number, content in list(objects.items()):
        if re.search(rb"/Type ?/Page\b", content):
            objects[number], count = re.subn(
                rb"/Contents ([0-9]+ 0 R)", rb"/Contents [%d 0 R \1]" % own, content
            )
            named = re.search(rb"/Resources ([0-9]+) 0 R", content)
            if not count or named is None:
                raise ValueError("a page of the card draws nothing")
            resources.add(int(named[1]))
    for number in resources:
        content = objects[number]
        for kind, entries in names.items():
            opens = b"/%b<<" % kind
            if opens in content:
                content = content.replace(opens, opens + entries)
            else:
                content = content.removesuffix(b">>") + opens + entries + b">>>>"
        objects[number] = content


def _ids(*parts: bytes) -> tuple[bytes, bytes]:
    """Return identifiers of the document and of its state, ISO 32000-1, 14.4, from its content."""
    made = hashlib.sha256()
    for part in parts:
        made.update(hashlib.sha256(part).digest())
    digest = made.digest()
    return base64.b64encode(digest[:16]), base64.b64encode(digest[16:])


def _with_ids(metadata: bytes, document: bytes, instance: bytes) -> bytes:
    """Return *metadata* with other identifiers, and its true length."""
    start = metadata.index(b"stream\n") + len(b"stream\n")
    end = metadata.rindex(b"\nendstream")
    text = metadata[start:end]
    new = {b"InstanceID": instance, b"DocumentID": document}
    for name, old in _ID.findall(text):
        text = text.replace(old, new[name])
    head = re.sub(rb"/Length [0-9]+", b"/Length %d" % len(text), metadata[:start], count=1)
    return head + text + metadata[end:]
