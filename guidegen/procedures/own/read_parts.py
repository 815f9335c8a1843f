"""What a file of the fleet says of the procedure that it replaces.

Takes in the table of a file; gives out what it replaces, where it stands, and who answers for what
it gives up. Refuses an answer without a reason, a name and a date that can be read.
"""

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.procedures.own import rules
from guidegen.procedures.own.model import Statement
from guidegen.procedures.table_reader import TableReader
from guidegen.source import Span
from guidegen.yaml_nodes import Scalar, Table

REPLACES_PARTS = MappingProxyType(
    {"procedure": "procedure: park", "digest": "digest: 3f2a91bc04de"}
)
_NAMED = MappingProxyType({"procedure": REPLACES_PARTS["procedure"], "lamp": "lamp: low_air"})
STATEMENTS = MappingProxyType(
    {"drops_caution": "caution", "rewords_caution": "caution", "changes_state": "aspect"}
)
"""What each list of statements names in its entries."""

STATEMENT_PARTS = MappingProxyType(
    {
        "reason": "reason: Every place in the yard has wheel stops.",
        "approved_by": "approved_by: Imelda Quist",
        "date": "date: 2026-11-20",
    }
)
PLACES = ("after", "before")
OWN_PARTS = (*PLACES, "replaces", *STATEMENTS)
"""What a fleet's procedure may state beyond one of the library."""


@dataclass(frozen=True, slots=True)
class Replaces:
    """What a file says that it stands in the place of."""

    named: Scalar
    """Id of the procedure, or of the lamp."""

    digest: Scalar | None
    span: Span
    """Of the name ``replaces``."""


def read_replaces(reader: TableReader, of: str = "procedure") -> Replaces | None:
    """Return what the file replaces; nothing if it does not say, or not so that it can be read.

    Args:
        reader: Of the file.
        of: What it replaces one of: ``procedure`` or ``lamp``.
    """
    node = reader.table.get("replaces")
    if node is None:
        return None
    if not isinstance(node, Table):
        fix = f"write `replaces: {{{_NAMED[of]}, digest: …}}`"
        reader.add_wrong_kind(node, "`replaces`", "a table", fix)
        return None
    inner = TableReader(node, "`replaces`", reader.findings)
    # Which digest to type is said where the original is known.
    inner.check_names({of: _NAMED[of]}, ("digest",))
    named = inner.text(of)
    span = reader.table.key_span("replaces")
    return Replaces(named, inner.text("digest"), span) if named else None


def read_statements(reader: TableReader) -> tuple[Statement, ...]:
    """Return who answers for what, list by list in the order of the file."""
    return tuple(statement for name in STATEMENTS for statement in _read_statements(reader, name))


def read_place(reader: TableReader) -> tuple[Scalar | None, bool]:
    """Return what the procedure stands beside, and whether before it."""
    before, after = reader.text("before"), reader.text("after")
    if before is not None and after is not None:
        reader.findings.add(
            rules.PLACE_UNKNOWN,
            after.span,
            what="it stands both before one procedure and after another",
            fix="keep one of the two lines",
        )
    return before or after, before is not None


def _read_statements(reader: TableReader, name: str) -> Iterator[Statement]:
    about = STATEMENTS[name]
    example = f"- {{{about}: …, reason: …, approved_by: …, date: …}}"
    for inner in reader.tables(name, f"entry of `{name}`", example):
        inner.check_names({about: f"{about}: …", **STATEMENT_PARTS})
        named = inner.text(about)
        said = [inner.text(part) for part in STATEMENT_PARTS]
        reason, approved_by, date = said
        if named and reason and approved_by and date and _is_date(date, inner):
            words = (" ".join(each.text.split()) for each in (reason, approved_by, date))
            yield Statement(name, named, *words)


def _is_date(scalar: Scalar, reader: TableReader) -> bool:
    try:
        dt.date.fromisoformat(scalar.text)
    except ValueError:
        is_date = False
    else:
        is_date = len(scalar.text) == len("2026-11-20")
    if not is_date:
        what = f"`{scalar.text[:40]}` is no date"
        fix = "write year, month and day, as in `date: 2026-11-20`"
        reader.findings.add(rules.DATE_UNREADABLE, scalar.span, what=what, fix=fix)
    return is_date
