"""Conditions that hold nothing back, and conditions that nothing passes.

Takes in a condition and where it applies; gives out findings for the parts that come to the same
on every truck.
Refuses to pass a condition that has too many parts to try all trucks that it could meet.
"""

import enum
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import combinations, islice

from guidegen.finding import Findings, Note
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import ALWAYS_THERE, section_holding, shortened
from guidegen.procedures.condition_model import (
    And,
    Asks,
    Compares,
    Condition,
    Not,
    Or,
    Predicate,
)
from guidegen.procedures.condition_value import evaluate, leaves
from guidegen.procedures.condition_words import as_typed
from guidegen.procedures.condition_worlds import worlds_of
from guidegen.source import Span
from guidegen.specs.fields import AmountField, CountField
from guidegen.specs.profile import ASKED

MAX_WORLDS = 10_000
"""Some thirteen questions that do not depend on one another, and about a second of work."""

_LONGEST = 100
"""Characters of a condition that a finding shows."""


class Verdict(enum.Enum):
    """What a condition comes to on all trucks."""

    NEVER = "can never be true"
    ALWAYS = "is always true"
    SOMETIMES = "depends on the truck"
    UNTRIED = "has too many parts to try on every truck"


@dataclass(frozen=True, slots=True)
class DeadPart:
    """A part of a condition that comes to the same on every truck."""

    part: Condition
    verdict: Verdict
    because: tuple[Condition, ...]
    """Two members of the part that alone make it so; empty if no two do."""


@dataclass(frozen=True, slots=True)
class Given:
    """What holds wherever a condition is looked at."""

    conditions: tuple[Condition, ...]
    """All of them hold; at least one."""

    words: str
    """Where that is, to go on from "where": ``the procedure applies``."""


def find_dead(condition: Condition) -> tuple[DeadPart, ...]:
    """Return the largest parts of *condition* that are never or always true by themselves.

    A condition is tried on every truck that its questions can tell apart: each section fitted or
    not, each fact at, between and beyond the values that it is compared with, within what its
    field takes. A comparison is also tried on trucks that have the fact's section alone. At most
    ``MAX_WORLDS`` are tried; a part that came to the same on all of those and has more is given
    out as untried.
    """
    verdict = verdict_on(condition)
    if verdict is not Verdict.SOMETIMES:
        return (DeadPart(condition, verdict, _conflict(condition, verdict)),)
    match condition:
        case And(of=members) | Or(of=members):
            return tuple(dead for member in members for dead in find_dead(member))
        case Not(of=inner):
            return find_dead(inner)
        case Compares(fact=fact):
            where_fitted = verdict_on(condition, _there(fact, condition.span))
            if where_fitted is not Verdict.SOMETIMES:
                return (DeadPart(condition, where_fitted, ()),)
        case _:
            pass
    return ()


def verdict_on(condition: Condition, given: Condition | None = None) -> Verdict:
    """Return what *condition* comes to on all trucks of which *given* is true.

    Where no truck makes *given* true the answer is that it depends on the truck: the fault is in
    *given*.
    """
    typed = as_typed(condition), "" if given is None else as_typed(given)
    return _verdict(_Tried(typed, condition, given))


@dataclass(frozen=True, slots=True)
class _Tried:
    """What is tried on all trucks; the same wherever it is typed."""

    typed: tuple[str, str]
    condition: Condition = field(compare=False)
    given: Condition | None = field(compare=False)


@lru_cache(maxsize=2_000)
def _verdict(tried: _Tried) -> Verdict:
    """Return what `verdict_on` does; a library asks the same of many steps."""
    condition, given = tried.condition, tried.given
    is_true = is_not_true = is_false = False
    worlds = worlds_of((condition,) if given is None else (given, condition))
    for number, world in enumerate(islice(worlds, MAX_WORLDS + 1)):
        if number == MAX_WORLDS:
            return Verdict.UNTRIED
        if given is not None and evaluate(given, world) is not True:
            continue
        truth = evaluate(condition, world)
        is_true |= truth is True
        is_false |= truth is False
        is_not_true |= truth is not True
        if is_true and is_false:
            return Verdict.SOMETIMES
    if is_not_true and not is_true:
        return Verdict.NEVER
    return Verdict.ALWAYS if is_true else Verdict.SOMETIMES


def check_condition(condition: Condition, findings: Findings) -> bool:
    """Report every dead part of *condition*; say whether there is none."""
    dead = find_dead(condition)
    for part in dead:
        _report(part, findings)
    return not dead


