"""What changed between two editions of one truck's guide, in words.

Takes in the edition that was released and the one that is to be; gives out one line a change, the
gravest first, as the table of differences ranks them. Refuses to keep silent on two editions that
differ: what no comparison of trucks looks at, such as a source or a drawing, is told at the end.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import assert_never

from guidegen.differences.compare import compare_guides, say_the_same
from guidegen.differences.compare_procedures import ProcedureDifference
from guidegen.differences.model import (
    ControlChanged,
    Difference,
    LampGained,
    LampLost,
    Line,
    OrderChanged,
    Part,
    PartChange,
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
from guidegen.guide.model import Caution, Guide, Procedure, Step, Text
from guidegen.procedures.model import Words
from guidegen.revisions.snapshot import Snapshot, Spoken
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.profile import FACTS
from guidegen.specs.topics.lamps import LAMPS

NEW = "New"
LEFT_OUT = "Left out"
CHANGED = "Changed"
PRINTED_OTHERWISE = "Printed otherwise"
NOTHING_READ = "Nothing that a driver reads"

MOST_TOLD = 10
"""Values that are only printed otherwise are counted from here on: a fleet that turns its measures
around prints every one of them otherwise."""

_PARTS = ("title", "steps", "cautions", "limits", "place and state")
"""What a procedure is made of, as a change names it."""


def tell_changes(known: Snapshot, given: Snapshot) -> tuple[str, ...]:
    """Return what is other about *given* for someone who knows *known*.

    Args:
        known: The edition that was released last.
        given: The edition as it stands.

    Returns:
        One line a change, the gravest first; never nothing.
    """
    telling = Telling(known, given)
    sheet = compare_guides(known.guide, given.guide)
    lines = [line for difference in sheet.differences for line in telling.tell(difference)]
    lines += [*telling.retired(), *telling.beside()]
    return tuple(dict.fromkeys(lines)) or (f"{CHANGED}: {NOTHING_READ.lower()}",)


@dataclass(frozen=True, slots=True)
class Telling:
    """Two editions, of which one change after another is put into words."""

    known: Snapshot
    given: Snapshot

    def tell(self, difference: Difference) -> Iterator[str]:
        """Yield the words of one difference of the two guides."""
        match difference:
            case ValueChanged(given=fact) | ControlChanged(given=fact):
                yield self.value(fact.name)
            case ValueGained(given=fact):
                spoken = self.given.spoken[fact.name]
                yield f"{NEW}: {_in_a_line(spoken.label)} {spoken.short}"
            case ValueLost(known=fact):
                spoken = self.known.spoken[fact.name]
                yield f"{LEFT_OUT}: {_in_a_line(spoken.label)} {spoken.short}"
            case ThingGained() | ThingLost() | ThingInDoubt():
                yield _tell_thing(difference)
            case LampGained(lamp=lamp):
                yield f"{NEW}: lamp “{LAMPS[lamp].name}”"
            case LampLost(lamp=lamp):
                yield f"{LEFT_OUT}: lamp “{LAMPS[lamp].name}”"
            case _:
                yield self.procedure(difference)

    def value(self, name: str) -> str:
        """Return the words of a value of this name that is other."""
        before, after = self.known.spoken[name], self.given.spoken[name]
        if before.short != after.short:
            return f"{after.label} {before.short} → {after.short}"
        return f"{after.label} {before.full} → {after.full}"

    def procedure(self, difference: ProcedureDifference) -> str:
        """Return the words of work that is other."""
        match difference:
            case ProcedureGained(procedure=procedure):
                return f"{NEW}: procedure “{self.title(procedure.title, self.given)}”"
            case ProcedureLost(procedure=procedure):
                return f"{LEFT_OUT}: procedure “{self.title(procedure.title, self.known)}”"
            case ProcedureReplaced(given=procedure):
                return self.changed(procedure, ("all of it",))
            case ProcedureChanged(given=procedure, changes=changes):
                named = {part for change in changes for part in _parts_of(change)}
                return self.changed(procedure, [part for part in _PARTS if part in named])
            case _:
                assert_never(difference)

    def changed(self, procedure: Procedure, parts: Iterable[str]) -> str:
        """Return that *parts* of *procedure*, as it is now, are other."""
        title = self.title(procedure.title, self.given)
        return f"{CHANGED}: procedure “{title}” ({', '.join(parts)})"

    def title(self, text: Text, of: Snapshot) -> str:
        """Return the title *text* with the values of one of the two."""
        parts = (
            part.text if isinstance(part, Words) else self.words(part.name, of).short
            for part in text.parts
        )
        return " ".join("".join(parts).split())

    def words(self, name: str, of: Snapshot) -> Spoken:
        """Return the words of a fact; an identity is that of the truck as it is."""
        return of.spoken.get(name) or self.given.spoken[name]

    def retired(self) -> Iterator[str]:
        """Yield what the library has no more name for."""
        for name, spoken in self.known.spoken.items():
            if name not in FACTS:
                yield f"{LEFT_OUT}: {_in_a_line(spoken.label)} {spoken.short}"
        for title in self.known.retired:
            yield f"{LEFT_OUT}: procedure “{self.title(title, self.known)}”"

    def beside(self) -> Iterator[str]:
        """Yield what a driver reads otherwise although the trucks compare as the same."""
        yield from self.printed_otherwise()
        yield from self.drawings()
        yield from self.timers()
        pairs = [(self.known.spoken[name], self.given.spoken[name]) for name in self.same()]
        sources = sum(before.source != after.source for before, after in pairs)
        if sources:
            yield f"{CHANGED}: the source of {sources} {'value' if sources == 1 else 'values'}"
        if set(self.known.stamped) != set(self.given.stamped):
            yield f"{CHANGED}: which papers of the truck are on record"

    def same(self) -> list[str]:
        """Return the names of the values that are on record in both, and mean the same."""
        known, given = self.known.guide.facts, self.given.guide.facts
        shared = [name for name in given if name in known]
        return [name for name in shared if say_the_same(known[name].value, given[name].value)]

    def printed_otherwise(self) -> Iterator[str]:
        """Yield the values that mean the same, and are printed in other digits or measures."""
        before, after = self.known.spoken, self.given.spoken
        otherwise = [name for name in self.same() if before[name].full != after[name].full]
        if len(otherwise) > MOST_TOLD:
            yield f"{PRINTED_OTHERWISE}: {len(otherwise)} values"
        else:
            yield from (f"{PRINTED_OTHERWISE}: {self.value(name)}" for name in otherwise)

    def drawings(self) -> Iterator[str]:
        """Yield the procedures that have another lamp or drawing."""
        for procedure, other in self.shared():
            if other.lamp != procedure.lamp:
                yield self.changed(procedure, ("lamp",))
            if other.figure != procedure.figure:
                yield self.changed(procedure, ("drawing",))
            if [each.says for each in other.photos] != [each.says for each in procedure.photos]:
                yield self.changed(procedure, ("photos",))

    def timers(self) -> Iterator[str]:
        """Yield the procedures that time something else."""
        for procedure, other in self.shared():
            if _timers(other) != _timers(procedure):
                yield self.changed(procedure, ("timers",))

    def shared(self) -> Iterator[tuple[Procedure, Procedure]]:
        """Yield each procedure that both have, as it is now and as it was."""
        before = _by_id(self.known.guide)
        for id_, procedure in _by_id(self.given.guide).items():
            if id_ in before:
                yield procedure, before[id_]


def _timers(procedure: Procedure) -> list[object]:
    """Return what is timed at which step, without where that stands in a file."""
    timed = [
        (each.id, each.timer)
        for each in procedure.blocks
        if isinstance(each, Step) and each.timer is not None
    ]
    return [(id_, each.kind, each.time, each.reading, each.limits) for id_, each in timed]


def _by_id(guide: Guide) -> dict[str, Procedure]:
    return {each.id: each for chapter in guide.chapters for each in chapter.procedures}


def _parts_of(change: PartChange) -> Iterator[str]:
    match change:
        case StanceChanged():
            yield "place and state"
        case OrderChanged():
            yield "steps"
        case PartReworded(known=before, given=after):
            yield from (_part(before), _part(after))
        case _:
            yield _part(change.part)


def _part(part: Part) -> str:
    match part:
        case Step():
            return "steps"
        case Caution():
            return "cautions"
        case Line(role="title"):
            return "title"
        case Line():
            return "limits"
        case _:
            assert_never(part)


def _tell_thing(difference: ThingGained | ThingLost | ThingInDoubt) -> str:
    label = EQUIPMENT_SECTIONS[difference.section].label
    match difference:
        case ThingGained():
            return f"{NEW}: {_in_a_line(label)}"
        case ThingLost():
            return f"{LEFT_OUT}: {_in_a_line(label)}"
        case ThingInDoubt(known=before, given=after):
            return f"{label}: {before.value} → {after.value}"
        case _:
            assert_never(difference)


def _in_a_line(label: str) -> str:
    """Return *label* as it stands within a sentence: ``DEF tank`` keeps its capitals."""
    is_word = len(label) > 1 and label[0].isupper() and label[1].islower()
    return label[0].lower() + label[1:] if is_word else label
