"""Which answers of a question the guide calls right, told anew.

Takes in a guide and its quiz; gives out the questions of which not exactly the answer that the
quiz calls right is right.
Refuses to ask how the quiz was written: titles, neighbors, acts, states and hazards are looked
up in the guide, and amounts are compared as exact fractions.
"""

from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise

from guidegen.guide.model import Caution, Guide, Procedure, Step, Text
from guidegen.proof.read_text import pattern_of
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.training.model import QuestionKind, Quiz, Said, Term, TruckValue
from guidegen.units.model import Fact, Presence

_MAY_BE = {
    "off_cold": frozenset({"off_cold", "off"}),
    "off_warm": frozenset({"off_warm", "off"}),
    "off": frozenset({"off", "off_cold", "off_warm"}),
    "idling": frozenset({"idling", "idling_warm", "running"}),
    "idling_warm": frozenset({"idling", "idling_warm", "running"}),
    "running": frozenset({"idling", "idling_warm", "running"}),
}
"""What else can be said of an engine of which this is said."""

_STOPPING = ("stop_now", "stop_soon")


def unsound_questions(guide: Guide, quiz: Quiz) -> Mapping[str, str]:
    """Return what is wrong with each question of *quiz* that is unsound, by its id."""
    judge = _Judge(guide)
    found: dict[str, str] = {}
    for question in quiz.questions:
        about = [_said(each) for each in question.about]
        right = [_JUDGES[question.kind](judge, about, answer) for answer in question.answers]
        if right != [place == question.right for place in range(len(right))]:
            found[question.id] = f"{sum(right)} of its {len(right)} answers are right, or another"
    return found


class _Judge:
    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self.titled: dict[str, list[Procedure]] = {}
        for chapter in guide.chapters:
            for procedure in chapter.procedures:
                self.titled.setdefault(pattern_of(procedure.title), []).append(procedure)

    def value(self, about: list[str], answer: Said) -> bool:
        if not isinstance(answer, TruckValue) or answer.fact.name != about[1]:
            return False
        own = self.guide.facts.get(about[1])
        return own is not None and _measured(own) == _measured(answer.fact)

    def step_after(self, about: list[str], answer: Said) -> bool:
        return (about[1], _said(answer)) in self._neighbors(about[0])

    def step_before(self, about: list[str], answer: Said) -> bool:
        return (_said(answer), about[1]) in self._neighbors(about[0])

    def lamp_act(self, about: list[str], answer: Said) -> bool:
        return _said(answer) in self._acts(about[0])

    def stop_lamp(self, _about: list[str], answer: Said) -> bool:
        return any(act in _STOPPING for act in self._acts(_said(answer)))

    def begin_state(self, about: list[str], answer: Said) -> bool:
        stated = self._engine(about[0])
        return any(_said(answer).removeprefix("engine.") in _MAY_BE[each] for each in stated)

    def cold_work(self, _about: list[str], answer: Said) -> bool:
        return any("off_cold" in _MAY_BE[each] for each in self._engine(_said(answer)))

    def hazard(self, about: list[str], answer: Said) -> bool:
        return _said(answer) in set(self._hazards(about[0], about[1]))

    def fitted(self, _about: list[str], answer: Said) -> bool:
        return self._presence(answer) is not Presence.NOT_FITTED

    def not_fitted(self, _about: list[str], answer: Said) -> bool:
        return self._presence(answer) is not Presence.GIVEN

    def _presence(self, answer: Said) -> Presence:
        state = self.guide.sections.get(_said(answer))
        return Presence.NOT_ON_RECORD if state is None else state.presence

    def _acts(self, title: str) -> list[str]:
        return [each.lamp.act for each in self.titled.get(title, ()) if each.lamp is not None]

    def _engine(self, title: str) -> list[str]:
        states = (state for each in self.titled.get(title, ()) for state in each.state)
        return [state for aspect, state in states if aspect == "engine"]

    def _neighbors(self, title: str) -> set[tuple[str, str]]:
        found: set[tuple[str, str]] = set()
        for procedure in self.titled.get(title, ()):
            steps = [pattern_of(b.text) for b in procedure.blocks if isinstance(b, Step)]
            found.update(pairwise(steps))
        return found

    def _hazards(self, title: str, step: str) -> Iterator[str]:
        for procedure in self.titled.get(title, ()):
            guarded = {
                block.id
                for block in procedure.blocks
                if isinstance(block, Step) and pattern_of(block.text) == step
            }
            for block in procedure.blocks:
                if isinstance(block, Caution) and block.guards in guarded:
                    yield pattern_of(block.hazard)


_JUDGES: Mapping[QuestionKind, Callable[[_Judge, list[str], Said], bool]] = {
    QuestionKind.VALUE: _Judge.value,
    QuestionKind.STEP_AFTER: _Judge.step_after,
    QuestionKind.STEP_BEFORE: _Judge.step_before,
    QuestionKind.LAMP_ACT: _Judge.lamp_act,
    QuestionKind.STOP_LAMP: _Judge.stop_lamp,
    QuestionKind.BEGIN_STATE: _Judge.begin_state,
    QuestionKind.COLD_WORK: _Judge.cold_work,
    QuestionKind.HAZARD: _Judge.hazard,
    QuestionKind.FITTED: _Judge.fitted,
    QuestionKind.NOT_FITTED: _Judge.not_fitted,
}


def _said(said: Said) -> str:
    match said:
        case Text():
            return pattern_of(said)
        case TruckValue(fact=fact):
            return fact.name
        case Term(key=key):
            return key


def _measured(fact: Fact) -> object:
    match fact.value:
        case Quantity() as one:
            return one.exact, one.exact
        case QuantityRange(low=low, high=high):
            return low.exact, high.exact
        case other:
            return other
