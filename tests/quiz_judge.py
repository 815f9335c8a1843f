"""A second opinion on quizzes: which answers of a question are right, told anew from the guide.

Shares no code with the writing of quizzes: texts are compared as a driver reads them, amounts as
exact fractions, and what an engine state implies is told in a table of its own.
"""

import itertools
from collections.abc import Callable, Iterator, Mapping

from guidegen.guide.model import Caution, Guide, Procedure, Step, Text
from guidegen.procedures.model import Words
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.training.model import Question, QuestionKind, Said, Term, TruckValue
from guidegen.units.model import Fact, Presence
from guidegen.wording import value_words

LETS_PASS = {
    "off_cold": {"off_cold", "off"},
    "off_warm": {"off_warm", "off"},
    "off": {"off"},
    "idling": {"idling", "running"},
    "idling_warm": {"idling_warm", "idling", "running"},
    "running": {"running"},
}
"""What can be said of an engine that is known to be in a state."""


def procedures(guide: Guide) -> Iterator[Procedure]:
    for chapter in guide.chapters:
        yield from chapter.procedures


class Judge:
    """Knows one guide as a driver reads it."""

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self.values = {name: value_words(fact) for name, fact in guide.facts.items()}
        self.titled: dict[str, list[Procedure]] = {}
        for procedure in procedures(guide):
            self.titled.setdefault(self.printed(procedure.title), []).append(procedure)

    def printed(self, said: Said) -> str:
        """What a driver reads; a term by its key."""
        match said:
            case Text(parts=parts):
                return "".join(
                    part.text if isinstance(part, Words) else self.values[part.name]
                    for part in parts
                )
            case TruckValue(fact=fact):
                return value_words(fact)
            case Term(key=key):
                return key

    def right_answers(self, question: Question) -> list[bool]:
        """Of each answer: whether the guide says so."""
        return [_JUDGES[question.kind](self, question, answer) for answer in question.answers]

    def value(self, question: Question, answer: Said) -> bool:
        name = self.printed(question.about[1])
        assert isinstance(answer, TruckValue)
        assert answer.fact.name == name
        return _measured(answer.fact) == _measured(self.guide.facts[name])

    def step_after(self, question: Question, answer: Said) -> bool:
        title, quoted = map(self.printed, question.about)
        return (quoted, self.printed(answer)) in self._neighbors(title)

    def step_before(self, question: Question, answer: Said) -> bool:
        title, quoted = map(self.printed, question.about)
        return (self.printed(answer), quoted) in self._neighbors(title)

    def lamp_act(self, question: Question, answer: Said) -> bool:
        lamps = [each.lamp for each in self.titled[self.printed(question.about[0])]]
        return self.printed(answer) in {lamp.act for lamp in lamps if lamp}

    def stop_lamp(self, question: Question, answer: Said) -> bool:
        assert question.about == ()
        (lamp,) = [each.lamp for each in self.titled[self.printed(answer)] if each.lamp]
        return lamp.act in {"stop_now", "stop_soon"}

    def begin_state(self, question: Question, answer: Said) -> bool:
        states = self._engine(self.printed(question.about[0]))
        return any(
            self.printed(answer).removeprefix("engine.") in LETS_PASS[state] for state in states
        )

    def cold_work(self, question: Question, answer: Said) -> bool:
        assert self.printed(question.about[0]) == "engine.off_cold"
        return any("off_cold" in LETS_PASS[each] for each in self._engine(self.printed(answer)))

    def hazard(self, question: Question, answer: Said) -> bool:
        title, step = map(self.printed, question.about)
        return self.printed(answer) in set(self._hazards_before(title, step))

    def fitted(self, question: Question, answer: Said) -> bool:
        assert question.about == ()
        return self.guide.sections[self.printed(answer)].presence is not Presence.NOT_FITTED

    def not_fitted(self, question: Question, answer: Said) -> bool:
        assert question.about == ()
        return self.guide.sections[self.printed(answer)].presence is not Presence.GIVEN

    def _neighbors(self, title: str) -> set[tuple[str, str]]:
        found = set()
        for procedure in self.titled[title]:
            steps = [self.printed(b.text) for b in procedure.blocks if isinstance(b, Step)]
            found |= set(itertools.pairwise(steps))
        return found

    def _engine(self, title: str) -> list[str]:
        states = (state for procedure in self.titled[title] for state in procedure.state)
        return [state for aspect, state in states if aspect == "engine"]

    def _hazards_before(self, title: str, step: str) -> Iterator[str]:
        for procedure in self.titled[title]:
            waiting: list[str] = []
            for block in procedure.blocks:
                if isinstance(block, Caution):
                    waiting.append(self.printed(block.hazard))
                    continue
                if self.printed(block.text) == step:
                    yield from waiting
                waiting = []


_JUDGES: Mapping[QuestionKind, Callable[[Judge, Question, Said], bool]] = {
    QuestionKind.VALUE: Judge.value,
    QuestionKind.STEP_AFTER: Judge.step_after,
    QuestionKind.STEP_BEFORE: Judge.step_before,
    QuestionKind.LAMP_ACT: Judge.lamp_act,
    QuestionKind.STOP_LAMP: Judge.stop_lamp,
    QuestionKind.BEGIN_STATE: Judge.begin_state,
    QuestionKind.COLD_WORK: Judge.cold_work,
    QuestionKind.HAZARD: Judge.hazard,
    QuestionKind.FITTED: Judge.fitted,
    QuestionKind.NOT_FITTED: Judge.not_fitted,
}


def _measured(fact: Fact) -> object:
    match fact.value:
        case Quantity() as one:
            return one.exact, one.exact
        case QuantityRange(low=low, high=high):
            return low.exact, high.exact
        case other:
            return other
