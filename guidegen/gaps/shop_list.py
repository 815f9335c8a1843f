"""The list for the shop: what to look up, by yard and truck.

Takes in the gaps of a fleet; gives out rows, and these as CSV or plain text.
Refuses cells that a spreadsheet would run: a text that begins like a formula is marked as text.
"""

import csv
import io
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from guidegen.gaps.look_up import look_ups
from guidegen.gaps.model import FleetGaps, Grade, LookUp, UnitGaps
from guidegen.guide.counting_order import in_counting_order

NO_YARD = "no yard on record"

COLUMNS = (
    *("yard", "unit", "model", "holds back", "topic", "what to look up", "measure"),
    *("believable", "where on the truck", "document", "only if", "name in the spec"),
    *("value", "source", "recorded on", "recorded by"),
)
"""The last four are to be filled in."""

_BLANKS = 4
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
"""What spreadsheets take for the beginning of a formula: OWASP, CSV Injection."""


@dataclass(frozen=True, slots=True)
class Row:
    """One thing to look up at one truck."""

    yard: str
    unit: str
    model: str
    look_up: LookUp


def shop_rows(fleet: FleetGaps, *, least: Grade = Grade.LEAVES_OUT) -> tuple[Row, ...]:
    """Return what to look up, by yard and truck, what holds guides back first on each truck."""
    units = sorted(
        fleet.units.values(), key=lambda unit: (_yard(unit), in_counting_order(unit.number))
    )
    return tuple(
        Row(_yard(unit), unit.number, unit.model, entry)
        for unit, entries in _with_look_ups(units, least)
        for entry in entries
    )


def _with_look_ups(
    units: Iterable[UnitGaps], least: Grade
) -> Iterator[tuple[UnitGaps, tuple[LookUp, ...]]]:
    """Yield each of *units* with what to look up, put together once for those that are alike."""
    known: dict[str, tuple[LookUp, ...]] = {}
    for unit in units:
        key = unit.alike or unit.number
        if key not in known:
            known[key] = look_ups(unit, least=least)
        yield unit, known[key]


def as_csv(rows: tuple[Row, ...]) -> str:
    r"""Return *rows* as RFC 4180 has it: commas, quotes where needed, lines that end with CR LF."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for row in rows:
        writer.writerow([*map(safe_cell, _cells(row)), *[""] * _BLANKS])
    return text.getvalue()


def as_plain_text(rows: tuple[Row, ...]) -> str:
    """Return *rows* for a printer or a message."""
    return "\n".join(_plain_lines(rows)) + "\n"


def safe_cell(text: str) -> str:
    """Return *text* so that a spreadsheet shows it and does not run it.

    >>> safe_cell("=1+1"), safe_cell("12 qt")
    ("'=1+1", '12 qt')
    """
    return f"'{text}" if text.lstrip(" ").startswith(_FORMULA) else text


def _cells(row: Row) -> tuple[str, ...]:
    look = row.look_up
    return (
        *(row.yard, row.unit, row.model, look.grade.value, look.topic, look.what, look.measure),
        *(look.believable, look.where, look.document, look.depends, look.name),
    )


def _yard(unit: UnitGaps) -> str:
    return unit.yard or NO_YARD


def _plain_lines(rows: tuple[Row, ...]) -> Iterator[str]:
    for yard, of_yard in groupby(rows, key=lambda row: row.yard):
        yield f"{yard}"
        yield "=" * len(yard)
        for number, of_unit in groupby(of_yard, key=lambda row: row.unit):
            listed = list(of_unit)
            yield f"\n{number} ({listed[0].model})"
            for row in listed:
                look = row.look_up
                mark = "!" if look.grade is Grade.HOLDS else " "
                depends = f" [{look.depends}]" if look.depends else ""
                between = f", {look.believable}" if look.believable else ""
                yield f" {mark} {look.what}{depends}"
                yield f"     in: {look.measure}{between}"
                if look.where:
                    yield f"     where: {look.where}"
                if look.document:
                    yield f"     document: {look.document}"
        yield ""
    yield "! holds the guide back"
