"""Whether the page of a quiz asks every question whole and in order, and its key is right.

Takes in what was read of the page and what it must say; records questions that are missing, made
up or changed, answers that another letter has, and keys that call a wrong answer right.
Refuses a wrong value that reads as this truck's own, and a key that stands before a question.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.compare_words import Wording, place_of
from guidegen.proof.faults import Faults
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Claim, Reading
from guidegen.proof.prove_page import PageRead
from guidegen.proof.quiz_claims import QuestionClaims, QuizClaims
from guidegen.proof.read_text import misread_value

_SEE_TEMPLATE = "repair the template of the quiz"
_BEFORE_QUESTIONS = ("park_first", "handbook_first", "quiz", "one_right", "no_proof")
"""Labels that must stand before the first question."""

_BEFORE_KEY = ("key", "question", "right_answer", "read_it")
"""Labels that must stand between the last question and the key."""

_AROUND = frozenset({*_BEFORE_QUESTIONS, *_BEFORE_KEY, "nothing_kept"})
"""Labels that may stand outside of questions and key, beside those of links onward."""


@dataclass(frozen=True, slots=True)
class Asked:
    """The page of one quiz, held against its claims."""

    claims: QuizClaims
    read: PageRead
    words: Wording

    @property
    def faults(self) -> Faults:
        """Where failures are recorded."""
        return self.read.faults

    def compare(self) -> int:
        """Hold the page against its claims; return how many questions are as they must be."""
        told: dict[str, list[Reading]] = {}
        keys: dict[str, list[Reading]] = {}
        around: list[tuple[int, Reading]] = []
        for place, reading in enumerate(self.read.body.readings):
            within = reading.claim.within
            if within.question:
                told.setdefault(within.question, []).append(reading)
            elif within.key:
                keys.setdefault(within.key, []).append(reading)
            else:
                around.append((place, reading))
        self._compare_openings()
        for name, what in self.claims.unsound.items():
            self._add(rules.QUESTION_UNSOUND, what, (Holder.QUESTION, name))
        proved = sum(
            self._compare_question(each, told.pop(each.id, []), keys.pop(each.id, []))
            for each in self.claims.questions
        )
        for readings in (*told.values(), *keys.values(), [reading for _, reading in around]):
            self._compare_words(readings)
        self._compare_around(around)
        return proved

    def _compare_words(self, readings: Sequence[Reading]) -> None:
        for reading in readings:
            if reading.claim.mark is not Mark.FLEET_VALUE:
                self.words.compare(reading)
            self.read.links.compare_link(reading)

    def _compare_openings(self) -> None:
        """Hold questions, answers and rows of the key, in their order, against the claims."""
        read = [(e.holder, e.key, e.within.question) for e in self.read.body.openings]
        wanted = [
            *(
                opening
                for each in self.claims.questions
                for opening in (
                    (Holder.QUESTION, each.id, each.id),
                    *((Holder.ANSWER, letter, each.id) for letter in each.letters),
                )
            ),
            *((Holder.KEY, each.id, "") for each in self.claims.questions),
        ]
        missing, extra = Counter(wanted) - Counter(read), Counter(read) - Counter(wanted)
        for holder, key, question in missing:
            self._add(_MISSING[holder], f"`{key}` is not there", (holder, question or key))
        for holder, key, question in extra:
            rule = _TOO_MANY.get(holder, rules.UNCLAIMED_MARK)
            self._add(rule, f"`{key}` does not belong there", (holder, question or key))
        if read != wanted and not missing and not extra:
            pairs = zip(read, wanted, strict=True)
            first, expected = next(pair for pair in pairs if pair[0] != pair[1])
            what = f"stands where `{expected[1]}` belongs"
            self._add(rules.QUESTION_OUT_OF_ORDER, what, first[:2])

    def _compare_question(
        self, question: QuestionClaims, told: Sequence[Reading], key: Sequence[Reading]
    ) -> bool:
        before = len(self.faults.found)
        self._compare_words((*told, *key))
        holder = (Holder.QUESTION, question.id)
        if told:
            self._compare_claims(told, question.claims, (rules.QUESTION_DIFFERS, holder, question))
        if key:
            row = (Holder.KEY, question.id)
            self._compare_claims(key, question.key, (rules.KEY_DIFFERS, row, question))
            if not key[-1].link:
                self._add(rules.KEY_DIFFERS, "leads nowhere, and nobody can read it up", row)
        for reading in told:
            if reading.claim.mark is Mark.FLEET_VALUE:
                self._compare_fleet_value(question, reading)
        return bool(told) and bool(key) and len(self.faults.found) == before

    def _compare_claims(
        self,
        readings: Sequence[Reading],
        wanted: Sequence[Claim],
        where: tuple[Rule, tuple[Holder, str], QuestionClaims],
    ) -> None:
        rule, holder, question = where
        read = [reading.claim for reading in readings]
        if tuple(read) == tuple(wanted):
            return
        missing, extra = Counter(wanted) - Counter(read), Counter(read) - Counter(wanted)
        for claim in missing:
            own = _RULES.get(claim.mark, rule)
            self._add(own, f"{_named(claim)} is not there", holder, question)
        for claim in extra:
            own = _RULES.get(claim.mark, rule)
            self._add(own, f"{_named(claim)} does not belong there", holder, question)
        if not missing and not extra:
            pairs = zip(read, wanted, strict=True)
            first, expected = next(pair for pair in pairs if pair[0] != pair[1])
            what = f"{_named(first)} stands where {_named(expected)} belongs"
            self._add(rule, what, holder, question)

    def _compare_fleet_value(self, question: QuestionClaims, reading: Reading) -> None:
        """Hold a wrong value against the truck that it is of, and against this truck's own."""
        holder = (Holder.QUESTION, question.id)
        text, fact = reading.text, question.wrong.get(reading.claim.within.answer)
        own = self.words.guide.facts.get(reading.claim.key)
        if reading.hidden:
            what = f"`{text}` cannot be seen, by {reading.hidden}"
            self._add(rules.VALUE_HIDDEN, what, holder, question)
        if fact is None or fact.name != reading.claim.key:
            return  # reported with the claims
        fault = misread_value(fact, text)
        if fault:
            what = f"reads `{text}` for `{fact.name}` of another truck, {fault}"
            self._add(rules.VALUE_NOT_READ_BACK, what, holder, question)
        elif own is None or not misread_value(own, text):
            what = f"`{text}` stands for a wrong answer, and it is this truck's own value"
            self._add(rules.QUESTION_DIFFERS, what, holder, question)

    def _compare_around(self, around: Sequence[tuple[int, Reading]]) -> None:
        readings = self.read.body.readings
        asked = [place for place, e in enumerate(readings) if e.claim.within.question]
        keyed = [place for place, e in enumerate(readings) if e.claim.within.key]
        first, last = min(asked, default=len(readings)), max(asked, default=0)
        key = min(keyed, default=len(readings))
        if keyed and key < last:
            what = "the key stands before a question"
            self.faults.add(rules.QUESTION_OUT_OF_ORDER, what, fix=_SEE_TEMPLATE)
        places = {reading.claim[:2]: place for place, reading in around}
        for label in _BEFORE_QUESTIONS:
            self._expect_label(label, places.get((Mark.LABEL, label), len(readings)) < first)
        for label in _BEFORE_KEY if self.claims.questions else ():
            self._expect_label(label, last < places.get((Mark.LABEL, label), -1) < key)
        for _, reading in around:
            mark, label = reading.claim.mark, reading.claim.key
            is_link = bool(reading.link) and mark in (Mark.LABEL, Mark.CHAPTER)
            if not is_link and not (mark is Mark.LABEL and label in _AROUND):
                what = "does not belong outside of a question"
                place = place_of(reading)
                self.faults.add(rules.UNCLAIMED_MARK, what, fix=_SEE_TEMPLATE, mark=place)

    def _expect_label(self, label: str, is_there: bool) -> None:  # noqa: FBT001 -- what is held to hold
        if not is_there:
            what = "is not there, or not where it belongs"
            mark = f'{Mark.LABEL.value}="{label}"'
            self.faults.add(rules.TEXT_MISSING, what, fix=_SEE_TEMPLATE, mark=mark)

    def _add(
        self,
        rule: Rule,
        what: str,
        place: tuple[Holder, str],
        question: QuestionClaims | None = None,
    ) -> None:
        holder, key = place
        span = question.span if question else None
        mark = f'{holder.value}="{key}"'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, span=span, mark=mark)


_RULES = {Mark.NUMBER: rules.STEP_NUMBER_DIFFERS}
"""Rule for a text that is not there or does not belong; others make the question another."""

_MISSING = {
    Holder.QUESTION: rules.QUESTION_MISSING,
    Holder.ANSWER: rules.QUESTION_DIFFERS,
    Holder.KEY: rules.KEY_DIFFERS,
}
_TOO_MANY = {
    Holder.QUESTION: rules.QUESTION_TOO_MANY,
    Holder.ANSWER: rules.QUESTION_DIFFERS,
    Holder.KEY: rules.KEY_DIFFERS,
}


def _named(claim: Claim) -> str:
    answer = f"answer {claim.within.answer}: " if claim.within.answer else ""
    return f'{answer}`{claim.mark.value}="{claim.key}"`'
