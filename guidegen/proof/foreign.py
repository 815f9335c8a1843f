"""Numbers, VINs and plates of other trucks, anywhere in a file.

Takes in the identities of a fleet and the bytes of a file; gives out those that are not the
unit's own. Refuses to look at less than the whole file: text, attributes, scripts, comments.
An identity that cannot be told from an amount, such as ``17``, is looked for elsewhere only.
"""

import html
import re
import string
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from typing import NamedTuple
from urllib.parse import unquote

from guidegen.units.model import Fact

IDENTIFYING = ("identity.number", "identity.vin", "identity.plate")
"""Facts that tell one truck from all others. A yard is shared."""

_SHORTEST = 3
"""Characters of an identity of one word; ``H2`` is also an element of every page."""

_WORD_BYTES = bytes(
    ord(chr(code).upper()) if chr(code) in f"{string.ascii_letters}{string.digits}-" else ord(" ")
    for code in range(0x100)
)
# Dashes that a renderer may print for a hyphen (U+2010 to U+2015, minus, small and wide hyphen),
# and characters of no width (soft hyphen, zero-width space and joiners, word joiner, byte order
# mark), as UTF-8. Each begins with fixed bytes, so that the search for it is fast.
_REPLACED = (
    (re.compile(rb"\xe2\x80[\x90-\x95]"), b"-"),
    (re.compile(rb"\xe2\x88\x92"), b"-"),
    (re.compile(rb"\xef\xb9\xa3"), b"-"),
    (re.compile(rb"\xef\xbc\x8d"), b"-"),
    (re.compile(rb"\xc2\xad"), b""),
    (re.compile(rb"\xe2\x80[\x8b-\x8d]"), b""),
    (re.compile(rb"\xe2\x81\xa0"), b""),
    (re.compile(rb"\xef\xbb\xbf"), b""),
)
_USUAL = ((b"&#39;", b"'"), (b"&#34;", b'"'), (b"&nbsp;", b" "))
"""Escapes that stand on every page, with what they mean."""

_CODED = tuple(
    re.compile(pattern)
    for pattern in (
        rb"&#",
        rb"%[0-9a-fA-F]{2}",
        rb"\\u[0-9a-fA-F]{4}",
        # Named characters that are a hyphen, a space, nothing to see, or letters.
        rb"&(?:[nm]?dash|hyphen|horbar|minus|shy|zw|ZeroW|Negative|NoBreak|Invisible|ApplyF|fjlig)",
        rb"&(?:[a-z0-9]*sp|ic|af|it|Tab|NewLine|[A-Z][a-zA-Z]*Space);",
    )
)
"""Ways to write a character so that it does not stand in the file as itself. Each begins with a
fixed byte, so that the search for it is fast."""

_ESCAPED = re.compile(r"\\u([0-9a-fA-F]{4})")
# The name first, so that the search for it is fast; then that nothing but space stands before it.
_DRAWN = tuple(
    re.compile(rb'%b="(?<=\s%b=")[^"]*"' % (name, name))
    for name in (b"d", b"points", b"viewBox", b"transform")
)


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
    """By the one of their words that is least usual: with digits, and long."""

    longest: int
    """Most parts between hyphens of any word."""

    untold: tuple[str, ...]
    """Identities that cannot be told from amounts and words."""

    _clean: set[bytes] = field(default_factory=set, compare=False, repr=False)
    """Words met so far that hold no identity at all."""

    @property
    def every(self) -> Iterator[Identity]:
        """Yield all that can be told."""
        for found in self.by_word.values():
            yield from found

    def in_words(self, words: AbstractSet[bytes]) -> Iterator[Identity]:
        """Yield every identity whose least usual word is one of *words*, or a part of one."""
        for word in words - self._clean:
            found = False
            for part in _parts(word.decode("ascii"), self.longest):
                for identity in self.by_word.get(part, ()):
                    found = True
                    yield identity
            if not found:
                self._clean.add(word)


def gather_identities(
    fleet: Iterable[Mapping[str, Fact]], numbers: Iterable[str] = ()
) -> Identities:
    """Return the identities of all units.

    Args:
        fleet: The facts of each unit.
        numbers: Of further units, of which nothing else is known.
    """
    return identities_of((*_of_facts(fleet), *((number, number) for number in numbers)))


def identities_of(typed_of_units: Iterable[tuple[str, str]]) -> Identities:
    """Return the identities of a fleet.

    Args:
        typed_of_units: Pairs of a unit's number and its number, VIN or plate as typed.
    """
    by_word: dict[str, list[Identity]] = {}
    untold = set[str]()
    for unit, typed in typed_of_units:
        identity = Identity(tuple(word.decode("ascii") for word in words_of(typed.encode())), unit)
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


