"""What a procedure asks of a truck.

Takes in a template; gives out its questions, each with the conditions under which it is asked, the
facts that it cannot do without, and what stands or falls with it.
Refuses to know any truck, and to ask in another order than the fitting of procedures does.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guidegen.procedures.catalog_words import section_holding, sections_around
from guidegen.procedures.condition_model import Asks, Condition, Predicate
from guidegen.procedures.condition_value import leaves
from guidegen.procedures.figure_kinds import FIGURE_KINDS
from guidegen.procedures.model import (
    Placeholder,
    ProcedureTemplate,
    StepTemplate,
    TextTemplate,
    Words,
)
from guidegen.procedures.scope import round_states
from guidegen.specs.profile import FACTS


@dataclass(frozen=True, slots=True)
class Ask:
    """One question of a template."""

    part: str
    """What stands or falls with it, as `LeftOut.part`; empty for the whole procedure."""

    when: Condition | None
    """None if it holds on every truck where it is asked."""

    under: tuple[Condition, ...] = ()
    """All of these must hold, or it is not asked."""

    unless: tuple[Condition, ...] = ()
    """If one of these holds, it is not asked."""

    facts: tuple[str, ...] = ()
    """What must be on record if it holds."""

    given: tuple[str, ...] = ()
    """Facts without which it is not asked, and left out."""

    is_told: bool = True
    """Whether a driver sees that it is not there."""


@dataclass(frozen=True, slots=True)
class TemplateAsks:
    """All questions of one template."""

    id: str
    asks: tuple[Ask, ...]
    names: frozenset[str]
    """Every section and fact that they name, and the sections around them."""

    compared: frozenset[str]
    """Facts whose values decide something."""


def asks_of(template: ProcedureTemplate) -> TemplateAsks:
    """Return all that *template* asks."""
    asks = tuple(_asks(template))
    questions = [leaf for ask in asks for each in _conditions(ask) for leaf in leaves(each)]
    facts = {name for ask in asks for name in (*ask.facts, *ask.given)}
    sections = set()
    compared = set()
    for leaf in questions:
        if isinstance(leaf, Asks) and leaf.predicate is Predicate.FITTED:
            sections.add(leaf.name)
        elif isinstance(leaf, Asks):
            facts.add(leaf.name)
        else:
            facts.add(leaf.fact)
            compared.add(leaf.fact)
    sections |= {section_holding(fact) for fact in facts}
    around = {each for section in sections for each in sections_around(section)}
    return TemplateAsks(template.id, asks, frozenset(facts | around), frozenset(compared))


def title_words(template: ProcedureTemplate) -> str:
    """Return the title of *template* for people; a value in it is called by its label."""
    return "".join(
        part.text if isinstance(part, Words) else FACTS[part.fact].label
        for part in template.title.parts
    )


def _conditions(ask: Ask) -> Iterator[Condition]:
    yield from ask.under
    yield from ask.unless
    if ask.when is not None:
        yield ask.when


def _asks(template: ProcedureTemplate) -> Iterator[Ask]:
    whole = _all_of(template.applies)
    yield Ask("", template.applies, facts=_named(template.title))
    for step in template.steps:
        yield from _step(step, template, whole)
    for kind, outcomes in (("expect", template.expect), ("if_not", template.if_not)):
        for outcome in outcomes:
            part = f"{kind} {outcome.text.id.rpartition('.')[2]}"
            yield Ask(part, outcome.when, whole, facts=_named(outcome.text))
    figure = template.figure
    if figure is not None and template.lamp is None:
        yield Ask("drawing", figure.when, whole, facts=FIGURE_KINDS[figure.kind])
    before: tuple[Condition, ...] = ()
    for station in template.stations:
        yield Ask("station", station.when, whole, before, is_told=False)
        before = (*before, station.when)
    for states in round_states(template):
        yield Ask("round", states.when, whole, is_told=False)


def _step(
    step: StepTemplate, template: ProcedureTemplate, whole: tuple[Condition, ...]
) -> Iterator[Ask]:
    yield Ask(f"step {step.id}", step.when, whole, facts=_named(step.text))
    under = (*whole, *_all_of(step.when))
    for caution in template.cautions:
        if caution.guards == step.id:
            texts = (caution.hazard, caution.consequence, caution.avoid)
            yield Ask(f"caution {caution.id}", caution.when, under, facts=_named(*texts))
    timer = step.timer
    if timer is None:
        return
    part = f"timer of step {step.id}"
    yield Ask(part, timer.when, under)
    timed = (*under, *_all_of(timer.when))
    if timer.time is not None:
        yield Ask(part, None, timed, given=(timer.time,))
    for limit in timer.limits:
        yield Ask(f"limit of the {part}", limit.when, timed, given=(limit.fact,))


def _all_of(condition: Condition | None) -> tuple[Condition, ...]:
    return () if condition is None else (condition,)


def _named(*texts: TextTemplate) -> tuple[str, ...]:
    parts: Iterable[Words | Placeholder] = (part for text in texts for part in text.parts)
    return tuple(dict.fromkeys(part.fact for part in parts if isinstance(part, Placeholder)))
