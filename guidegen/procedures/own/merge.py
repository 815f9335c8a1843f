"""A procedure of the library with steps and cautions of the fleet in it.

Takes in the tables of both files; gives out one table, in which every part keeps its own place.
Refuses a step that stands nowhere: it names the step that it replaces, or one beside it.
"""

from collections.abc import Sequence
from types import MappingProxyType

from guidegen.finding import nearest
from guidegen.procedures import rules as procedure_rules
from guidegen.procedures.catalog_words import listed, shortened
from guidegen.procedures.own import rules
from guidegen.procedures.own.read_parts import PLACES, Replaces
from guidegen.procedures.table_reader import TableReader
from guidegen.yaml_nodes import Listing, Node, Scalar, Table

STEPS_FILE_PARTS = MappingProxyType({"replaces": "replaces: {procedure: park, digest: …}"})
OPTIONAL_STEPS_FILE_PARTS = (
    *("steps", "cautions", "references"),
    *("drops_caution", "rewords_caution"),
)
_WHERE = ("replaces", *PLACES)


def merged(original: Table, reader: TableReader, replaces: Replaces) -> Table:
    """Return the table of *original* with what *reader*'s file has of its own.

    Args:
        original: Of the procedure of the library.
        reader: The table of the fleet's file.
        replaces: What that file stands in the place of.
    """
    table = reader.table
    dropped = {
        id_.text
        for entry in _nodes(table, "drops_caution")
        if isinstance(entry, Table) and isinstance(id_ := entry.get("caution"), Scalar)
    }
    own_cautions = {_id(node): node for node in _nodes(table, "cautions")}
    kept = [node for node in _nodes(original, "cautions") if _id(node) not in dropped]
    # A caution under the id of one of the library stands in its place.
    cautions = [own_cautions.pop(_id(node), node) for node in kept]
    lists: dict[str, Sequence[Node]] = {
        "steps": _steps(original, reader),
        "cautions": (*cautions, *own_cautions.values()),
        "references": (*_nodes(original, "references"), *_nodes(table, "references")),
    }
    entries = dict(original.entries)
    for name, nodes in lists.items():
        key = (original.entries.get(name) or table.entries.get(name) or (replaces.named,))[0]
        if nodes:
            entries[name] = (key, Listing(tuple(nodes), key.span))
        else:
            entries.pop(name, None)
    # With its place in the fleet's file, where findings of the whole belong.
    entries["id"] = (original.entries["id"][0], replaces.named)
    return Table(entries, table.span)


def _steps(original: Table, reader: TableReader) -> list[Node]:
    steps = list(_nodes(original, "steps"))
    last_beside: dict[str, Node] = {}
    for inner in reader.tables("steps", "step", "- {replaces: place, text: …}"):
        where = [name for name in _WHERE if name in inner.table.entries]
        named = inner.text(where[0]) if len(where) == 1 else None
        if named is None:
            _report_nowhere(inner)
            continue
        ids = [_id(node) for node in steps]
        if named.text not in ids:
            _report_unknown(named, [id_ for id_ in ids if id_], inner)
            continue
        _check_id(inner, where[0], named)
        step, at = _as_step(inner.table, where[0], named), ids.index(named.text)
        if where[0] == "replaces":
            steps[at] = step
        elif where[0] == "before":
            steps.insert(at, step)
        else:
            # Several after one step keep the order in which they were typed.
            beside = last_beside.get(named.text)
            at = next((i for i, node in enumerate(steps) if node is beside), at)
            steps.insert(at + 1, step)
            last_beside[named.text] = step
    return steps


def _as_step(table: Table, where: str, named: Scalar) -> Table:
    """Return *table* as a step of a procedure; one that replaces another has its id."""
    entries: dict[str, tuple[Scalar, Node]] = {
        name: entry for name, entry in table.entries.items() if name != where
    }
    if where == "replaces":
        entries["id"] = (table.entries[where][0], named)
    return Table(entries, table.span)


def _check_id(reader: TableReader, where: str, named: Scalar) -> None:
    own_id = reader.table.get("id")
    if where != "replaces" or not isinstance(own_id, Scalar) or own_id.text == named.text:
        return
    # Cautions, lists of the law and the round find a step by its id.
    what = f"a step that replaces `{named.text}` keeps its id"
    fix = f"delete `id: {shortened(own_id.text)}`"
    reader.findings.add(procedure_rules.ID_OF_WRONG_FORM, own_id.span, what=what, fix=fix)


def _report_nowhere(reader: TableReader) -> None:
    what = f"{reader.owner} does not say where it stands, or says it twice"
    fix = "write one of `replaces: …`, `before: …` and `after: …` with the id of a step"
    reader.findings.add(procedure_rules.PART_MISSING, reader.head, what=what, fix=fix)


def _report_unknown(named: Scalar, ids: Sequence[str], reader: TableReader) -> None:
    near = nearest(named.text, ids)
    fix = f"did you mean `{near}`?" if near else f"its steps: {listed(ids)}"
    what = f"the procedure has no step `{shortened(named.text)}`"
    reader.findings.add(rules.REPLACES_NOTHING, named.span, what=what, fix=fix)


def _nodes(table: Table, name: str) -> tuple[Node, ...]:
    node = table.get(name)
    return node.nodes if isinstance(node, Listing) else ()


def _id(node: Node) -> str | None:
    own_id = node.get("id") if isinstance(node, Table) else None
    return own_id.text if isinstance(own_id, Scalar) else None
