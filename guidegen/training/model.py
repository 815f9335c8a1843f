"""What a quiz is, before anyone prints it.

Takes in texts and facts of guides and keys of closed lists; gives out questions, each with its
answers, the right one, and where the guide says so.
Refuses to hold words of its own: what is asked is a key of `guidegen.training.words`.
"""

import enum
from dataclasses import dataclass

from guidegen.differences.standing import Standing
from guidegen.guide.model import FactRef, Text
from guidegen.units.model import Fact

QUESTIONS = 20
"""Of a quiz, unless somebody asks for more or fewer."""

DATA = "data"
"""Names the page of all values."""


class QuestionKind(enum.Enum):
    """What is asked; the words stand in `guidegen.training.words.STEMS`."""

    VALUE = "value"
    STEP_AFTER = "step-after"
    STEP_BEFORE = "step-before"
    LAMP_ACT = "lamp-act"
    STOP_LAMP = "stop-lamp"
    BEGIN_STATE = "begin-state"
    COLD_WORK = "cold-work"
    HAZARD = "hazard"
    FITTED = "fitted"
    NOT_FITTED = "not-fitted"


class TermKind(enum.Enum):
    """The closed list that a term is of."""

    SECTION = "section"
    """Dotted name of a thing that a truck can have, or of another holder of facts."""

    FACT = "fact"
    """Dotted name of a fact: its label is meant, not its value."""

    LAMP_ACT = "lamp-act"
    """Key of `guidegen.procedures.words.LAMP_ACTS`."""

    STATE = "state"
    """Aspect and state, keys of `guidegen.procedures.words.STATES`, with a full stop between."""


@dataclass(frozen=True, slots=True)
class Term:
    """A key of a closed list."""

    kind: TermKind
    key: str


@dataclass(frozen=True, slots=True)
class TruckValue:
    """The value of a fact: of the quiz's truck, or of another one of the fleet."""

    fact: Fact


Said = Text | TruckValue | Term
"""What a question quotes, and what an answer says; a text is always of the quiz's own guide."""


@dataclass(frozen=True, slots=True)
class Where:
    """Where the guide gives the answer."""

    page: str
    """Id of a chapter, or `DATA`."""

    procedure: str
    """Its id; empty on the page of all values."""

    part: str
    """Id of the text that says it or, on the page of all values, name of the fact or section;
    the id of the procedure where all of it says so, as its state does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question with one right answer."""

    kind: QuestionKind
    subject: str
    """Id or dotted name of what is asked about."""

    about: tuple[Said, ...]
    """What is quoted after the words of the kind."""

    answers: tuple[Said, ...]
    right: int
    """Place of the right answer, from 0."""

    where: Where
    standing: Standing
    asks: frozenset[str]
    """What no other question of the quiz may ask or give away."""

    @property
    def id(self) -> str:
        """Unique in a quiz: ``value.brakes.air.cut_in``."""
        return f"{self.kind.value}.{self.subject}"

    @property
    def shows(self) -> frozenset[str]:
        """What the question gives away of other questions' answers: values, lamps and things."""
        said = (*self.about, *self.answers)
        return frozenset(key for each in said for key in _shown(each))


@dataclass(frozen=True, slots=True)
class Quiz:
    """The questions of all trucks of one edition, those that can hurt first."""

    edition: str
    questions: tuple[Question, ...]


def fact_key(name: str) -> str:
    """Return what stands for the value of the fact *name* among what is asked and shown."""
    return f"fact:{name}"


def section_key(name: str) -> str:
    """Return what stands for whether the truck has *name*."""
    return f"section:{name}"


def text_key(id_: str) -> str:
    """Return what stands for the procedure that the text *id_* is of."""
    return f"procedure:{id_.partition('.')[0]}"


def _shown(said: Said) -> frozenset[str]:
    match said:
        case Text(id=id_, parts=parts):
            facts = {fact_key(part.name) for part in parts if isinstance(part, FactRef)}
            return frozenset({text_key(id_), *facts})
        case TruckValue(fact=fact):
            return frozenset({fact_key(fact.name)})
        case Term(kind=TermKind.SECTION, key=key):
            return frozenset({section_key(key)})
        case Term():
            return frozenset()
