"""The cards of one truck.

Takes in a guide, its inspection round and the kinds of cards; gives out the cards.
Refuses an empty card: a kind that has nothing to say of the truck is left out.
"""

from collections.abc import Iterable, Iterator
from urllib.parse import quote

from guidegen.decks.model import Card, CardKind, Issue
from guidegen.guide.model import Guide, Procedure
from guidegen.guide.revision import revision_of
from guidegen.round.model import Round


def deal_cards(guide: Guide, tour: Round | None, kinds: Iterable[CardKind]) -> tuple[Card, ...]:
    """Return the cards of *guide* in the order of *kinds*."""
    cards = (_card(guide, tour, kind) for kind in kinds)
    return tuple(card for card in cards if card.tour or card.procedures or card.facts or card.lamps)


def issue_of(guide: Guide, date: str, address: str, revision: str = "", made: str = "") -> Issue:
    """Return what the printed sides of *guide* say of their origin.

    Args:
        guide: Of the truck.
        date: As ``2026-11-20``, or words.
        address: Of the site, with a slash at its end.
        revision: As printed; the first digits of the edition if there is none.
        made: Date of the document if *date* is words.
    """
    digits = revision_of(guide)
    link = f"{address}{quote(guide.number)}/?r={digits}"
    return Issue(revision or digits, date, link, made)


def _card(guide: Guide, tour: Round | None, kind: CardKind) -> Card:
    return Card(
        kind,
        tour if kind.has_round else None,
        tuple(_procedures(guide, kind)),
        tuple(name for name in kind.facts if name in guide.facts),
        tuple(_lamps(guide)) if kind.has_lamps else (),
    )


def _procedures(guide: Guide, kind: CardKind) -> Iterator[Procedure]:
    by_id = {each.id: each for chapter in guide.chapters for each in chapter.procedures}
    yield from (by_id[name] for name in kind.procedures if name in by_id)
    for chapter in guide.chapters:
        if chapter.id in kind.chapters:
            yield from (each for each in chapter.procedures if each.id not in kind.procedures)


def _lamps(guide: Guide) -> Iterator[Procedure]:
    for chapter in guide.chapters:
        yield from (each for each in chapter.procedures if each.lamp is not None)
