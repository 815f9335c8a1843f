"""From the text of a spec file to the record that a workbook shows.

Takes in path and bytes; gives out what the file states itself, as typed, or nothing and the
findings why. Refuses a file that the program's own readers refuse.
"""

import hashlib
from collections.abc import Iterator

from guidegen.finding import Findings
from guidegen.specs.equipment import Equipment, inner_sections
from guidegen.specs.fields import NOT_FITTED
from guidegen.specs.model import Spec
from guidegen.specs.read import read_model, read_unit
from guidegen.specs.section import Section
from guidegen.workbook.model import BY, ON, SOURCE, Kind, Record, origin_of
from guidegen.yaml_nodes import Listing, Node, Scalar, Table, read_yaml

BETWEEN = ", "
"""Stands between the words of a list in a cell."""


def read_record(kind: Kind, path: str, raw: bytes, findings: Findings) -> Record | None:
    """Return what the file at *path* states, or nothing if it has faults."""
    spec = read_spec(kind, path, raw, findings)
    return None if spec is None else record_of(kind, spec, path, raw)


def read_spec(kind: Kind, path: str, raw: bytes, findings: Findings) -> Spec | None:
    """Return the spec as every other command reads it, or nothing if it has faults."""
    read = read_unit if kind is Kind.TRUCK else read_model
    return read(path, raw, findings)


def record_of(kind: Kind, spec: Spec, path: str, raw: bytes) -> Record:
    """Return the record of a file without faults."""
    table = read_yaml(path, raw, Findings())
    own = {} if table is None else dict(_own(table, Equipment))
    sources = {} if table is None else dict(_sources(table, Equipment))
    digest = hashlib.sha256(raw).hexdigest()
    return Record(kind, spec.id, spec.model, path, digest, own, sources)


def cell_text(text: str) -> str:
    """Return *text* as a cell shows it: on one line, without blanks around it."""
    return " ".join(text.split())


def _own(table: Table, shape: type[Section], prefix: str = "") -> Iterator[tuple[str, str]]:
    inner = inner_sections(shape)
    for key, (_, node) in table.entries.items():
        if key in inner:
            if isinstance(node, Table):
                yield from _own(node, inner[key], f"{prefix}{key}.")
            else:
                yield prefix + key, NOT_FITTED
        elif prefix:
            yield prefix + key, _text(node)
            for part, text in _origin(node):
                yield origin_of(prefix + key, part), text
        elif key == SOURCE:
            yield key, _text(node)
    if not prefix:
        yield from ((part, text) for part, text in _origin(table) if part != SOURCE)


def _origin(node: Node) -> Iterator[tuple[str, str]]:
    """Yield what a table says of the origin of its value, or of all that a file states."""
    if not isinstance(node, Table):
        return
    recorded = node.get("recorded")
    inner = recorded if isinstance(recorded, Table) else None
    for part, at, key in ((SOURCE, node, "source"), (ON, inner, "on"), (BY, inner, "by")):
        found = at.get(key) if at is not None else None
        if found is not None:
            yield part, _text(found)


def _text(node: Node | None) -> str:
    match node:
        case Scalar(text=text):
            return cell_text(text)
        case Listing(nodes=nodes):
            return BETWEEN.join(_text(each) for each in nodes)
        case Table():
            return _text(node.get("value"))
        case _:
            return ""


def _sources(table: Table, shape: type[Section], prefix: str = "") -> Iterator[tuple[str, str]]:
    inner = inner_sections(shape)
    for key, (_, node) in table.entries.items():
        if key in inner and isinstance(node, Table):
            yield from _sources(node, inner[key], f"{prefix}{key}.")
        elif prefix and isinstance(node, Table):
            yield prefix + key, _text(node.get("source") or node.get("quoted"))
