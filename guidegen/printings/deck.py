"""What stood on the cards of an edition, kept so that later cards can be compared with them.

Takes in the cards of a guide; gives out a file's bytes, the same for the same cards, and from such
a file the words of each card again, as far as it takes to compare. Refuses a file whose hash is not
the one that was recorded.
"""

import json
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any

from guidegen.decks.model import Card
from guidegen.differences.compare import LAMPS_FACT
from guidegen.finding import Findings
from guidegen.guide.model import STAMPED, Caution, FactRef, Guide, Procedure, Step, Text
from guidegen.paper.matter import Matter, Piece
from guidegen.printings import rules
from guidegen.revisions.snapshot import (
    Snapshot,
    compact_json,
    digest_of,
    snapshot_content,
    snapshot_from,
)
from guidegen.source import SourceFile, Span

FORM = 1
"""Of the file; another number means another layout."""

Plain = Any
"""Whatever JSON holds."""


@dataclass(frozen=True, slots=True)
class DeckCard:
    """What stands on one card, by name."""

    id: str
    title: str
    size: str
    """Key of `guidegen.decks.sizes.SIDES`, as the kind states it."""

    procedures: tuple[str, ...]
    """Ids of all, those of lamps too, in the order of the card."""

    values: tuple[str, ...]
    """Names of all facts that are printed, in rows or in texts."""

    tour: tuple[str, ...]
    """The inspection round line by line, without numbers; none on most cards."""

    photos: tuple[str, ...] = ()
    """Ids of those that have room on it."""


@dataclass(frozen=True, slots=True)
class Deck:
    """The cards of an edition with their words."""

    cards: Mapping[str, DeckCard]
    """By id: all that the fleet made for such a truck, whether they were printed or not."""

    said: Snapshot
    """Of all that stands on them."""

    def alone(self, id_: str) -> Snapshot:
        """Return the words of the card *id_* alone."""
        card = self.cards[id_]
        names = {*card.values, *STAMPED}
        spoken = {name: each for name, each in self.said.spoken.items() if name in names}
        guide = restricted(self.said.guide, card.procedures, card.values, card.photos)
        return replace(self.said, guide=guide, spoken=MappingProxyType(spoken))


def deck_of(guide: Guide, cards: Iterable[Card]) -> Deck:
    """Return the deck of *guide*.

    Args:
        guide: Of a truck.
        cards: All that there are of it, with the photos that have room.
    """
    matter = Matter(guide)
    dealt = {card.kind.id: _deck_card(card, matter) for card in cards}
    return Deck(MappingProxyType(dealt), Snapshot.of(_of_cards(guide, dealt.values())))


def deck_bytes(deck: Deck) -> bytes:
    """Return the file that keeps *deck*: compact JSON in UTF-8."""
    cards = {
        card.id: {
            "title": card.title,
            "size": card.size,
            "procedures": list(card.procedures),
            "values": list(card.values),
            "tour": list(card.tour),
            # A deck without photos keeps the bytes that it had before there could be any.
            **({"photos": list(card.photos)} if card.photos else {}),
        }
        for card in deck.cards.values()
    }
    return compact_json({"form": FORM, "cards": cards, "said": snapshot_content(deck.said.guide)})


def read_deck(path: str, raw: bytes, digest: str, findings: Findings) -> Deck | None:
    """Return the deck that *raw* keeps, or nothing and a finding.

    Args:
        path: Of the file, as findings show it.
        raw: All of its bytes.
        digest: SHA-256 of the file, as the record has it.
        findings: Takes the fault.
    """
    file = SourceFile(path, raw.decode("utf-8", "replace"))
    span = Span(file, 1, 1, 1, 2)
    fix = f"get it back from git: `git restore {path}`"
    if digest_of(raw) != digest:
        what = "is not as it was written: its SHA-256 is another than the record has"
        findings.add(rules.DECK_DAMAGED, span, what=what, fix=fix)
        return None
    try:
        return _read(json.loads(raw), span)
    except (ValueError, KeyError, TypeError, IndexError, ArithmeticError):
        what = "does not keep the words of cards in a known form"
        findings.add(rules.DECK_DAMAGED, span, what=what, fix=fix)
        return None


