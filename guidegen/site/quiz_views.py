"""What the template of the quiz is given.

Takes in nothing; gives out the shapes of its view.
Refuses logic: the template loops over these and places their words.
"""

from dataclasses import dataclass

from guidegen.site.views import Link, PageHead, TextView, Worded


@dataclass(frozen=True, slots=True)
class SaidView:
    """What a question quotes or an answer says: a text of the guide, or other words."""

    text: TextView | None
    mark: str = ""
    """Attribute that says what the words are: ``data-fact``, ``data-fleet-value``, …"""

    key: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True)
class AnswerView:
    """One answer."""

    letter: str
    said: SaidView


@dataclass(frozen=True, slots=True)
class QuestionView:
    """One question; which answer is right stands in the key."""

    id: str
    number: int
    stem: Worded
    about: tuple[SaidView, ...]
    answers: tuple[AnswerView, ...]


@dataclass(frozen=True, slots=True)
class KeyView:
    """The right answer of one question, and where to read it."""

    question: str
    number: int
    letter: str
    where: Link


@dataclass(frozen=True, slots=True)
class QuizView:
    """For ``quiz.html.j2``."""

    head: PageHead
    questions: tuple[QuestionView, ...]
    key: tuple[KeyView, ...]
    onward: tuple[Link, ...]
