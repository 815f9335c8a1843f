"""Numbers in a text, in digits and in words.

Takes in a text; gives out every number in it, with the measure that follows.
Refuses to judge: also `first`, `both` and `one` are numbers, of the least weight.
"""

import enum
import re
from collections.abc import Iterator
from dataclasses import dataclass

_UP_TO_TWELVE = "two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
_TEENS = "thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
_TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
_LARGE = "hundreds?|thousands?|millions?|dozens?"
_PARTS = "half|halves|halfway|quarters?|thirds?|fourths?|fifths?|tenths?"
_TIMES = "(?<!at )once|twice|thrice|double|triple|pairs?|couple of"
_SMALL = "zero|none|one|ones|single|both"
_ORDER = "first|second|fourth|fifth|sixth|seventh|eighth|ninth|tenth"
_TIME = "minutes?|hours?|days?|nights?|weeks?|months?|years?"
_MEASURES = (
    f"seconds?|{_TIME}|feet|foot|inch|inches|yards?|miles?|meters?|kilometers?|mph|psi|kPa|percent|"
    "degrees?|pounds?|tons?|kilograms?|gallons?|quarts?|liters?|volts?|amps?|amperes?|watts?|rpm|"
    "turns?|truck lengths?"
)
_AFTER_ARTICLE = rf"{_TIME}|second(?=[.,;]| or | and | after |$)|inch|mile"
"""A second person, a foot and a bar are no measures."""

_DIGITS = r"[0-9]+(?:[.,/][0-9]+)*|[¼½¾]"
_COUNTED = rf"{_UP_TO_TWELVE}|{_TEENS}|{_TENS}|{_LARGE}|{_PARTS}|{_TIMES}"
_BETWEEN = r"[\s-]+(?:of\s+)?(?:an?\s+)?(?:full\s+|whole\s+|more\s+)?"
_MEASURED = re.compile(
    rf"(?<![\w.])(?:{_DIGITS}|\b(?:{_COUNTED}|{_SMALL}))\b{_BETWEEN}(?:{_MEASURES})\b|"
    rf"\b(?:an?|each|every|per)\s+(?:full\s+|whole\s+)?(?:{_AFTER_ARTICLE})\b",
    re.IGNORECASE,
)
_PLAIN = re.compile(rf"(?:{_DIGITS}|\b(?:{_COUNTED})\b)", re.IGNORECASE)
_LEAST = re.compile(rf"\b(?:{_SMALL}|{_ORDER})\b", re.IGNORECASE)
_NAMED = re.compile(
    r"\b911\b|\b(?:ISO|SAE|ANSI|FMVSS|CFR|DOT|API|AUS)[ -]?[A-Z]*[0-9]+(?:[.-][0-9]+)*|"
    r"\bfifth wheels?\b",
    re.IGNORECASE,
)


class Weight(enum.Enum):
    """How much hangs on a number, most first."""

    MEASURED = "measured"
    """With a measure: it could be a value of the truck or of the law."""

    COUNTED = "counted"
    NAMED = "named"
    """Part of a name, such as an emergency number or a standard."""

    LEAST = "least"
    """One, both, first: what sentences are made of."""


@dataclass(frozen=True, slots=True)
class FoundNumber:
    """One number in a text."""

    text: str
    start: int
    weight: Weight


def numbers_in(text: str) -> tuple[FoundNumber, ...]:
    """Return the numbers of *text* in their order.

    >>> [found.text for found in numbers_in("Wait a quarter of an hour, then push twice.")]
    ['quarter of an hour', 'twice']
    """
    return tuple(sorted(_find(text), key=lambda found: found.start))


def heaviest(found: tuple[FoundNumber, ...]) -> Weight:
    """Return the greatest weight among *found*, of which there is one at least."""
    order = list(Weight)
    return min((each.weight for each in found), key=order.index)


def _find(text: str) -> Iterator[FoundNumber]:
    open_text = text
    for pattern, weight in (
        (_NAMED, Weight.NAMED),
        (_MEASURED, Weight.MEASURED),
        (_PLAIN, Weight.COUNTED),
        (_LEAST, Weight.LEAST),
    ):
        for found in pattern.finditer(open_text):
            yield FoundNumber(" ".join(found.group().split()), found.start(), weight)
        # What was found is not found again as a part of itself.
        open_text = pattern.sub(lambda found: "\0" * len(found.group()), open_text)
