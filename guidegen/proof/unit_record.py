"""What the proof of a whole site needs of one truck.

Takes in a guide; gives out number, edition, identity and the words by which lists may name the
truck. Refuses to keep the guide: ten thousand of these fit where a hundred guides do.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guidegen.guide.model import Caution, Guide
from guidegen.pickling import numerous
from guidegen.proof.foreign import IDENTIFYING
from guidegen.proof.read_text import fold
from guidegen.specs.fields import ChoiceField
from guidegen.units.model import Fact

_MAY_NAME = (
    *("identity.number", "identity.vin", "identity.plate", "identity.yard", "identity.year"),
    *("identity.make", "identity.model_name", "identity.body"),
)


@numerous
@dataclass(frozen=True, slots=True)
class UnitRecord:
    """One truck, as lists of trucks may state it."""

    number: str
    edition: str
    """Fingerprint of its guide."""

    identity: tuple[str, ...]
    """Number, VIN and plate, as far as they are on record, as typed."""

    plates: tuple[str, ...]
    """Its plate, in small letters."""

    words: tuple[str, ...]
    """All that may be said of it where a driver looks for it, in small letters, the longest
    first."""

    def unstated(self, text: str) -> str:
        """Return what is left of *text* without what may be said of it; empty if nothing.

        Words that are only near are left: they are compared whole, without regard to case.
        """
        left = f" {fold(text).casefold()} "
        for words in self.words:
            left = left.replace(f" {words} ", "  ")
        return fold(left) if any(character.isalnum() for character in left) else ""


def record_of(guide: Guide) -> UnitRecord:
    """Return what the proof of the whole site needs of the truck of *guide*."""
    facts = guide.facts
    return UnitRecord(
        guide.number,
        guide.edition,
        tuple(str(facts[name].value) for name in IDENTIFYING if name in facts),
        tuple(_stated(guide, ("identity.plate",))),
        tuple(sorted(_stated(guide, _MAY_NAME), key=len, reverse=True)),
    )


def ids_of(guide: Guide) -> frozenset[str]:
    """Return the ids of all chapters, procedures, steps and cautions of *guide*."""
    found = set[str]()
    for chapter in guide.chapters:
        found.add(chapter.id)
        for procedure in chapter.procedures:
            found.add(procedure.id)
            for block in procedure.blocks:
                found.add(block.id)
                if isinstance(block, Caution):
                    found.update((block.hazard.id, block.consequence.id, block.avoid.id))
    return frozenset(found)


def _stated(guide: Guide, names: Iterable[str]) -> Iterator[str]:
    """Yield what *guide* states as the facts *names*, in small letters."""
    for name in names:
        fact = guide.facts.get(name)
        if fact is not None:
            yield from (fold(each).casefold() for each in _words(fact))


def _words(fact: Fact) -> Iterable[str]:
    field = fact.field.field
    typed = str(fact.value)
    return (field.choices.get(typed, ""), typed) if isinstance(field, ChoiceField) else (typed,)
