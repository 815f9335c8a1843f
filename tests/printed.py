"""What tests print: kinds of cards by hand, a press with the project's own templates, and the text
of a PDF as pypdfium2 reads it.
"""

from decimal import Decimal
from functools import cache
from pathlib import Path

import pypdfium2  # type: ignore[import-untyped]  # it has no hints
from sample_fleet import SPAN

from guidegen.decks.model import Card, CardKind, Issue
from guidegen.decks.sizes import SIDES
from guidegen.finding import Findings
from guidegen.guide.model import Guide, Procedure
from guidegen.paper.card import CardPress
from guidegen.paper.matter import Matter
from guidegen.paper.theme import Theme, theme_from
from guidegen.specs.read import read_theme

PAPER = Path(__file__).parents[1] / "site_templates" / "paper"
ISSUE = Issue("1a2b3c4d", "2026-11-20", "https://guides.example.org/T-17/?r=1a2b3c4d")
BLEED = Decimal(3)


def kind(size: str = "4x6", **parts: object) -> CardKind:
    """Return a kind of card; *parts* replace what is none by default."""
    none: dict[str, object] = {
        "id": "sample",
        "title": "Sample",
        "side": SIDES[size],
        "has_round": False,
        "procedures": (),
        "chapters": (),
        "facts": (),
        "has_lamps": False,
        "is_large": False,
        "span": SPAN,
    }
    return CardKind(**{**none, **parts})  # type: ignore[arg-type]  # parts are named by each test


def card_of(*procedures: Procedure, size: str = "4x6", facts: tuple[str, ...] = ()) -> Card:
    return Card(kind(size), None, procedures, facts, ())


@cache
def theme() -> Theme:
    findings = Findings()
    file = read_theme("theme.yml", (PAPER / "theme.yml").read_bytes(), findings)
    assert file is not None
    found = theme_from(file, findings)
    assert found is not None
    return found


@cache
def press() -> CardPress:
    return CardPress.at(PAPER, theme(), "Bluff County Haulage")


def draw(card: Card, guide: Guide, findings: Findings | None = None) -> bytes:
    found = Findings() if findings is None else findings
    pdf = press().draw(card, Matter(guide), ISSUE, found)
    assert pdf is not None, [finding.what for finding in found]
    return pdf


def sides(pdf: bytes) -> list[str]:
    """Return the text of each page, white space folded."""
    opened = pypdfium2.PdfDocument(pdf)
    texts = [page.get_textpage().get_text_bounded() for page in opened]
    opened.close()
    return [" ".join(text.split()) for text in texts]
