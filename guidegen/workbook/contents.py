"""What each cell of a workbook shows when it is exported.

Takes in a record and its model's; gives out the text of every cell and what is known of it.
Refuses to tell another story than the resolver of units: the nearest word on a section counts.
"""

from collections.abc import Iterator

from guidegen.specs.equipment import EQUIPMENT_FACTS, EQUIPMENT_SECTIONS
from guidegen.specs.fields import NOT_FITTED
from guidegen.workbook.model import ORIGIN, Column, Content, Kind, Record, Role, Row, State
from guidegen.workbook.topics import FITTED, has_presence

UNKNOWN = "?"
"""Stands where nothing is on record."""

NONE_HERE = "–"  # noqa: RUF001 -- a dash of its own, which nobody types as a value
"""Stands where the truck does not have the thing."""

_NEW = Content("", State.NEW)


def content_of(column: Column, row: Row, model: Record | None) -> Content:
    """Return what the cell of *column* in *row* shows.

    Args:
        column: Of any sheet.
        row: One that waits for a new truck or model shows nothing.
        model: The record of a truck's model; none for a model, or if there is no such model.
    """
    record = row.record
    if record is None:
        return _NEW
    if column.is_key:
        return Content(_key(column.role, record, row.fact), State.OWN)
    if column.role is Role.SHOWN:
        return Content(record.own.get(row.fact, ""), State.OWN)
    if column.role is Role.ORIGIN:
        said = record.own.get(row.column(column).name)
        return _NEW if said is None else Content(said, State.OWN)
    if column.role is Role.SECTION:
        return _section(column.name, record, model)
    return _value(column.name, record, model)


def _key(role: Role, record: Record, fact: str) -> str:
    if role is Role.NAMED:
        return fact
    if role is Role.CALLED:
        return _called(fact)
    if role is Role.KIND:
        return record.kind.value
    if role is Role.KEY:
        return record.key
    return record.model if record.kind is Kind.TRUCK else ""


def _called(fact: str) -> str:
    known = EQUIPMENT_FACTS[fact]
    around = EQUIPMENT_SECTIONS[known.section].label
    return f"{around}: {known.label}" if has_presence(known.section) else known.label


def _section(name: str, record: Record, model: Record | None) -> Content:
    if any(_is_missing(outer, record, model) for outer in _outer(name)):
        return Content(NONE_HERE, State.NOT_FITTED)
    for layer, fitted, missing in (
        (record, State.OWN, State.OWN_NOT_FITTED),
        (model, State.INHERITED, State.NOT_FITTED),
    ):
        if layer is not None and layer.own.get(name) == NOT_FITTED:
            return Content(NOT_FITTED, missing)
        if layer is not None and states_any(layer, name):
            return Content(FITTED, fitted)
    return Content(UNKNOWN, State.NOT_ON_RECORD)


def _value(name: str, record: Record, model: Record | None) -> Content:
    if any(_is_missing(section, record, model) for section in _outer(name)):
        return Content(NONE_HERE, State.NOT_FITTED)
    if name in record.own:
        return Content(record.own[name], State.OWN)
    if model is not None and name in model.own and name not in ORIGIN:
        return Content(model.own[name], State.INHERITED)
    return Content(UNKNOWN, State.NOT_ON_RECORD)


def _is_missing(section: str, record: Record, model: Record | None) -> bool:
    for layer in (record, model):
        if layer is not None and layer.own.get(section) == NOT_FITTED:
            return True
        if layer is not None and states_any(layer, section):
            return False
    return False


def states_any(record: Record, section: str) -> bool:
    """Whether the file of *record* states anything in *section*."""
    return any(name.startswith(f"{section}.") for name in record.own)


def _outer(section: str) -> Iterator[str]:
    while "." in section:
        section = section.rpartition(".")[0]
        yield section
