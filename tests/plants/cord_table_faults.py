"""Tables of cords that show another gauge, another row or another cord."""

import itertools
import re
from collections.abc import Iterator

from plants.plant import Element, elements, elements_of, exchanged

from guidegen.procedures.figure_kinds import CORD_TABLE_ROWS

TRUCK = "T-17"
PAGE = f"{TRUCK}/end-of-day.html"
VALUE = frozenset({"value-not-read-back"})
DIFFERS = frozenset({"figure-differs"})
_STROKE = re.compile(r'<line x1="500"[^>]*/>')
_CROSS = re.compile(r'<line x1="523"[^>]*/>')


def table_of(page: str) -> Element:
    (figure,) = elements(page, "data-figure", "cord_table")
    inside = [each for each in elements_of(page, "svg") if figure.start < each.start < figure.end]
    return inside[0]


def cells(page: str, drawing: Element) -> dict[str, Element]:
    return {
        each.key: each
        for each in elements(page, "data-fact")
        if drawing.start < each.start < drawing.end
    }


def wrong_cells(page: str) -> Iterator[tuple[str, str, frozenset[str]]]:
    """Every cell with another value, with nothing, and in another row."""
    drawing = table_of(page)
    found = cells(page, drawing)
    gauges = [found[f"{cord}_gauge"] for cord in CORD_TABLE_ROWS]
    lengths = [found[cord] for cord in CORD_TABLE_ROWS]
    for cell in gauges:
        for other in ("18 AWG (1 mm²)", "10 AWG (6 mm²)", "16 AWG (2.5 mm²)", "16 AWG", ""):
            yield f"{cell.key} says `{other}`", cell.with_inner(other), VALUE
    for cell in lengths:
        for other in ("25 ft (7.7 m)", "150 ft (45.6 m)", "25 m (7.6 ft)", ""):
            yield f"{cell.key} says `{other}`", cell.with_inner(other), VALUE
    for column in (gauges, lengths):
        for first, second in itertools.pairwise(column):
            yield f"{first.key} and {second.key} exchanged", exchanged(first, second), VALUE
    for cell in found.values():
        gone = frozenset({"value-missing", "text-missing", "figure-differs"})
        yield f"no {cell.key}", cell.with_outer(""), gone


def wrong_strokes(page: str) -> Iterator[tuple[str, str, frozenset[str]]]:
    """A thicker stroke, none at all, and the cross taken for a cord."""
    drawing = table_of(page)
    for stroke in _STROKE.finditer(page, drawing.start, drawing.end):
        cut = page[: stroke.start()] + page[stroke.end() :]
        yield f"no {stroke[0]}", cut, DIFFERS
        thick = re.sub(r'stroke-width="\d+"', 'stroke-width="20"', stroke[0])
        yield thick, page[: stroke.start()] + thick + page[stroke.end() :], DIFFERS
    crosses = list(_CROSS.finditer(page, drawing.start, drawing.end))
    for cross in crosses:
        yield f"no {cross[0]}", page[: cross.start()] + page[cross.end() :], DIFFERS
    assert crosses


def wrong_captions(page: str) -> Iterator[tuple[str, str, frozenset[str]]]:
    """The words below the table, with another gauge or without the electrical code."""
    (caption,) = elements(page, "data-text", "heater-cord.figure")
    less = caption.inner.replace(" The electrical code of the place comes first.", "")
    assert less != caption.inner
    rules = VALUE | {"text-not-read-back"}
    yield "no word of the code", caption.with_inner(less), rules
    for gauge in ("14\u00a0AWG", "no cord of this length"):
        for written in (gauge, gauge.replace("\u00a0", "&nbsp;")):
            if written in caption.inner:
                wrong = caption.inner.replace(written, "18\u00a0AWG", 1)
                yield f"{gauge} to 18 AWG in the caption", caption.with_inner(wrong), rules


CORD_KINDS = {"cells": wrong_cells, "strokes": wrong_strokes, "captions": wrong_captions}
