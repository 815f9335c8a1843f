"""From an edition to the files of one unit.

Takes in an edition in its frames and what is a unit's own; gives out the unit's files by path, as
bytes. Refuses a unit of another edition.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from html import escape
from typing import Self

from guidegen.guide.model import STAMPED, Guide
from guidegen.revisions.model import UnitHistory
from guidegen.site.framing import FramedEdition
from guidegen.site.revision import revision_words
from guidegen.site.tokens import (
    EDITION_SLOT,
    REVISION_SLOT,
    REVISIONS_SLOT,
    SOURCE_SUFFIX,
    plain,
)
from guidegen.wording import source_words, value_words

_json = json.JSONEncoder(ensure_ascii=False).encode


class WrongEdition(ValueError):
    """A unit was to be stamped with the pages of another edition."""


@dataclass(frozen=True, slots=True)
class UnitStamp:
    """All of a unit that its edition does not say."""

    number: str
    edition: str
    """Fingerprint of the unit's edition."""

    identity: tuple[tuple[str, str], ...]
    """Number, VIN, plate and yard, each with its source, as words by slot."""

    revision: str
    """What the bar calls the guide's revision."""

    revisions: str = ""
    """HTML of the section of the unit's revisions; empty where no record is kept."""

    @classmethod
    def of(cls, guide: Guide, revisions: str = "", told: UnitHistory | None = None) -> Self:
        """Return what is stamped for the unit of *guide*.

        Args:
            guide: Of the unit.
            revisions: HTML of the section of the unit's revisions.
            told: What was released of the unit; none where no record is kept.

        Raises:
            ReservedCharacter: If a value of its identity holds a character that tokens are made of.
        """
        identity = tuple((slot, plain(words)) for slot, words in _identity(guide))
        revision = revision_words(guide, told)
        return cls(guide.number, guide.edition, identity, revision, revisions)

    @property
    def in_html(self) -> Mapping[str, bytes]:
        """What stands in the unit's pages, by slot."""
        return {
            **_in_html(self.identity),
            EDITION_SLOT: self.edition.encode(),
            REVISION_SLOT: escape(self.revision, quote=True).encode(),
            REVISIONS_SLOT: self.revisions.encode(),
        }

    @property
    def in_json(self) -> Mapping[str, bytes]:
        """What stands inside the texts of the unit's search data, by slot."""
        return {slot: _json_inside(words) for slot, words in self.identity}


def stamp(
    edition: FramedEdition, guide: Guide, revisions: str = "", told: UnitHistory | None = None
) -> Mapping[str, bytes]:
    """Return the files of the unit of *guide*; see `UnitStamp.of` and `stamp_unit`."""
    return stamp_unit(edition, UnitStamp.of(guide, revisions, told))


def stamp_unit(edition: FramedEdition, unit: UnitStamp) -> Mapping[str, bytes]:
    """Return the files of *unit*, by path relative to the site.

    Args:
        edition: In its frames.
        unit: A unit of this edition.

    Raises:
        WrongEdition: If *unit* is of another edition.
    """
    if unit.edition != edition.id:
        raise WrongEdition(f"{unit.number} is of edition {unit.edition}, not {edition.id}")
    in_html = unit.in_html
    files = {f"{unit.number}/{page.path}": page.stamped(in_html) for page in edition.pages}
    index = edition.search_index
    files[f"{unit.number}/{index.path}"] = index.stamped(unit.in_json)
    return files


def revision_in_html(guide: Guide, told: UnitHistory | None) -> bytes:
    """Return which revision the guide of a unit is, as HTML text; *told* as of `UnitStamp.of`."""
    return escape(revision_words(guide, told), quote=True).encode()


def identity_in_html(guide: Guide) -> Mapping[str, bytes]:
    """Return the identity of the unit of *guide*, by slot, as HTML text.

    Raises:
        ReservedCharacter: If a value holds a character that tokens are made of.
    """
    return _in_html((slot, plain(words)) for slot, words in _identity(guide))


def _in_html(identity: Iterable[tuple[str, str]]) -> dict[str, bytes]:
    return {slot: escape(words, quote=True).encode() for slot, words in identity}


def _identity(guide: Guide) -> Iterable[tuple[str, str]]:
    yield "identity.number", guide.number
    for name in STAMPED:
        fact = guide.facts.get(name)
        if fact is not None:
            yield name, value_words(fact)
            yield name + SOURCE_SUFFIX, source_words(fact)


def _json_inside(text: str) -> bytes:
    return _json(text)[1:-1].encode()
