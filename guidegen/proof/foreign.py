"""Numbers, VINs and plates of other trucks, anywhere in a file.

Takes in the identities of a fleet and the bytes of a file; gives out those that are not the
unit's own. Refuses to look at less than the whole file: text, attributes, scripts, comments.
An identity that cannot be told from an amount, such as ``17``, is looked for elsewhere only.
"""

import html
import re
import string
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple
from urllib.parse import unquote

from guidegen.units.model import Fact

IDENTIFYING = ("identity.number", "identity.vin", "identity.plate")
"""Facts that tell one truck from all others. A yard is shared."""

_SHORTEST = 3
"""Characters of an identity of one word; ``H2`` is also an element of every page."""

_WORD_BYTES = bytes(
    code if chr(code) in f"{string.ascii_letters}{string.digits}-" else ord(" ")
    for code in range(0x100)
)
# Dashes that a renderer may print for a hyphen, and characters that have no width at all.
_DASHES = tuple(each.encode() for each in "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe63\uff0d")
_WIDTHLESS = tuple(each.encode() for each in "\u00ad\u200b\u200c\u200d\u2060\ufeff")
_ESCAPED = re.compile(r"\\u([0-9a-fA-F]{4})")
_DRAWN = re.compile(rb'\s(?:d|points|viewBox|transform)="[^"]*"')


class Identity(NamedTuple):
    """What tells one truck from the others."""

    words: tuple[str, ...]
    """In capitals."""

    unit: str

    def __str__(self) -> str:
        return " ".join(self.words)


@dataclass(frozen=True, slots=True)
class Identities:
    """The identities of a fleet, ready to be looked for."""

    by_word: Mapping[str, tuple[Identity, ...]]
    """By the longest of their words."""

    longest: int
    """Most parts between hyphens of any word."""

    untold: tuple[str, ...]
    """Identities that cannot be told from amounts and words."""

    _of_words: dict[str, tuple[Identity, ...]] = field(
        default_factory=dict, compare=False, repr=False
    )
    """What each word met so far holds; most hold nothing."""


def gather_identities(
    fleet: Iterable[Mapping[str, Fact]], numbers: Iterable[str] = ()
) -> Identities:
    """Return the identities of all units.

    Args:
        fleet: The facts of each unit.
        numbers: Of further units, of which nothing else is known.
    """
    by_word: dict[str, list[Identity]] = {}
    untold = set[str]()
    for unit, typed in (*_of_facts(fleet), *((number, number) for number in numbers)):
        identity = Identity(tuple(words_of(typed.encode())), unit)
        if _can_be_told(identity):
            by_word.setdefault(_key(identity), []).append(identity)
        else:
            untold.add(typed)
    parts = [word.count("-") + 1 for word in by_word]
    return Identities(
        {word: tuple(found) for word, found in by_word.items()},
        max(parts, default=0),
        tuple(sorted(untold)),
    )


def _of_facts(fleet: Iterable[Mapping[str, Fact]]) -> Iterator[tuple[str, str]]:
    for facts in fleet:
        unit = str(facts["identity.number"].value)
        for name in IDENTIFYING:
            if name in facts:
                yield unit, str(facts[name].value)


def find_foreign(raw: bytes, own: str, identities: Identities) -> tuple[Identity, ...]:
    """Return the identities in *raw* that belong to other units than *own*, each once."""
    found = {each: None for text in _texts(raw) for each in _in_text(text, own, identities)}
    if not found:
        return ()
    # Shapes are written in letters and digits too: `M12` is a move to, and no truck.
    without_drawings = _DRAWN.sub(b"", raw)
    again = {e for text in _texts(without_drawings) for e in _in_text(text, own, identities)}
    return tuple(each for each in found if each in again)


def words_of(text: bytes) -> list[str]:
    """Return the words of *text* in capitals; letters, digits and hyphens make a word."""
    return text.upper().translate(_WORD_BYTES).decode("ascii").split()


def _texts(raw: bytes) -> Iterator[bytes]:
    yield _plain(raw)
    if b"&#" in raw or b"%" in raw or b"\\u" in raw:
        decoded = html.unescape(unquote(raw.decode("utf-8", "replace")))
        decoded = _ESCAPED.sub(lambda escaped: chr(int(escaped[1], 16)), decoded)
        yield _plain(decoded.encode("utf-8", "replace"))


def _plain(text: bytes) -> bytes:
    for character in _DASHES:
        text = text.replace(character, b"-")
    for character in _WIDTHLESS:
        text = text.replace(character, b"")
    return text


def _in_text(text: bytes, own: str, identities: Identities) -> Iterator[Identity]:
    words = words_of(text)
    joined = ""
    for word in set(words):
        for identity in _held_by(word, identities):
            if identity.unit == own:
                continue
            if len(identity.words) > 1:
                joined = joined or f" {' '.join(words)} "
                if f" {identity} " not in joined:
                    continue
            yield identity


def _held_by(word: str, identities: Identities) -> tuple[Identity, ...]:
    found = identities._of_words.get(word)  # noqa: SLF001 -- its own memory
    if found is None:
        found = tuple(
            identity
            for part in _parts(word, identities.longest)
            for identity in identities.by_word.get(part, ())
        )
        identities._of_words[word] = found  # noqa: SLF001 -- its own memory
    return found


def _parts(word: str, longest: int) -> Iterator[str]:
    """Yield every stretch of *word* between hyphens, of *longest* parts at most."""
    parts = word.split("-")
    for start in range(len(parts)):
        for end in range(start + 1, min(start + longest, len(parts)) + 1):
            yield "-".join(parts[start:end])


def _can_be_told(identity: Identity) -> bool:
    text = "".join(identity.words)
    letters = any(character.isalpha() for character in text)
    digits = any(character.isdigit() for character in text)
    return letters and digits and len(text) >= _SHORTEST


def _key(identity: Identity) -> str:
    return max(identity.words, key=len)
