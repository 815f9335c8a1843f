"""From the card of a truck to its sides.

Takes in a card, the guide and what each side says of its origin; gives out a PDF with one page a
side, or findings. Refuses to cut, shrink or drop: what fits on no side is reported with its place.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from pathlib import Path
from typing import Any, TypeVar

from guidegen.decks.model import Card, Issue, ShownPhoto
from guidegen.finding import Findings
from guidegen.paper.blank_card import BlankCard
from guidegen.paper.boxes import count_pages, set_boxes
from guidegen.paper.code import code_of
from guidegen.paper.letters import check_letters, group_as_file, texts_of
from guidegen.paper.matter import Group, Matter
from guidegen.paper.misfit import Place, report_misfit
from guidegen.paper.photo_matter import with_card_photos
from guidegen.paper.photo_room import photos_with_room
from guidegen.paper.plate import Plate
from guidegen.paper.theme import Theme
from guidegen.paper.typeset import Stopped, Typesetter, as_file
from guidegen.procedures.words import LABELS

BLEED = Decimal(3)
"""Millimeters that each side is drawn over its trim."""

KEPT = 64
"""Cards whose shared part is kept: more kinds than a fleet has, of a few editions."""

TEMPLATE = "card.typ"

_Kept = TypeVar("_Kept")


@dataclass(frozen=True, slots=True)
class CardPress:
    """What draws cards: the theme and a typesetter that is kept warm."""

    theme: Theme
    fleet: str
    """Its name."""

    typesetter: Typesetter
    _blanks: dict[object, BlankCard] = field(default_factory=dict, compare=False)
    """What trucks of an edition share on a card, for the next of them."""

    _plates: dict[object, Plate] = field(default_factory=dict, compare=False)
    """What is one truck's own on all its cards of one size."""

    _rooms: dict[object, tuple[ShownPhoto, ...]] = field(default_factory=dict, compare=False)
    """The photos that have room on a card, for all trucks that share it."""

    @classmethod
    def at(cls, folder: Path, theme: Theme, fleet: str) -> "CardPress":
        """Return a press with the templates in *folder*."""
        return cls(theme, fleet, Typesetter(folder / TEMPLATE, theme.as_file()))

    def fitted(self, card: Card, matter: Matter, issue: Issue) -> Card:
        """Return *card* with the photos that have room on it; one that was fitted stays as it is.

        Args:
            card: Of the truck of *matter*.
            matter: Of the truck's guide.
            issue: What each side says of its origin.
        """
        if card.photos or not card.offered:
            return card
        stamp = self._stamp_of(card, matter.guide.number, issue)
        key = _key(card, matter.guide.edition, stamp)
        if not matter.holds(card.procedures):
            return replace(card, photos=self._with_room(card, matter, stamp, issue))
        if key not in self._rooms:
            _keep(self._rooms, key, self._with_room(card, matter, stamp, issue))
        return replace(card, photos=self._rooms[key])

    def _with_room(
        self, card: Card, matter: Matter, stamp: dict[str, Any], issue: Issue
    ) -> tuple[ShownPhoto, ...]:
        def sides(shown: Sequence[ShownPhoto]) -> int | None:
            tried = replace(card, photos=tuple(shown))
            shared = as_file(_matter_of(tried, tuple(groups_of(tried, matter))))
            try:
                return count_pages(self.typesetter.draw(shared, stamp, issue.document_date, "rest"))
            except Stopped:
                return None

        return photos_with_room(card.offered, sides)

    def draw(self, card: Card, matter: Matter, issue: Issue, findings: Findings) -> bytes | None:
        """Return the PDF of *card*, or nothing if something on it fits on no side.

        Args:
            card: Of the truck of *matter*, with the photos that are to stand on it.
            matter: Of the truck's guide.
            issue: What each side says of its origin.
            findings: Takes what does not fit.
        """
        number = matter.guide.number
        stamp = self._stamp_of(card, number, issue)
        key = _key(card, matter.guide.edition, stamp)
        is_of_edition = matter.holds((*card.procedures, *card.lamps))
        plate_key = number, issue, card.kind.side
        blank, plate = self._blanks.get(key), self._plates.get(plate_key)
        if is_of_edition and blank is not None:
            plate = plate or self._plate(plate_key, _matter_of(card, ()), stamp, issue)
            if blank.takes(plate):
                return blank.filled(number, plate)
        groups = tuple(groups_of(card, matter))
        heads = [(f"{number} {card.kind.title}", card.kind.span)]
        if not check_letters(groups, heads, number, findings):
            return None
        shared = _matter_of(card, groups)
        try:
            drawn = self.typesetter.draw(as_file(shared), stamp, issue.document_date, "rest")
        except Stopped as stopped:
            kind = card.kind
            of = f"card `{kind.id}`, size `{kind.side.id}`"
            place = Place("side", of, kind.span, "a bigger size for the card")
            report_misfit(stopped, groups, place, number, findings)
            return None
        plate = plate or self._plate(plate_key, _matter_of(card, ()), stamp, issue)
        blank = BlankCard.of(set_boxes(drawn, BLEED), number, plate)
        texts = (text for group in groups for text in texts_of(group.pieces))
        if is_of_edition and blank.is_shared and not matter.names_truck(texts):
            _keep(self._blanks, key, blank)
        return blank.filled(number, plate)

    def _plate(
        self, key: object, matter: dict[str, Any], stamp: dict[str, Any], issue: Issue
    ) -> Plate:
        drawn = self.typesetter.draw(as_file(matter), stamp, issue.document_date, "plate")
        plate = Plate.of(drawn)
        _keep(self._plates, key, plate)
        return plate

    def _stamp_of(self, card: Card, number: str, issue: Issue) -> dict[str, Any]:
        return {
            "document": f"{number}: {card.kind.title}",
            "fleet": self.fleet,
            "unit": number,
            "title": card.kind.title,
            "revision": f"{LABELS['revision']} {issue.revision}",
            "date": issue.date,
            "code": code_of(issue.link).as_file(),
        }


