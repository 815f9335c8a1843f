"""From a guide to a booklet with all of it.

Takes in a guide, its inspection round and what the cover says of its origin; gives out a PDF, or
findings. Refuses to cut, shrink or drop: what fits on no page is reported with its place.
"""

from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from types import MappingProxyType
from typing import Any

from guidegen.decks.model import Issue
from guidegen.decks.sizes import SIDES, Side
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper.booklet_matter import BookletChapter, chapters_of
from guidegen.paper.boxes import compacted
from guidegen.paper.code import code_of
from guidegen.paper.keywords import entries_of, keywords_of
from guidegen.paper.letters import check_letters, group_as_file
from guidegen.paper.matter import Matter
from guidegen.paper.misfit import Place, report_misfit
from guidegen.paper.theme import Theme
from guidegen.paper.typeset import Stopped, Typesetter, as_file
from guidegen.procedures.model import Signal
from guidegen.procedures.words import LABELS, SIGNAL_DEFINITIONS
from guidegen.round.model import Round
from guidegen.source import Span

TEMPLATE = "booklet.typ"

BOOKLET_STOCKS = MappingProxyType({name: SIDES[name] for name in ("letter", "a4", "a5")})
"""Pages that a booklet can have, by name."""

TEXT_SIZE = Decimal(10)
"""Points; text on a page that lies on a desk is not smaller. Common practice, no source."""

MARGINS = MappingProxyType({"letter": Decimal(16), "a4": Decimal(16), "a5": Decimal("12.5")})
"""Millimeters on all sides: holes for a binder need 12, and letters such as j reach a little over
the edge of the text. Common practice, no source."""

TITLE_FACTS = ("identity.year", "identity.make", "identity.model_name", "identity.body")


@dataclass(frozen=True, slots=True)
class Booklet:
    """The guide of one truck, to be printed whole."""

    guide: Guide
    tour: Round | None
    """The guide's inspection round, if it has one."""

    stock: Side
    """One of `BOOKLET_STOCKS`."""

    span: Span
    """Of what asks for the booklet."""


@dataclass(frozen=True, slots=True)
class BookletPress:
    """What draws booklets: the theme and a typesetter that is kept warm."""

    fleet: str
    """Its name."""

    typesetter: Typesetter

    @classmethod
    def at(cls, folder: Path, theme: Theme, fleet: str) -> "BookletPress":
        """Return a press with the templates in *folder*."""
        return cls(fleet, Typesetter(folder / TEMPLATE, look_of(theme)))

    def draw(self, booklet: Booklet, issue: Issue, findings: Findings) -> bytes | None:
        """Return *booklet* as PDF, or nothing if something in it fits on no page.

        Args:
            booklet: What to draw.
            issue: What the cover and every page say of their origin.
            findings: Takes what does not fit.
        """
        guide, stock, span = booklet.guide, booklet.stock, booklet.span
        matter = Matter(guide)
        chapters = tuple(chapters_of(matter, booklet.tour, span))
        groups = tuple(group for chapter in chapters for group in chapter.groups)
        stamp = self._stamp_of(matter, issue)
        heads = [(f"{guide.number} {stamp['truck']} {self.fleet}", span)]
        if not check_letters(groups, heads, guide.number, findings):
            return None
        shared = as_file(_matter_of(matter, chapters, stock))
        try:
            return compacted(self.typesetter.draw(shared, stamp, issue.document_date))
        except Stopped as stopped:
            place = Place("page", f"the booklet, size `{stock.id}`", span, "bigger pages")
            report_misfit(stopped, groups, place, guide.number, findings)
            return None

    def _stamp_of(self, matter: Matter, issue: Issue) -> dict[str, Any]:
        number = matter.guide.number
        named = [matter.value_words(name) for name in TITLE_FACTS if name in matter.guide.facts]
        return {
            "document": f"{number}: {LABELS['quick_guide']}",
            "fleet": self.fleet,
            "unit": number,
            "truck": " ".join(named),
            "revision": f"{LABELS['revision']} {issue.revision}",
            "date": issue.date,
            "code": code_of(issue.link).as_file(),
        }


def look_of(theme: Theme) -> dict[str, Any]:
    """Return how a booklet of *theme* looks, in types that JSON has."""
    look = theme.as_file()
    sizes = look["sizes"]
    larger = {name: max(float(TEXT_SIZE), sizes[name]) for name in ("text", "signal")}
    return {**look, "sizes": {**sizes, **larger}}


def _matter_of(matter: Matter, chapters: tuple[BookletChapter, ...], stock: Side) -> dict[str, Any]:
    names = ("table_of_contents", "index", "page", "quick_guide", "continued", "signal_words")
    index = [
        {"word": key.word, "entries": [[entry.words, entry.anchor] for entry in key.entries]}
        for key in keywords_of(entries_of(matter))
    ]
    return {
        "side": {"width": float(stock.width), "height": float(stock.height)},
        "margin": float(MARGINS[stock.id]),
        "columns": 1 if stock.id == "a5" else 2,
        "labels": {
            **{name: LABELS[name] for name in names},
            "of": f" {LABELS['of']} ",
            "notes": [LABELS["park_first"], LABELS["handbook_first"]],
        },
        "signals": [[signal.value, SIGNAL_DEFINITIONS[signal.value]] for signal in Signal],
        "chapters": [
            {"title": each.title, "groups": [group_as_file(group) for group in each.groups]}
            for each in chapters
        ],
        "index": index,
    }
