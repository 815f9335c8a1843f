"""Lists of the law, from the files of the library.

Takes in the bytes of a list; gives out its items, each with source and edition.
Refuses an item that says neither what meets it, nor why a truck's guide cannot.
"""

from collections.abc import Iterable, Iterator
from pathlib import PurePosixPath

from guidegen.coverage import rules
from guidegen.coverage.model import CoverageList, ListedItem, Need
from guidegen.finding import Findings, Note, nearest
from guidegen.procedures.read_when import read_when_of_guide
from guidegen.procedures.table_reader import TableReader, check_id, check_ids_differ
from guidegen.specs.fleet import JURISDICTIONS
from guidegen.yaml_nodes import Listing, Node, Scalar, read_yaml

LIST_PARTS = {
    "id": "id: nsc-13",
    "name": "name: National Safety Code Standard 13, Schedule 1",
    "source": "source: NSC Standard 13, Schedule 1",
    "edition": "edition: O. Reg. 199/07",
    "jurisdictions": "jurisdictions: [ontario]",
}
ITEM_PARTS = {"id": "id: tires", "wording": "wording: Tires"}
NEED_PARTS = {"any_of": "any_of: [start-up, start-up-gas]"}
_OF_AN_ITEM = ("source", "edition", "met_by", "not_needed_when", "outside", "must_stop")


def read_list(path: str, raw: bytes, findings: Findings) -> CoverageList | None:
    """Return the list that one file holds, or nothing if it has faults.

    Args:
        path: For people: relative to the project, with forward slashes. Its last part without
            the ending is the id.
        raw: The file as it lies on the disk.
        findings: Takes all its faults.
    """
    own = Findings()
    table = read_yaml(path, raw, own)
    found = None if table is None else _read(TableReader(table, "the list", own), path)
    findings.extend(own)
    return None if own.has_errors else found


def read_lists(files: Iterable[tuple[str, bytes]], findings: Findings) -> tuple[CoverageList, ...]:
    """Return the lists of *files*; report jurisdictions that have two."""
    lists = [read_list(path, raw, findings) for path, raw in files]
    sound = tuple(found for found in lists if found is not None)
    first: dict[str, CoverageList] = {}
    for found in sound:
        for jurisdiction in found.jurisdictions:
            other = first.setdefault(jurisdiction, found)
            if other is not found:
                findings.add(
                    rules.COVERAGE_LIST_TWICE,
                    found.span,
                    what=f"`{found.id}` and `{other.id}` are both for `{jurisdiction}`",
                    fix="take the jurisdiction out of one of the two",
                    notes=[Note("the other stands at", other.span)],
                )
    return sound


def _read(reader: TableReader, path: str) -> CoverageList | None:
    reader.check_names(LIST_PARTS, ("items", "no_list"))
    own_id, name = reader.text("id"), reader.text("name")
    source, edition = _words(reader, "source"), _words(reader, "edition")
    no_list = _words(reader, "no_list")
    items = tuple(_items(reader, source, edition))
    if own_id is None or name is None:
        return None
    if own_id.text != PurePosixPath(path).stem:
        _report(reader, own_id, f"the id is `{own_id.text}`, and the file is named otherwise")
    if bool(items) == bool(no_list):
        _report(reader, own_id, f"`{own_id.text}` needs either `items` or `no_list`")
    return CoverageList(
        own_id.text,
        " ".join(name.text.split()),
        source,
        edition,
        tuple(_jurisdictions(reader)),
        items,
        no_list,
        own_id.span,
    )


def _jurisdictions(reader: TableReader) -> Iterator[str]:
    for scalar in reader.texts("jurisdictions"):
        if scalar.text in JURISDICTIONS:
            yield scalar.text
            continue
        near = nearest(scalar.text, JURISDICTIONS)
        listed = ", ".join(f"`{each}`" for each in JURISDICTIONS)
        fix = f"did you mean `{near}`?" if near else f"there are {listed}"
        _report(reader, scalar, f"there is no jurisdiction `{scalar.text}`", fix)


def _items(reader: TableReader, source: str, edition: str) -> Iterator[ListedItem]:
    tables = reader.tables("items", "item", "- {id: tires, wording: Tires, met_by: [tires]}")
    ids = [own_id for table in tables if (own_id := table.text("id"))]
    check_ids_differ(ids, "item", reader.findings)
    for table in tables:
        item = _item(table, source, edition)
        if item is not None:
            yield item


def _item(reader: TableReader, source: str, edition: str) -> ListedItem | None:
    reader.check_names(ITEM_PARTS, _OF_AN_ITEM)
    own_id, wording = reader.text("id"), reader.text("wording")
    needs = tuple(_needs(reader))
    outside, not_needed = _words(reader, "outside"), read_when_of_guide(reader, "not_needed_when")
    must_stop = _words(reader, "must_stop")
    if own_id is None or wording is None or not check_id(own_id, reader.findings):
        return None
    if needs and outside:
        _report(reader, own_id, f"`{own_id.text}` states both `met_by` and `outside`")
    if must_stop not in ("", "yes", "no"):
        _report(reader, own_id, f"`must_stop: {must_stop}` is neither yes nor no")
    return ListedItem(
        own_id.text,
        " ".join(wording.text.split()),
        _words(reader, "source") or source,
        _words(reader, "edition") or edition,
        needs,
        not_needed,
        outside,
        must_stop == "yes",
        own_id.span,
    )


def _needs(reader: TableReader) -> Iterator[Need]:
    for node in reader.nodes("met_by"):
        need = _need(reader, node)
        if need is not None:
            yield need


def _need(reader: TableReader, node: Node) -> Need | None:
    match node:
        case Scalar():
            return Need((node.text,), None)
        case Listing():
            fix = "write a name, or `{any_of: [one, another], when: …}`"
            reader.add_wrong_kind(node, "a line of `met_by`", "a name or a table", fix)
            return None
        case _:
            inner = TableReader(node, "a line of `met_by`", reader.findings)
            inner.check_names(NEED_PARTS, ("when",))
            names = tuple(scalar.text for scalar in inner.texts("any_of"))
            return Need(names, read_when_of_guide(inner, "when")) if names else None


def _words(reader: TableReader, name: str) -> str:
    scalar = reader.text(name)
    return "" if scalar is None else " ".join(scalar.text.split())


def _report(
    reader: TableReader, at: Scalar, what: str, fix: str = "correct one of the two"
) -> None:
    reader.findings.add(rules.COVERAGE_LIST_UNREADABLE, at.span, what=what, fix=fix)
