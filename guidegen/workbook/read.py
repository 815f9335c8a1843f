"""The cells of a workbook as text. The only door to openpyxl.

Takes in the bytes of a file; gives out every cell with what kind it is. Refuses what is no
workbook or grows out of all measure when it is unpacked, and never works out a formula.
"""

import io
import warnings
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from openpyxl import load_workbook
from openpyxl.cell.cell import Cell as RawCell
from openpyxl.worksheet.worksheet import Worksheet

from guidegen.finding import Findings
from guidegen.workbook import rules
from guidegen.workbook.records import cell_text

CellKind = Literal["text", "number", "formula", "date", "yes or no", "error"]

MOST_BYTES = 400_000_000
"""Unpacked: some ten times the workbook of 1,000 trucks."""

MOST_PARTS = 2_000

_HEAD = 2_000
"""Bytes of a part in which a document type would stand."""

_KINDS: Mapping[str, CellKind] = {
    "s": "text",
    "inlineStr": "text",
    "str": "text",
    "n": "number",
    "f": "formula",
    "d": "date",
    "b": "yes or no",
    "e": "error",
}


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one cell."""

    text: str
    """On one line; of a formula the formula."""

    kind: CellKind


@dataclass(frozen=True, slots=True)
class Grid:
    """One sheet."""

    cells: Mapping[tuple[int, int], Cell]
    """By row and column, counted from 1; empty ones are left out."""

    merged: tuple[str, ...]
    """Ranges of merged cells, as ``A1:B2``."""

    def text(self, row: int, column: int) -> str:
        """Return the text of a cell; empty if nothing stands there."""
        cell = self.cells.get((row, column))
        return cell.text if cell else ""


def read_grids(path: str, raw: bytes, findings: Findings) -> Mapping[str, Grid] | None:
    """Return the sheets by name, or nothing if *raw* is no workbook.

    Args:
        path: Of the file, for findings.
        raw: Its bytes.
        findings: Takes what is wrong.
    """
    fault = _unfit(raw)
    if fault is None:
        try:
            with warnings.catch_warnings():
                # It warns of what it does not keep; nothing is written back.
                warnings.simplefilter("ignore")
                book = load_workbook(io.BytesIO(raw), data_only=False, keep_links=False)
            return {sheet.title: _grid(sheet) for sheet in book.worksheets}
        except Exception as error:  # noqa: BLE001 -- any bytes may come; openpyxl has no base error
            fault = f"cannot be read: {type(error).__name__}"
    findings.add(
        rules.NOT_A_WORKBOOK,
        None,
        what=f"`{path}` {fault}",
        fix="open it in the program for spreadsheets and save it as an Excel workbook (.xlsx)",
        place=path,
    )
    return None


def _unfit(raw: bytes) -> str | None:
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as packed:
            return _unfit_parts(packed)
    except (zipfile.BadZipFile, ValueError, NotImplementedError, RuntimeError, EOFError):
        return "is no Excel workbook (.xlsx)"


def _unfit_parts(packed: zipfile.ZipFile) -> str | None:
    parts = packed.infolist()
    if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_BYTES:
        return "is far larger than any workbook of trucks"
    if "xl/workbook.xml" not in {part.filename for part in parts}:
        return "is no Excel workbook (.xlsx)"
    for part in parts:
        with packed.open(part) as file:
            # Entities can grow without measure, or name other files; no workbook has any.
            if b"<!DOCTYPE" in file.read(_HEAD):
                return "holds a part that no workbook holds"
    return None


def _grid(sheet: Worksheet) -> Grid:
    cells = {(cell.row, cell.column): _cell(cell) for cell in _filled(sheet)}
    return Grid(
        {place: cell for place, cell in cells.items() if cell.text},
        tuple(sorted(str(merged) for merged in sheet.merged_cells.ranges)),
    )


def _filled(sheet: Worksheet) -> Iterator[RawCell]:
    for row in sheet.iter_rows():
        for cell in row:
            if isinstance(cell, RawCell) and cell.value is not None:
                yield cell


def _cell(cell: RawCell) -> Cell:
    kind = _KINDS.get(cell.data_type, "error")
    value = cell.value
    if kind == "number" and isinstance(value, float) and value.is_integer():
        value = int(value)
    return Cell(cell_text(str(value)), kind)
