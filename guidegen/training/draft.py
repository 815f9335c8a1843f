"""What a question could be about, before it is written.

Takes in a guide; gives out its procedures and texts with their places, and what drafts share.
Refuses texts that name the truck: all units of an edition share a quiz.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from guidegen.differences.rank import CHAPTER_STANDINGS, FACT_STANDINGS
from guidegen.differences.standing import Rank, Reason, Standing
from guidegen.guide.model import STAMPED, FactRef, Guide, Procedure, Text
from guidegen.guide.once import once_for_each
from guidegen.procedures.model import Words
from guidegen.training.fleet_values import MOST_WRONG, spelling
from guidegen.training.lots import Lots
from guidegen.training.model import Question, QuestionKind, Said, Term, TruckValue, Where

WEIGHTS = {
    Rank.BRAKES: 20,
    Rank.DANGERS: 16,
    Rank.LIMITS: 8,
    Rank.CONTROLS: 3,
    Rank.FLUIDS: 3,
    Rank.WORK: 2,
    Rank.VALUES: 1,
    Rank.CONVENIENCES: 0,
}
"""How much likelier a question of each rank is drawn than another; an own choice. Nobody is
asked about conveniences."""

Write = Callable[[Lots], Question | None]
"""Writes one question; nothing if there are too few wrong answers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A question that could be written."""

    kind: QuestionKind
    subject: str
    """As of the question."""

    weight: int
    """How much likelier it is drawn than another of its family."""

    write: Write
    name: str = field(init=False, compare=False)
    """Kind and subject, by which its lot is drawn."""

    def __post_init__(self) -> None:
        """Put the name together once, for many draws."""
        object.__setattr__(self, "name", f"{self.kind.value}.{self.subject}")


@dataclass(frozen=True, slots=True)
class Placed:
    """A procedure and the chapter that it stands in."""

    chapter: str
    procedure: Procedure


def placed_procedures(guide: Guide) -> Iterator[Placed]:
    """Yield all procedures of *guide* in order."""
    for chapter in guide.chapters:
        yield from (Placed(chapter.id, each) for each in chapter.procedures)


def told_apart(guide: Guide) -> Iterator[Placed]:
    """Yield the procedures of *guide* that are the only ones of their title."""
    placed = tuple(placed_procedures(guide))
    titles = [_title_words(each.procedure) for each in placed]
    counts = Counter(titles)
    return (each for each, title in zip(placed, titles, strict=True) if counts[title] == 1)


@once_for_each
def _title_words(procedure: Procedure) -> str:
    return plain_words(procedure.title)


def names_truck(text: Text) -> bool:
    """Whether *text* says the number, VIN, plate or yard."""
    return any(isinstance(part, FactRef) and part.name in STAMPED for part in text.parts)


def plain_words(text: Text) -> str:
    """Return the words of *text*, in small letters, with names of facts for values."""
    parts = [part.text if isinstance(part, Words) else f"{{{part.name}}}" for part in text.parts]
    return "".join(parts).casefold()


def standing_of_work(chapter: str, *texts: Text) -> Standing:
    """Return that of the gravest thing that *texts* of *chapter* speak of."""
    names = [part.name for text in texts for part in text.parts if isinstance(part, FactRef)]
    ranks = [CHAPTER_STANDINGS[chapter].rank]
    ranks += [FACT_STANDINGS[name].rank for name in names if name in FACT_STANDINGS]
    return min((Standing(rank, Reason.WORK) for rank in ranks), key=lambda each: each.order)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """All of a question but its answers."""

    kind: QuestionKind
    subject: str
    about: tuple[Said, ...]
    where: Where
    standing: Standing
    asks: frozenset[str]

    def answered(self, right: Said, wrong: tuple[Said, ...], lots: Lots) -> Question:
        """Return the question with its answers in an order that falls by lot."""
        draw = f"answers of {self.kind.value}.{self.subject}"
        answers = tuple(lots.shuffled((right, *wrong), name_of, draw))
        return Question(
            kind=self.kind,
            subject=self.subject,
            about=self.about,
            answers=answers,
            right=answers.index(right),
            where=self.where,
            standing=self.standing,
            asks=self.asks,
        )


def drawn_wrong(choices: list[Text], asking: Asking, lots: Lots) -> tuple[Text, ...]:
    """Return up to `MOST_WRONG` of *choices*, no two of the same words."""
    draw = f"wrong answers of {asking.kind.value}.{asking.subject}"
    by_words: dict[str, Text] = {}
    for text in lots.shuffled(choices, lambda text: text.id, draw):
        by_words.setdefault(plain_words(text), text)
        if len(by_words) == MOST_WRONG:
            break
    return tuple(by_words.values())


def name_of(said: Said) -> str:
    """Return what tells *said* from other answers of its question."""
    match said:
        case Text():
            return said.id
        case Term():
            return f"{said.kind.value} {said.key}"
        case TruckValue(fact=fact):
            return spelling(fact.value)
