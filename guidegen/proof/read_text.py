"""Texts as printed, read back.

Takes in texts of the guide and what a page shows for them; gives out the differences.
Refuses a word more, a word less or another letter; only the width of white space is free.
"""

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple, assert_never

from guidegen.guide.model import Text
from guidegen.procedures.model import Words
from guidegen.proof.model import Reading, ValueRead
from guidegen.proof.quantities import misread_amount, strays, strays_quoted
from guidegen.quantity.model import Amount, Quantity, QuantityRange
from guidegen.specs.fields import (
    AmountField,
    ChoiceField,
    ChoicesField,
    CountField,
    FlagField,
    TextField,
)
from guidegen.units.model import Fact

_SLOT = "\0"
"""Stands before and after the name of a fact in a pattern; no text can hold it."""


class ValueInText(NamedTuple):
    """A value found in plain text."""

    fact: str
    text: str


def fold(text: str) -> str:
    """Return *text* with every stretch of white space, no-break or not, as one blank."""
    return " ".join(text.split())


def pattern_of(text: Text) -> str:
    """Return the words of *text*, folded, with a slot for each value."""
    parts = [
        part.text if isinstance(part, Words) else f"{_SLOT}{part.name}{_SLOT}"
        for part in text.parts
    ]
    return fold("".join(parts))


def pattern_read(reading: Reading) -> str:
    """Return what a person sees of *reading* in the form of `pattern_of`."""
    parts = [
        f"{_SLOT}{piece.fact}{_SLOT}" if isinstance(piece, ValueRead) else piece
        for piece in reading.pieces
    ]
    return fold("".join(parts))


def facts_in(pattern: str) -> list[str]:
    """Return the names of the facts that have a slot in *pattern*, in its order."""
    return pattern.split(_SLOT)[1::2]


def find_values(
    patterns: Sequence[str], text: str, proved: Mapping[str, Sequence[str]] = MappingProxyType({})
) -> tuple[ValueInText, ...] | None:
    """Return the values that stand in the slots of *patterns*, joined by blanks, in *text*.

    Args:
        patterns: Words with slots, as of `pattern_of`.
        text: Folded text without marks.
        proved: Texts that were found to say a fact, by its name; they tell where a value ends.

    Returns:
        The values in order; nothing if *text* is not exactly these words.
    """
    pieces = " ".join(patterns).split(_SLOT)
    if len(pieces) == 1:
        return () if text == pieces[0] else None
    return _find_proved(pieces, text, proved) or _find_near(pieces, text) or _find_any(pieces, text)


def _find_proved(
    pieces: Sequence[str], text: str, proved: Mapping[str, Sequence[str]]
) -> tuple[ValueInText, ...] | None:
    found: list[ValueInText] = []
    position = 0
    for place, piece in enumerate(pieces):
        words = piece
        if place % 2:
            texts = [each for each in proved.get(piece, ()) if text.startswith(each, position)]
            words = max(texts, key=len, default="\0")
            found.append(ValueInText(piece, words))
        if not text.startswith(words, position):
            return None
        position += len(words)
    return tuple(found) if position == len(text) else None


def _find_near(pieces: Sequence[str], text: str) -> tuple[ValueInText, ...] | None:
    """Take each value to end where the words after it first come; nothing if that does not fit.

    What it finds is what `_find_any` would find, without making an expression of every text.
    """
    if not text.startswith(pieces[0]):
        return None
    found: list[ValueInText] = []
    position, last = len(pieces[0]), len(pieces) - 1
    for place in range(2, last + 1, 2):
        words = pieces[place]
        # A value has one letter at least.
        end = text.find(words, position + 1) if place < last else len(text) - len(words)
        if end <= position or not text.startswith(words, end):
            return None
        found.append(ValueInText(pieces[place - 1], text[position:end]))
        position = end + len(words)
    return tuple(found) if position == len(text) else None


def _find_any(pieces: Sequence[str], text: str) -> tuple[ValueInText, ...] | None:
    match = _expression(_SLOT.join(pieces)).fullmatch(text)
    if match is None:
        return None
    return tuple(
        ValueInText(name, value) for name, value in zip(pieces[1::2], match.groups(), strict=True)
    )


def begins_with(patterns: Sequence[str], text: str) -> bool:
    """Whether *text* begins with *patterns*, whatever values stand in their slots."""
    return _expression(" ".join(patterns)).match(text) is not None


@lru_cache(maxsize=4096)
def _expression(pattern: str) -> re.Pattern[str]:
    parts = pattern.split(_SLOT)
    return re.compile(
        "".join("(.+?)" if place % 2 else re.escape(part) for place, part in enumerate(parts))
    )


def plain(pattern: str) -> str:
    """Return *pattern* for people: the names of facts in braces."""
    return "".join(
        f"{{{part}}}" if place % 2 else part for place, part in enumerate(pattern.split(_SLOT))
    )


def misread_value(fact: Fact, text: str) -> str:
    """Return what the printed *text* does not say of *fact*, or empty text if it says it all.

    Args:
        fact: The value of the unit.
        text: What a person sees, white space folded.
    """
    field, value = fact.field.field, fact.value
    match field:
        case AmountField(dimension=dimension):
            return misread_amount(fact.shown or _alone(fact), text, dimension)
        case ChoiceField(choices=choices):
            expected = (choices.get(str(value), ""),)
        case ChoicesField(choices=choices):
            chosen = value if isinstance(value, tuple) else (str(value),)
            expected = (_listed([choices.get(each, "") for each in chosen]),)
        case TextField():
            expected = (fold(str(value)),)
        case CountField():
            expected = (f"{value:d}" if isinstance(value, int) else "",)
        case FlagField():
            expected = ("yes" if value is True else "no",)
        case _:
            assert_never(field)
    return "" if expected[0] and text == fold(expected[0]) else f"and not `{expected[0]}`"


def stray_value(fact: Fact) -> str:
    """Return in what way the amounts shown for *fact* differ from what was typed."""
    field = fact.field.field
    if not isinstance(field, AmountField):
        return ""
    if fact.is_quoted:
        return "".join(strays_quoted(typed, fact.shown) for typed in _alone(fact))
    return "".join(strays(typed, fact.shown or (typed,), field.sense) for typed in _alone(fact))


def _alone(fact: Fact) -> tuple[Amount, ...]:
    value = fact.value
    return (value,) if isinstance(value, Quantity | QuantityRange) else ()


def _listed(words: Sequence[str]) -> str:
    if "" in words or len(words) <= 1:
        return words[0] if len(words) == 1 else ""
    return f"{', '.join(words[:-1])} and {words[-1]}"
