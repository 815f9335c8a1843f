"""What a quiz on paper must say.

Takes in the quiz of a truck, its guide and its issue; gives out every question with its answers,
the key on pages of its own, and which questions have not the one right answer.
Refuses to ask the printing for words: they come from the guide and the closed tables anew.
"""

from collections.abc import Iterator
from decimal import Decimal
from string import ascii_uppercase
from typing import assert_never

from guidegen.guide.model import Text
from guidegen.paper_proof.booklet_claims import HOLES
from guidegen.paper_proof.model import CodePlace, Expected, Group, Part, Piece
from guidegen.paper_proof.pieces import slot
from guidegen.paper_proof.sheet_claims import (
    SheetOrder,
    piece_of_words,
    sheet_head,
    sheet_opening,
)
from guidegen.procedures.words import CHAPTERS, LABELS, LAMP_ACTS, STATES
from guidegen.proof.judge_quiz import unsound_questions
from guidegen.proof.read_text import fold, pattern_of
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.training.model import (
    DATA,
    Question,
    QuestionKind,
    Quiz,
    Said,
    Term,
    TermKind,
    TruckValue,
)
from guidegen.training.words import STEMS
from guidegen.units.model import Fact

_NOTES = ("one_right", "no_proof", "handbook_first")
_COLUMNS = ("question", "right_answer", "read_it")


def claims_of_quiz(quiz: Quiz, order: SheetOrder) -> Expected:
    """Return all that the PDF of *quiz* must say.

    Args:
        quiz: Of the edition of the truck's guide.
        order: Of which truck, on which paper.
    """
    guide, title = order.guide, LABELS["quiz"]
    numbered = list(enumerate(quiz.questions, start=1))
    return Expected(
        file=f"{guide.number}/quiz.pdf",
        guide=guide,
        document=f"{guide.number}: {title}",
        side=order.side,
        head=sheet_head(title, order),
        groups=(
            sheet_opening(title, tuple(LABELS[note] for note in _NOTES), order),
            *(_asked(number, question, order) for number, question in numbered),
            _key_opening(order),
            *(_answered(number, question, order) for number, question in numbered),
        ),
        link=order.issue.link,
        bleed=Decimal(0),
        safe=HOLES,
        spoken=frozenset({order.issue.link}),
        span=order.span,
        code=CodePlace.FIRST_BODY,
        others=dict(_others(quiz)),
        unsound=unsound_questions(guide, quiz),
    )


def _asked(number: int, question: Question, order: SheetOrder) -> Group:
    return Group(tuple(_question(number, question, order)))


def _question(number: int, question: Question, order: SheetOrder) -> Iterator[Piece]:
    of, span = f"question {number}, `{question.id}`,", order.span
    yield Piece(Part.STEP, f"{number} {fold(STEMS[question.kind.value])}", of, span)
    for about in _about(question, order):
        yield Piece(Part.TEXT, about, f"what {of} quotes", span)
    for place, answer in enumerate(question.answers):
        letter = ascii_uppercase[place]
        says = f"{letter} {_pattern(answer, question, place, order)}"
        yield Piece(Part.TEXT, says, f"answer {letter} of {of}", span)


def _about(question: Question, order: SheetOrder) -> Iterator[str]:
    said = [_pattern(each, question, -1, order) for each in question.about]
    if question.kind is QuestionKind.VALUE:
        section, label = said
        yield f"{section}: {label}"
    else:
        yield from said


def _key_opening(order: SheetOrder) -> Group:
    heading = piece_of_words(LABELS["key"], "heading of the key", order.span)
    columns = piece_of_words(_columns(), "columns of the key", order.span)
    return Group((heading, columns), turns=True)


def _columns() -> str:
    return " ".join(LABELS[column] for column in _COLUMNS)


def _answered(number: int, question: Question, order: SheetOrder) -> Group:
    right = question.right
    of = f"key of question {number}, `{question.id}`"
    answer = f"{number} {ascii_uppercase[right]} "
    answer += _pattern(question.answers[right], question, right, order)
    where = Piece(Part.TEXT, _where(question, order), f"place in the {of}", order.span)
    pieces = (Piece(Part.STEP, answer, of, order.span), where)
    return Group(pieces, opens=False, running=fold(_columns()))


def _where(question: Question, order: SheetOrder) -> str:
    where = question.where
    if where.page == DATA:
        fact = FACTS.get(where.part)
        section = fact.section if fact else where.part
        return fold(f"{LABELS['data']}: {HOLDER_LABELS[section]}")
    procedures = (each for chapter in order.guide.chapters for each in chapter.procedures)
    title = next(each.title for each in procedures if each.id == where.procedure)
    return f"{fold(CHAPTERS[where.page])}: {pattern_of(title)}"


def _pattern(said: Said, question: Question, place: int, order: SheetOrder) -> str:
    match said:
        case Text():
            return pattern_of(said)
        case TruckValue(fact=fact):
            name = fact.name if place == question.right else _name_of(question, place)
            return slot(name, order.span)
        case Term():
            return fold(_term_words(said))
        case _:
            assert_never(said)


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


def _others(quiz: Quiz) -> Iterator[tuple[str, Fact]]:
    """Yield the values that are not the truck's, by the names of their slots."""
    for question in quiz.questions:
        for place, said in enumerate(question.answers):
            if isinstance(said, TruckValue) and place != question.right:
                yield _name_of(question, place), said.fact


def _name_of(question: Question, place: int) -> str:
    return f"{question.id}.{place}"
