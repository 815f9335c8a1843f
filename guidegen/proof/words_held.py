"""The words of proved files by which a truck that comes later could be named.

Takes in files and identities; gives out all that could be an identity as sorted 32-bit checksums,
and which identities they could hold. Refuses to miss one: two words may share a checksum, which
makes a doubt where there is none, and never hides one.
"""

import zlib
from array import array
from bisect import bisect_left
from collections.abc import Iterable, Iterator
from functools import lru_cache

from guidegen.proof.foreign import Identities, Identity

_LONGEST_PARTS = 8
"""Most parts between hyphens of an identity of one word; one of more is always in doubt."""

_CODE = "I"
"""Of an array of unsigned integers of 32 bits."""

NO_WORDS = b""


_without_parts: set[bytes] = set()
"""Words met so far of which no part could be an identity."""

_MOST = 1 << 16


def words_held(words: frozenset[bytes]) -> bytes:
    """Return the checksums of all of *words* that could be, or be part of, an identity."""
    found = set(map(zlib.crc32, words))
    if len(_without_parts) > _MOST:
        _without_parts.clear()
    for word in words - _without_parts:
        codes = _codes_of_parts(word)
        found.update(codes)
        if not codes:
            _without_parts.add(word)
    return _packed(found)


def words_together(several: Iterable[bytes]) -> bytes:
    """Return what is held by any of *several*, each as of `words_held`."""
    return _packed({code for each in several for code in _unpacked(each)})


def may_be_held(
    held: bytes, identities: Identities | Iterable[Identity], own: str
) -> list[Identity]:
    """Return the identities of other units than *own* that *held* could hold.

    Args:
        held: As of `words_held` or `words_together`.
        identities: What to look for: of the whole fleet, or of the units that are new in it.
        own: Number of the unit whose files they are.
    """
    looked_for = identities.every if isinstance(identities, Identities) else identities
    codes = _unpacked(held)
    return [each for each in looked_for if each.unit != own and _may_hold(codes, each)]


def _may_hold(codes: "array[int]", identity: Identity) -> bool:
    words = identity.words
    if len(words) == 1 and words[0].count("-") >= _LONGEST_PARTS:
        return True
    return all(_is_among(codes, zlib.crc32(word.encode())) for word in words)


def _is_among(codes: "array[int]", code: int) -> bool:
    place = bisect_left(codes, code)
    return place < len(codes) and codes[place] == code


@lru_cache(maxsize=1 << 16)
def _codes_of_parts(word: bytes) -> tuple[int, ...]:
    return tuple(map(zlib.crc32, _parts(word)))


def _parts(word: bytes) -> Iterator[bytes]:
    """Yield every stretch between hyphens of a word that has a hyphen and a digit."""
    if b"-" not in word or not any(48 <= code <= 57 for code in word):  # noqa: PLR2004 -- 0-9
        return
    parts = word.split(b"-")
    for start in range(len(parts)):
        for end in range(start + 1, min(start + _LONGEST_PARTS, len(parts)) + 1):
            yield b"-".join(parts[start:end])


def _packed(codes: set[int]) -> bytes:
    return array(_CODE, sorted(codes)).tobytes()


def _unpacked(held: bytes) -> "array[int]":
    codes = array(_CODE)
    codes.frombytes(held)
    return codes
