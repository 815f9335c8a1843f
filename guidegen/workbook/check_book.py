"""Whether a workbook still is the one that was exported, cell by cell where it may not change.

Takes in the sheets as read; gives out the layout and what every cell showed, or findings with
sheet and cell. Refuses sheets, headers, keys and rows that are not where they were exported.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.finding import Findings, Rule
from guidegen.specs.fleet import Yard
from guidegen.workbook import rules
from guidegen.workbook.contents import content_of
from guidegen.workbook.instructions import TITLE
from guidegen.workbook.layout import (
    BAND_ROW,
    FORM,
    LABEL_ROW,
    NAME_ROW,
    Layout,
    kept_column,
    lay_out,
    state_column,
)
from guidegen.workbook.model import Content, Place, Record, Row, Sheet, State
from guidegen.workbook.read import Cell, Grid
from guidegen.workbook.records import cell_text
from guidegen.workbook.seal import HIDDEN_SHEET, LISTS_SHEET, Kept, read_kept, seal_of

_AGAIN = "ask for a fresh workbook (`guidegen workbook export`) and enter the changes there"
_OTHERS = (TITLE, HIDDEN_SHEET, LISTS_SHEET)


@dataclass(frozen=True, slots=True)
class Book:
    """A workbook whose fixed parts are as they were exported."""

    file: str
    """Its name, for findings."""

    layout: Layout
    records: tuple[Record, ...]
    """As exported, with the names of what they state and without the values."""

    grids: Mapping[str, Grid]
    shown: Mapping[str, Mapping[int, tuple[Content, ...]]]
    """What each cell showed, by sheet and row."""

    def cell(self, place: Place) -> Cell | None:
        """Return what stands at *place* now."""
        return self.grids[place.sheet].cells.get((place.row, place.column))

    def report(self, findings: Findings, rule: Rule, place: Place, what: str, fix: str) -> None:
        """Add a finding at *place*."""
        findings.add(rule, None, what=what, fix=fix, place=place.within(self.file))


def open_book(file: str, grids: Mapping[str, Grid], findings: Findings) -> Book | None:
    """Return the workbook, or nothing if it is not one that this program exported."""
    kept = read_kept(_rows(grids[HIDDEN_SHEET])) if HIDDEN_SHEET in grids else None
    if kept is None:
        _refuse(file, findings, rules.OTHER_WORKBOOK, "is no workbook that guidegen exported")
        return None
    layout = lay_out(kept.records, tuple(Yard(yard, yard, "") for yard in kept.yards))
    if kept.form != FORM or kept.catalog != layout.catalog:
        what = "was exported by another version of guidegen, whose columns are others"
        _refuse(file, findings, rules.OTHER_WORKBOOK, what)
        return None
    shown = {sheet.title: _shown(sheet, grids.get(sheet.title)) for sheet in layout.sheets}
    book = Book(file, layout, kept.records, grids, shown)
    _check_sheets(book, findings)
    if not findings.has_errors and not _is_sealed(kept, book):
        what = "no longer holds what it showed when it was exported"
        _refuse(file, findings, rules.EXPORT_NOT_KEPT, what)
    return None if findings.has_errors else book


def _refuse(file: str, findings: Findings, rule: Rule, what: str) -> None:
    findings.add(rule, None, what=f"`{file}` {what}", fix=_AGAIN, place=file)


def _rows(grid: Grid) -> list[list[str]]:
    height = max((row for row, _ in grid.cells), default=0)
    width = max((column for _, column in grid.cells), default=0)
    rows = [[grid.text(r, c) for c in range(1, width + 1)] for r in range(1, height + 1)]
    return [row + [""] * 5 for row in rows]


def _shown(sheet: Sheet, grid: Grid | None) -> Mapping[int, tuple[Content, ...]]:
    if grid is None:
        return {}
    return {row.number: tuple(_kept(sheet, grid, row)) for row in sheet.rows}


def _kept(sheet: Sheet, grid: Grid, row: Row) -> Iterator[Content]:
    states = grid.text(row.number, state_column(sheet)).rstrip(".")
    if not states:
        states = State.NEW.value * len(sheet.columns)
    known = {state.value: state for state in State}
    for number, _ in enumerate(sheet.columns, 1):
        state = known.get(states[number - 1 : number], State.NEW)
        yield Content(grid.text(row.number, kept_column(sheet, number)), state)


def _is_sealed(kept: Kept, book: Book) -> bool:
    cells = {
        sheet.title: [
            [
                *(content.text for content in book.shown[sheet.title][row.number]),
                "".join(content.state.value for content in book.shown[sheet.title][row.number])
                + ".",
            ]
            for row in sheet.rows
        ]
        for sheet in book.layout.sheets
    }
    return kept.seal == seal_of(kept.records, cells)


def _check_sheets(book: Book, findings: Findings) -> None:
    titles = [sheet.title for sheet in book.layout.sheets]
    for title in book.grids:
        if title not in (*titles, *_OTHERS) and book.grids[title].cells:
            book.report(
                findings,
                rules.SHEET_UNKNOWN,
                Place(title, 1, 1),
                f"the sheet `{title}` is none of the workbook's",
                "move what it holds into the sheets that were exported, and delete it",
            )
    for sheet in book.layout.sheets:
        if sheet.title not in book.grids:
            what = f"the sheet `{sheet.title}` is gone"
            findings.add(rules.SHEET_GONE, None, what=what, fix=_AGAIN, place=book.file)
            continue
        _check_merged(book, sheet, findings)
        _check_headers(book, sheet, findings)
        _check_keys(book, sheet, findings)
        _check_outside(book, sheet, findings)


def _check_merged(book: Book, sheet: Sheet, findings: Findings) -> None:
    for merged in book.grids[sheet.title].merged:
        findings.add(
            rules.MERGED_CELLS,
            None,
            what=f"the cells {merged} of the sheet `{sheet.title}` are merged",
            fix="unmerge them, and enter the value for each truck by itself",
            place=f"{Place(sheet.title, 1, 1).within(book.file).rpartition('!')[0]}!{merged}",
        )


def _check_headers(book: Book, sheet: Sheet, findings: Findings) -> None:
    grid = book.grids[sheet.title]
    for number, column in enumerate(sheet.columns, 1):
        for row, wanted in ((LABEL_ROW, column.label), (NAME_ROW, column.name)):
            found = grid.text(row, number)
            if found != cell_text(wanted):
                book.report(
                    findings,
                    rules.HEADER_CHANGED,
                    Place(sheet.title, row, number),
                    f"`{found}` stands where the header `{wanted}` was exported",
                    f"write `{wanted}` there again; if columns were moved or deleted, {_AGAIN}",
                )
                break


def _check_keys(book: Book, sheet: Sheet, findings: Findings) -> None:
    """Report the first row that is gone, since the others moved with it; else each changed key."""
    grid = book.grids[sheet.title]
    wanted = {row.number: _keys(sheet, row) for row in sheet.rows if row.record}
    last = sum(column.is_key for column in sheet.columns)
    found = {
        row.number: tuple(grid.text(row.number, column) for column in range(1, last + 1))
        for row in sheet.rows
    }
    if len(set(wanted.values()) - set(found.values())) < sum(
        found[number] != keys for number, keys in wanted.items()
    ):
        _report_moved(book, sheet, wanted, found, findings)
        return
    for number, keys in wanted.items():
        for column, (was, now) in enumerate(zip(keys, found[number], strict=True), 1):
            if was != now:
                what = f"`{now}` stands where `{was}` was exported"
                fix = f"write `{was}` there again; whoever keeps the specs renames or moves a truck"
                place = Place(sheet.title, number, column)
                book.report(findings, rules.KEY_CHANGED, place, what, fix)


def _keys(sheet: Sheet, row: Row) -> tuple[str, ...]:
    columns = [column for column in sheet.columns if column.is_key]
    return tuple(cell_text(content_of(column, row, None).text) for column in columns)


def _report_moved(
    book: Book,
    sheet: Sheet,
    wanted: Mapping[int, tuple[str, ...]],
    found: Mapping[int, tuple[str, ...]],
    findings: Findings,
) -> None:
    number = next(number for number, keys in wanted.items() if found[number] != keys)
    named = " ".join(text for text in wanted[number] if text)
    what = f"the row of `{named}` is not in its place, and others are not either"
    fix = f"undo the deleting, adding or sorting of rows, or {_AGAIN}"
    book.report(findings, rules.ROW_MOVED, Place(sheet.title, number, 1), what, fix)


def _check_outside(book: Book, sheet: Sheet, findings: Findings) -> None:
    """Report what stands beside or below the table: nothing of it could be taken over."""
    rows = {row.number for row in sheet.rows}
    for (row, column), cell in sorted(book.grids[sheet.title].cells.items()):
        is_head = row in (1, BAND_ROW, LABEL_ROW, NAME_ROW) and column <= len(sheet.columns)
        is_inside = row in rows and column <= state_column(sheet)
        is_gap = row in rows and column == len(sheet.columns) + 1
        if is_gap or not (is_head or is_inside):
            book.report(
                findings,
                rules.CELL_OUT_OF_PLACE,
                Place(sheet.title, row, column),
                f"`{cell.text[:40]}` stands outside of the table",
                "move it into a row of the table, or delete it"
                if row not in rows
                else "delete it; a new kind of value needs a new field in the program",
            )