def _key(card: Card, edition: str, stamp: dict[str, Any]) -> object:
    """Return what cards have in common that differ in nothing but number and code."""
    parts = tuple(each.id for each in (*card.procedures, *card.lamps))
    # Where the title stands beside the number, it goes by how wide that can be.
    width = re.sub("[0-9]", "0", stamp["unit"])
    size = stamp["code"]["side"]
    origin = stamp["revision"], stamp["date"], stamp["fleet"]
    photos = tuple((each.photo.id, each.edge) for each in card.photos)
    return edition, card.kind, parts, card.facts, card.tour, photos, width, size, origin


def _keep(kept: dict[object, _Kept], key: object, each: _Kept) -> None:
    if len(kept) >= KEPT:
        kept.clear()
    kept[key] = each


def groups_of(card: Card, matter: Matter) -> Iterator[Group]:
    """Yield what stands on *card*, in order."""
    if card.tour is not None:
        yield from matter.tour(card.tour)
    for procedure in card.procedures:
        yield from with_card_photos(matter.procedure(procedure), procedure, card.photos)
    yield from matter.facts(card.facts, large=card.kind.is_large)
    if card.lamps:
        yield matter.note("symbols_differ", card.kind.span)
    for lamp in card.lamps:
        yield matter.lamp(lamp)


def _matter_of(card: Card, groups: tuple[Group, ...]) -> dict[str, Any]:
    side = card.kind.side
    return {
        "side": {"width": float(side.width), "height": float(side.height)},
        "columns": 2 if side.id in ("letter", "a4") else 1,
        "safe": float(side.free),
        "bleed": float(BLEED),
        "labels": {
            "of": f" {LABELS['of']} ",
            "continued": LABELS["continued"],
            "notes": [LABELS["park_first"], LABELS["handbook_first"]],
        },
        "groups": [group_as_file(group) for group in groups],
    }
