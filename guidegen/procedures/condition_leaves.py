"""Whether a fact can be asked what a condition asks of it.

Takes in a fact, a relation and a literal as typed; gives out nothing but findings.
Refuses a comparison whose outcome would be the same for every value that the fact can have
because the two are of different kinds, and one that typing habits would decide.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import assert_never

from guidegen.finding import Findings, Rule, nearest
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import listed, shortened
from guidegen.procedures.condition_model import Relation
from guidegen.quantity.model import QuantityRange, Sense
from guidegen.quantity.parse import UnknownMeasure, UnreadableAmount, parse_amount
from guidegen.source import Span
from guidegen.specs.equipment import FactField
from guidegen.specs.fields import (
    AmountField,
    ChoiceField,
    ChoicesField,
    CountField,
    FlagField,
    TextField,
)

_FREE_TEXT = TextField("").pattern
_WHOLE_NUMBER = re.compile(r"[0-9]{1,9}")
_EQUALITIES = frozenset({Relation.EQUAL, Relation.UNEQUAL})


@dataclass(frozen=True, slots=True)
class Literal:
    """A value typed into a condition."""

    text: str
    """Without its quotes."""

    is_quoted: bool
    span: Span

    @property
    def shown(self) -> str:
        """As typed."""
        return f'"{shortened(self.text)}"' if self.is_quoted else self.text


@dataclass(frozen=True, slots=True)
class Question:
    """A fact, and the value that it is compared with."""

    fact: FactField
    relation: Relation
    literal: Literal
    span: Span
    """Of the whole comparison."""


class _Unfit(Exception):
    """Raised for a question that the fact cannot answer."""

    def __init__(self, rule: Rule, what: str, fix: str) -> None:
        super().__init__(what)
        self.rule = rule
        self.what = what
        self.fix = fix


def check_question(question: Question, findings: Findings) -> None:
    """Report what is wrong with *question*, at its literal; nothing if it can be answered."""
    try:
        _check(question)
    except _Unfit as unfit:
        findings.add(unfit.rule, question.literal.span, what=unfit.what, fix=unfit.fix)


def check_alone(fact: FactField, span: Span, findings: Findings) -> None:
    """Report a fact that stands alone and is no yes or no."""
    if isinstance(fact.field, FlagField):
        return
    what = f"`{fact.name}` stands alone, and it is {_kind_words(fact)} and no yes or no"
    findings.add(rules.YES_OR_NO_EXPECTED, span, what=what, fix=_example_of(fact))


def _check(question: Question) -> None:
    field = question.fact.field
    if question.relation is Relation.IN:
        _check_membership(question)
        return
    match field:
        case AmountField():
            _check_amount(question, field)
        case ChoiceField():
            _check_choice(question, field)
        case CountField():
            _check_count(question)
        case TextField():
            _check_text(question, field)
        case FlagField() | ChoicesField():
            raise _Unfit(
                rules.LITERAL_OF_WRONG_KIND,
                f"`{question.fact.name}` is {_kind_words(question.fact)} and cannot be compared"
                f" with `{question.literal.shown}`",
                _example_of(question.fact, question.literal.text),
            )
        case _:
            assert_never(field)


def _check_membership(question: Question) -> None:
    fact, literal = question.fact, question.literal
    if not isinstance(fact.field, ChoicesField):
        what = f"`{fact.name}` is {_kind_words(fact)}, and `in` asks a list of choices"
        raise _Unfit(rules.LITERAL_OF_WRONG_KIND, what, _example_of(fact, literal.text))
    _check_listed(fact, literal, fact.field)


def _check_choice(question: Question, field: ChoiceField) -> None:
    fact, literal = question.fact, question.literal
    if question.relation not in _EQUALITIES:
        what = f"`{fact.name}` is {_kind_words(fact)}, and choices have no order"
        raise _Unfit(rules.LITERAL_OF_WRONG_KIND, what, _example_of(fact, literal.text))
    _check_listed(fact, literal, field)


def _check_listed(fact: FactField, literal: Literal, field: ChoiceField | ChoicesField) -> None:
    if literal.text in field.choices:
        return
    near = nearest(literal.text, field.choices)
    fix = f"its choices are {listed(field.choices)}"
    if near:
        fix = f'did you mean `"{near}"`? {fix[0].upper()}{fix[1:]}'
    what = f"`{fact.name}` is never `{literal.shown}`"
    raise _Unfit(rules.LITERAL_OF_WRONG_KIND, what, fix)


def _check_amount(question: Question, field: AmountField) -> None:
    fact, literal = question.fact, question.literal
    if field.sense is Sense.RANGE:
        what = f"`{fact.name}` is a range and cannot be compared with one value"
        fix = "compare another fact, or give the steps without a condition"
        raise _Unfit(rules.RANGE_COMPARED, what, fix)
    if not literal.is_quoted:
        what = f"`{literal.text}` has no measure, and `{fact.name}` is {_kind_words(fact)}"
        raise _Unfit(rules.LITERAL_OF_WRONG_KIND, what, _example_of(fact))
    try:
        amount = parse_amount(literal.text, field.dimension)
    except UnreadableAmount as fault:
        what = f"`{fact.name}` is {_kind_words(fact)}, and {fault}"
        raise _Unfit(rules.LITERAL_OF_WRONG_KIND, what, _cure_of(fault, fact)) from fault
    if isinstance(amount, QuantityRange):
        what = f"`{literal.shown}` is a range, and `{fact.name}` is one value"
        fix = "compare with each end: `x >= … and x <= …`"
        raise _Unfit(rules.RANGE_COMPARED, what, fix)


def _cure_of(fault: UnreadableAmount, fact: FactField) -> str:
    if isinstance(fault, UnknownMeasure) and fault.suggestion:
        return f"did you mean `{fault.suggestion}`?"
    return _example_of(fact)


def _check_count(question: Question) -> None:
    fact, literal = question.fact, question.literal
    if literal.is_quoted or not _WHOLE_NUMBER.fullmatch(literal.text):
        what = f"`{fact.name}` is a count, and `{literal.shown}` is not a bare whole number"
        raise _Unfit(rules.LITERAL_OF_WRONG_KIND, what, _example_of(fact))


def _check_text(question: Question, field: TextField) -> None:
    fact, literal = question.fact, question.literal
    if field.pattern == _FREE_TEXT:
        what = f"`{fact.name}` is free text, which each clerk words in another way"
        fix = f"ask whether it is stated, `on_record({fact.name})`, or compare a fact with choices"
        raise _Unfit(rules.TEXT_COMPARED, what, fix)
    if question.relation not in _EQUALITIES:
        what = f"`{fact.name}` is a text, and texts have no order"
        raise _Unfit(rules.LITERAL_OF_WRONG_KIND, what, "compare it with `==` or `!=`")
    if not literal.is_quoted or not re.fullmatch(field.pattern, literal.text):
        what = f"`{fact.name}` is never `{literal.shown}`"
        fix = f"write {field.says}, in double quotes"
        raise _Unfit(rules.LITERAL_OF_WRONG_KIND, what, fix)


def _kind_words(fact: FactField) -> str:
    match fact.field:
        case AmountField(dimension=dimension):
            return f"{_article(dimension.value)} {dimension.value}"
        case ChoiceField():
            return "one choice out of a list"
        case ChoicesField():
            return "a list of choices"
        case CountField():
            return "a count"
        case TextField():
            return "a text"
        case FlagField():
            return "a yes or no"
        case _:
            assert_never(fact.field)


def _article(word: str) -> str:
    return "an" if word[0] in "aeiou" else "a"


def _example_of(fact: FactField, typed: str = "") -> str:
    """Return what can be asked of *fact*, as the cure; with the choice *typed* if it is one."""
    name, field = fact.name, fact.field
    match field:
        case AmountField(sense=Sense.RANGE) | TextField():
            return f"ask whether it is stated: `on_record({name})`"
        case AmountField():
            return f'write it as in `{name} >= "{field.low}"`'
        case ChoiceField(choices=choices):
            return f'write it as in `{name} == "{_one_of(choices, typed)}"`'
        case ChoicesField(choices=choices):
            return f'write it as in `"{_one_of(choices, typed)}" in {name}`'
        case CountField():
            return f"write it as in `{name} == {field.low}`"
        case FlagField():
            return f"write `{name}` for yes and `not {name}` for no"
        case _:
            assert_never(field)


def _one_of(choices: Iterable[str], typed: str) -> str:
    known = tuple(choices)
    return typed if typed in known else known[0]
