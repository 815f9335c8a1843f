"""What a workbook keeps of its own export, on a hidden sheet.

Takes in a layout and what its cells showed; gives out the rows of the hidden sheet, and reads
them back. Refuses a workbook whose kept values are not those that were exported: without them
nobody can tell what the clerk changed.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from guidegen.specs.equipment import EQUIPMENT_FACTS
from guidegen.workbook.model import Kind, Record

HIDDEN_SHEET = "guidegen"
"""Also the first cell's text."""

LISTS_SHEET = "Lists"

_HEAD_ROWS = 5


@dataclass(frozen=True, slots=True)
class Kept:
    """The hidden sheet, read back."""

    form: str
    catalog: str
    seal: str
    yards: tuple[str, ...]
    records: tuple[Record, ...]
    """With the names of what they state; the values stand in hidden columns beside the cells."""


def seal_of(records: Iterable[Record], cells: Mapping[str, Sequence[Sequence[str]]]) -> str:
    """Return a SHA-256 over *records* and over what the cells of every sheet showed.

    Args:
        records: In any order.
        cells: Rows of text by sheet, each with the states as its last text.
    """
    listed = sorted(_told(record) for record in records)
    text = json.dumps([listed, {k: [list(r) for r in v] for k, v in sorted(cells.items())}])
    return hashlib.sha256(text.encode()).hexdigest()


def kept_rows(kept: Kept) -> list[list[str]]:
    """Return the rows of the hidden sheet."""
    return [
        [HIDDEN_SHEET, "What this sheet holds is needed to import the workbook. Leave it."],
        ["form", kept.form],
        ["catalog", kept.catalog],
        ["seal", kept.seal],
        ["yards", *kept.yards],
        *map(_told, kept.records),
    ]


def _told(record: Record) -> list[str]:
    names = (name for name in EQUIPMENT_FACTS if name in record.own)
    return [record.kind.value, record.key, record.model, record.path, record.digest, *names]


def read_kept(rows: Sequence[Sequence[str]]) -> Kept | None:
    """Return what the hidden sheet says; nothing if it is none of ours."""
    if len(rows) < _HEAD_ROWS or not rows[0] or rows[0][0] != HIDDEN_SHEET:
        return None
    try:
        (_, form, *_), (_, catalog, *_), (_, seal, *_) = rows[1:4]
        yards = tuple(text for text in rows[4][1:] if text)
        records = tuple(
            Record(Kind(kind), key, model, path, digest, dict.fromkeys(filter(None, names), ""))
            for kind, key, model, path, digest, *names in rows[_HEAD_ROWS:]
        )
    except ValueError:
        return None
    return Kept(form, catalog, seal, yards, records)
