"""All trucks that a condition could meet, as far as it can tell them apart.

Takes in conditions; gives out one imagined truck for each combination of answers to their
questions that some truck could give.
Refuses combinations that no truck has: a diesel that is a gas truck, 20 mph above 30 mph.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import chain, combinations, pairwise, product
from types import MappingProxyType
from typing import assert_never

from guidegen.procedures.catalog_words import ALWAYS_THERE, section_holding, sections_around
from guidegen.procedures.condition_model import Asks, Compares, Condition, Predicate
from guidegen.procedures.condition_value import Leaf, leaves, read_literal
from guidegen.quantity.model import Dimension, Measure, Quantity
from guidegen.quantity.parse import parse_amount
from guidegen.specs.fields import (
    AmountField,
    ChoiceField,
    ChoicesField,
    CountField,
    FlagField,
    TextField,
    Value,
)
from guidegen.specs.profile import ASKED


@dataclass(frozen=True, slots=True)
class World:
    """One imagined truck; a `FactSource`."""

    _fitted: Mapping[str, bool]
    _values: Mapping[str, Value | None]

    def fitted(self, section: str) -> bool | None:
        """Whether the truck has *section*; sections that nobody asked about are fitted."""
        return self._fitted.get(section, True)

    def value(self, fact: str) -> Value | None:
        """Return the value of *fact*; None if this world is one without it on record."""
        return self._values.get(fact)


def worlds_of(conditions: Iterable[Condition]) -> Iterator[World]:
    """Yield the worlds that *conditions* can tell apart.

    A fact is left off the record only where ``on_record(…)`` asks for it: elsewhere a gap in the
    record makes no condition true or false that would not be so with an answer.
    """
    asked = tuple(leaf for condition in conditions for leaf in leaves(condition))
    domains = _domains(asked)
    for fitted in _fittings(_sections(asked)):
        there = [fact for fact in domains if _is_there(section_holding(fact), fitted)]
        for values in product(*(domains[fact] for fact in there)):
            world = dict(zip(there, values, strict=True))
            yield World(MappingProxyType(fitted), MappingProxyType(world))


def _sections(asked: Iterable[Leaf]) -> tuple[str, ...]:
    """Return the sections that matter to *asked*, outer ones before inner ones."""
    found: dict[str, None] = {}
    for leaf in asked:
        match leaf:
            case Asks(predicate=Predicate.FITTED, name=name):
                section = name
            case Asks(name=name):
                section = section_holding(name)
            case _:
                section = section_holding(leaf.fact)
        found.update(dict.fromkeys(sections_around(section)))
    return tuple(section for section in found if section not in ALWAYS_THERE)


def _fittings(sections: tuple[str, ...]) -> Iterator[dict[str, bool]]:
    for answers in product((True, False), repeat=len(sections)):
        fitted = dict(zip(sections, answers, strict=True))
        # An inner section of one that is not fitted is not fitted either: no world of its own.
        if all(not fitted[inner] or _is_there(inner, fitted) for inner in sections):
            yield fitted


def _is_there(section: str, fitted: Mapping[str, bool]) -> bool:
    return all(fitted.get(around, True) for around in sections_around(section))


def _domains(asked: Iterable[Leaf]) -> dict[str, tuple[Value | None, ...]]:
    """Return for each fact the values that *asked* can tell apart."""
    literals: dict[str, list[str]] = {}
    off_record = set()
    for leaf in asked:
        match leaf:
            case Asks(predicate=Predicate.ON_RECORD, name=name):
                literals.setdefault(name, [])
                off_record.add(name)
            case Asks():
                pass
            case Compares(fact=fact, literal=literal):
                literals.setdefault(fact, []).append(literal)
            case _:
                literals.setdefault(leaf.fact, [])
    return {
        fact: (*_values(fact, compared), *((None,) if fact in off_record else ()))
        for fact, compared in literals.items()
    }


def _values(fact: str, literals: list[str]) -> tuple[Value, ...]:
    match ASKED[fact].field:
        case AmountField() as field:
            return _amounts(field, literals)
        case CountField() as field:
            return _counts(field, literals)
        case ChoiceField(choices=choices):
            named = tuple(dict.fromkeys(literals))
            return (*named, *[choice for choice in choices if choice not in named][:1])
        case ChoicesField():
            return _subsets(literals)
        case TextField():
            return (*dict.fromkeys(literals), _longer_than(literals))
        case FlagField():
            return (True, False)
        case field:
            assert_never(field)


def _amounts(field: AmountField, literals: Iterable[str]) -> tuple[Value, ...]:
    """Return the literals, the ends of what the field takes and one amount in each gap."""
    ends = [_exact_end(text, field) for text in (field.low, field.high)]
    named = [read_literal(literal, field.dimension).exact for literal in literals]
    points = sorted({*ends, *(point for point in named if ends[0] <= point <= ends[1])})
    middles = [(low + high) / 2 for low, high in pairwise(points)]
    return tuple(_amount_of(point, field.dimension) for point in (*points, *middles))


def _amount_of(exact: Fraction, dimension: Dimension) -> Quantity:
    # One of a measure as large as the amount: thirds of a psi have no decimal digits.
    return Quantity(Decimal(1), Measure("", dimension, exact))


def _exact_end(text: str, field: AmountField) -> Fraction:
    amount = parse_amount(text, field.dimension)
    assert isinstance(amount, Quantity)  # noqa: S101 -- the schema's own bounds are single values
    return amount.exact


def _longer_than(literals: Iterable[str]) -> str:
    """Return a text that stands for all that are none of *literals*."""
    return "x" * (1 + max(map(len, literals), default=0))


def _counts(field: CountField, literals: Iterable[str]) -> tuple[int, ...]:
    near = {int(literal) + step for literal in literals for step in (-1, 0, 1)}
    possible = {field.low, field.high, *near}
    return tuple(sorted(count for count in possible if field.low <= count <= field.high))


def _subsets(members: Iterable[str]) -> tuple[tuple[str, ...], ...]:
    named = tuple(dict.fromkeys(members))
    sizes = range(len(named), -1, -1)
    return tuple(chain.from_iterable(combinations(named, size) for size in sizes))
