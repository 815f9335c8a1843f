"""From pages without frames to pages in them, ready to be stamped.

Takes in editions and the frames; gives out files split at their tokens, as bytes.
Refuses a page with part of a token, or with one that nothing stands for.
"""

import hashlib
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property

from guidegen.guide.model import STAMPED
from guidegen.site.frame import Frame, Frames
from guidegen.site.model import Edition, PageText
from guidegen.site.recent import Recent
from guidegen.site.tokens import (
    AFTER_SLOT,
    BEFORE_SLOT,
    EDITION_SLOT,
    REVISION_SLOT,
    REVISIONS_SLOT,
    SOURCE_SUFFIX,
    revision_token,
    value_token,
)

SEARCH_DATA = "search-data.js"
_BEFORE_DATA, _AFTER_DATA = "window.guideSearch=", ";\n"
"""A script and no JSON: a page that was opened from a folder may load nothing else."""

UNIT_SLOTS = frozenset(
    [
        *STAMPED,
        *(name + SOURCE_SUFFIX for name in STAMPED),
        EDITION_SLOT,
        REVISION_SLOT,
        REVISIONS_SLOT,
    ]
)
"""What stands for all that a page does not share: identity, edition and revisions."""

_PAGES_KEPT = 64
"""A page in its frame is about 70 kB: 5 MB in all."""


class StrayToken(ValueError):
    """A page holds part of a token, or one that nothing stands for."""


@dataclass(frozen=True)
class FramedFile:
    """One file of an edition, split at its tokens."""

    path: str
    """Relative to the unit's own folder."""

    pieces: tuple[bytes, ...]
    """Fixed bytes in UTF-8; one more than there are tokens."""

    slots: tuple[str, ...]

    @cached_property
    def digest(self) -> str:
        """SHA-256 of all that the file is made of: two with the same digest are equal."""
        sizes = [len(piece) for piece in self.pieces]
        head = repr((self.path, self.slots, sizes)).encode()
        return hashlib.sha256(b"".join((head, *self.pieces))).hexdigest()

    def __reduce__(self) -> tuple[type["FramedFile"], tuple[object, ...]]:
        """Leave the digest behind, so that whoever receives the file reckons it anew."""
        return FramedFile, (self.path, self.pieces, self.slots)

    def stamped(self, values: Mapping[str, bytes]) -> bytes:
        """Return the file with each token replaced."""
        parts = [b""] * (len(self.pieces) + len(self.slots))
        parts[::2] = self.pieces
        parts[1::2] = [values[slot] for slot in self.slots]
        return b"".join(parts)


@dataclass(frozen=True, slots=True)
class FramedEdition:
    """An edition in its frames, ready to be stamped."""

    id: str
    pages: tuple[FramedFile, ...]
    search_index: FramedFile


class Framer:
    """Puts the pages of a fleet into their frames, each of them once."""

    def __init__(self, frames: Mapping[str, Frame], slots: Collection[str] = UNIT_SLOTS) -> None:
        """Keep what all pages share.

        Args:
            frames: Of a unit's pages, by name.
            slots: Names of what the tokens of pages may stand for.
        """
        self._frames = frames
        self._slots = slots
        self._framed: Recent[PageText, FramedFile] = Recent(_PAGES_KEPT)

    def fill(self, edition: Edition) -> FramedEdition:
        """Return *edition* with every page in its frame.

        A page that is equal in two editions is the very same file in both as long as it is kept.

        Raises:
            StrayToken: If a page holds part of a token, or one that stands for nothing.
        """
        search_data = f"{_BEFORE_DATA}{edition.search_index}{_AFTER_DATA}"
        return FramedEdition(
            id=edition.id,
            pages=tuple(self.frame(page) for page in edition.pages),
            search_index=_split(SEARCH_DATA, search_data, self._slots),
        )

    def frame(self, page: PageText) -> FramedFile:
        """Return *page* in its frame, split at its tokens; see `fill`."""
        return self._framed.made(page, lambda: self._fill(page))

    def _fill(self, page: PageText) -> FramedFile:
        texts = {
            "title": page.title,
            "number": value_token("identity.number"),
            "revision": revision_token(),
            "tools": page.tools,
            "nav": page.nav,
            "body": page.body,
        }
        return _split(page.path, self._frames[page.frame].fill(texts), self._slots)


def fill_frames(edition: Edition, frames: Frames) -> FramedEdition:
    """Return *edition* alone in its frames; see `Framer.fill`."""
    return Framer(frames.of_units).fill(edition)


def _split(path: str, text: str, slots: Collection[str]) -> FramedFile:
    first, *others = text.split(BEFORE_SLOT)
    fixed, found = [first], []
    for other in others:
        slot, close, rest = other.partition(AFTER_SLOT)
        if not close or slot not in slots:
            raise _stray(path, other)
        found.append(slot)
        fixed.append(rest)
    for piece in fixed:
        if AFTER_SLOT in piece:
            raise _stray(path, piece)
    return FramedFile(path, tuple(piece.encode() for piece in fixed), tuple(found))


def _stray(path: str, text: str) -> StrayToken:
    return StrayToken(f"{path} holds a stray token: {text[:80]!r}")
