"""Questions for the state in which work is done.

Takes in a guide; gives out drafts that ask how the engine is when work begins, and what is done
with a cold engine.
Refuses states that can both hold: an engine that is off and cold is also off.
"""

from collections.abc import Iterator

from guidegen.guide.model import Guide, Text
from guidegen.procedures.words import STATES
from guidegen.round.states import ENGINE, values_of
from guidegen.training.draft import (
    WEIGHTS,
    Asking,
    Draft,
    Placed,
    Write,
    drawn_wrong,
    names_truck,
    standing_of_work,
    told_apart,
)
from guidegen.training.fleet_values import FEWEST_WRONG
from guidegen.training.lots import Lots
from guidegen.training.model import Question, QuestionKind, Term, TermKind, Where, text_key

_ASPECT = "engine"
_COLD = "off_cold"
_COLD_IS_LIKELIER = 3


def state_drafts(guide: Guide) -> Iterator[Draft]:
    """Yield a draft for each procedure that says how the engine is."""
    stated = [
        (placed, states[0])
        for placed in told_apart(guide)
        if len(states := _engine_states(placed)) == 1 and not names_truck(placed.procedure.title)
    ]
    other = [placed.procedure.title for placed, state in stated if _exclude(state, _COLD)]
    for placed, state in stated:
        standing = standing_of_work(placed.chapter, placed.procedure.title)
        weight = WEIGHTS[standing.rank] * (_COLD_IS_LIKELIER if state == _COLD else 1)
        asking = _asking(QuestionKind.BEGIN_STATE, placed, (placed.procedure.title,))
        write = _state_writer(asking, state)
        yield Draft(kind=asking.kind, subject=asking.subject, weight=weight, write=write)
        if state == _COLD:
            asking = _asking(QuestionKind.COLD_WORK, placed, (_term(_COLD),))
            write = _work_writer(asking, placed.procedure.title, other)
            yield Draft(kind=asking.kind, subject=asking.subject, weight=weight, write=write)


def _engine_states(placed: Placed) -> list[str]:
    return [state for aspect, state in placed.procedure.state if aspect == _ASPECT]


def _exclude(one: str, other: str) -> bool:
    """Whether an engine cannot be in both states."""
    return values_of(ENGINE, one).isdisjoint(values_of(ENGINE, other))


def _term(state: str) -> Term:
    return Term(TermKind.STATE, f"{_ASPECT}.{state}")


def _asking(kind: QuestionKind, placed: Placed, about: tuple[Text | Term, ...]) -> Asking:
    procedure = placed.procedure
    own = {text_key(procedure.id)}
    return Asking(
        kind=kind,
        subject=procedure.id,
        about=about,
        where=Where(placed.chapter, procedure.id, procedure.id),
        standing=standing_of_work(placed.chapter, procedure.title),
        asks=frozenset({*own, kind.value} if kind is QuestionKind.COLD_WORK else own),
    )


def _state_writer(asking: Asking, right: str) -> Write:
    def write(lots: Lots) -> Question | None:
        chosen = [right]
        for state in lots.shuffled(STATES[_ASPECT], str, f"states of {asking.subject}"):
            if all(_exclude(state, each) for each in chosen):
                chosen.append(state)
        wrong = tuple(map(_term, chosen[1:]))
        if len(wrong) < FEWEST_WRONG:
            return None
        return asking.answered(_term(right), wrong, lots)

    return write


def _work_writer(asking: Asking, right: Text, other: list[Text]) -> Write:
    def write(lots: Lots) -> Question | None:
        wrong = drawn_wrong(other, asking, lots)
        return asking.answered(right, wrong, lots) if len(wrong) >= FEWEST_WRONG else None

    return write
