"""The procedures of one truck's round, with what each needs and leaves.

Takes in a guide and the library that it was fitted from; gives out one task for each procedure,
or step, that has a place in the round.
Refuses to guess whether a need applies: a condition that hangs on something not on record is a
finding.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.finding import Findings
from guidegen.guide import rules as guide_rules
from guidegen.guide.known import KnownOf
from guidegen.guide.model import Guide, Procedure
from guidegen.procedures.condition_value import evaluate, unknowns
from guidegen.procedures.model import (
    ProcedureTemplate,
    RoundPart,
    RoundStates,
    RoundTemplate,
)
from guidegen.round.states import ASPECTS, Leaves, Needs, needs_of, number_of
from guidegen.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing to do in the round."""

    procedure: str
    step: str | None
    """Id of the step, if only that one is done here."""

    part: RoundPart
    station: str
    asks: tuple[tuple[str, str], ...]
    """Aspect and state of all that it needs, as typed."""

    needs: Needs
    leaves: Leaves
    ends: str | None
    """Station at its end; none if the driver stays."""

    place: int = field(compare=False)
    """In the order of the guide, from 0. Tasks come in this order, which decides between rounds
    that serve alike; the number itself says nothing of the round."""

    span: Span

    @property
    def effects(self) -> tuple[tuple[str, str], ...]:
        """Aspect and state of all that it leaves, as typed."""
        return tuple((ASPECTS[aspect], word) for aspect, word in self.leaves)

    @property
    def is_wanted(self) -> bool:
        """Whether the round must hold it."""
        return self.part is not RoundPart.MEANS

    @property
    def only_looks(self) -> bool:
        """Whether it changes nothing, so that it can be done whenever the driver is there."""
        return self.part is RoundPart.CHECK and not self.leaves and self.ends is None


def tasks_of(
    guide: Guide, library: Mapping[str, ProcedureTemplate], findings: Findings
) -> tuple[Task, ...]:
    """Return the tasks of the guide's round in the order of the guide."""
    fitting = _Fitting(guide, findings)
    procedures = [each for chapter in guide.chapters for each in chapter.procedures]
    tasks: list[Task] = []
    for place, procedure in enumerate(procedures):
        template = library.get(procedure.id)
        if template is not None and template.round is not None:
            tasks += fitting.tasks(procedure, template.round, place)
    return tuple(tasks)


@dataclass(frozen=True, slots=True)
class _Fitting:
    guide: Guide
    findings: Findings

    def tasks(self, procedure: Procedure, in_round: RoundTemplate, place: int) -> Iterator[Task]:
        asks = (*procedure.state, *self.states(in_round.needs))
        leaves = self.leaves(in_round.leaves)
        yield Task(
            procedure=procedure.id,
            step=None,
            part=in_round.part,
            station=procedure.station,
            asks=asks,
            needs=needs_of(asks),
            leaves=leaves,
            ends=in_round.ends,
            place=place,
            span=in_round.span,
        )
        later = in_round.later
        if later is not None:
            # What the procedure has left is what its later step finds.
            left = self.states(in_round.leaves)
            changed = {aspect for aspect, _ in left}
            found = tuple(state for state in asks if state[0] not in changed)
            yield Task(
                procedure=procedure.id,
                step=later.step,
                part=RoundPart.MEANS,
                station=procedure.station,
                asks=(*found, *left),
                needs=needs_of((*found, *left)),
                leaves=self.leaves(later.leaves),
                ends=None,
                place=place,
                span=later.span,
            )

    def states(self, groups: Iterable[RoundStates]) -> tuple[tuple[str, str], ...]:
        return tuple(
            (state.aspect, state.state)
            for group in groups
            if self.applies(group)
            for state in group.states
        )

    def leaves(self, groups: Iterable[RoundStates]) -> Leaves:
        return tuple((number_of(aspect), word) for aspect, word in self.states(groups))

    def applies(self, group: RoundStates) -> bool:
        if group.when is None:
            return True
        known = KnownOf(self.guide)
        holds = evaluate(group.when, known)
        if holds is None:
            for unanswered in unknowns(group.when, known):
                self.report_unknown(unanswered.name, group)
        return holds is True

    def report_unknown(self, name: str, group: RoundStates) -> None:
        self.findings.add(
            guide_rules.NOT_ON_RECORD,
            group.states[0].span,
            what=f"{self.guide.number} does not say `{name}`, and its round hangs on it",
            fix=f"add `{name}` to the unit or its model, or `not fitted` for the whole section",
            unit=self.guide.number,
        )
