"""From a guide to its quiz.

Takes in a guide and what its fleet has on record; gives out the quiz of the edition, the same on
every machine.
Refuses to ask the same twice, and questions that give away each other's answers.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from operator import attrgetter
from typing import Self

from guidegen.guide.model import Guide
from guidegen.training.ask_fittings import FittingsPart, FleetFittings, fitting_drafts
from guidegen.training.ask_hazards import hazard_drafts
from guidegen.training.ask_lamps import lamp_drafts
from guidegen.training.ask_states import state_drafts
from guidegen.training.ask_steps import step_drafts
from guidegen.training.ask_values import value_drafts
from guidegen.training.draft import Draft
from guidegen.training.fleet_values import (
    FleetValues,
    ValuesByFact,
    naming,
    values_on_record,
)
from guidegen.training.lots import Lots
from guidegen.training.model import QUESTIONS, Question, QuestionKind, Quiz

SHARES: Mapping[tuple[QuestionKind, ...], int] = {
    (QuestionKind.VALUE,): 7,
    (QuestionKind.LAMP_ACT, QuestionKind.STOP_LAMP): 4,
    (QuestionKind.HAZARD,): 3,
    (QuestionKind.STEP_AFTER, QuestionKind.STEP_BEFORE): 3,
    (QuestionKind.BEGIN_STATE, QuestionKind.COLD_WORK): 2,
    (QuestionKind.FITTED, QuestionKind.NOT_FITTED): 1,
}
"""How many of each family of kinds a quiz of `QUESTIONS` has; an own choice."""

_FAMILIES = {kind: family for family in SHARES for kind in family}


@dataclass(frozen=True, slots=True)
class KnowledgePart:
    """What some trucks of a fleet have and have on record. Small, and can be pickled."""

    values: ValuesByFact
    fittings: FittingsPart

    @classmethod
    def of(cls, guides: Iterable[Guide]) -> Self:
        """Return the part of *guides*, of which one for each edition will do."""
        seen = tuple(guides)
        return cls(values_on_record(seen), FittingsPart.of(seen))


@dataclass(frozen=True, slots=True)
class FleetKnowledge:
    """What questions need to know of the fleet, gathered once."""

    values: FleetValues
    fittings: FleetFittings

    @classmethod
    def of(cls, guides: Iterable[Guide]) -> Self:
        """Return what the trucks of *guides* have and have on record."""
        seen = tuple(guides)
        return cls.of_parts([KnowledgePart.of(seen)], naming(seen))

    @classmethod
    def of_parts(cls, parts: Iterable[KnowledgePart], names: Iterable[str]) -> Self:
        """Return what a fleet has that was looked at in parts.

        Args:
            parts: In any order; one truck of each edition must be in one of them.
            names: Numbers, VINs and plates of all trucks, as `naming` gives them.
        """
        seen = tuple(parts)
        return cls(
            FleetValues.of_parts([part.values for part in seen], names),
            FleetFittings.of_parts([part.fittings for part in seen]),
        )


def write_quiz(
    guide: Guide, fleet: FleetKnowledge, count: int = QUESTIONS, seed: str | None = None
) -> Quiz:
    """Return the quiz of the edition of *guide*.

    Args:
        guide: Of one of its units; all of them get the same quiz.
        fleet: Where wrong values come from.
        count: Of questions. There are fewer if the guide does not give as many.
        seed: Draws another quiz of the same guide; the edition's fingerprint if not given.
    """
    lots = Lots(guide.edition if seed is None else seed)
    drawing = _Drawing(lots, [], [])
    drawn = {
        family: iter(_drawn(drafts, family, lots))
        for family, drafts in _by_family(guide, fleet).items()
    }
    for family, quota in quotas(count).items():
        drawing.take(drawn[family], quota)
    for drafts in drawn.values():
        drawing.take(drafts, count - len(drawing.questions))
    questions = sorted(drawing.questions, key=lambda question: question.standing.order)
    return Quiz(guide.edition, tuple(questions))


def quotas(count: int) -> Mapping[tuple[QuestionKind, ...], int]:
    """Return how many of *count* questions each family gets, by largest remainder."""
    whole = sum(SHARES.values())
    quota = {family: count * share // whole for family, share in SHARES.items()}
    by_rest = sorted(SHARES, key=lambda family: -(count * SHARES[family] % whole))
    for family in by_rest[: count - sum(quota.values())]:
        quota[family] += 1
    return quota


@dataclass(frozen=True, slots=True)
class _Drawing:
    lots: Lots
    questions: list[Question]
    shown: list[frozenset[str]]
    """What each question gives away."""

    def take(self, drafts: Iterator[Draft], quota: int) -> None:
        """Write up to *quota* more questions from *drafts*."""
        left = quota
        while left > 0 and (draft := next(drafts, None)) is not None:
            question = draft.write(self.lots)
            if question is not None and not self._meets_another(question, question.shows):
                self.questions.append(question)
                self.shown.append(question.shows)
                left -= 1

    def _meets_another(self, one: Question, shows: frozenset[str]) -> bool:
        """Whether another question asks for the same, or one gives away the other's answer."""
        return any(
            not (
                one.asks.isdisjoint(other.asks)
                and one.asks.isdisjoint(shown)
                and other.asks.isdisjoint(shows)
            )
            for other, shown in zip(self.questions, self.shown, strict=True)
        )


def _by_family(
    guide: Guide, fleet: FleetKnowledge
) -> Mapping[tuple[QuestionKind, ...], list[Draft]]:
    found = (
        *value_drafts(guide, fleet.values),
        *lamp_drafts(guide),
        *hazard_drafts(guide),
        *step_drafts(guide),
        *state_drafts(guide),
        *fitting_drafts(guide, fleet.fittings),
    )
    drafts: dict[tuple[QuestionKind, ...], list[Draft]] = {family: [] for family in SHARES}
    for each in found:
        drafts[_FAMILIES[each.kind]].append(each)
    return drafts


def _drawn(drafts: list[Draft], family: tuple[QuestionKind, ...], lots: Lots) -> list[Draft]:
    names = " ".join(kind.value for kind in family)
    return lots.weighed(
        drafts,
        attrgetter("name"),
        attrgetter("weight"),
        names,
    )
