"""What is known of the cards in the cabs.

Takes in nothing; gives out printings, and what hangs in each cab by them, as frozen values.
Refuses to know what stood on a card but by its hash.
"""

import enum
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


class Act(enum.Enum):
    """What was done with cards."""

    PRINTED = "printed"
    COLLECTED = "collected"
    """Taken out of the cab, and not replaced."""


@dataclass(frozen=True, slots=True)
class PrintedCard:
    """One card of a printing."""

    id: str
    """Of its kind: ``air-brakes``."""

    size: str = ""
    """Key of `guidegen.decks.sizes.SIDES`; empty for a card that was collected."""

    said: str = ""
    """SHA-256 of all that stood on it, in hexadecimal; empty for one that was collected."""


@dataclass(frozen=True, slots=True)
class Printing:
    """Cards of one truck that were printed, or collected, together."""

    act: Act
    date: str
    """As ``2026-11-30``."""

    unit: str
    """Number of the truck."""

    cards: tuple[PrintedCard, ...]
    yard: str = ""
    """Where the truck had its place; empty if nobody had that on record."""

    revision: str = ""
    """As the cards say it: ``2``, or ``draft`` and digits."""

    edition: str = ""
    """Fingerprint of the guide."""

    deck: str = ""
    """SHA-256 of the file that keeps the words of the cards."""

    copies: int = 0
    """Of each card."""

    by: str = ""
    """Who did it, if that was said."""


@dataclass(frozen=True, slots=True)
class InCab:
    """One card that hangs in a cab, as far as the record knows."""

    card: PrintedCard
    printing: Printing


@dataclass(frozen=True, slots=True)
class PrintRecord:
    """All that was printed and collected, as it stands in the record."""

    printings: tuple[Printing, ...] = ()
    """In the order of the file."""

    tips: tuple[str, ...] = ()
    """SHA-256 of each line that no other names, sorted; the next line names them."""

    @property
    def last_date(self) -> str:
        """Date of the newest printing; empty if there is none."""
        return max((each.date for each in self.printings), default="")

    @property
    def yards(self) -> frozenset[str]:
        """Where trucks had their place when cards were printed."""
        return frozenset(each.yard for each in self.printings if each.yard)

    def in_cabs(self) -> Mapping[str, Mapping[str, InCab]]:
        """Return what hangs in each cab: of each truck, by number, the newest card of each kind.

        A truck in whose cab nothing hangs is not there.

        Where two clerks worked apart, the later date counts, and on one day the later line.
        """
        cabs: dict[str, dict[str, InCab]] = {}
        for printing in sorted(self.printings, key=lambda each: each.date):
            cards = cabs.setdefault(printing.unit, {})
            for card in printing.cards:
                if printing.act is Act.PRINTED:
                    cards[card.id] = InCab(card, printing)
                else:
                    cards.pop(card.id, None)
        hung = {unit: MappingProxyType(cards) for unit, cards in cabs.items() if cards}
        return MappingProxyType(hung)
