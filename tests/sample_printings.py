"""Printings made by hand, and cards of the sample trucks as they would be printed."""

import hashlib
from collections.abc import Iterable
from dataclasses import replace

from printed import kind
from sample_fleet import T_17, fact

from guidegen.decks.deal import deal_cards
from guidegen.decks.model import CardKind
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper.card import groups_of
from guidegen.paper.matter import Matter
from guidegen.printings.deck import Deck, deck_bytes, deck_of, read_deck
from guidegen.printings.model import Act, PrintedCard, Printing
from guidegen.printings.said import said_on
from guidegen.revisions.snapshot import digest_of

BRAKES = kind(id="brakes", title="Brake check", chapters=("air-brakes",))
FLUIDS = kind(id="fluids", facts=("engine.oil_grade", "engine.oil_capacity", "brakes.air.cut_out"))
WALK = kind(id="walk", procedures=("walk-around",))
PLACES = kind(id="places", facts=("brakes.air.drain_location", "engine.dipstick_location"))
KINDS_OF_FLEET = (BRAKES, FLUIDS, WALK, PLACES)


def printed(unit: str, date: str, *cards: str) -> Printing:
    """Return a printing of *cards*, each of which says something of its own."""
    said = {id_: hashlib.sha256(f"{unit} {id_} {date}".encode()).hexdigest() for id_ in cards}
    return Printing(
        act=Act.PRINTED,
        date=date,
        unit=unit,
        cards=tuple(PrintedCard(id_, "4x6", said[id_]) for id_ in cards),
        yard="Mill Yard",
        revision="2",
        edition="0123456789ab",
        deck=hashlib.sha256(b"words").hexdigest(),
        copies=1,
    )


def collected(unit: str, date: str, *cards: str) -> Printing:
    return Printing(Act.COLLECTED, date, unit, tuple(map(PrintedCard, cards)))


def with_facts(**typed: str) -> Guide:
    named = {name.replace("__", "."): value for name, value in typed.items()}
    changed = {**T_17.facts, **{n: fact(n, v) for n, v in named.items()}}
    return replace(T_17, facts=changed, edition="0" * 12)


def deck(guide: Guide, kinds: Iterable[CardKind] = KINDS_OF_FLEET) -> Deck:
    return deck_of(guide, deal_cards(guide, None, kinds))


def kept(guide: Guide, kinds: Iterable[CardKind] = KINDS_OF_FLEET) -> Deck:
    """Return the deck as it is read from its file later."""
    raw, findings = deck_bytes(deck(guide, kinds)), Findings()
    read = read_deck("records/printings/decks/x.json", raw, digest_of(raw), findings)
    assert read is not None, [each.what for each in findings]
    return read


def said(guide: Guide, kinds: Iterable[CardKind] = KINDS_OF_FLEET) -> dict[str, str]:
    matter = Matter(guide)
    cards = deal_cards(guide, None, kinds)
    return {card.kind.id: said_on(card, groups_of(card, matter)) for card in cards}
