"""What may be said of a truck where a driver looks for it.

Takes in words and a guide; gives out what of the words the guide does not state.
Refuses words that are only near: they are compared whole, without regard to case.
"""

from collections.abc import Iterable, Iterator

from guidegen.guide.model import Guide
from guidegen.proof.read_text import fold
from guidegen.specs.fields import ChoiceField
from guidegen.units.model import Fact

_MAY_NAME = (
    *("identity.number", "identity.vin", "identity.plate", "identity.yard", "identity.year"),
    *("identity.make", "identity.model_name", "identity.body"),
)


def unstated(text: str, guide: Guide) -> str:
    """Return what is left of *text* without what *guide* states of its truck; empty if nothing."""
    left = f" {fold(text).casefold()} "
    for words in sorted(stated_words(guide, *_MAY_NAME), key=len, reverse=True):
        left = left.replace(f" {words} ", "  ")
    return fold(left) if any(character.isalnum() for character in left) else ""


def stated_words(guide: Guide, *names: str) -> Iterator[str]:
    """Yield what *guide* states as the facts *names*, in small letters."""
    for name in names:
        fact = guide.facts.get(name)
        if fact is not None:
            yield from (fold(each).casefold() for each in _words(fact))


def _words(fact: Fact) -> Iterable[str]:
    field = fact.field.field
    typed = str(fact.value)
    return (field.choices.get(typed, ""), typed) if isinstance(field, ChoiceField) else (typed,)
