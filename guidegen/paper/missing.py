"""The form to walk around a truck with, in words.

Takes in one truck and what is to be looked up at it; gives out what the template is given, and the
PDF. Refuses to send anyone around a truck without the usual cautions: they stand before the first
line. It holds blanks for who looked, and keeps no names.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import Any

from guidegen.finding import Findings
from guidegen.gaps.look_up import FITTED
from guidegen.gaps.model import Grade, LookUp, UnitGaps
from guidegen.paper import rules
from guidegen.paper.glyphs import missing_letters
from guidegen.paper.stock import Stock
from guidegen.paper.theme import Theme
from guidegen.paper.typeset import Typesetter, as_file
from guidegen.procedures.words import LABELS
from guidegen.units.model import Presence, Unit

TEMPLATE = "missing.typ"
TITLE = "What to look up"

HAZARD = "A truck that nothing holds can roll. It can crush you."

CAUTIONS = (
    "Park on firm, level ground, clear of traffic.",
    "Set the parking brake.",
    "Shut the engine off.",
    "Take the key out and keep it with you.",
    "Chock the wheels.",
)
"""Before anybody walks around a truck; common practice, no source."""

ELECTRIC = "Unplug the charging cable. Touch no orange cable and no part that it leads to."
AIR = "Do not crawl under the truck. Let a qualified person look there."

FIRST = (
    "Look into the owner's manual first: most of it stands there.",
    LABELS["handbook_first"],
    "If a value can only be read at a running or opened part, leave it to the shop.",
)

_PARTS = {
    Grade.HOLDS: ("Without these there is no guide", ""),
    Grade.MAY_HOLD: (
        "These too, if what you found asks for them",
        "Look them up on the same walk: it saves a second one.",
    ),
    Grade.LEAVES_OUT: ("The guide is short of something without these", ""),
}
_COLUMNS = ("Source", "Date", "Who")
_YES_NO = "yes or no"
_TICKS = {FITTED: ("fitted", "not fitted"), _YES_NO: ("yes", "no")}


@dataclass(frozen=True, slots=True)
class FormPress:
    """The theme and a typesetter that is kept warm, for the forms of a fleet."""

    theme: Theme
    fleet: str
    """Its name."""

    typesetter: Typesetter

    @classmethod
    def at(cls, folder: Path, theme: Theme, fleet: str) -> "FormPress":
        """Return a press that draws with the templates in *folder*."""
        return cls(theme, fleet, Typesetter(folder / TEMPLATE, theme.as_file()))

    def draw(  # noqa: PLR0913 -- a form is all of this
        self,
        unit: UnitGaps,
        entries: Iterable[LookUp],
        stock: Stock,
        day: str,
        findings: Findings,
        *,
        is_day_shown: bool = True,
    ) -> bytes | None:
        """Return the PDF of one truck's form, or nothing if a letter has no shape.

        Args:
            unit: The truck with its gaps.
            entries: What to look up, as `guidegen.gaps.look_up.look_ups` has it.
            stock: What the printer is fed with.
            day: On which the form was made, as ``2026-11-20``.
            findings: Takes letters that the font has no shape for.
            is_day_shown: Whether the head of each page says the day.
        """
        body = form_body(unit, entries)
        missing = missing_letters("".join((self.fleet, unit.number, *_texts(body))))
        if missing:
            findings.add(
                rules.LETTER_WITHOUT_SHAPE,
                unit.unit.span,
                what=f"the form holds `{missing}`, and the font has no shape for it",
                fix="write it in letters and digits",
                unit=unit.number,
            )
            return None
        side = {"width": float(stock.width), "height": float(stock.height)}
        stamp = {
            "document": f"{unit.number}: {TITLE}",
            "fleet": self.fleet,
            "unit": unit.number,
            "date": f", {day}" if is_day_shown else "",
            "of": f" {LABELS['of']} ",
        }
        return self.typesetter.draw(as_file({"side": side, "body": body}), stamp, day)


def form_body(unit: UnitGaps, entries: Iterable[LookUp]) -> dict[str, Any]:
    """Return what the template is given: cautions first, then a line for each thing to look up."""
    grouped = groupby(entries, key=lambda entry: entry.grade)
    return {
        "title": TITLE,
        "about": list(_about(unit.unit)),
        "hazard": HAZARD,
        "cautions": [*CAUTIONS, *_own_cautions(unit.unit)],
        "first": list(FIRST),
        "blanks": ["Who walked around the truck", "Date"],
        "columns": list(_COLUMNS),
        "parts": [
            {
                "title": _PARTS[grade][0],
                "note": _PARTS[grade][1],
                "lines": [_line(entry) for entry in same],
            }
            for grade, same in grouped
            if grade in _PARTS
        ],
    }


def _about(unit: Unit) -> Iterator[str]:
    named = ("identity.make", "identity.model_name", "identity.year")
    told = [str(unit.facts[name].value) for name in named if name in unit.facts]
    yield " ".join(told) if told else unit.model
    for name in ("identity.plate", "identity.vin", "identity.yard"):
        if name in unit.facts:
            yield f"{unit.facts[name].field.label}: {unit.facts[name].value}"


def _own_cautions(unit: Unit) -> Iterator[str]:
    # What nobody has on record may be there: only a plain "not fitted" takes a caution away.
    if unit.sections["high_voltage"].presence is not Presence.NOT_FITTED:
        yield ELECTRIC
    yield AIR


def _line(entry: LookUp) -> dict[str, Any]:
    ticks = list(_TICKS.get(entry.measure, ()))
    listed = entry.measure if ":" in entry.measure else ""
    hints = [
        *([listed] if listed else []),
        *([f"Believable: {entry.believable}"] if entry.believable else []),
        *([entry.where] if entry.where else []),
        *([f"See: {entry.document}"] if entry.document else []),
    ]
    return {
        "what": entry.what,
        "depends": entry.depends,
        "hints": hints,
        "ticks": ticks,
        "measure": "" if ticks or listed or entry.measure == "words" else entry.measure,
    }


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for each in value.values():
            yield from _texts(each)
    elif isinstance(value, list):
        for each in value:
            yield from _texts(each)
