"""What is wrong on a card that hangs in a cab.

Takes in the words of the card that was printed and of the one that would be now; gives out one
change a line, each with its kind, the worst first. Refuses to keep silent on two cards that read
otherwise: what is none of the kinds is told as other words.

The order of the kinds is ours: common practice, no source.
"""

import enum
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.differences.compare import compare_guides
from guidegen.differences.model import (
    ControlChanged,
    Difference,
    LampGained,
    LampLost,
    OrderChanged,
    PartGained,
    PartLost,
    PartReworded,
    ProcedureChanged,
    ProcedureGained,
    ProcedureLost,
    ProcedureReplaced,
    StanceChanged,
    ValueChanged,
    ValueGained,
    ValueLost,
)
from guidegen.differences.rank import CONTROLS
from guidegen.differences.standing import Rank, Reason, Standing
from guidegen.guide.model import Caution, Procedure
from guidegen.printings.deck import Deck
from guidegen.printings.photo_changes import photo_changes
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.revisions.tell import CHANGED, LEFT_OUT, MOST_TOLD, NEW, Telling
from guidegen.units.model import Fact


class Kind(enum.Enum):
    """Why a card is asked back, the worst first."""

    UNKNOWN = "unknown"
    LIMIT = "limit"
    CAUTION = "caution"
    CONTROL = "control"
    GONE = "gone"
    VALUE = "value"
    WORK = "work"
    WORD = "word"
    PHOTO = "photo"
    NEW = "new"
    RETIRED = "retired"

    @property
    def order(self) -> int:
        """Sort key."""
        return _ORDER[self]


_ORDER = {kind: place for place, kind in enumerate(Kind)}

KINDS: Mapping[Kind, str] = MappingProxyType(
    {
        Kind.UNKNOWN: "what changed can no longer be told",
        Kind.LIMIT: "a limit changed",
        Kind.CAUTION: "a caution or warning lamp changed",
        Kind.CONTROL: "a control changed",
        Kind.GONE: "no card of this truck any more",
        Kind.VALUE: "a value changed",
        Kind.WORK: "the work changed",
        Kind.WORD: "a word changed",
        Kind.PHOTO: "a photo changed",
        Kind.NEW: "a new card",
        Kind.RETIRED: "the truck has retired",
    }
)
"""In words."""

TAKEN_OUT = (Kind.GONE, Kind.RETIRED)
"""What is not printed again."""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that a card says otherwise."""

    kind: Kind
    standing: Standing
    words: str

    @property
    def order(self) -> tuple[int, tuple[int, int]]:
        """Sort key: the worst first."""
        return self.kind.order, self.standing.order


_LEAST = Standing(Rank.CONVENIENCES, Reason.WORK)
_ROUND = Standing(Rank.WORK, Reason.WORK)
_GRAVE = (Rank.BRAKES, Rank.DANGERS, Rank.LIMITS)
"""Whose amounts are limits: past them something breaks, burns or does not stop."""

_AT_HAND = (Rank.BRAKES, Rank.DANGERS, Rank.CONTROLS)
"""Whose controls a driver works without looking."""

_URGENT = (Rank.BRAKES, Rank.DANGERS)


def card_changes(known: Deck, given: Deck, id_: str) -> tuple[Change, ...]:
    """Return what the card *id_* of *given* says otherwise than that of *known*.

    Args:
        known: Of which the card in the cab was printed.
        given: As the cards would be printed now.
        id_: Of the card, which both have; the two read otherwise.

    Returns:
        The worst first; never nothing.
    """
    telling = Telling(known.alone(id_), given.alone(id_))
    sheet = compare_guides(telling.known.guide, telling.given.guide)
    found = [
        Change(_kind_of(each), each.standing, words)
        for each in sheet.differences
        for words in telling.tell(each)
    ]
    found += (Change(Kind.WORK, _ROUND, words) for words in _round(known, given, id_))
    found += (Change(Kind.WORD, _LEAST, words) for words in _words(telling, known, given, id_))
    found += (Change(Kind.PHOTO, _LEAST, words) for words in photo_changes(telling))
    if not found:
        words = f"{CHANGED}: fixed words, or number, VIN, plate or yard of the truck"
        found = [Change(Kind.WORD, _LEAST, words)]
    found.sort(key=lambda change: change.order)
    return tuple({change.words: change for change in reversed(found)}.values())[::-1]


def _kind_of(difference: Difference) -> Kind:
    standing = difference.standing
    match difference:
        case ControlChanged() | ValueChanged() | ValueGained() | ValueLost():
            return _kind_of_value(difference, standing)
        case LampGained() | LampLost() if standing.rank in _URGENT:
            return Kind.CAUTION
        case ProcedureGained(procedure=procedure) | ProcedureLost(procedure=procedure):
            return Kind.CAUTION if _warns(procedure) else Kind.WORK
        case ProcedureReplaced(known=before, given=after):
            return Kind.CAUTION if _warns(before) or _warns(after) else Kind.WORK
        case ProcedureChanged():
            return min(map(_kind_of_part, difference.changes), key=lambda kind: kind.order)
        case _:
            return Kind.WORK


def _kind_of_value(
    difference: ControlChanged | ValueChanged | ValueGained | ValueLost, standing: Standing
) -> Kind:
    fact: Fact = difference.known if isinstance(difference, ValueLost) else difference.given
    if fact.name in CONTROLS:
        return Kind.CONTROL if standing.rank in _AT_HAND else Kind.VALUE
    is_limit = standing.rank in _GRAVE and isinstance(fact.value, Quantity | QuantityRange)
    return Kind.LIMIT if is_limit else Kind.VALUE


def _kind_of_part(
    change: PartGained | PartLost | PartReworded | StanceChanged | OrderChanged,
) -> Kind:
    match change:
        case PartGained(part=Caution()) | PartLost(part=Caution()):
            return Kind.CAUTION
        case PartReworded(known=before, given=after):
            is_caution = isinstance(before, Caution) or isinstance(after, Caution)
            return Kind.CAUTION if is_caution else Kind.WORD
        case _:
            return Kind.WORK


def _warns(procedure: Procedure) -> bool:
    return any(isinstance(block, Caution) for block in procedure.blocks)


def _round(known: Deck, given: Deck, id_: str) -> Iterator[str]:
    before, after = known.cards[id_].tour, given.cards[id_].tour
    gained = [line for line in after if line not in before]
    lost = [line for line in before if line not in after]
    for what, lines in ((NEW, gained), (LEFT_OUT, lost)):
        if len(lines) > MOST_TOLD:
            yield f"{what}: {len(lines)} lines of the round"
        else:
            yield from (f"{what}: in the round, “{line}”" for line in lines)
    if before != after and not gained and not lost:
        yield f"{CHANGED}: the order of the round"


def _words(telling: Telling, known: Deck, given: Deck, id_: str) -> Iterator[str]:
    before, after = known.cards[id_].title, given.cards[id_].title
    if before != after:
        yield f"Title “{before}” → “{after}”"
    yield from telling.retired()
    yield from telling.printed_otherwise()
    for procedure, other in telling.shared():
        if other.lamp != procedure.lamp:
            yield telling.changed(procedure, ("lamp",))
