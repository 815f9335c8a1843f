"""A difference sheet as a person or a program reads it in a terminal.

Takes in a sheet and the two guides that it compares; gives out lines of text, or values for
JSON. Refuses to weigh: order and reasons are the sheet's.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, assert_never

from guidegen.differences.compare_procedures import ProcedureDifference
from guidegen.differences.model import (
    ControlChanged,
    Difference,
    DifferenceSheet,
    LampGained,
    LampLost,
    Line,
    OrderChanged,
    Part,
    PartChange,
    PartGained,
    PartLost,
    PartReworded,
    ProcedureChanged,
    ProcedureGained,
    ProcedureLost,
    ProcedureReplaced,
    StanceChanged,
    ThingGained,
    ThingInDoubt,
    ThingLost,
    ValueChanged,
    ValueGained,
    ValueLost,
)
from guidegen.differences.standing import RANKS, REASONS
from guidegen.guide.model import Caution, Guide, Procedure, Step, Text
from guidegen.procedures.model import Words
from guidegen.procedures.words import LABELS, STATES, STATIONS
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.profile import HOLDER_LABELS
from guidegen.specs.topics.lamps import LAMPS
from guidegen.units.model import Fact, Presence
from guidegen.wording import value_words

_WHOLE = "identity"
"""The section whose values need no name before them: they are of the truck as a whole."""

_KINDS: Mapping[type[Difference], str] = {
    ValueChanged: "value changed",
    ControlChanged: "control changed",
    ValueGained: "value gained",
    ValueLost: "value lost",
    ThingGained: "thing gained",
    ThingLost: "thing lost",
    ThingInDoubt: "thing in doubt",
    LampGained: "lamp gained",
    LampLost: "lamp lost",
    ProcedureGained: "procedure gained",
    ProcedureLost: "procedure lost",
    ProcedureChanged: "procedure changed",
    ProcedureReplaced: "procedure replaced",
}


@dataclass(frozen=True, slots=True)
class _Told:
    """A difference in words."""

    id: str
    """Of the fact, section, lamp or procedure."""

    what: str
    known: str = ""
    """What the known truck has; empty if that is not told beside the given one's."""

    given: str = ""
    only: str = ""
    """Number of the one truck that has it; empty if both are told of."""

    more: tuple[str, ...] = ()
    """Lines about what was gained, or about the parts of a procedure."""


def format_differences(sheet: DifferenceSheet, known: Guide, given: Guide) -> str:
    """Return *sheet* as text, those that can hurt first."""
    count = len(sheet.differences)
    counted = "1 difference" if count == 1 else f"{count or 'no'} differences"
    lines = [f"From {sheet.known} to {sheet.given}: {counted} on record"]
    lines += [LABELS["park_first"], LABELS["handbook_first"], LABELS["no_substitute"]]
    rank = reason = ""
    for difference in sheet.differences:
        standing = difference.standing
        if standing.rank.value != rank:
            rank, reason = standing.rank.value, ""
            lines += ["", RANKS[rank]]
        if standing.reason.value != reason:
            reason = standing.reason.value
            lines.append(f"  {REASONS[reason]}")
        lines += _lines(_Telling(known, given).tell(difference), sheet)
    return "\n".join(lines) + "\n"


def differences_as_json(sheet: DifferenceSheet, known: Guide, given: Guide) -> dict[str, Any]:
    """Return *sheet* as plain values."""
    telling = _Telling(known, given)
    return {
        "known": sheet.known,
        "given": sheet.given,
        "differences": [_plain(each, telling.tell(each)) for each in sheet.differences],
    }


def _lines(told: _Told, sheet: DifferenceSheet) -> list[str]:
    lines = [f"    {told.what}"]
    if told.known:
        lines.append(f"      {sheet.known}: {told.known}")
    if told.given:
        lines.append(f"      {sheet.given}: {told.given}")
    if told.only:
        lines.append(f"      {LABELS['only_on']} {told.only}")
    return [*lines, *(f"        {line}" for line in told.more)]


def _plain(difference: Difference, told: _Told) -> dict[str, Any]:
    return {
        "kind": _KINDS[type(difference)],
        "id": told.id,
        "what": told.what,
        "known": told.known,
        "given": told.given,
        "only_on": told.only,
        "more": list(told.more),
        "rank": difference.standing.rank.value,
        "reason": difference.standing.reason.value,
        "why": REASONS[difference.standing.reason.value],
    }


