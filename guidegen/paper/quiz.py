"""A quiz in words.

Takes in a quiz and the guide of its truck; gives out every question with lettered answers and the
key, in types that JSON has.
Refuses to weigh: order and answers are the quiz's.
"""

from string import ascii_uppercase
from typing import Any, assert_never

from guidegen.guide.model import Text
from guidegen.paper.matter import VALUE, Matter, Written
from guidegen.procedures.words import CHAPTERS, LABELS
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.training.model import (
    DATA,
    Question,
    QuestionKind,
    Quiz,
    Said,
    Term,
    TruckValue,
    Where,
)
from guidegen.training.words import SIGNOFF_WORDS, STEMS, term_words
from guidegen.wording import value_words

TEMPLATE = "quiz.typ"
_BLANKS = ("driver", "trainer", "date")


def quiz_as_json(quiz: Quiz, matter: Matter) -> dict[str, Any]:
    """Return *quiz* for programs: every question with its answers, the right one and its place."""
    telling = _Telling(matter)
    return {
        "unit": matter.guide.number,
        "edition": quiz.edition,
        "questions": [telling.plain(question) for question in quiz.questions],
    }


def quiz_body(quiz: Quiz, matter: Matter) -> dict[str, Any]:
    """Return what the template of the quiz is given; the key comes after all questions."""
    telling = _Telling(matter)
    numbered = list(enumerate(quiz.questions, start=1))
    return {
        "title": LABELS["quiz"],
        "key_title": LABELS["key"],
        "notes": [LABELS["one_right"], LABELS["no_proof"], LABELS["handbook_first"]],
        "blanks": [SIGNOFF_WORDS[key] for key in _BLANKS],
        "columns": [LABELS["question"], LABELS["right_answer"], LABELS["read_it"]],
        "questions": [telling.asked(number, question) for number, question in numbered],
        "key": [telling.answered(number, question) for number, question in numbered],
    }


class _Telling:
    def __init__(self, matter: Matter) -> None:
        self.matter = matter
        self.titles = {
            each.id: each.title for chapter in matter.guide.chapters for each in chapter.procedures
        }

    def plain(self, question: Question) -> dict[str, Any]:
        return {
            "id": question.id,
            "kind": question.kind.value,
            "asks": STEMS[question.kind.value],
            "about": [self.words(said) for said in question.about],
            "answers": {
                letter: self.words(said)
                for letter, said in zip(ascii_uppercase, question.answers, strict=False)
            },
            "right": ascii_uppercase[question.right],
            "where": {
                "page": question.where.page,
                "procedure": question.where.procedure,
                "part": question.where.part,
                "words": self.where(question.where),
            },
            "rank": question.standing.rank.value,
        }

    def asked(self, number: int, question: Question) -> dict[str, Any]:
        return {
            "number": str(number),
            "stem": STEMS[question.kind.value],
            "about": self.about(question),
            "answers": [
                {"letter": letter, "text": self.parts(said)}
                for letter, said in zip(ascii_uppercase, question.answers, strict=False)
            ],
        }

    def answered(self, number: int, question: Question) -> dict[str, Any]:
        return {
            "number": str(number),
            "letter": ascii_uppercase[question.right],
            "text": self.parts(question.answers[question.right]),
            "where": self.where(question.where),
        }

    def about(self, question: Question) -> list[Written]:
        """Return what is quoted, a line each; a value is named with its section on one line."""
        if question.kind is QuestionKind.VALUE:
            section, label = map(self.words, question.about)
            return [Written(((f"{section}: {label}",),))]
        return [self.parts(said) for said in question.about]

    def where(self, where: Where) -> str:
        if where.page != DATA:
            title = self.matter.words(self.titles[where.procedure])
            return f"{CHAPTERS[where.page]}: {title}"
        fact = FACTS.get(where.part)
        return f"{LABELS['data']}: {HOLDER_LABELS[fact.section if fact else where.part]}"

    def parts(self, said: Said) -> Written:
        match said:
            case Text():
                return self.matter.parts(said)
            case TruckValue(fact=fact):
                return Written(((value_words(fact), VALUE),))
            case Term():
                return Written(((term_words(said),),))
            case _:
                assert_never(said)

    def words(self, said: Said) -> str:
        return "".join(part[0] for part in self.parts(said))
