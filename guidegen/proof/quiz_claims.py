"""What the page of a quiz must say.

Takes in a guide and the quiz of its edition; gives out, question by question and in order, every
text that must be read, the row of the key, and the values that must not be this truck's.
Refuses to ask the printing for words: they come from the closed tables anew.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from string import ascii_uppercase
from typing import assert_never

from guidegen.guide.model import Guide, Text
from guidegen.procedures.words import LAMP_ACTS, STATES
from guidegen.proof.judge_quiz import unsound_questions
from guidegen.proof.marks import Mark
from guidegen.proof.model import Claim, Within
from guidegen.source import Span
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.training.model import DATA, Question, Quiz, Said, Term, TermKind, TruckValue
from guidegen.training.words import STEMS
from guidegen.units.model import Fact

_TERM_MARKS = {
    TermKind.SECTION: Mark.SECTION,
    TermKind.FACT: Mark.FACT_LABEL,
    TermKind.LAMP_ACT: Mark.LAMP_ACT,
    TermKind.STATE: Mark.STATE,
}


@dataclass(frozen=True, slots=True)
class QuestionClaims:
    """What one question and its row of the key must say."""

    id: str
    letters: tuple[str, ...]
    right: str
    """Letter of the right answer."""

    claims: tuple[Claim, ...]
    """In order: number, stem, what is quoted, letters and answers."""

    key: tuple[Claim, ...]
    """In order: number, letter, and the link to where it is read."""

    wrong: Mapping[str, Fact]
    """Of the values of other trucks: the fact, by letter of the answer."""

    span: Span | None
    """Of the right answer in the spec or template."""


@dataclass(frozen=True, slots=True)
class QuizClaims:
    """What the page of a quiz must say."""

    questions: tuple[QuestionClaims, ...]
    words: Mapping[tuple[Mark, str], str]
    """Fixed words that only this page has, by mark and key."""

    unsound: Mapping[str, str]
    """What is wrong with questions that have not the one right answer, by their ids."""


def quiz_claims_of(guide: Guide, quiz: Quiz) -> QuizClaims:
    """Return what the page of *quiz* must say on the trucks of the edition of *guide*."""
    return QuizClaims(
        tuple(_claims_of(each, place, guide) for place, each in enumerate(quiz.questions, 1)),
        dict(_words(quiz)),
        unsound_questions(guide, quiz),
    )


def _claims_of(question: Question, number: int, guide: Guide) -> QuestionClaims:
    within = Within(question=question.id)
    letters = ascii_uppercase[: len(question.answers)]
    claims = [
        Claim(Mark.NUMBER, str(number), within),
        Claim(Mark.STEM, question.kind.value, within),
        *(_claim(said, within, is_own=True) for said in question.about),
    ]
    wrong: dict[str, Fact] = {}
    for place, (letter, said) in enumerate(zip(letters, question.answers, strict=True)):
        inner = within._replace(answer=letter)
        is_own = place == question.right
        claims += [Claim(Mark.LETTER, letter, inner), _claim(said, inner, is_own=is_own)]
        if isinstance(said, TruckValue) and not is_own:
            wrong[letter] = said.fact
    right = letters[question.right]
    return QuestionClaims(
        question.id,
        tuple(letters),
        right,
        tuple(claims),
        tuple(_key(question, str(number), right)),
        wrong,
        _span(question.answers[question.right], guide),
    )


def _claim(said: Said, within: Within, *, is_own: bool) -> Claim:
    match said:
        case Text():
            return Claim(Mark.TEXT, said.id, within)
        case TruckValue(fact=fact):
            return Claim(Mark.FACT if is_own else Mark.FLEET_VALUE, fact.name, within)
        case Term():
            return Claim(_TERM_MARKS[said.kind], said.key, within)
        case _:
            assert_never(said)


def _key(question: Question, number: str, right: str) -> Iterator[Claim]:
    within = Within(key=question.id)
    yield Claim(Mark.NUMBER, number, within)
    yield Claim(Mark.LETTER, right, within)
    if question.where.page == DATA:
        yield Claim(Mark.LABEL, DATA, within)
    else:
        yield Claim(Mark.PROCEDURE_LINK, question.where.procedure, within)


def _span(said: Said, guide: Guide) -> Span | None:
    match said:
        case Text():
            return said.span
        case TruckValue(fact=fact):
            own = guide.facts.get(fact.name)
            return own.provenance.span if own else None
        case Term():
            return None
        case _:
            assert_never(said)


def _words(quiz: Quiz) -> Iterator[tuple[tuple[Mark, str], str]]:
    yield from (((Mark.STEM, kind), words) for kind, words in STEMS.items())
    yield from (((Mark.LETTER, letter), letter) for letter in ascii_uppercase)
    for question in quiz.questions:
        for said in (*question.about, *question.answers):
            if isinstance(said, Term):
                yield (_TERM_MARKS[said.kind], said.key), _term_words(said)


def _term_words(term: Term) -> str:
    match term.kind:
        case TermKind.SECTION:
            return HOLDER_LABELS[term.key]
        case TermKind.FACT:
            return FACTS[term.key].label
        case TermKind.LAMP_ACT:
            return LAMP_ACTS[term.key]
        case TermKind.STATE:
            aspect, _, state = term.key.partition(".")
            return STATES[aspect][state]
        case _:
            assert_never(term.kind)