@dataclass(frozen=True, slots=True)
class _Telling:
    known: Guide
    given: Guide

    def tell(self, difference: Difference) -> _Told:
        match difference:
            case ValueChanged() | ControlChanged() | ValueGained() | ValueLost():
                return _tell_value(difference)
            case ThingGained() | ThingLost() | ThingInDoubt():
                return _tell_thing(difference)
            case LampGained(lamp=lamp):
                return _Told(lamp, _lamp(lamp), only=self.given.number)
            case LampLost(lamp=lamp):
                return _Told(lamp, _lamp(lamp), only=self.known.number)
            case _:
                return self.tell_procedure(difference)

    def tell_procedure(self, difference: ProcedureDifference) -> _Told:
        more: tuple[str, ...] = ()
        match difference:
            case ProcedureGained(procedure=procedure):
                title = _words(procedure.title, self.given)
                return _Told(procedure.id, title, only=self.given.number)
            case ProcedureLost(procedure=procedure):
                title = _words(procedure.title, self.known)
                return _Told(procedure.id, title, only=self.known.number)
            case ProcedureChanged(given=procedure, changes=changes):
                more = tuple(line for change in changes for line in self.tell_change(change))
            case ProcedureReplaced(given=procedure):
                pass
            case _:
                assert_never(difference)
        title = _words(procedure.title, self.given)
        return _Told(procedure.id, title, given=LABELS["done_otherwise"], more=more)

    def tell_change(self, change: PartChange) -> Iterator[str]:
        only = LABELS["only_on"]
        match change:
            case PartGained(part=part):
                yield f"{only} {self.given.number}: {_part(part, self.given)}"
            case PartLost(part=part):
                yield f"{only} {self.known.number}: {_part(part, self.known)}"
            case PartReworded(known=before, given=after):
                yield f"{LABELS['on']} {self.known.number}: {_part(before, self.known)}"
                yield f"{LABELS['on']} {self.given.number}: {_part(after, self.given)}"
            case StanceChanged(known=before, given=after):
                yield f"{LABELS['on']} {self.known.number}: {_stance(before)}"
                yield f"{LABELS['on']} {self.given.number}: {_stance(after)}"
            case OrderChanged():
                yield LABELS["other_order"]
            case _:
                assert_never(change)


def _tell_value(
    difference: ValueChanged | ControlChanged | ValueGained | ValueLost,
) -> _Told:
    match difference:
        case ValueChanged(known=before, given=after) | ControlChanged(known=before, given=after):
            return _Told(after.name, _named(after), value_words(before), value_words(after))
        case ValueGained(given=fact):
            return _Told(fact.name, _named(fact), LABELS["not_on_record"], value_words(fact))
        case ValueLost(known=fact):
            return _Told(fact.name, _named(fact), value_words(fact), LABELS["not_on_record"])
        case _:
            assert_never(difference)


def _tell_thing(difference: ThingGained | ThingLost | ThingInDoubt) -> _Told:
    section = difference.section
    what = EQUIPMENT_SECTIONS[section].label
    match difference:
        case ThingGained(known=presence, facts=facts):
            more = tuple(f"{fact.field.label}: {value_words(fact)}" for fact in facts)
            return _Told(section, what, _presence(presence), LABELS["fitted"], more=more)
        case ThingLost(given=presence):
            return _Told(section, what, LABELS["fitted"], _presence(presence))
        case ThingInDoubt(known=before, given=after):
            return _Told(section, what, _presence(before), _presence(after))
        case _:
            assert_never(difference)


def _presence(presence: Presence) -> str:
    return LABELS["not_fitted" if presence is Presence.NOT_FITTED else "not_on_record"]


def _named(fact: Fact) -> str:
    section = fact.field.section
    is_whole = section == _WHOLE
    return fact.field.label if is_whole else f"{HOLDER_LABELS[section]}: {fact.field.label}"


def _lamp(lamp: str) -> str:
    return f"{EQUIPMENT_SECTIONS['lamps'].label}: {LAMPS[lamp].name}"


def _words(text: Text, guide: Guide) -> str:
    return "".join(
        part.text if isinstance(part, Words) else value_words(guide.facts[part.name])
        for part in text.parts
    )


def _part(part: Part, guide: Guide) -> str:
    match part:
        case Step():
            return f"{part.number}. {_words(part.text, guide)}"
        case Line():
            label = f"{LABELS[part.role]}: " if part.role != "title" else ""
            return f"{label}{_words(part.text, guide)}"
        case Caution():
            texts = (part.hazard, part.consequence, part.avoid)
            return " ".join([part.signal.value, *(_words(text, guide) for text in texts)])
        case _:
            assert_never(part)


def _stance(procedure: Procedure) -> str:
    states = [STATES[aspect][state] for aspect, state in procedure.state]
    return "; ".join([STATIONS[procedure.station], *states])
