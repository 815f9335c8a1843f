"""What a number of the library is, and how well it is known.

Takes in a number as written, where it stands and what is said of its source; gives out one line
of the reviewer's list. Refuses a number without a source or a word on why it has none.
"""

import enum
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.rule_page import Standing


class Ground(enum.Enum):
    """What a number rests on, the weakest first: that is where a reviewer begins."""

    PRACTICE = "common practice, no source"
    MEMORY = "from memory"
    PARTLY = "named by some of the references"
    SECONDARY = "secondary texts that agree"
    NAMED = "source named"
    COMPUTED = "worked out from exact definitions"
    MEANING = "follows from what the words mean"
    HOUSE = "made here, for our own texts"


_GROUND_OF_STANDING: Mapping[Standing, Ground] = MappingProxyType(
    {
        Standing.RULE: Ground.NAMED,
        Standing.SECONDARY: Ground.SECONDARY,
        Standing.COMPUTED: Ground.COMPUTED,
        Standing.MEANING: Ground.MEANING,
        Standing.HOUSE: Ground.HOUSE,
        Standing.MEMORY: Ground.MEMORY,
        Standing.PRACTICE: Ground.PRACTICE,
    }
)
_WORDS_OF_MEMORY = ("from memory",)
_WORDS_OF_PRACTICE = ("common practice", "are guesses", "a guess")


@dataclass(frozen=True, slots=True)
class NumberEntry:
    """One text or value of the library with the numbers in it."""

    place: str
    """``path:line``, with forward slashes."""

    numbers: tuple[str, ...]
    """As written: digits, number words, values with their measure."""

    says: str
    """The text around them, or what the value is called."""

    source: str
    ground: Ground

    def __post_init__(self) -> None:
        """Refuse what nobody can look up.

        Raises:
            ValueError: It holds no number, or names neither a source nor the lack of one.
        """
        if not self.numbers or not self.source.strip():
            raise ValueError(f"{self.place} has no number or no source: {self.says}")


@dataclass(frozen=True, slots=True)
class NumberSection:
    """Numbers of one kind."""

    id: str
    """Name of its page."""

    title: str
    intro: str
    """Whole sentences."""

    entries: tuple[NumberEntry, ...]


def ground_of_words(source: str) -> Ground:
    """Return what a source, in words, rests on.

    >>> ground_of_words("stated from memory, no source").value
    'from memory'
    """
    said = source.lower()
    if any(words in said for words in _WORDS_OF_MEMORY):
        return Ground.MEMORY
    if any(words in said for words in _WORDS_OF_PRACTICE):
        return Ground.PRACTICE
    return Ground.NAMED


def ground_of_standing(standing: Standing) -> Ground:
    """Return the same for the standing of a rule."""
    return _GROUND_OF_STANDING[standing]
