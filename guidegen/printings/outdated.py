"""Which cards in the cabs are out of date.

Takes in what hangs in each cab by the record, and what the cards of each truck would say now; gives
out the cards to print anew or to take out, by yard, the worst first. Refuses to judge the cards of
a truck whose guide is held back: it is named instead.
"""

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace

from guidegen.guide.counting_order import in_counting_order
from guidegen.printings.changes import KINDS, TAKEN_OUT, Change, Kind, card_changes
from guidegen.printings.deck import Deck
from guidegen.printings.model import InCab

NO_YARD = "no yard on record"


@dataclass(frozen=True, slots=True)
class CardsNow:
    """The cards of one truck as they would be printed now."""

    yard: str
    edition: str
    revision: str
    """As cards printed now would say it."""

    deck: Deck
    said: Mapping[str, str]
    """SHA-256 of what each card says, by id."""


@dataclass(frozen=True, slots=True)
class Outdated:
    """One card that is to be printed, or taken out."""

    yard: str
    unit: str
    card: str
    title: str
    kind: Kind
    changes: tuple[str, ...]
    """In words, the worst first."""

    hangs: InCab | None
    """The card that is out of date; none for a new one."""

    order: tuple[int, tuple[int, int]]
    """Sort key."""

    @property
    def is_taken_out(self) -> bool:
        """Whether nothing comes in its place."""
        return self.kind in TAKEN_OUT


@dataclass(frozen=True, slots=True)
class Judged:
    """All cards on record, judged."""

    outdated: tuple[Outdated, ...]
    """By yard, the worst first."""

    older: tuple[Outdated, ...]
    """Cards that say what they would say now, and carry an older revision."""

    current: tuple[tuple[str, str], ...]
    """Truck and id of each card that is as it would be printed now."""

    unrecorded: tuple[str, ...]
    """Numbers of trucks with a guide and no card on record."""

    unjudged: tuple[str, ...]
    """Numbers of trucks with cards on record whose guide is held back."""

    def of_card(self, id_: str | None) -> "Judged":
        """Return what is true of the card *id_*; all of it if none is named."""
        if id_ is None:
            return self
        outdated = tuple(each for each in self.outdated if each.card == id_)
        return replace(
            self,
            outdated=outdated,
            older=tuple(each for each in self.older if each.card == id_),
            current=tuple(each for each in self.current if each[1] == id_),
        )

    def to_print(self, *, every: bool) -> tuple[Outdated, ...]:
        """Return the cards to print, by yard, the worst first.

        Args:
            every: Whether those too that say the same under an older revision.
        """
        again = [each for each in self.outdated if not each.is_taken_out]
        return tuple(sorted([*again, *self.older], key=_place)) if every else tuple(again)


Cabs = Mapping[str, Mapping[str, InCab]]
"""What hangs in each cab, by number of the truck and id of the card; a truck has one at least."""

Decks = Callable[[str], Deck | None]
"""Returns the deck of the hash that a printing names; nothing if its file is damaged."""

_SAYS_THE_SAME = "Says the same as now, under an older revision"
_WORST = (Kind.UNKNOWN.order, (0, 0))


def judge(cabs: Cabs, units: Collection[str], now: Mapping[str, CardsNow], decks: Decks) -> Judged:
    """Return which cards are out of date.

    Args:
        cabs: What hangs in the cabs of the trucks that are asked about, by number.
        units: Numbers of all trucks of the fleet, those too that are held back.
        now: The cards of each truck with a guide that is asked about.
        decks: Gives what was printed.
    """
    outdated: list[Outdated] = []
    older: list[Outdated] = []
    unjudged: list[str] = []
    current: list[tuple[str, str]] = []
    for unit, cards in cabs.items():
        if unit not in units:
            outdated += (
                _taken_out(each, Kind.RETIRED, each.printing.yard, decks) for each in cards.values()
            )
        elif unit not in now:
            unjudged.append(unit)
        else:
            judging = _Judging(unit, now[unit], cards, decks)
            outdated += judging.outdated()
            older += judging.older()
            current += judging.current()
    return Judged(
        outdated=tuple(sorted(outdated, key=_place)),
        older=tuple(sorted(older, key=_place)),
        current=tuple(current),
        unrecorded=tuple(sorted(set(now) - set(cabs), key=in_counting_order)),
        unjudged=tuple(sorted(unjudged, key=in_counting_order)),
    )


@dataclass(frozen=True, slots=True)
class _Judging:
    unit: str
    now: CardsNow
    cards: Mapping[str, InCab]
    decks: Decks

    def outdated(self) -> Iterator[Outdated]:
        for hangs in self.cards.values():
            id_ = hangs.card.id
            if id_ not in self.now.said:
                yield _taken_out(hangs, Kind.GONE, self.now.yard, self.decks)
            elif self.now.said[id_] != hangs.card.said:
                yield self._changed(hangs)
        newest = max((each.printing for each in self.cards.values()), key=lambda each: each.date)
        known = self.decks(newest.deck)
        dealt = set(self.now.said) if known is None else {*known.cards, *self.cards}
        for id_ in self.now.said:
            if id_ not in dealt:
                yield self._entry(id_, Kind.NEW, (), None, (Kind.NEW.order, (0, 0)))

    def older(self) -> Iterator[Outdated]:
        for hangs in self._same():
            if not self._is_newest(hangs):
                order = (Kind.WORD.order, (0, 0))
                yield self._entry(hangs.card.id, Kind.WORD, (_SAYS_THE_SAME,), hangs, order)

    def current(self) -> Iterator[tuple[str, str]]:
        for hangs in self._same():
            if self._is_newest(hangs):
                yield self.unit, hangs.card.id

    def _is_newest(self, hangs: InCab) -> bool:
        """Whether the card would carry the same revision, and no draft that was released since."""
        now = self.now.edition, self.now.revision
        return (hangs.printing.edition, hangs.printing.revision) == now

    def _same(self) -> Iterator[InCab]:
        for hangs in self.cards.values():
            if self.now.said.get(hangs.card.id) == hangs.card.said:
                yield hangs

    def _changed(self, hangs: InCab) -> Outdated:
        id_ = hangs.card.id
        known = self.decks(hangs.printing.deck)
        if known is None or id_ not in known.cards:
            words = KINDS[Kind.UNKNOWN][0].upper() + KINDS[Kind.UNKNOWN][1:]
            return self._entry(id_, Kind.UNKNOWN, (words,), hangs, _WORST)
        changes: tuple[Change, ...] = card_changes(known, self.now.deck, id_)
        worst = changes[0]
        told = tuple(each.words for each in changes)
        return self._entry(id_, worst.kind, told, hangs, worst.order)

    def _entry(
        self,
        id_: str,
        kind: Kind,
        changes: tuple[str, ...],
        hangs: InCab | None,
        order: tuple[int, tuple[int, int]],
    ) -> Outdated:
        title = self.now.deck.cards[id_].title
        return Outdated(self.now.yard, self.unit, id_, title, kind, changes, hangs, order)


def _taken_out(hangs: InCab, kind: Kind, yard: str, decks: Decks) -> Outdated:
    deck = decks(hangs.printing.deck)
    id_ = hangs.card.id
    title = deck.cards[id_].title if deck and id_ in deck.cards else ""
    unit = hangs.printing.unit
    return Outdated(yard, unit, id_, title, kind, (), hangs, (kind.order, (0, 0)))


def _place(each: Outdated) -> tuple[object, ...]:
    # Trucks whose yard nobody has on record come last.
    yard = (not each.yard, each.yard)
    return (*yard, *each.order, in_counting_order(each.unit), each.card)
