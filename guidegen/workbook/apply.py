"""From changes to the new text of spec files.

Takes in a file's bytes and the changes to it; gives out the new bytes. Refuses bytes that do not
state exactly what they must: all that the file stated before, but for the changes.
"""

import codecs
from collections.abc import Iterable, Mapping

from guidegen.finding import Findings
from guidegen.source import Span
from guidegen.specs.equipment import EQUIPMENT_FACTS, EQUIPMENT_SECTIONS
from guidegen.specs.fields import NOT_FITTED, ChoicesField
from guidegen.specs.model import Spec
from guidegen.workbook.model import (
    ORIGIN,
    Change,
    Kind,
    Place,
    Record,
    RecordKey,
    fact_of,
    is_origin,
    origin_of,
    steps_of,
)
from guidegen.workbook.records import BETWEEN, read_spec, record_of
from guidegen.workbook.yaml_edit import (
    Value,
    remove,
    set_not_fitted,
    set_value,
    states_values,
)
from guidegen.workbook.yaml_origin import set_origin
from guidegen.yaml_nodes import Node, Table, read_yaml

_ORDER = {name: number for number, name in enumerate((*EQUIPMENT_SECTIONS, *EQUIPMENT_FACTS))}


def new_file(id_: RecordKey, model: str) -> bytes:
    """Return a spec file for a new truck or model that states nothing yet."""
    kind, key = id_
    name = "unit" if kind is Kind.TRUCK else "model"
    head = f"# yaml-language-server: $schema=../../schema/{name}.schema.json\n"
    text = f"unit: {key}\nmodel: {model}\n" if kind is Kind.TRUCK else f"model: {key}\n"
    return (head + text).encode()


def changed_file(raw: bytes, changes: Iterable[Change]) -> bytes:
    """Return the file with *changes* made; line ends and byte order mark stay as they are.

    Raises:
        UneditableText: If the file is written in a way that cannot be edited.
    """
    mark = codecs.BOM_UTF8 if raw.startswith(codecs.BOM_UTF8) else b""
    text = raw[len(mark) :].decode()
    line_end = "\r\n" if "\r\n" in text else "\n"
    is_open = not text.endswith(("\n", "\r"))
    text = text.replace("\r\n", "\n").replace("\r", "\n") + ("\n" if is_open else "")
    for change in sorted(changes, key=_order):
        text = _changed(text, change)
    text = text.removesuffix("\n") if is_open else text
    return mark + text.replace("\n", line_end).encode()


def _order(change: Change) -> tuple[int, int, int]:
    """What is not fitted comes first, then values and where they come from, then what is taken out.

    A day comes before who: without one there is nobody.
    """
    name, fact = change.name, fact_of(change.name)
    if change.after is None:
        rank = 3 if name in EQUIPMENT_SECTIONS else 2
    else:
        rank = 0 if name in EQUIPMENT_SECTIONS else 1
    part = ORIGIN.index(name.removeprefix(f"{fact} ")) + 1 if is_origin(name) else 0
    return rank, _ORDER.get(fact, -1), part if rank == 1 else -part


def _changed(text: str, change: Change) -> str:
    if change.name in EQUIPMENT_SECTIONS:
        if change.after == NOT_FITTED:
            return set_not_fitted(text, change.name)
        return text if states_values(text, change.name) else remove(text, change.name)
    if change.after is None:
        return remove(text, change.name)
    if is_origin(change.name):
        return set_origin(text, change.name, change.after)
    return set_value(text, change.name, _value(change.name, change.after))


def _value(name: str, text: str) -> Value:
    fact = EQUIPMENT_FACTS.get(name)
    if fact is not None and isinstance(fact.field, ChoicesField):
        return tuple(text.split(BETWEEN))
    return text


def expected_own(own: Mapping[str, str], changes: Iterable[Change]) -> dict[str, str]:
    """Return what the file must state with *changes*, by dotted name."""
    expected = dict(own)
    for change in sorted(changes, key=_order):
        if change.after == NOT_FITTED and change.name in EQUIPMENT_SECTIONS:
            inside = f"{change.name}."
            expected = {k: v for k, v in expected.items() if not k.startswith(inside)}
        outer = change.name
        while "." in outer and change.after is not None:
            outer = outer.rpartition(".")[0]
            expected.pop(outer, None)
        expected.pop(change.name, None)
        if change.after is not None:
            expected[change.name] = change.after
        elif not is_origin(change.name):
            for part in ORIGIN:
                expected.pop(origin_of(change.name, part), None)
    return expected


def read_back(
    record: Record, raw: bytes, changes: Iterable[Change], findings: Findings
) -> tuple[Spec | None, bool]:
    """Return the spec of the new file, and whether it states what it must and nothing else.

    Args:
        record: As it was.
        raw: The new bytes.
        changes: Made in it.
        findings: Takes the faults that the program's own reader finds.
    """
    spec = read_spec(record.kind, record.path, raw, findings)
    if spec is None:
        return None, True
    now = record_of(record.kind, spec, record.path, raw)
    listed = tuple(changes)
    is_whole = now.own == expected_own(record.own, listed)
    sourced = {fact_of(each.name) for each in listed if is_origin(each.name)}
    others = {name: said for name, said in now.sources.items() if name not in sourced}
    return spec, is_whole and {k: v for k, v in record.sources.items() if k in others} == others


def cell_of(span: Span | None, raw: bytes, changes: Iterable[Change]) -> Place | None:
    """Return the cell of the change that stands at *span* in the new file; nothing if none does."""
    table = read_yaml("", raw, Findings())
    if span is None or table is None:
        return None
    for change in changes:
        holder: Node | None = table
        *outer, last = steps_of(change.name)
        for step in outer:
            holder = holder.get(step) if isinstance(holder, Table) else None
        if not isinstance(holder, Table) or last not in holder.entries:
            continue
        key, node = holder.entries[last]
        start = key.span.line, key.span.column
        end = node.span.end_line, node.span.end_column
        if start <= (span.line, span.column) < end:
            return change.place
    return None
