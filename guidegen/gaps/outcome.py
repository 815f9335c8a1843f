"""What a condition can come to while not all is on record.

Takes in a truck and the names that are thought to be answered, by whatever answer; gives out all
truths that a condition can have then, and which names leave it unknown.
Refuses to guess an answer: an answered section may be fitted or not, an answered fact may have any
value. Answers are taken for independent of one another, so that nothing possible is left out.
"""

from collections.abc import Callable, Iterable
from itertools import product

from guidegen.guide.known import KnownOf
from guidegen.procedures.catalog_words import ALWAYS_THERE, section_holding, sections_around
from guidegen.procedures.condition_model import (
    And,
    Asks,
    Compares,
    Condition,
    Holds,
    Not,
    Or,
    Predicate,
    Relation,
)
from guidegen.procedures.condition_value import Truth, evaluate
from guidegen.specs.profile import MODEL
from guidegen.specs.substances import SUBSTANCE_CARRIERS
from guidegen.units.follows import FOLLOWS_FROM
from guidegen.units.model import Presence, Unit

Truths = frozenset[Truth]

_ANY: Truths = frozenset({True, False})
_UNKNOWN: Truths = frozenset({None})


class Supposed:
    """A truck on which some names are thought to be answered."""

    def __init__(self, unit: Unit, answered: frozenset[str] = frozenset()) -> None:
        self._unit = unit
        self._known = KnownOf(unit)
        self._answered = answered
        self._stated = frozenset(
            section for name in answered for section in sections_around(name)[:-1]
        )
        """Sections that an answered name stands in: they are fitted once it is stated."""
        self._truths: dict[int, Truths] = {}

    def truths(self, condition: Condition) -> Truths:
        """Return all that *condition* can come to; None among them if a gap can leave it open."""
        # Conditions live as long as their templates, so their identity names them.
        found = self._truths.get(id(condition))
        if found is None:
            found = self._truths[id(condition)] = self._combine(condition)
        return found

    def blame(self, condition: Condition) -> frozenset[str]:
        """Return the names that can leave *condition* unknown; none if nothing can."""
        if None not in self.truths(condition):
            return frozenset()
        match condition:
            case And(of=members) | Or(of=members):
                return frozenset().union(*map(self.blame, members))
            case Not(of=inner):
                return self.blame(inner)
            case Asks(name=name):
                return self.missing_sections(name)
            case Compares(fact=fact) | Holds(fact=fact):
                return self.missing(fact)

    def missing(self, fact: str) -> frozenset[str]:
        """Return the names that *fact* lacks to be on record; none if it is, or cannot be."""
        section = section_holding(fact)
        fitted = self.fitted(section)
        lacking: frozenset[str] = frozenset()
        if None in fitted:
            lacking = self.missing_sections(section)
        if True not in fitted or self._is_stated(fact):
            return lacking
        if fact in SUBSTANCE_CARRIERS:
            # The library states it of every truck that has the fluid on board.
            return lacking | self.missing_sections(SUBSTANCE_CARRIERS[fact])
        inputs = [each for each in FOLLOWS_FROM.get(fact, ()) if not self._is_stated(each)]
        if not inputs:
            return lacking | {fact}
        return lacking.union(*(self.missing(each) for each in inputs))

    def missing_sections(self, section: str) -> frozenset[str]:
        """Return the outermost section around *section* that nobody has on record."""
        for each in sections_around(section):
            if None in self._own(each):
                return frozenset({each})
        return frozenset()

    def fitted(self, section: str) -> Truths:
        """Return whether the truck can have *section*."""
        if section in ALWAYS_THERE:
            return frozenset({True})
        *around, own = sections_around(section)
        outer = [self._own(each) for each in around]
        possible: Truths = (
            frozenset({False}) if any(False in each for each in outer) else frozenset()
        )
        if any(each == {False} for each in outer):
            return possible
        return possible | self._own(own)

    def on_record(self, fact: str) -> Truths:
        """Return whether *fact* can be on record."""
        fitted = self.fitted(section_holding(fact))
        if True not in fitted:
            return frozenset({False})
        stated = self._is_stated(fact)
        return frozenset({stated, False} if fitted != {True} else {stated})

    def _own(self, section: str) -> Truths:
        state = self._unit.sections.get(section)
        presence = state.presence if state else Presence.NOT_ON_RECORD
        if presence is not Presence.NOT_ON_RECORD:
            return frozenset({presence is Presence.GIVEN})
        if section in self._answered:
            return _ANY
        return frozenset({True}) if section in self._stated else _UNKNOWN

    def _is_stated(self, fact: str) -> bool:
        if fact == MODEL.name or fact in self._unit.facts or fact in self._answered:
            return True
        if fact in SUBSTANCE_CARRIERS:
            return True in self.fitted(SUBSTANCE_CARRIERS[fact])
        inputs = FOLLOWS_FROM.get(fact, ())
        return bool(inputs) and all(map(self._is_stated, inputs)) and not self._all_known(inputs)

    def _all_known(self, facts: Iterable[str]) -> bool:
        return all(fact in self._unit.facts for fact in facts)

    def _combine(self, condition: Condition) -> Truths:
        match condition:
            case And(of=members):
                return _fold(_both, map(self.truths, members))
            case Or(of=members):
                opposite = (_opposites(self.truths(member)) for member in members)
                return _opposites(_fold(_both, opposite))
            case Not(of=inner):
                return _opposites(self.truths(inner))
            case Asks() | Compares() | Holds():
                return self._leaf(condition)

    def _leaf(self, leaf: Asks | Compares | Holds) -> Truths:
        if isinstance(leaf, Asks):
            if leaf.predicate is Predicate.FITTED:
                return self.fitted(leaf.name)
            return self.on_record(leaf.name)
        fitted = self.fitted(section_holding(leaf.fact))
        found: set[Truth] = set()
        if None in fitted:
            found.add(None)
        if False in fitted:
            found.add(isinstance(leaf, Compares) and leaf.relation is Relation.UNEQUAL)
        if True in fitted:
            found |= self._of_value(leaf)
        return frozenset(found)

    def _of_value(self, leaf: Compares | Holds) -> Truths:
        if leaf.fact in self._unit.facts:
            return frozenset({evaluate(leaf, self._known)})
        return _ANY if self._is_stated(leaf.fact) else _UNKNOWN


def _both(one: Truth, other: Truth) -> Truth:
    if one is False or other is False:
        return False
    return None if one is None or other is None else True


def _fold(join: Callable[[Truth, Truth], Truth], many: Iterable[Truths]) -> Truths:
    found: Truths = frozenset({True})
    for truths in many:
        found = frozenset(join(one, other) for one, other in product(found, truths))
    return found


def _opposites(truths: Truths) -> Truths:
    return frozenset(None if truth is None else not truth for truth in truths)