def restricted(
    guide: Guide, procedures: Collection[str], values: Collection[str], photos: Collection[str] = ()
) -> Guide:
    """Return *guide* with nothing but these *procedures*, *values*, *photos*, and its identity."""
    names = {*values, *STAMPED}
    facts = {name: fact for name, fact in guide.facts.items() if name in names}
    chapters = (
        replace(
            chapter,
            procedures=tuple(
                _with_photos(each, photos)
                for each in chapter.procedures
                if each.id in set(procedures)
            ),
        )
        for chapter in guide.chapters
    )
    return replace(
        guide,
        facts=MappingProxyType(facts),
        # What a truck has is told by what its cards say of it.
        sections=MappingProxyType({}),
        chapters=tuple(chapter for chapter in chapters if chapter.procedures),
    )


def _with_photos(procedure: Procedure, ids: Collection[str]) -> Procedure:
    """Return *procedure* with no photos but those of these *ids*."""
    if not procedure.photos:
        return procedure
    return replace(procedure, photos=tuple(each for each in procedure.photos if each.id in ids))


def _of_cards(guide: Guide, cards: Iterable[DeckCard]) -> Guide:
    listed = tuple(cards)
    procedures = {each for card in listed for each in card.procedures}
    values = {each for card in listed for each in card.values}
    return restricted(guide, procedures, values, {each for card in listed for each in card.photos})


def _deck_card(card: Card, matter: Matter) -> DeckCard:
    guide = matter.guide
    shown = (*card.procedures, *card.lamps)
    named = {*card.facts, *(name for each in shown for name in _values_in(each))}
    if card.lamps:
        named.add(LAMPS_FACT)
    tour = () if card.tour is None else tuple(_tour_lines(card, matter))
    return DeckCard(
        id=card.kind.id,
        title=card.kind.title,
        size=card.kind.side.id,
        procedures=tuple(dict.fromkeys(each.id for each in shown)),
        values=tuple(name for name in guide.facts if name in named and name not in STAMPED),
        tour=tour,
        photos=tuple(each.photo.id for each in card.photos),
    )


def _tour_lines(card: Card, matter: Matter) -> Iterator[str]:
    assert card.tour is not None  # noqa: S101 -- asked for nothing else
    for group in matter.tour(card.tour):
        yield from (line for piece in group.pieces if (line := _tour_line(piece)))


def _tour_line(piece: Piece) -> str:
    match piece["kind"]:
        case "act":
            return str(piece["words"])
        case "stop":
            title = "".join(part[0] for part in piece["title"])
            return f"{title} ({piece['station']})"
        case _:
            return ""


def _values_in(procedure: Procedure) -> Iterator[str]:
    """Yield the names of the facts in the texts of *procedure*, as cards print them."""
    for text in (procedure.title, *_block_texts(procedure), *procedure.expect, *procedure.if_not):
        yield from (part.name for part in text.parts if isinstance(part, FactRef))


def _block_texts(procedure: Procedure) -> Iterator[Text]:
    for block in procedure.blocks:
        match block:
            case Step():
                yield block.text
            case Caution():
                yield from (block.hazard, block.consequence, block.avoid)


def _read(content: Plain, span: Span) -> Deck:
    if content["form"] != FORM:
        raise ValueError(content["form"])
    cards = {
        id_: DeckCard(
            id=id_,
            title=plain["title"],
            size=plain["size"],
            procedures=tuple(plain["procedures"]),
            values=tuple(plain["values"]),
            tour=tuple(plain["tour"]),
            photos=tuple(plain.get("photos", ())),
        )
        for id_, plain in content["cards"].items()
    }
    return Deck(MappingProxyType(cards), snapshot_from(content["said"], span))