def check_within(condition: Condition, given: Given, findings: Findings) -> None:
    """Report *condition* if it comes to the same on every truck of which *given* is true.

    A condition that has a finding by itself gets no second one.
    """
    _report_within(verdict_within(condition, given), condition, given, findings)


def check_against(condition: Condition, given: Given, findings: Findings) -> None:
    """Report *condition* if it is true on no truck of which *given* is true."""
    verdict = verdict_within(condition, given)
    if verdict is not Verdict.ALWAYS:
        _report_within(verdict, condition, given, findings)


def verdict_within(condition: Condition, given: Given) -> Verdict:
    """Return what *condition* comes to where *given* is true.

    It depends on the truck if it is dead by itself: that has a finding of its own.
    """
    if verdict_on(condition) is not Verdict.SOMETIMES:
        return Verdict.SOMETIMES
    holds = given.conditions
    return verdict_on(condition, holds[0] if len(holds) == 1 else And(holds))


def span_of(condition: Condition) -> Span:
    """Return the stretch from the first to the last question of *condition*."""
    spans = [leaf.span for leaf in leaves(condition)]
    first, last = spans[0], spans[-1]
    if first.file != last.file:
        return first
    return Span(first.file, first.line, first.column, last.end_line, last.end_column)


def _report_within(
    verdict: Verdict, condition: Condition, given: Given, findings: Findings
) -> None:
    if verdict is Verdict.SOMETIMES:
        return
    if verdict is Verdict.UNTRIED:
        _report(DeadPart(condition, verdict, ()), findings)
        return
    is_dead = verdict is Verdict.NEVER
    findings.add(
        rules.DEAD_CONDITION if is_dead else rules.NEEDLESS_CONDITION,
        span_of(condition),
        what=f"`{_shown(condition)}` {verdict.value} where {given.words}",
        fix="mend one of the conditions, or delete what stands under this one"
        if is_dead
        else "delete this condition, or mend it if it was meant to hold something back",
        notes=[Note(f"given `{_shown(holds)}`", span_of(holds)) for holds in given.conditions],
    )


def _shown(condition: Condition) -> str:
    return shortened(as_typed(condition), _LONGEST)


def _there(fact: str, span: Span) -> Condition | None:
    section = section_holding(fact)
    return None if section in ALWAYS_THERE else Asks(Predicate.FITTED, section, span)


def _conflict(condition: Condition, verdict: Verdict) -> tuple[Condition, ...]:
    """Return two members that alone make *condition* what it is, for the words of the finding."""
    match condition:
        case And(of=members) if verdict is Verdict.NEVER:
            joined: type[And | Or] = And
        case Or(of=members) if verdict is Verdict.ALWAYS:
            joined = Or
        case _:
            return ()
    pairs = combinations(members, 2)
    return next((pair for pair in pairs if verdict_on(joined(pair)) is verdict), ())


def _report(dead: DeadPart, findings: Findings) -> None:
    rule = {
        Verdict.NEVER: rules.DEAD_CONDITION,
        Verdict.ALWAYS: rules.NEEDLESS_CONDITION,
    }.get(dead.verdict, rules.CONDITION_TOO_LARGE)
    findings.add(
        rule,
        span_of(dead.part),
        what=f"`{_shown(dead.part)}` {dead.verdict.value}",
        fix=_fix(dead),
    )


def _fix(dead: DeadPart) -> str:
    if dead.verdict is Verdict.UNTRIED:
        return "give the steps conditions of their own, each with fewer parts"
    if dead.because:
        one, other = (as_typed(member) for member in dead.because)
        joint = "cannot both hold" if dead.verdict is Verdict.NEVER else "cannot both fail"
        return f"`{one}` and `{other}` {joint}: mend one of them or delete it"
    if bounds := _bounds(dead.part):
        return bounds
    if dead.verdict is Verdict.ALWAYS:
        return "delete it, or mend it if it was meant to hold something back"
    return "mend it, or delete what stands under it"


def _bounds(part: Condition) -> str:
    """Return what the one fact of *part* can be, if that is a number."""
    match part:
        case Compares(fact=fact):
            field = ASKED[fact].field
            if isinstance(field, AmountField | CountField):
                return f"`{fact}` can only be from {field.low} to {field.high}: mend the number"
        case Asks(name=name) if name in ALWAYS_THERE:
            return f"every truck has `{name}`: delete the question"
        case _:
            pass
    return ""
