"""What a condition comes to on one truck.

Takes in a condition and what is known of the truck; gives out true, false or unknown, and for
unknown which questions nobody has answered.
Refuses to guess: what is not on record stays unknown, unless the answer cannot matter.
"""

import enum
import operator
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType
from typing import Protocol, assert_never

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
from guidegen.procedures.condition_words import as_typed
from guidegen.quantity.model import Dimension, Quantity, QuantityRange
from guidegen.quantity.parse import parse_amount
from guidegen.specs.fields import Value

Truth = bool | None
"""True, false, or None for unknown: Kleene's strong three-valued logic (S. C. Kleene,
*Introduction to Metamathematics*, 1952, section 64)."""

Leaf = Asks | Compares | Holds

_ORDERS: MappingProxyType[Relation, Callable[[Fraction, Fraction], bool]] = MappingProxyType(
    {
        Relation.EQUAL: operator.eq,
        Relation.UNEQUAL: operator.ne,
        Relation.LESS: operator.lt,
        Relation.AT_MOST: operator.le,
        Relation.GREATER: operator.gt,
        Relation.AT_LEAST: operator.ge,
    }
)


class FactSource(Protocol):
    """What is known of one truck."""

    def fitted(self, section: str) -> bool | None:
        """Whether the truck has the section of this dotted name; None if not on record."""

    def value(self, fact: str) -> Value | None:
        """Return the value of the fact of this dotted name; None if not on record."""


class Gap(enum.Enum):
    """Why a question has no answer."""

    SECTION_NOT_ON_RECORD = "section not on record"
    FACT_NOT_ON_RECORD = "fact not on record"


@dataclass(frozen=True, slots=True)
class Unanswered:
    """A question whose answer would matter and that nobody has answered."""

    leaf: Leaf
    gap: Gap
    name: str
    """Dotted name of the section or fact that is not on record."""


def evaluate(condition: Condition, facts: FactSource) -> Truth:
    """Return what *condition* comes to.

    Of a section that is not fitted, every comparison is false but ``!=``, a yes-or-no fact is
    no, and no fact is on record. ``on_record(…)`` is never unknown.
    """
    match condition:
        case And(of=members):
            return _all_of(evaluate(member, facts) for member in members)
        case Or(of=members):
            denied = _all_of(_opposite(evaluate(member, facts)) for member in members)
            return _opposite(denied)
        case Not(of=inner):
            return _opposite(evaluate(inner, facts))
        case Asks() | Compares() | Holds():
            return _evaluate_leaf(condition, facts)
        case _:
            assert_never(condition)


def unknowns(condition: Condition, facts: FactSource) -> tuple[Unanswered, ...]:
    """Return the questions that leave *condition* unknown, each once, in their order.

    Nothing if it is true or false. A question whose answer cannot matter is not among them.
    """
    found: dict[str, Unanswered] = {}
    for unanswered in _unanswered(condition, facts):
        found.setdefault(as_typed(unanswered.leaf), unanswered)
    return tuple(found.values())


def leaves(condition: Condition) -> tuple[Leaf, ...]:
    """Return every question of *condition*, in the order in which they were typed."""
    match condition:
        case And(of=members) | Or(of=members):
            return tuple(leaf for member in members for leaf in leaves(member))
        case Not(of=inner):
            return leaves(inner)
        case Asks() | Compares() | Holds():
            return (condition,)
        case _:
            assert_never(condition)


@lru_cache(maxsize=1024)
def read_literal(literal: str, dimension: Dimension) -> Quantity:
    """Return the amount that a condition compares with; the reader has let it pass."""
    amount = parse_amount(literal, dimension)
    assert isinstance(amount, Quantity)  # noqa: S101 -- the reader refuses ranges
    return amount


def is_fitted(section: str, facts: FactSource) -> bool | None:
    """Whether the truck has *section*; not, if it lacks a section that *section* stands in."""
    if section in ALWAYS_THERE:
        return True
    if any(facts.fitted(around) is False for around in sections_around(section)[:-1]):
        return False
    return facts.fitted(section)


def _all_of(truths: Iterable[Truth]) -> Truth:
    found: set[Truth] = set(truths)
    if False in found:
        return False
    return None if None in found else True


def _opposite(truth: Truth) -> Truth:
    return None if truth is None else not truth


def _evaluate_leaf(leaf: Leaf, facts: FactSource) -> Truth:
    match leaf:
        case Asks(predicate=Predicate.FITTED, name=name):
            return is_fitted(name, facts)
        case Asks(name=name):
            return not _is_absent(name, facts) and facts.value(name) is not None
        case Holds(fact=fact):
            value = facts.value(fact)
            return False if _is_absent(fact, facts) else None if value is None else value is True
        case Compares():
            return _compare(leaf, facts)
        case _:
            assert_never(leaf)


def _compare(leaf: Compares, facts: FactSource) -> Truth:
    if _is_absent(leaf.fact, facts):
        return leaf.relation is Relation.UNEQUAL
    value = facts.value(leaf.fact)
    if value is None:
        return None
    match value:
        case tuple():
            return leaf.literal in value
        case str():
            return (value == leaf.literal) is (leaf.relation is Relation.EQUAL)
        case Quantity():
            compared = read_literal(leaf.literal, value.dimension).exact
            return _ORDERS[leaf.relation](value.exact, compared)
        case int():
            return _ORDERS[leaf.relation](Fraction(value), Fraction(leaf.literal))
        case QuantityRange():
            raise TypeError(f"the reader lets no condition compare a range: {leaf.fact}")
        case _:
            assert_never(value)


def _is_absent(fact: str, facts: FactSource) -> bool:
    return is_fitted(section_holding(fact), facts) is False


def _unanswered(condition: Condition, facts: FactSource) -> Iterator[Unanswered]:
    if evaluate(condition, facts) is not None:
        return
    match condition:
        case And(of=members) | Or(of=members):
            for member in members:
                yield from _unanswered(member, facts)
        case Not(of=inner):
            yield from _unanswered(inner, facts)
        case Asks() | Compares() | Holds():
            yield _gap_at(condition, facts)
        case _:
            assert_never(condition)


def _gap_at(leaf: Leaf, facts: FactSource) -> Unanswered:
    if isinstance(leaf, Asks):
        return Unanswered(leaf, Gap.SECTION_NOT_ON_RECORD, leaf.name)
    section = section_holding(leaf.fact)
    if is_fitted(section, facts) is None:
        return Unanswered(leaf, Gap.SECTION_NOT_ON_RECORD, section)
    return Unanswered(leaf, Gap.FACT_NOT_ON_RECORD, leaf.fact)
