"""Conditions for people: in the language, and in plain English.

Takes in a condition; gives out its canonical text, which reads back as the same condition, and
a sentence with the labels that guides print.
Refuses to leave out brackets where a reader could group the words in two ways.
"""

from types import MappingProxyType
from typing import assert_never

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
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fields import ChoiceField, ChoicesField, CountField
from guidegen.specs.profile import ASKED

_IN_WORDS = MappingProxyType(
    {
        Relation.EQUAL: "is",
        Relation.UNEQUAL: "is not",
        Relation.LESS: "is less than",
        Relation.AT_MOST: "is at most",
        Relation.GREATER: "is more than",
        Relation.AT_LEAST: "is at least",
    }
)
_OPPOSITES = MappingProxyType(
    {
        Relation.EQUAL: "is not",
        Relation.UNEQUAL: "is",
        Relation.LESS: "is not less than",
        Relation.AT_MOST: "is not at most",
        Relation.GREATER: "is not more than",
        Relation.AT_LEAST: "is not at least",
    }
)


def as_typed(condition: Condition) -> str:
    """Return *condition* in the language that templates are written in.

    Brackets stand around every `and` and `or` that is part of something larger.
    """
    match condition:
        case Asks(predicate=predicate, name=name):
            return f"{predicate.value}({name})"
        case Holds(fact=fact):
            return fact
        case Compares():
            return _comparison_as_typed(condition)
        case Not(of=inner):
            return f"not {_bracketed(inner)}"
        case And(of=members):
            return " and ".join(_bracketed(member) for member in members)
        case Or(of=members):
            return " or ".join(_bracketed(member) for member in members)
        case _:
            assert_never(condition)


def in_words(condition: Condition) -> str:
    """Return *condition* as a clause of plain English, without a capital or a full stop."""
    match condition:
        case And(of=members):
            return _joined(members, "and")
        case Or(of=members):
            return _joined(members, "or")
        case Not(of=inner) if isinstance(inner, Asks | Compares | Holds):
            return _leaf_in_words(inner, is_negated=True)
        case Not(of=inner):
            return f"it is not so that ({in_words(inner)})"
        case _:
            return _leaf_in_words(condition, is_negated=False)


def _comparison_as_typed(leaf: Compares) -> str:
    if leaf.relation is Relation.IN:
        return f'"{leaf.literal}" in {leaf.fact}'
    is_count = isinstance(ASKED[leaf.fact].field, CountField)
    literal = leaf.literal if is_count else f'"{leaf.literal}"'
    return f"{leaf.fact} {leaf.relation.value} {literal}"


def _bracketed(condition: Condition) -> str:
    text = as_typed(condition)
    return f"({text})" if isinstance(condition, And | Or) else text


def _joined(members: tuple[Condition, ...], word: str) -> str:
    texts = [
        f"({in_words(member)})" if isinstance(member, And | Or) else in_words(member)
        for member in members
    ]
    return f"{', '.join(texts[:-1])} {word} {texts[-1]}"


def _leaf_in_words(leaf: Asks | Compares | Holds, *, is_negated: bool) -> str:
    match leaf:
        case Asks(predicate=Predicate.FITTED, name=name):
            return _has_in_words(_section_label(name), is_negated=is_negated)
        case Asks(name=name):
            return f"{_quoted(name)} is {'not ' if is_negated else ''}on record"
        case Holds(fact=fact):
            return _has_in_words(_fact_label(fact), is_negated=is_negated)
        case Compares():
            return _comparison_in_words(leaf, is_negated=is_negated)
        case _:
            assert_never(leaf)


def _has_in_words(label: str, *, is_negated: bool) -> str:
    # In quotes, since some labels want an article and others do not.
    return f"the truck {'does not have' if is_negated else 'has'} “{label}”"


def _comparison_in_words(leaf: Compares, *, is_negated: bool) -> str:
    value = _value_in_words(leaf)
    if leaf.relation is Relation.IN:
        listed = "is not listed" if is_negated else "is listed"
        return f"{value} {listed} under {_quoted(leaf.fact)}"
    relation = (_OPPOSITES if is_negated else _IN_WORDS)[leaf.relation]
    label = _fact_label(leaf.fact)
    if " is " in label and isinstance(ASKED[leaf.fact].field, ChoiceField):
        # The label has its verb: "Engine oil is checked".
        return f"{_lowered(label).replace(' is ', f' {relation} ', 1)}: {value}"
    return f"{_quoted(leaf.fact)} {relation} {value}"


def _value_in_words(leaf: Compares) -> str:
    field = ASKED[leaf.fact].field
    if isinstance(field, ChoiceField | ChoicesField):
        return f"“{field.choices[leaf.literal]}”"
    return leaf.literal


def _quoted(fact: str) -> str:
    """Return the label in quotes: many labels are no noun, as `Spring brakes apply`."""
    return f"“{_fact_label(fact)}”"


def _fact_label(name: str) -> str:
    """Return the label of a fact; with its section's where several facts share the label."""
    fact = ASKED[name]
    shared = [other for other in ASKED.values() if other.label == fact.label]
    if len(shared) == 1:
        return fact.label
    return f"{fact.label} ({_lowered(_section_label(fact.section))})"


def _section_label(name: str) -> str:
    section = EQUIPMENT_SECTIONS.get(name)
    return section.label if section else name


def _lowered(label: str) -> str:
    """Return *label* for the middle of a sentence; PTO and DEF keep their capitals."""
    return label[:1].lower() + label[1:] if label[1:2].islower() else label
