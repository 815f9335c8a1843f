"""From the card of a truck to its sides.

Takes in a card, the guide and what each side says of its origin; gives out a PDF with one page a
side, or findings. Refuses to cut, shrink or drop: what fits on no side is reported with its place.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Any

from guidegen.decks.model import Card, Issue
from guidegen.finding import Findings
from guidegen.paper.boxes import set_boxes
from guidegen.paper.code import code_of
from guidegen.paper.letters import check_letters, group_as_file, texts_of
from guidegen.paper.matter import Group, Matter
from guidegen.paper.misfit import Place, report_misfit
from guidegen.paper.theme import Theme
from guidegen.paper.typeset import Stopped, Typesetter, as_file
from guidegen.procedures.words import LABELS

SAFE = Decimal(3)
"""Millimeters from the trim that the seal of a laminate needs. Common practice, no source."""

BLEED = Decimal(3)
"""Millimeters that each side is drawn over its trim."""

KEPT = 64
"""Cards whose shared part is kept: more kinds than a fleet has, of a few editions."""

TEMPLATE = "card.typ"


@dataclass(frozen=True, slots=True)
class CardPress:
    """What draws cards: the theme and a typesetter that is kept warm."""

    theme: Theme
    fleet: str
    """Its name."""

    typesetter: Typesetter
    _kept: dict[object, bytes] = field(default_factory=dict, compare=False)
    """What trucks of an edition share on a card, for the next of them."""

    @classmethod
    def at(cls, folder: Path, theme: Theme, fleet: str) -> "CardPress":
        """Return a press with the templates in *folder*."""
        return cls(theme, fleet, Typesetter(folder / TEMPLATE, theme.as_file()))

    def draw(self, card: Card, matter: Matter, issue: Issue, findings: Findings) -> bytes | None:
        """Return the PDF of *card*, or nothing if something on it fits on no side.

        Args:
            card: Of the truck of *matter*.
            matter: Of the truck's guide.
            issue: What each side says of its origin.
            findings: Takes what does not fit.
        """
        number = matter.guide.number
        shared = self._shared(card, matter, findings)
        if shared is None:
            return None
        try:
            drawn = self.typesetter.draw(
                shared, self._stamp_of(card, number, issue), issue.document_date
            )
        except Stopped as stopped:
            kind = card.kind
            of = f"card `{kind.id}`, size `{kind.side.id}`"
            place = Place("side", of, kind.span, "a bigger size for the card")
            report_misfit(stopped, tuple(groups_of(card, matter)), place, number, findings)
            return None
        return set_boxes(drawn, BLEED)

    def _shared(self, card: Card, matter: Matter, findings: Findings) -> bytes | None:
        """Return what all trucks of the edition share on *card*, or nothing if letters lack."""
        guide = matter.guide
        parts = (*card.procedures, *card.lamps)
        key = (guide.edition, card.kind, tuple(each.id for each in parts), card.facts, card.tour)
        is_of_edition = matter.holds(parts)
        if is_of_edition and key in self._kept:
            return self._kept[key]
        groups = tuple(groups_of(card, matter))
        heads = [(f"{guide.number} {card.kind.title}", card.kind.span)]
        if not check_letters(groups, heads, guide.number, findings):
            return None
        shared = as_file(_matter_of(card, groups))
        texts = (text for group in groups for text in texts_of(group.pieces))
        if is_of_edition and not matter.names_truck(texts):
            if len(self._kept) >= KEPT:
                self._kept.clear()
            self._kept[key] = shared
        return shared

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


def groups_of(card: Card, matter: Matter) -> Iterator[Group]:
    """Yield what stands on *card*, in order."""
    if card.tour is not None:
        yield from matter.tour(card.tour)
    for procedure in card.procedures:
        yield from matter.procedure(procedure)
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
        "safe": float(SAFE),
        "bleed": float(BLEED),
        "labels": {
            "of": f" {LABELS['of']} ",
            "continued": LABELS["continued"],
            "notes": [LABELS["park_first"], LABELS["handbook_first"]],
        },
        "groups": [group_as_file(group) for group in groups],
    }
