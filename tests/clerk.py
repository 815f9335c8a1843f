"""A clerk at a spreadsheet: opens a workbook, types into cells, saves it."""

import io
import warnings
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from openpyxl import Workbook, load_workbook
from openpyxl.cell.cell import Cell
from openpyxl.worksheet.worksheet import Worksheet
from python_calamine import CalamineWorkbook

LABEL_ROW, NAME_ROW, FIRST_ROW = 3, 4, 5


@dataclass
class Clerk:
    """One workbook, open."""

    book: Workbook

    def sheet_of(self, name: str) -> Worksheet:
        """Return the sheet that has the column *name*; of several, the one with trucks' topics."""
        found = [s for s in self.book.worksheets if name in [c.value for c in s[NAME_ROW]]]
        assert found, name
        return found[0]

    def address(self, key: str, name: str, sheet: str = "") -> tuple[Worksheet, int, int]:
        page = self.book[sheet] if sheet else self.sheet_of(name)
        column = [cell.value for cell in page[NAME_ROW]].index(name) + 1
        keys = 1 if page.title in ("Trucks", "Models") else 2
        rows = (row for row in range(FIRST_ROW, 200) if page.cell(row, keys).value == key)
        return page, next(rows), column

    def read(self, key: str, name: str, sheet: str = "") -> str | None:
        page, row, column = self.address(key, name, sheet)
        value = page.cell(row, column).value
        return None if value is None else str(value)

    def type(self, key: str, name: str, value: object, sheet: str = "") -> str:
        """Type *value* into the cell, as text if it is; return the cell's address."""
        page, row, column = self.address(key, name, sheet)
        cell = _cell(page, row, column)
        put(cell, value)
        # As programs for spreadsheets write it: a name with blanks stands in quotes.
        title = page.title if page.title.isalnum() else f"'{page.title}'"
        return f"{title}!{cell.coordinate}"

    def enter(self, sheet: str, **values: str) -> int:
        """Fill the first empty row of *sheet*; names of columns with dots as double underscores."""
        page = self.book[sheet]
        names = [cell.value for cell in page[NAME_ROW]]
        keys = 1 if sheet in ("Trucks", "Models") else 2
        row = next(row for row in range(FIRST_ROW, 300) if not page.cell(row, keys).value)
        for name, value in values.items():
            put(_cell(page, row, names.index(name.replace("__", ".")) + 1), value)
        return row

    def save(self) -> bytes:
        out = io.BytesIO()
        self.book.save(out)
        return out.getvalue()


def _cell(page: Worksheet, row: int, column: int) -> Cell:
    cell = page.cell(row, column)
    assert isinstance(cell, Cell)
    return cell


def put(cell: Cell, value: object) -> None:
    """Set the cell as a program for spreadsheets does where the cell's format is text."""
    cell.value = value  # type: ignore[assignment]  # whatever a test wants to see there
    if isinstance(value, str) and value.startswith("="):
        cell.data_type = "s"


def at_desk(raw: bytes) -> Clerk:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return Clerk(load_workbook(io.BytesIO(raw)))


def seen(raw: bytes) -> Mapping[str, Sequence[Sequence[object]]]:
    """Return all cells as the independent reader sees them, by sheet."""
    book = CalamineWorkbook.from_filelike(io.BytesIO(raw))
    return {
        name: book.get_sheet_by_name(name).to_python(skip_empty_area=False)
        for name in book.sheet_names
    }


def files_of(folder: Path) -> dict[str, bytes]:
    """Return every file below *folder* by its path."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
