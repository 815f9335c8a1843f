"""From cards that were printed to lines of the record.

Takes in what prints the cards, and which are in their place; gives out printings and the words of
the cards, and puts them on record. Refuses to guess: what was not printed as a whole is not
recorded, and what cannot be recorded is a finding.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from guidegen.build import rules as build_rules
from guidegen.build.disk import DISK, Disk
from guidegen.build.lock import Locked
from guidegen.build.print_shop import PrintShop
from guidegen.build.printing_files import RecordDamaged, add_printings, printings_path
from guidegen.build.project import Project
from guidegen.decks.model import Card, CardKind
from guidegen.decks.sizes import SIDES
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper.card import groups_of
from guidegen.paper.letters import texts_of
from guidegen.paper.matter import Matter
from guidegen.printings import rules
from guidegen.printings.deck import Deck, deck_bytes, deck_of
from guidegen.printings.model import Act, PrintedCard, Printing
from guidegen.printings.outdated import CardsNow
from guidegen.printings.said import said_on
from guidegen.revisions.snapshot import digest_of

_AS_STATED: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Occasion:
    """When cards were printed or collected, and by whom."""

    date: str
    """As ``2026-11-30``."""

    since: str
    """The time of day, for whoever is kept waiting meanwhile."""

    by: str = ""
    copies: int = 1


@dataclass(frozen=True, slots=True)
class Entry:
    """What is to be put on record."""

    printings: tuple[Printing, ...]
    decks: Mapping[str, bytes]
    """The words of their cards, by SHA-256 of the file that keeps them."""


@dataclass(frozen=True, slots=True)
class Desk:
    """Reads the cards of a fleet's trucks as they would be printed now."""

    shop: PrintShop
    _decks: dict[object, tuple[Deck, str]] = field(default_factory=dict)
    """With their SHA-256, by edition and photos."""

    _said: dict[object, Mapping[str, str]] = field(default_factory=dict)
    """What cards say, by edition and photos, where nothing on them is one truck's own."""

    def now(self, number: str, sizes: Mapping[str, str] = _AS_STATED) -> CardsNow:
        """Return the cards of the unit *number*, which has a guide.

        Args:
            number: Of the unit.
            sizes: Of cards by id that are in another size than the fleet states: it decides which
                photos have room.
        """
        guide = self.shop.loaded.guides[number]
        yard = guide.facts.get("identity.yard")
        cards = self._cards(guide, sizes)
        deck, _ = self._deck(guide, cards)
        said = self._said.get(_key(guide, cards)) or self._read(guide, cards)
        place, revision = str(yard.value) if yard else "", self.shop.issue(guide).revision
        return CardsNow(place, guide.edition, revision, deck, said)

    def _cards(self, guide: Guide, sizes: Mapping[str, str]) -> tuple[Card, ...]:
        """Return the cards of *guide* with the photos that have room in these *sizes*."""
        cards = self.shop.dealt(guide)
        sized = (_in_size(card, sizes.get(card.kind.id, "")) for card in cards)
        pairs = zip(cards, self.shop.fitted(guide, sized), strict=True)
        return tuple(replace(card, photos=fitted.photos) for card, fitted in pairs)

    def entry(self, kinds: Mapping[str, Sequence[CardKind]], occasion: Occasion) -> Entry:
        """Return what to record of cards that were printed.

        Args:
            kinds: Of the cards that were printed, by number of the truck, in the size they have.
            occasion: Of the printing.
        """
        made, decks = [], dict[str, bytes]()
        for number, printed in kinds.items():
            if not printed:
                continue
            guide = self.shop.loaded.guides[number]
            sizes = {kind.id: kind.side.id for kind in printed}
            now = self.now(number, sizes)
            deck, digest = self._deck(guide, self._cards(guide, sizes))
            if digest not in decks:
                decks[digest] = deck_bytes(deck)
            cards = tuple(PrintedCard(k.id, k.side.id, now.said[k.id]) for k in printed)
            made.append(
                Printing(
                    act=Act.PRINTED,
                    date=occasion.date,
                    unit=number,
                    cards=cards,
                    yard=now.yard,
                    revision=now.revision,
                    edition=guide.edition,
                    deck=digest,
                    copies=occasion.copies,
                    by=occasion.by,
                )
            )
        return Entry(tuple(made), decks)

    def _deck(self, guide: Guide, cards: tuple[Card, ...]) -> tuple[Deck, str]:
        key = _key(guide, cards)
        if key not in self._decks:
            deck = deck_of(guide, cards)
            self._decks[key] = deck, digest_of(deck_bytes(deck))
        return self._decks[key]

    def _read(self, guide: Guide, cards: tuple[Card, ...]) -> Mapping[str, str]:
        matter = Matter(guide)
        groups = [tuple(groups_of(card, matter)) for card in cards]
        pairs = zip(cards, groups, strict=True)
        said = {card.kind.id: said_on(card, own) for card, own in pairs}
        texts = (text for own in groups for each in own for text in texts_of(each.pieces))
        if not matter.names_truck(texts):
            self._said[_key(guide, cards)] = said
        return said


def _key(guide: Guide, cards: tuple[Card, ...]) -> object:
    return guide.edition, tuple(tuple(each.photo.id for each in card.photos) for card in cards)


def _in_size(card: Card, size: str) -> Card:
    return replace(card, kind=replace(card.kind, side=SIDES[size])) if size in SIDES else card


def collected_from(cards: Mapping[str, Sequence[str]], occasion: Occasion) -> tuple[Printing, ...]:
    """Return what to record of cards that were taken out of cabs.

    Args:
        cards: Their ids, by number of the truck.
        occasion: When they were collected.
    """
    return tuple(
        Printing(
            act=Act.COLLECTED,
            date=occasion.date,
            unit=unit,
            cards=tuple(map(PrintedCard, ids)),
            by=occasion.by,
        )
        for unit, ids in cards.items()
    )


def put_on_record(
    project: Project, entry: Entry, occasion: Occasion, findings: Findings, disk: Disk = DISK
) -> bool:
    """Write *entry* and say whether it is on record; *findings* take why it is not."""
    place = project.shown(printings_path(project))
    try:
        add_printings(project, entry.printings, entry.decks, occasion.since, disk)
    except Locked as locked:
        what = f"another run writes the record of printings: {locked.by}; nothing was recorded"
        findings.add(build_rules.OTHER_RUN, None, what=what, fix=locked.cure, place=place)
    except (OSError, RecordDamaged) as fault:
        why = fault.strerror or fault if isinstance(fault, OSError) else "the record is damaged"
        findings.add(
            rules.PRINTING_NOT_RECORDED,
            None,
            what=f"what was printed is not on record: {why}",
            fix="mend this, and run the same command again before the cards go to the trucks",
            place=place,
        )
    else:
        return True
    return False
