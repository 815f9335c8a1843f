"""From a guide to its quiz.

Takes in a guide and what its fleet has on record; gives out the quiz of the edition, the same on
every machine.
Refuses to ask the same twice, and questions that give away each other's answers.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Self

from guidegen.guide.model import Guide
from guidegen.training.ask_fittings import FleetFittings, fitting_drafts
from guidegen.training.ask_hazards import hazard_drafts
from guidegen.training.ask_lamps import lamp_drafts
from guidegen.training.ask_states import state_drafts
from guidegen.training.ask_steps import step_drafts
from guidegen.training.ask_values import value_drafts
from guidegen.training.draft import Draft
from guidegen.training.fleet_values import FleetValues
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


@dataclass(frozen=True, slots=True)
class FleetKnowledge:
    """What questions need to know of the fleet, gathered once."""

    values: FleetValues
    fittings: FleetFittings

    @classmethod
    def of(cls, guides: Iterable[Guide]) -> Self:
        """Return what the trucks of *guides* have and have on record."""
        seen = tuple(guides)
        return cls(FleetValues.of(seen), FleetFittings.of(seen))


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
    drawing = _Drawing(lots, [])
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

    def take(self, drafts: Iterator[Draft], quota: int) -> None:
        """Write up to *quota* more questions from *drafts*."""
        left = quota
        while left > 0 and (draft := next(drafts, None)) is not None:
            question = draft.write(self.lots)
            if question is not None and not any(_meet(question, e) for e in self.questions):
                self.questions.append(question)
                left -= 1


def _meet(one: Question, other: Question) -> bool:
    """Whether two questions ask for the same, or one gives away the other's answer."""
    return not (one.asks.isdisjoint(other.asks | other.shows) and other.asks.isdisjoint(one.shows))


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
    return {family: [each for each in found if each.kind in family] for family in SHARES}


def _drawn(drafts: list[Draft], family: tuple[QuestionKind, ...], lots: Lots) -> list[Draft]:
    names = " ".join(kind.value for kind in family)
    return lots.weighed(
        drafts,
        lambda draft: f"{draft.kind.value}.{draft.subject}",
        lambda draft: draft.weight,
        names,
    )