def words_in(raw: bytes) -> frozenset[bytes]:
    """Return the different words of the file *raw*, drawings aside, as all looks read them."""
    # What stands between quotation marks comes again and again on a page, and no word, nor any way
    # to write a character, goes beyond one.
    parts = set(_without_drawings(raw).split(b'"'))
    return frozenset().union(*map(words_of, _texts(b'"'.join(parts))))


def find_foreign(
    raw: bytes, own: str, identities: Identities, read: frozenset[bytes] | None = None
) -> tuple[Identity, ...]:
    """Return the identities in *raw* that belong to other units than *own*, sorted.

    Args:
        raw: A file.
        own: Number of the unit whose file it is; empty for none.
        identities: Of the fleet.
        read: Of `words_in` for *raw*, if it was read.
    """
    different = words_in(raw) if read is None else read
    if all(identity.unit == own for identity in identities.in_words(different)):
        return ()
    # Shapes are written in letters and digits too: `M12` is a move to, and no truck. And what
    # comes together only where a drawing was taken out is none either.
    aside, whole = (
        {e for text in _texts(each) for e in _in_words(words_of(text), own, identities)}
        for each in (_without_drawings(raw), raw)
    )
    return tuple(sorted(aside & whole))


def count_foreign(raw: bytes, own: str, identities: Identities) -> Counter[Identity]:
    """Return how often each identity of another unit than *own* stands in *raw*."""
    counts: Counter[Identity] = Counter()
    for text in _texts(_without_drawings(raw)):
        words = words_of(text)
        different = Counter(words)
        for identity in set(_in_words(words, own, identities)):
            if len(identity.words) > 1:
                found = _times_in_a_row(identity, words)
            else:
                found = _times_as_a_part(identity, different, identities.longest)
            counts[identity] = max(counts[identity], found)
    return counts


def _times_in_a_row(identity: Identity, words: Sequence[bytes]) -> int:
    # Two blanks between words, so that neighbors do not share one.
    joined = b" %b " % b"  ".join(words)
    return joined.count(f" {'  '.join(identity.words)} ".encode())


def _times_as_a_part(identity: Identity, words: Mapping[bytes, int], longest: int) -> int:
    (whole,) = identity.words
    near = {each: times for each, times in words.items() if whole.encode() in each}
    return sum(times for each, times in near.items() if whole in _parts(each.decode(), longest))


def words_of(text: bytes) -> list[bytes]:
    """Return the words of *text* in capitals; letters, digits and hyphens make a word."""
    return text.translate(_WORD_BYTES).split()


def _texts(raw: bytes) -> Iterator[bytes]:
    for escape, meant in _USUAL:
        raw = raw.replace(escape, meant)
    yield _plain(raw)
    if any(pattern.search(raw) for pattern in _CODED):
        decoded = html.unescape(unquote(raw.decode("utf-8", "replace")))
        decoded = _ESCAPED.sub(lambda escaped: chr(int(escaped[1], 16)), decoded)
        yield _plain(decoded.encode("utf-8", "replace"))


def _without_drawings(raw: bytes) -> bytes:
    for pattern in _DRAWN:
        raw = pattern.sub(b"", raw)
    return raw


def _plain(text: bytes) -> bytes:
    for pattern, replacement in _REPLACED:
        text = pattern.sub(replacement, text)
    return text


def _in_words(words: Sequence[bytes], own: str, identities: Identities) -> Iterator[Identity]:
    for identity in identities.in_words(frozenset(words)):
        if identity.unit != own and (len(identity.words) == 1 or _stands_in(identity, words)):
            yield identity


def _stands_in(identity: Identity, words: Sequence[bytes]) -> bool:
    return f" {identity} ".encode() in b" %b " % b" ".join(words)


def _parts(word: str, longest: int) -> Iterator[str]:
    """Yield every stretch of *word* between hyphens, of *longest* parts at most."""
    parts = word.split("-")
    for start in range(len(parts)):
        for end in range(start + 1, min(start + longest, len(parts)) + 1):
            yield "-".join(parts[start:end])


def _can_be_told(identity: Identity) -> bool:
    text = str(identity)
    letters = any(character.isalpha() for character in text)
    digits = any(character.isdigit() for character in text)
    return letters and digits and len(text) >= _SHORTEST


def _key(identity: Identity) -> str:
    return max(identity.words, key=lambda word: (any(map(str.isdigit, word)), len(word)))
