"""From an edition to the files of one unit.

Takes in an edition, its frame and a guide; gives out the unit's files by path, as bytes.
Refuses a guide of another edition, and a page with a token that nothing stands for.
"""

import json
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from html import escape

from guidegen.guide.model import STAMPED, Guide
from guidegen.revisions.model import UnitHistory
from guidegen.site.frame import Frame, Frames
from guidegen.site.model import Edition, PageText
from guidegen.site.revision import revision_words
from guidegen.site.tokens import (
    REVISION_SLOT,
    REVISIONS_SLOT,
    SOURCE_SUFFIX,
    TOKEN,
    has_reserved,
    plain,
    revision_token,
    value_token,
)
from guidegen.wording import source_words, value_words

SEARCH_DATA = "search-data.js"
_BEFORE_DATA, _AFTER_DATA = "window.guideSearch=", ";\n"
"""A script and no JSON: a page that was opened from a folder may load nothing else."""

UNIT_SLOTS = frozenset(
    [*STAMPED, *(name + SOURCE_SUFFIX for name in STAMPED), REVISION_SLOT, REVISIONS_SLOT]
)
"""What stands for all that is a page's own unit's: its identity and its revisions."""


class StrayToken(ValueError):
    """A page holds part of a token, or one that nothing stands for."""


class WrongEdition(ValueError):
    """A guide was to be stamped with the pages of another edition."""


@dataclass(frozen=True, slots=True)
class FramedFile:
    """One file of an edition, split at its tokens."""

    path: str
    """Relative to the unit's own folder."""

    pieces: tuple[bytes, ...]
    """Fixed bytes in UTF-8; one more than there are tokens."""

    slots: tuple[str, ...]

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


def fill_frames(edition: Edition, frames: Frames) -> FramedEdition:
    """Return *edition* with every page in its frame.

    Raises:
        StrayToken: If a page holds part of a token, or one that no identity fact stands for.
    """
    return FramedEdition(
        id=edition.id,
        pages=tuple(
            fill_frame(page, frames.of_units[page.frame], UNIT_SLOTS) for page in edition.pages
        ),
        search_index=_split(
            SEARCH_DATA, f"{_BEFORE_DATA}{edition.search_index}{_AFTER_DATA}", UNIT_SLOTS
        ),
    )


def fill_frame(page: PageText, frame: Frame, slots: Collection[str]) -> FramedFile:
    """Return *page* in *frame*, split at its tokens.

    Args:
        page: The page, with tokens.
        frame: What stands around it.
        slots: Names of what its tokens may stand for.

    Raises:
        StrayToken: If it holds part of a token, or one that stands for nothing in *slots*.
    """
    texts = {
        "title": page.title,
        "number": value_token("identity.number"),
        "revision": revision_token(),
        "tools": page.tools,
        "nav": page.nav,
        "body": page.body,
    }
    return _split(page.path, frame.fill(texts), slots)


def stamp(
    edition: FramedEdition, guide: Guide, revisions: str = "", told: UnitHistory | None = None
) -> Mapping[str, bytes]:
    """Return the files of the unit of *guide*, by path relative to the site.

    Args:
        edition: In its frames.
        guide: Of a unit of this edition.
        revisions: HTML of the section of the unit's revisions; empty where no record is kept.
        told: What was released of the unit; likewise none.

    Raises:
        WrongEdition: If *guide* is of another edition.
        ReservedCharacter: If a value of its identity holds a character that tokens are made of.
    """
    if guide.edition != edition.id:
        raise WrongEdition(f"{guide.number} is of edition {guide.edition}, not {edition.id}")
    html = identity_in_html(guide)
    in_json = {slot: _json_inside(plain(words)) for slot, words in _identity(guide)}
    words = {
        **html,
        REVISION_SLOT: revision_in_html(guide, told),
        REVISIONS_SLOT: revisions.encode(),
    }
    files = {f"{guide.number}/{page.path}": page.stamped(words) for page in edition.pages}
    index = edition.search_index
    files[f"{guide.number}/{index.path}"] = index.stamped(in_json)
    return files


def revision_in_html(guide: Guide, told: UnitHistory | None) -> bytes:
    """Return which revision the guide of a unit is, as HTML text; *told* as of `stamp`."""
    return escape(revision_words(guide, told), quote=True).encode()


def identity_in_html(guide: Guide) -> Mapping[str, bytes]:
    """Return the identity of the unit of *guide*, by slot, as HTML text.

    Raises:
        ReservedCharacter: If a value holds a character that tokens are made of.
    """
    return {slot: escape(plain(words), quote=True).encode() for slot, words in _identity(guide)}


def _identity(guide: Guide) -> Iterable[tuple[str, str]]:
    yield "identity.number", guide.number
    for name in STAMPED:
        fact = guide.facts.get(name)
        if fact is not None:
            yield name, value_words(fact)
            yield name + SOURCE_SUFFIX, source_words(fact)


def _json_inside(text: str) -> bytes:
    return json.dumps(text, ensure_ascii=False)[1:-1].encode()


def _split(path: str, text: str, slots: Collection[str]) -> FramedFile:
    pieces = TOKEN.split(text)
    fixed, found = pieces[::2], pieces[1::2]
    stray = [slot for slot in found if slot not in slots]
    stray += [piece for piece in fixed if has_reserved(piece)]
    if stray:
        raise StrayToken(f"{path} holds a stray token: {stray[0][:80]!r}")
    return FramedFile(path, tuple(piece.encode() for piece in fixed), tuple(found))
