"""Booklets of the demo fleet, and booklets that are drawn with a fault."""

import copy
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

from plants.paper_press import ADDRESS, DATE, Change, ChangingTypesetter, Given, Shop, with_change

from guidegen.decks.deal import issue_of
from guidegen.finding import Findings
from guidegen.paper.booklet import BOOKLET_STOCKS, TEMPLATE, Booklet, BookletPress, look_of
from guidegen.paper.typeset import Typesetter
from guidegen.paper_proof.booklet_claims import BookletOrder
from guidegen.paper_proof.model import PaperVerdict
from guidegen.paper_proof.prove import prove_booklet

SHORT = ("air-brakes", "hydraulic-brakes", "warning-lamps")
"""Chapters of a short booklet: cautions, figures, values and lamps."""

FEW = 8
"""So many procedures a chapter has in a short booklet: of lamps, a chapter has thirty."""

AWAY = frozenset(
    (
        *("aftertreatment", "air_cleaner", "axles", "battery", "battery_switch", "block_heater"),
        *("cab_access", "cruise", "def_system", "engine_brake", "fifth_wheel", "fuel_tanks"),
        *("horn", "mirrors", "power_steering", "seat", "steering_column", "suspension"),
        *("wheels", "wipers"),
    )
)
"""Topics whose values a short booklet is without: its data and index have half the pages then."""


@dataclass(frozen=True, slots=True)
class BookletToProve:
    """One booklet of one truck, to be drawn and proved."""

    order: BookletOrder

    @property
    def name(self) -> str:
        return f"{self.order.guide.number} {self.order.side.id}"

    def prove(self, pdf: bytes) -> PaperVerdict:
        return prove_booklet(pdf, self.order)

    def rules_of(self, pdf: bytes) -> frozenset[str]:
        return frozenset(each.rule.name for each in self.prove(pdf).failures)


@dataclass(frozen=True, slots=True)
class BookletShop:
    """All that booklets are drawn with."""

    shop: Shop
    _whole: dict[str, bytes] = field(default_factory=dict, compare=False)
    _given: dict[str, Given] = field(default_factory=dict, compare=False)

    def whole_guide(self, unit: str, size: str) -> BookletToProve:
        """Return the booklet with all of a truck's guide."""
        guide = self.shop.guides[unit]
        side = BOOKLET_STOCKS[size]
        span = next(iter(self.shop.kinds.values())).span
        issue = issue_of(guide, DATE, ADDRESS)
        tour = self.shop.tours[unit]
        return BookletToProve(BookletOrder(guide, tour, side, self.shop.fleet, issue, span))

    def short_guide(self, unit: str, size: str) -> BookletToProve:
        """Return a booklet with a few procedures, and the values of some topics."""
        order = self.whole_guide(unit, size).order
        chapters = tuple(
            replace(each, procedures=each.procedures[:FEW])
            for each in order.guide.chapters
            if each.id in SHORT
        )
        facts = {
            name: fact
            for name, fact in order.guide.facts.items()
            if name.partition(".")[0] not in AWAY
        }
        guide = replace(order.guide, chapters=chapters, facts=facts)
        return BookletToProve(replace(order, guide=guide, tour=None))

    def draw(
        self, booklet: BookletToProve, change: Change | None = None, folder: Path | None = None
    ) -> bytes:
        """Return the PDF, with its matter changed and other templates if given."""
        template, look = (folder or self.shop.templates) / TEMPLATE, look_of(self.shop.theme)
        setter = (
            ChangingTypesetter(template, look, change) if change else Typesetter(template, look)
        )
        order, findings = booklet.order, Findings()
        wanted = Booklet(order.guide, order.tour, order.side, order.span)
        pdf = BookletPress(order.fleet, setter).draw(wanted, order.issue, findings)
        assert pdf is not None, [each.what for each in findings]
        return pdf

    def draw_with(self, booklet: BookletToProve, file: str, old: str, new: str) -> bytes:
        """Return the PDF that a changed template draws."""
        with TemporaryDirectory() as name:
            folder = with_change(self.shop.templates, Path(name), file, old, new)
            return self.draw(booklet, None, folder)

    def whole(self, booklet: BookletToProve) -> bytes:
        """Return the PDF without a fault; drawn once."""
        return _kept(self._whole, self._key(booklet), partial(self.draw, booklet))

    def given(self, booklet: BookletToProve) -> Given:
        """Return what the template is given; to be changed at will."""
        key = self._key(booklet)

        def keep(given: Given) -> Given:
            self._given[key] = copy.deepcopy(given)
            return given

        if key not in self._given:
            self._whole[key] = self.draw(booklet, keep)
        return copy.deepcopy(self._given[key])

    def _key(self, booklet: BookletToProve) -> str:
        return f"{booklet.name} {len(booklet.order.guide.chapters)}"


def _kept(kept: dict[str, bytes], key: str, make: Callable[[], bytes]) -> bytes:
    if key not in kept:
        kept[key] = make()
    return kept[key]
