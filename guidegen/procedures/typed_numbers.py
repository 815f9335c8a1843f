"""Numbers that were typed into a text, where a fact of the truck belongs.

Takes in words of a template; gives out each number that is more than a small count, and each
measure that is typed after a value which brings its own.
Refuses nothing by itself: the reader of texts makes the findings.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.quantity.model import Measure
from guidegen.quantity.spellings import find_in_any_dimension

GREATEST_COUNT = 12
"""Whole numbers up to this, with no measure, count strokes, turns or tries on any truck."""

ALLOWED_FORMS = (
    r"\b[Cc]all 911\b",
    r"\b(?:ISO|SAE|ANSI|FMVSS|CFR|ASTM)[ -]?[A-Z]{0,2}[0-9][0-9.-]*\b",
)
"""Numbers that are names: the emergency number of the United States and Canada (common knowledge,
no source) and standards by their number."""

_ALLOWED = re.compile("|".join(ALLOWED_FORMS))
_NUMBER = r"(?:[0-9]+(?:[.,/][0-9]+)*[¼½¾]?|[¼½¾])"
_TYPED = re.compile(rf"(?<![0-9.,/])-?{_NUMBER}(?:(?: *[-\u2013] *| +to +){_NUMBER})?")
_CLOSING_QUOTES = "\"'”’"  # noqa: RUF001 -- what word processors type
_FURTHER_NUMBER = re.compile(rf"[ \u00a0]{_NUMBER}")
_WORD = r"[^\s0-9.,;:!?()][^\s.,;:!?()]*"
_MEASURE_WORDS = re.compile(rf"[ \t\n\u00a0\u202f-]*({_WORD}(?:[ \u00a0-]{_WORD}){{0,3}})")


@dataclass(frozen=True, slots=True)
class TypedNumber:
    """A number in a text; offsets count from 0."""

    text: str
    """With its measure if it has one."""

    start: int
    end: int
    measure: Measure | None = None
    """None for a bare number."""


def typed_numbers(text: str) -> Iterator[TypedNumber]:
    """Yield the numbers of *text* that have a measure or are no small count.

    >>> [number.text for number in typed_numbers("Pump 3 times at 100 psi.")]
    ['100 psi']
    """
    allowed = [form.span() for form in _ALLOWED.finditer(text)]
    end_of_last = 0
    for found in _TYPED.finditer(text):
        start, end = found.span()
        if start < end_of_last or any(low <= start and end <= high for low, high in allowed):
            continue
        typed = _typed_amount(text, start, end)
        if typed is not None:
            end_of_last = typed.end
            yield typed
        elif not _is_small_count(found.group()):
            yield TypedNumber(found.group(), start, end)


def leading_measure(text: str) -> int:
    """Return where a measure at the beginning of *text* ends; 0 if there is none.

    >>> leading_measure(" psi, then stop.")
    4
    """
    measure = _measure_at(text, 0)
    return measure[1] if measure else 0


def _typed_amount(text: str, start: int, end: int) -> TypedNumber | None:
    """Return the amount whose number is ``text[start:end]``; all of it, as in ``13 ft 6 in``."""
    first = measure = _measure_at(text, end)
    while measure:
        end = measure[1]
        more = _FURTHER_NUMBER.match(text, end)
        measure = _measure_at(text, more.end()) if more else None
    return TypedNumber(text[start:end], start, end, first[0]) if first else None


def _is_small_count(number: str) -> bool:
    return number.isdecimal() and int(number) <= GREATEST_COUNT


def _measure_at(text: str, start: int) -> tuple[Measure, int] | None:
    """Return the measure of the longest spelling that begins at *start*, and where it ends."""
    found = _MEASURE_WORDS.match(text, start)
    if found is None:
        return None
    words = found.group(1)
    ends = [gap.start() for gap in re.finditer(r"[ \u00a0-]", words)]
    for end in (len(words), *reversed(ends)):
        for spelling in (words[:end], words[:end].rstrip(_CLOSING_QUOTES)):
            measure = find_in_any_dimension(spelling)
            if measure is not None:
                return measure, found.start(1) + len(spelling)
    return None
