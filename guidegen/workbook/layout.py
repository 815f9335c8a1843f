"""Where everything stands in a workbook.

Takes in the records of a fleet; gives out the sheets with a row for each truck and model, and
empty rows for new ones. Refuses to depend on anything else: the same records and catalog give
the same places, which is how a moved column is found.
"""

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guidegen.specs.equipment import EQUIPMENT_FACTS
from guidegen.specs.fleet import Yard
from guidegen.workbook.model import Column, Kind, Record, Row, Sheet
from guidegen.workbook.topics import (
    MODELS,
    SOURCE_COLUMNS,
    SOURCES,
    TRUCKS,
    model_columns,
    topic_keys,
    topics,
    truck_columns,
)

FORM = "2"
"""Of the layout; another one cannot be imported."""

BAND_ROW, LABEL_ROW, NAME_ROW, FIRST_ROW = 2, 3, 4, 5
"""Rows, counted from 1: section, header, dotted name, first truck or model."""

NEW_TRUCKS, NEW_MODELS = 40, 15
"""Empty rows that wait for new ones."""


@dataclass(frozen=True, slots=True)
class Layout:
    """All sheets of a workbook that a clerk sees, but for the first."""

    sheets: tuple[Sheet, ...]
    catalog: str
    """SHA-256 over the names and headers of all columns."""


def lay_out(records: Iterable[Record], yards: tuple[Yard, ...]) -> Layout:
    """Return the sheets for *records*: models first, then trucks, each by key."""
    listed = sorted(records, key=lambda record: (record.kind is Kind.TRUCK, record.key))
    trucks = [record for record in listed if record.kind is Kind.TRUCK]
    models = [record for record in listed if record.kind is Kind.MODEL]
    sheets = (
        Sheet(
            TRUCKS,
            "Every truck of the fleet. Enter a new truck in the first empty row at the end.",
            truck_columns(yards),
            tuple(_rows(trucks, NEW_TRUCKS)),
        ),
        Sheet(
            MODELS,
            "What all trucks of a model share. Enter a new model in the first empty row.",
            model_columns(yards),
            tuple(_rows(models, NEW_MODELS)),
        ),
        *(
            Sheet(
                title,
                "A truck inherits what its model states. For a new truck or model, choose kind and"
                " number in an empty row at the end.",
                (*topic_keys(), *columns),
                tuple(_rows(tuple(_by_model(models, trucks)), NEW_TRUCKS + NEW_MODELS)),
            )
            for title, columns in topics()
        ),
    )
    sources = tuple(_fact_rows(_by_model(models, trucks)))
    if sources:
        sheets = (*sheets, _source_sheet(sources))
    return Layout(sheets, _catalog(sheets))


def _by_model(models: Iterable[Record], trucks: Iterable[Record]) -> Iterator[Record]:
    """Yield each model with its trucks below it; trucks of an unknown model come last."""
    left = list(trucks)
    for model in models:
        yield model
        yield from (truck for truck in left if truck.model == model.key)
        left = [truck for truck in left if truck.model != model.key]
    yield from left


def _rows(records: Iterable[Record], new: int) -> Iterator[Row]:
    number = FIRST_ROW
    for record in records:
        yield Row(number, record)
        number += 1
    for more in range(new):
        yield Row(number + more, None)


def _source_sheet(rows: tuple[Row, ...]) -> Sheet:
    return Sheet(
        SOURCES,
        "Where single values come from, if not from what the row on Trucks or Models names. A"
        " value that is entered now has its row here in the next workbook.",
        (*topic_keys()[:2], *SOURCE_COLUMNS),
        rows,
    )


def _fact_rows(records: Iterable[Record]) -> Iterator[Row]:
    number = FIRST_ROW
    for record in records:
        for name in EQUIPMENT_FACTS:
            if name in record.own:
                yield Row(number, record, name)
                number += 1


def kept_column(sheet: Sheet, column: int) -> int:
    """Return the hidden column that keeps what *column* showed, both counted from 1."""
    return len(sheet.columns) + 1 + column


def state_column(sheet: Sheet) -> int:
    """Return the hidden column that keeps the states of a row's cells as one word."""
    return kept_column(sheet, len(sheet.columns)) + 1


def _catalog(sheets: Iterable[Sheet]) -> str:
    parts = [(sheet.title, [_head(column) for column in sheet.columns]) for sheet in sheets]
    return hashlib.sha256(repr(parts).encode()).hexdigest()


def _head(column: Column) -> tuple[str, str]:
    return column.name, column.label
