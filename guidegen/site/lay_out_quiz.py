"""From a quiz to the view of its page.

Takes in the quiz of an edition and its guide; gives out the view: the questions with lettered
answers, and the key after all of them.
Refuses to tell the right answer beside its question: whoever reads on would have it told.
"""

from string import ascii_uppercase
from typing import assert_never

from guidegen.guide.model import Text
from guidegen.procedures.words import LABELS
from guidegen.site.lay_out import Layout
from guidegen.site.quiz_views import AnswerView, KeyView, QuestionView, QuizView, SaidView
from guidegen.site.tokens import plain
from guidegen.site.views import Link, Worded
from guidegen.site.ways import DATA_PAGE, QUIZ_PAGE, page_head
from guidegen.training.model import DATA, Question, Quiz, Said, Term, TermKind, TruckValue
from guidegen.training.words import STEMS, term_words
from guidegen.wording import value_words

_MARKS = {
    TermKind.SECTION: "data-section",
    TermKind.FACT: "data-fact-label",
    TermKind.LAMP_ACT: "data-lamp-act",
    TermKind.STATE: "data-state",
}


def lay_out_quiz(layout: Layout, quiz: Quiz) -> QuizView:
    """Return the view of the page of *quiz*, the quiz of the guide of *layout*."""
    numbered = list(enumerate(quiz.questions, start=1))
    return QuizView(
        head=page_head("quiz"),
        questions=tuple(_question(layout, number, question) for number, question in numbered),
        key=tuple(
            KeyView(
                question.id,
                number,
                ascii_uppercase[question.right],
                _where(layout, question),
            )
            for number, question in numbered
        ),
        onward=layout.ways.onward(QUIZ_PAGE),
    )


def _question(layout: Layout, number: int, question: Question) -> QuestionView:
    kind = question.kind.value
    own = question.answers[question.right]
    return QuestionView(
        id=question.id,
        number=number,
        stem=Worded(kind, STEMS[kind]),
        about=tuple(_said(layout, said, is_own=False) for said in question.about),
        answers=tuple(
            AnswerView(letter, _said(layout, said, is_own=said is own))
            for letter, said in zip(ascii_uppercase, question.answers, strict=False)
        ),
    )


def _said(layout: Layout, said: Said, *, is_own: bool) -> SaidView:
    """Return the view of *said*; *is_own* tells the truck's own value from another truck's."""
    match said:
        case Text():
            return SaidView(layout.texts.text(said))
        case TruckValue(fact=fact):
            mark = "data-fact" if is_own else "data-fleet-value"
            return SaidView(None, mark, fact.name, plain(value_words(fact)))
        case Term():
            return SaidView(None, _MARKS[said.kind], said.key, plain(term_words(said)))
        case _:
            assert_never(said)


def _where(layout: Layout, question: Question) -> Link:
    where = question.where
    if where.page == DATA:
        return Link(DATA_PAGE, "data-label", "data", LABELS["data"])
    return layout.procedure_link(where.procedure)
