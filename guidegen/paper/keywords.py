"""The index of a booklet: each title under its main words, A to Z.

Takes in titles and the places that they stand at; gives out keywords with the titles below them.
Refuses words that lead nowhere: small words, and the verbs that most titles begin with.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from guidegen.paper.matter import Matter
from guidegen.specs.profile import HOLDER_LABELS

_SMALL = frozenset(
    (
        # What joins words.
        *("a", "about", "above", "after", "all", "an", "and", "any", "are", "as", "at", "be"),
        *("before", "below", "between", "by", "can", "do", "does", "down", "during", "each"),
        *("for", "from", "has", "have", "how", "if", "in", "into", "is", "it", "its", "least"),
        *("most", "near", "next", "no", "not", "of", "off", "on", "one", "or", "other", "out"),
        *("over", "than", "that", "the", "their", "them", "then", "there", "this", "to", "too"),
        *("two", "up", "very", "was", "what", "when", "where", "which", "while", "who", "will"),
        *("with", "within", "without", "you", "your", "themselves", "comes", "far", "farthest"),
        # Verbs of instructions, and what half of all values are called.
        *("act", "add", "call", "check", "checked", "clean", "do", "find", "get", "give", "go"),
        *("goes", "keep", "know", "let", "look", "make", "open", "put", "read", "see", "set"),
        *("stop", "take", "test", "turn", "use", "used", "work", "works", "location"),
    )
)
_WORD = re.compile(r"[A-Za-z][A-Za-z0-9/-]+")


@dataclass(frozen=True, slots=True)
class Entry:
    """A title and where it stands."""

    words: str
    keys: str
    """The part of `words` that it is looked up by."""

    anchor: str
    """Name of a place in the booklet."""


@dataclass(frozen=True, slots=True)
class Keyword:
    """A word of the index."""

    word: str
    entries: tuple[Entry, ...]
    """At least one, A to Z."""


def entries_of(matter: Matter) -> Iterable[Entry]:
    """Yield the titles of all procedures and lamps, then the labels of all values."""
    for chapter in matter.guide.chapters:
        for procedure in chapter.procedures:
            words = matter.words(procedure.title)
            yield Entry(words, words, procedure_anchor(procedure.id))
    for name, fact in matter.guide.facts.items():
        label = fact.field.label
        words = f"{label} ({HOLDER_LABELS[fact.field.section]})"
        yield Entry(words, label, fact_anchor(name))


def keywords_of(entries: Iterable[Entry]) -> tuple[Keyword, ...]:
    """Return the index of *entries*, A to Z; each entry stands in it at least once."""
    by_word: dict[str, list[Entry]] = {}
    for entry in entries:
        for word in _keys(entry.keys):
            by_word.setdefault(word, []).append(entry)
    merged = _merged(by_word)
    ordered = sorted(merged, key=lambda word: (word.casefold(), word))
    return tuple(Keyword(word, _in_order(merged[word])) for word in ordered)


def procedure_anchor(procedure: str) -> str:
    """Return the name of the place where the procedure with the id *procedure* stands."""
    return f"procedure.{procedure}"


def fact_anchor(name: str) -> str:
    """Return the name of the place where the fact *name* stands on the data pages."""
    return f"fact.{name}"


def _keys(words: str) -> list[str]:
    """Return the main words, or the first if there are none; capitals only as in ABS."""
    found = _WORD.findall(words)
    keys = [word if word.isupper() else word.lower() for word in found]
    main = [key for key in dict.fromkeys(keys) if key not in _SMALL]
    return main or keys[:1] or [words]


def _merged(by_word: Mapping[str, list[Entry]]) -> dict[str, list[Entry]]:
    """Put plurals and singulars together."""
    merged: dict[str, list[Entry]] = {}
    for word, found in by_word.items():
        singles = (word.removesuffix("s"), f"{word.removesuffix('ies')}y")
        single = next((each for each in singles if each in by_word), word)
        merged.setdefault(single, []).extend(found)
    return merged


def _in_order(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    return tuple(sorted(dict.fromkeys(entries), key=lambda entry: entry.words.casefold()))
