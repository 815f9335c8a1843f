"""Cards that are held back, because something on them fits on no side.

Takes in what prints the cards and how files of a site are read; gives out the cards that cannot be
drawn, with a finding for each place that has to change.
Refuses to take a card that is not there for one that is held back: it is drawn again to see.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from guidegen.build.print_shop import PrintShop
from guidegen.decks.model import CardKind
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.proof.claims import card_path
from guidegen.proof.fleet_claims import Read


@dataclass(frozen=True, slots=True)
class StatedCards:
    """Which cards a site must have, and which are held back."""

    by_unit: Mapping[str, tuple[CardKind, ...]]
    """Those that must be there, by number of the unit."""

    held: Mapping[str, tuple[CardKind, ...]]
    """Those that cannot be drawn, of each unit that has any."""

    findings: Findings
    """Why."""

    @property
    def unchecked(self) -> tuple[str, ...]:
        """Statements of what was not proved, since it was not published."""
        return unchecked_cards(self.held)


def unchecked_cards(held: Mapping[str, Iterable[CardKind]]) -> tuple[str, ...]:
    """Return statements of what was not proved, since it was not published.

    Args:
        held: Cards that are held back, by number of the unit.
    """
    return tuple(
        f"The card `{kind.id}` of {number}: it is held back, since something on it fits on no side."
        for number, kinds in held.items()
        for kind in kinds
    )


def state_cards(shop: PrintShop, guides: Collection[Guide], read: Read) -> StatedCards:
    """Return the cards of *guides*: a card that *read* does not find is tried anew.

    Args:
        shop: What prints them.
        guides: Of the units of the site.
        read: Returns the bytes of a published file by its path, or nothing.
    """
    findings = Findings()
    by_unit, held = dict[str, tuple[CardKind, ...]](), dict[str, tuple[CardKind, ...]]()
    for guide in guides:
        kinds = tuple(card.kind for card in shop.dealt(guide))
        absent = [kind for kind in kinds if read(f"{guide.number}/{card_path(kind.id)}") is None]
        drawn = {each.card.kind for each in shop.cards(guide.number, absent, findings)}
        faulty = tuple(kind for kind in absent if kind not in drawn)
        by_unit[guide.number] = tuple(kind for kind in kinds if kind not in faulty)
        if faulty:
            held[guide.number] = faulty
    return StatedCards(by_unit, held, findings)
