"""The demo fleet's cards, and cards that are drawn with a fault.

What a card is made of is changed on its way to the typesetter, the templates are changed before
they are read, or the finished file is changed; the proof is told of nothing.
"""

import copy
import json
import shutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, Protocol

from guidegen.build.load import load_fleet
from guidegen.build.project import open_project
from guidegen.decks.deal import deal_cards, issue_of
from guidegen.decks.kinds import card_kinds
from guidegen.decks.model import Card, CardKind, Issue, ShownPhoto
from guidegen.decks.sizes import SIDES
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper.card import TEMPLATE, CardPress
from guidegen.paper.matter import Matter
from guidegen.paper.theme import Theme, theme_from
from guidegen.paper.typeset import Typesetter, as_file
from guidegen.paper_proof.model import PaperVerdict
from guidegen.paper_proof.prove import prove_card
from guidegen.round.model import Round
from guidegen.round.plan import plan_round
from guidegen.specs.read import read_cards, read_theme

DATE = "2026-11-20"
ADDRESS = "https://guides.sedgewater.example/"

Given = dict[str, Any]
"""What a template is given: what trucks share, and under ``stamp`` what is the truck's own."""

Change = Callable[[Given], Given]


class ChangingTypesetter(Typesetter):
    """Draws other matter than it is given."""

    def __init__(self, template: Path, look: Mapping[str, Any], change: Change) -> None:
        super().__init__(template, look)
        self._change = change
        self._stamp: Mapping[str, Any] = {}

    def draw(
        self, matter: bytes, stamp: Mapping[str, Any], date: str, part: str = "whole"
    ) -> bytes:
        if part == "plate":
            # What is the truck's own is drawn apart, after the rest, and is changed as that was.
            return super().draw(matter, self._stamp, date, part)
        given = self._change({**json.loads(matter), "stamp": copy.deepcopy(dict(stamp))})
        shared = {name: each for name, each in given.items() if name != "stamp"}
        self._stamp = given["stamp"]
        return super().draw(as_file(shared), given["stamp"], date, part)


class Provable(Protocol):
    """What a PDF can be proved against."""

    def rules_of(self, pdf: bytes) -> frozenset[str]: ...


@dataclass(frozen=True, slots=True)
class Order:
    """One card of one truck, to be drawn and proved."""

    card: Card
    guide: Guide
    issue: Issue

    def prove(self, pdf: bytes) -> PaperVerdict:
        return prove_card(pdf, self.card, self.guide, self.issue)

    def rules_of(self, pdf: bytes) -> frozenset[str]:
        return frozenset(each.rule.name for each in self.prove(pdf).failures)


