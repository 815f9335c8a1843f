"""Whether words stand at a place of a stream.

Takes in patterns and a stream; gives out where the words end and which values stand in them.
Refuses a word more, a word less or another letter; a line may end at a blank, or after a hyphen,
dash or slash.
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from guidegen.paper_proof.model import PAGE
from guidegen.paper_proof.stream import BREAK, BREAKING
from guidegen.paper_proof.values import Values
from guidegen.proof.read_text import ValueInText

_SLOT = "\0"
_LONGEST_VALUE = 1500
_NUMBER = re.compile("[0-9]{1,4}")
"""Of a page: whether it is the right one is judged when all pieces are found."""

_END = re.compile(r"[ \n]|\Z")


class Found(NamedTuple):
    """Words that were found."""

    end: int
    values: tuple[ValueInText, ...]


def match(pattern: str, text: str, position: int, values: Values) -> Found | None:
    """Return where *pattern*, every value read back equal, ends in *text* from *position* on."""
    pieces = pattern.split(_SLOT)
    found = list[ValueInText]()
    for place, piece in enumerate(pieces):
        if place % 2:
            value = _value(piece, pieces[place + 1], text, position, values)
            if value is None:
                return None
            position, said = value
            found.append(ValueInText(piece, said))
        else:
            end = _literal_end(piece, text, position)
            if end is None:
                return None
            position = end
    return Found(position, tuple(found)) if _ends(text, position) else None


def is_said(pattern: str, text: str, values: Values) -> bool:
    """Return whether *text* is *pattern*, every value read back equal, and nothing more."""
    found = match(pattern, text, 0, values)
    return found is not None and found.end == len(text)


def match_loosely(pattern: str, text: str, position: int, end: int) -> Found | None:
    """Return the values of *pattern*, right or wrong, if it fills *text* to *end*."""
    fitted = _loose(pattern).fullmatch(text, position, end)
    if fitted is None:
        return None
    names = pattern.split(_SLOT)[1::2]
    read = [plain_value(each) for each in fitted.groups()]
    return Found(end, tuple(map(ValueInText, names, read)))


def words_of(pattern: str) -> re.Pattern[str]:
    """Return what finds *pattern* with any values."""
    return _loose(pattern)


def ends_after(text: str, position: int) -> Iterator[int]:
    """Yield the places after *position* at which a word ends, not too far away."""
    for found in _END.finditer(text, position + 1, min(len(text), position + 3 * _LONGEST_VALUE)):
        yield found.start()


def plain_value(text: str) -> str:
    """Return a value without the ends of lines in it."""
    return text.replace(BREAK, "")


def _ends(text: str, position: int) -> bool:
    return position == len(text) or text[position] in " \n"


def _value(
    name: str, after: str, text: str, position: int, values: Values
) -> tuple[int, str] | None:
    if name.startswith(PAGE):
        number = _NUMBER.match(text, position)
        return (number.end(), number[0]) if number and _goes_on(after, text, number.end()) else None
    for known in values.proved(name):
        end = position + len(known)
        if text.startswith(known, position) and _goes_on(after, text, end):
            return end, known
    longest = values.longest(name)
    for end in _ends_of_value(after, text, position):
        said = plain_value(text[position:end])
        if len(said) > longest:
            return None
        if not values.misread(name, said):
            return end, said
    return None


def _goes_on(after: str, text: str, end: int) -> bool:
    return _literal_end(after, text, end) is not None if after else _ends(text, end)


def _ends_of_value(after: str, text: str, position: int) -> Iterator[int]:
    last = min(len(text), position + _LONGEST_VALUE)
    expression = _literal(after) if after else _END
    for found in expression.finditer(text, position + 1, last):
        yield found.start()


def _literal_end(words: str, text: str, position: int) -> int | None:
    if text.startswith(words, position):
        return position + len(words)
    if not _may_break(words):
        return None
    found = _literal(words).match(text, position)
    return found.end() if found else None


@lru_cache(maxsize=4096)
def _may_break(words: str) -> bool:
    return any(letter in words for letter in BREAKING)


@lru_cache(maxsize=4096)
def _literal(words: str) -> re.Pattern[str]:
    return re.compile(_expression(words))


@lru_cache(maxsize=4096)
def _loose(pattern: str) -> re.Pattern[str]:
    parts = [
        f"(.{{1,{_LONGEST_VALUE}}}?)" if place % 2 else _expression(words)
        for place, words in enumerate(pattern.split(_SLOT))
    ]
    return re.compile("".join(parts), re.DOTALL)


def _expression(words: str) -> str:
    """Return an expression for *words* in which lines may end where they may on paper."""
    made = list[str]()
    for place, letter in enumerate(words):
        before = words[place - 1] if place else ""
        if letter == " " and before in BREAKING and before:
            made.append("[ \n]")
        else:
            may_end = before in BREAKING and before and place
            made.append(("\n?" if may_end else "") + re.escape(letter))
    return "".join(made)
