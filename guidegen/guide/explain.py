"""Why a procedure is in a truck's guide, or out of it.

Takes in a template and a unit; gives out each condition in words, whether it holds, and every
fact that it asks for with value and place. Refuses to explain by guessing: unknown is an answer.
"""

from dataclasses import dataclass

from guidegen.guide.known import KnownOf
from guidegen.procedures.condition_model import Asks, Condition
from guidegen.procedures.condition_value import evaluate, leaves
from guidegen.procedures.condition_words import in_words
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.scope import round_states
from guidegen.quantity.express import express
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fields import Value
from guidegen.specs.profile import FACTS, MODEL
from guidegen.units.model import StatedIn, Unit, WorkedOut


@dataclass(frozen=True, slots=True)
class Asked:
    """One thing that a condition asks for."""

    name: str
    """Dotted name of the section or fact."""

    label: str
    answer: str
    """Value or presence, in words."""

    where: str
    """``path:line:column``; empty if it stands nowhere."""

    source: str = ""
    """The document that it was copied from, and when and by whom it was recorded, if they said."""


@dataclass(frozen=True, slots=True)
class Reason:
    """Why one part of a procedure is in or out."""

    part: str
    """``applies``, or the id of a step or caution."""

    words: str
    """The condition in words."""

    holds: bool | None
    """None if that is not on record."""

    asked: tuple[Asked, ...]


@dataclass(frozen=True, slots=True)
class Explanation:
    """Why a procedure is in a truck's guide, or out of it."""

    unit: str
    procedure: str
    applies: bool | None
    reasons: tuple[Reason, ...]
    """That of the whole procedure first; parts without a condition are not listed."""


def explain_procedure(template: ProcedureTemplate, unit: Unit) -> Explanation:
    """Return why *template* is in the guide of *unit*, or out of it."""
    parts: list[tuple[str, Condition | None]] = [("applies", template.applies)]
    parts += [(f"step {step.id}", step.when) for step in template.steps]
    parts += [(f"caution {caution.id}", caution.when) for caution in template.cautions]
    parts += [(outcome.text.id, outcome.when) for outcome in (*template.expect, *template.if_not)]
    parts += [(f"station {each.station}", each.when) for each in template.stations]
    parts += [
        (f"round {number}", part.when) for number, part in enumerate(round_states(template), 1)
    ]
    reasons = tuple(_reason(part, when, unit) for part, when in parts if when is not None)
    holds = True if template.applies is None else evaluate(template.applies, KnownOf(unit))
    return Explanation(unit.number, template.id, holds, reasons)


def _reason(part: str, condition: Condition, unit: Unit) -> Reason:
    known = KnownOf(unit)
    names: dict[str, None] = {}
    for leaf in leaves(condition):
        names[leaf.name if isinstance(leaf, Asks) else leaf.fact] = None
    asked = tuple(_asked(name, unit) for name in names)
    return Reason(part, in_words(condition), evaluate(condition, known), asked)


def _asked(name: str, unit: Unit) -> Asked:
    if name in EQUIPMENT_SECTIONS:
        state = unit.sections[name]
        where = state.span.place if state.span else ""
        return Asked(name, EQUIPMENT_SECTIONS[name].label, state.presence.value, where)
    if name == MODEL.name:
        return Asked(name, MODEL.label, unit.model, unit.span.place, "unit file")
    fact = unit.facts.get(name)
    label = FACTS[name].label
    if fact is None:
        return Asked(name, label, "not on record", "")
    provenance = fact.provenance
    how = "" if not isinstance(provenance, WorkedOut) else f" ({provenance.formula})"
    source = _source(provenance) if isinstance(provenance, StatedIn) else ""
    return Asked(name, label, _words(fact.value) + how, provenance.span.place, source)


def _source(provenance: StatedIn) -> str:
    said = provenance.recorded
    dated = [] if said is None else [f"recorded {said.on}{f' by {said.by}' if said.by else ''}"]
    return "; ".join([*([provenance.source] if provenance.source else []), *dated])


def _words(value: Value) -> str:
    match value:
        case bool():
            return "yes" if value else "no"
        case Quantity() | QuantityRange():
            return express(value)
        case tuple():
            return ", ".join(value)
        case _:
            return str(value)