@dataclass(frozen=True, slots=True)
class Shop:
    """All that cards are drawn with."""

    templates: Path
    theme: Theme
    fleet: str
    kinds: Mapping[str, CardKind]
    guides: Mapping[str, Guide]
    tours: Mapping[str, Round | None]
    _whole: dict[tuple[str, str, str], bytes] = field(default_factory=dict, compare=False)
    _given: dict[tuple[str, str, str], Given] = field(default_factory=dict, compare=False)
    _photos: dict[tuple[str, str, str], tuple[ShownPhoto, ...]] = field(
        default_factory=dict, compare=False
    )

    @classmethod
    def at(cls, root: Path) -> "Shop":
        findings = Findings()
        loaded = load_fleet(open_project(root), findings)
        folder = root / "site_templates"
        stated = read_cards("cards.yml", (folder / "cards.yml").read_bytes(), findings)
        file = read_theme("theme.yml", (folder / "paper" / "theme.yml").read_bytes(), findings)
        assert loaded is not None
        assert stated is not None
        assert file is not None
        theme = theme_from(file, findings)
        assert theme is not None
        kinds = card_kinds(stated, (), loaded.library, findings)
        return cls(
            folder / "paper",
            theme,
            loaded.fleet.name,
            {kind.id: kind for kind in kinds},
            loaded.guides,
            {
                number: plan_round(guide, loaded.library, Findings())
                for number, guide in loaded.guides.items()
            },
        )

    def order(self, unit: str, kind: str, size: str = "") -> Order | None:
        """Return the card of one truck, in another size if one is named."""
        chosen = self.kinds[kind]
        if size:
            chosen = replace(chosen, side=SIDES[size])
        guide = self.guides[unit]
        cards = deal_cards(guide, self.tours[unit], (chosen,))
        issue = issue_of(guide, DATE, ADDRESS)
        return Order(self._fitted(cards[0], guide, issue), guide, issue) if cards else None

    def _fitted(self, card: Card, guide: Guide, issue: Issue) -> Card:
        """Return *card* with the photos that have room on it; tried once."""
        key = guide.number, card.kind.id, card.kind.side.id
        if card.offered and key not in self._photos:
            press = CardPress.at(self.templates, self.theme, self.fleet)
            self._photos[key] = press.fitted(card, Matter(guide), issue).photos
        return replace(card, photos=self._photos.get(key, ()))

    def draw(self, order: Order, change: Change | None = None, folder: Path | None = None) -> bytes:
        """Return the PDF of *order*, with its matter changed and other templates if given."""
        template = (folder or self.templates) / TEMPLATE
        look = self.theme.as_file()
        setter = (
            ChangingTypesetter(template, look, change) if change else Typesetter(template, look)
        )
        findings = Findings()
        press = CardPress(self.theme, self.fleet, setter)
        pdf = press.draw(order.card, Matter(order.guide), order.issue, findings)
        assert pdf is not None, [each.what for each in findings]
        return pdf

    def whole(self, order: Order) -> bytes:
        """Return the PDF of the card that *order* asks for, without a fault; drawn once."""
        kind = order.card.kind
        key = order.guide.number, kind.id, kind.side.id
        if key not in self._whole:
            faultless = self.order(*key)
            assert faultless is not None
            self._whole[key] = self.draw(faultless)
        return self._whole[key]

    def given(self, order: Order) -> Given:
        """Return what the template of *order* is given; to be changed at will."""
        kind = order.card.kind
        key = order.guide.number, kind.id, kind.side.id

        def keep(given: Given) -> Given:
            self._given[key] = copy.deepcopy(given)
            return given

        if key not in self._given:
            self.draw(order, keep)
        return copy.deepcopy(self._given[key])

    def with_templates(self, folder: Path, file: str, old: str, new: str) -> Path:
        """Return a copy of the templates with one place of one file changed."""
        return with_change(self.templates, folder, file, old, new)


@dataclass(frozen=True, slots=True)
class PaperPlant:
    """One PDF with one fault in it."""

    what: str
    order: Provable
    pdf: bytes
    rules: frozenset[str]
    """Names of the rules of which one at least must be broken."""


def with_change(templates: Path, folder: Path, file: str, old: str, new: str) -> Path:
    """Return *folder*, filled with *templates* of which one place is changed."""
    shutil.copytree(templates, folder, dirs_exist_ok=True)
    text = (templates / file).read_text(encoding="utf-8")
    assert text.count(old) == 1, (file, old)
    (folder / file).write_text(text.replace(old, new), encoding="utf-8", newline="\n")
    return folder


def replaced_by(given: Given) -> Change:
    """Return what draws *given* whatever it is given."""

    def change(_: Given) -> Given:
        return given

    return change


def pieces_in(given: Given, *kinds: str) -> list[tuple[int, int]]:
    """Return the places of pieces of some kinds: number of the group and in the group."""
    return [
        (number, place)
        for number, group in enumerate(given["groups"])
        for place, piece in enumerate(group["pieces"])
        if piece["kind"] in kinds
    ]


def spread(found: list[tuple[int, int]], count: int) -> list[tuple[int, int]]:
    """Return *count* places spread over all of *found*, the first and the last among them."""
    if len(found) <= count:
        return found
    last = len(found) - 1
    return [found[round(place * last / max(count - 1, 1))] for place in range(count)]
