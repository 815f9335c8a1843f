"""What draws the trainer's sheets: whole pages of the printer's own paper.

Takes in what stands on a sheet and what each page says of its origin; gives out a PDF, or
findings. Refuses letters that the font has no shape for, and words wider than their column.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from guidegen.decks.model import Issue
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper import rules
from guidegen.paper.code import code_of
from guidegen.paper.glyphs import missing_letters
from guidegen.paper.stock import Stock
from guidegen.paper.theme import Theme
from guidegen.paper.typeset import Stopped, Typesetter, as_file
from guidegen.procedures.words import LABELS
from guidegen.source import Span

Body = Mapping[str, Any]
"""What a template is given beside what all sheets have, in types that JSON has."""


@dataclass(frozen=True, slots=True)
class SheetPress:
    """The theme and a typesetter that is kept warm, for one kind of sheet."""

    theme: Theme
    fleet: str
    """Its name."""

    typesetter: Typesetter

    @classmethod
    def at(cls, template: Path, theme: Theme, fleet: str) -> "SheetPress":
        """Return a press for the sheets that *template* draws."""
        return cls(theme, fleet, Typesetter(template, theme.as_file()))

    def draw(
        self, body: Body, guide: Guide, issue: Issue, stock: Stock, findings: Findings
    ) -> bytes | None:
        """Return the PDF of a sheet, or nothing if something cannot be set.

        Args:
            body: With a `title`, and what the template asks for.
            guide: Of the truck that it is for.
            issue: What each page says of its origin.
            stock: What the printer is fed with.
            findings: Takes what cannot be set.
        """
        span = next(iter(guide.facts.values())).provenance.span
        missing = missing_letters("".join((self.fleet, guide.number, *_leaves(body))))
        if missing:
            _report_letters(missing, str(body["title"]), guide.number, span, findings)
            return None
        try:
            return self.typesetter.draw(
                as_file(_shared(body, stock)), self._stamp(body, guide, issue), issue.document_date
            )
        except Stopped as stopped:
            findings.add(
                rules.WORD_WIDER_THAN_SIDE,
                span,
                what=f"{len(stopped.places)} words are wider than a column of `{body['title']}`",
                fix="shorten the longest words of the truck's values, or make the type smaller",
                unit=guide.number,
            )
            return None

    def _stamp(self, body: Body, guide: Guide, issue: Issue) -> dict[str, Any]:
        return {
            "document": f"{guide.number}: {body['title']}",
            "fleet": self.fleet,
            "unit": guide.number,
            "revision": f"{LABELS['revision']} {issue.revision}",
            "date": issue.date,
            "of": f" {LABELS['of']} ",
            "code": code_of(issue.link).as_file(),
        }


def _shared(body: Body, stock: Stock) -> dict[str, Any]:
    side = {"width": float(stock.width), "height": float(stock.height)}
    return {"side": side, "body": body}


def _report_letters(missing: str, title: str, unit: str, span: Span, findings: Findings) -> None:
    findings.add(
        rules.LETTER_WITHOUT_SHAPE,
        span,
        what=f"the {title.lower()} holds `{missing}`, and the font has no shape for it",
        fix="write it in letters and digits",
        unit=unit,
    )


def _leaves(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for each in value.values():
            yield from _leaves(each)
    elif isinstance(value, list):
        for each in value:
            yield from _leaves(each)
