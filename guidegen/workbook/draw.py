"""The workbook as bytes. With its neighbors `looks` and `instructions` the only door to XlsxWriter.

Takes in the records of a fleet; gives out an .xlsx file, the same bytes for the same records.
Refuses to write anything but text: no cell is ever a formula, a link or a number.
"""

import io
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime

from xlsxwriter import Workbook  # type: ignore[import-untyped]  # it has no hints
from xlsxwriter.utility import xl_col_to_name  # type: ignore[import-untyped]  # ditto
from xlsxwriter.worksheet import Worksheet  # type: ignore[import-untyped]  # ditto

from guidegen.specs.fields import ChoicesField
from guidegen.specs.fleet import Yard
from guidegen.workbook.contents import content_of
from guidegen.workbook.instructions import write_instructions
from guidegen.workbook.layout import (
    BAND_ROW,
    FIRST_ROW,
    FORM,
    LABEL_ROW,
    NAME_ROW,
    NEW_MODELS,
    kept_column,
    lay_out,
    state_column,
)
from guidegen.workbook.looks import Looks, looks_of
from guidegen.workbook.model import Column, Content, Kind, Record, Role, Row, Sheet, State
from guidegen.workbook.seal import HIDDEN_SHEET, LISTS_SHEET, Kept, kept_rows, seal_of
from guidegen.workbook.topics import MODELS, TRUCKS, listed_choices

_CREATED = datetime(2000, 1, 1)  # noqa: DTZ001 -- the file format has no zone; the date is fixed
_NARROWEST, _WIDEST = 15, 36
_ROOM = 2
_LINE = 15
"""Height of a line, in points."""

_TALLEST = 400
"""Of a row, in points; the file format ends at 409."""

_OPEN = {"format_columns": True, "format_rows": True, "autofilter": True}
LETTER, A4 = 1, 9


def draw_workbook(
    records: Sequence[Record], yards: tuple[Yard, ...], fleet: str, *, paper: int = LETTER
) -> bytes:
    """Return the workbook of *records*.

    Args:
        records: Of all models and trucks, in any order.
        yards: The fleet's, for the drop-down.
        fleet: Its name, for the first sheet.
        paper: What it is laid out for when printed: `LETTER` or `A4`.
    """
    out = io.BytesIO()
    book = Workbook(
        out,
        {
            "in_memory": True,
            "strings_to_formulas": False,
            "strings_to_urls": False,
            "strings_to_numbers": False,
        },
    )
    book.set_properties({"title": f"Trucks of {fleet}", "created": _CREATED})
    looks = looks_of(book)
    write_instructions(book, looks, fleet, paper)
    drawing = _Drawing(book, looks, yards, {r.key: r for r in records if r.kind is Kind.MODEL})
    layout = lay_out(records, yards)
    for sheet in layout.sheets:
        drawing.write(sheet, paper)
    drawing.write_lists()
    names = tuple(yard.id for yard in yards)
    kept = Kept(FORM, layout.catalog, seal_of(records, drawing.kept), names, tuple(records))
    _write_hidden(book.add_worksheet(HIDDEN_SHEET), kept)
    book.close()
    return out.getvalue()


def _write_hidden(sheet: Worksheet, kept: Kept) -> None:
    for row, texts in enumerate(kept_rows(kept)):
        for column, text in enumerate(texts):
            sheet.write_string(row, column, text)
    sheet.very_hidden()
    sheet.protect()


@dataclass(slots=True)
class _Drawing:
    """The sheets of one workbook, as they are being written."""

    book: Workbook
    looks: Looks
    yards: tuple[Yard, ...]
    models: dict[str, Record]
    kept: dict[str, list[list[str]]] = field(default_factory=dict)
    """What the cells show, by sheet and row, with the states as each row's last text."""

    lists: dict[tuple[str, ...], str] = field(default_factory=dict)
    """The place of each drop-down's words on the sheet of lists."""

    def write(self, sheet: Sheet, paper: int) -> None:
        """Write one sheet."""
        page = self.book.add_worksheet(sheet.title)
        page.ignore_errors({"number_stored_as_text": "A1:XFD1048576"})
        self._write_head(page, sheet)
        shown = [self._write_row(page, sheet, row) for row in sheet.rows]
        self.kept[sheet.title] = [_as_kept(contents) for contents in shown]
        self._set_widths(page, sheet, shown)
        self._offer_choices(page, sheet)
        self._mark_states(page, sheet)
        _set_up(page, sheet, paper)

    def _write_head(self, page: Worksheet, sheet: Sheet) -> None:
        page.write_string(0, 0, sheet.title, self.looks.title)
        keys = sum(column.is_key for column in sheet.columns)
        page.write_string(0, keys, sheet.hint, self.looks.hint)
        before = ""
        for column, each in enumerate(sheet.columns):
            band = each.group if each.group != before else ""
            before = each.group
            page.write_string(BAND_ROW - 1, column, band, self.looks.band)
            page.write_string(LABEL_ROW - 1, column, each.label, self.looks.label)
            page.write_string(NAME_ROW - 1, column, each.name, self.looks.name)
            lines = each.note.count("\n") + 1 + len(each.note) // 40
            size = {"x_scale": 2, "y_scale": max(1, lines / 4.5), "author": "guidegen"}
            page.write_comment(LABEL_ROW - 1, column, each.note, size)

    def _write_row(self, page: Worksheet, sheet: Sheet, row: Row) -> list[Content]:
        record = row.record
        model = self.models.get(record.model) if record and record.kind is Kind.TRUCK else None
        shown = [content_of(column, row, model) for column in sheet.columns]
        for number, (column, content) in enumerate(zip(sheet.columns, shown, strict=True)):
            look = self.looks.of(column.role, content.state)
            if content.text:
                page.write_string(row.number - 1, number, content.text, look)
                kept = kept_column(sheet, number + 1) - 1
                page.write_string(row.number - 1, kept, content.text)
            else:
                page.write_blank(row.number - 1, number, None, look)
        page.write_string(row.number - 1, state_column(sheet) - 1, _states(shown))
        return shown

    def _set_widths(
        self, page: Worksheet, sheet: Sheet, shown: Sequence[Sequence[Content]]
    ) -> None:
        tallest = 1
        heights = [1] * len(shown)
        for number, column in enumerate(sheet.columns):
            longest = max((len(row[number].text) for row in shown), default=0) + 2 * _ROOM
            # A header in three lines at most, so that it does not push the trucks off the screen.
            narrowest = max(_NARROWEST, len(column.label) // 3 + 2 * _ROOM)
            widest = 2 * _WIDEST if isinstance(column.kind, ChoicesField) else _WIDEST
            width = max(min(longest, widest), narrowest)
            page.set_column(number, number, width)
            tallest = max(tallest, _lines(column.label, width - _ROOM))
            for at, contents in enumerate(shown):
                heights[at] = max(heights[at], _lines(contents[number].text, width - _ROOM))
        # Not every program fits the rows to wrapped text by itself.
        for row, lines in zip(sheet.rows, heights, strict=True):
            page.set_row(row.number - 1, min(_LINE * lines, _TALLEST))
        page.set_row(0, 22)
        page.set_row(LABEL_ROW - 1, _LINE * tallest)
        page.set_row(NAME_ROW - 1, 22)
        page.set_column(
            len(sheet.columns) + 1, state_column(sheet) - 1, None, None, {"hidden": True}
        )

    def _offer_choices(self, page: Worksheet, sheet: Sheet) -> None:
        first, last = FIRST_ROW - 1, sheet.rows[-1].number - 1
        for number, column in enumerate(sheet.columns):
            source = self._choices(sheet, column)
            if source:
                page.data_validation(
                    first,
                    number,
                    last,
                    number,
                    {
                        "validate": "list",
                        "source": source,
                        "error_title": "Not on the list",
                        "error_message": "Choose from the list; the header's note explains it.",
                        "error_type": "warning" if column.is_key else "stop",
                    },
                )

    def _choices(self, sheet: Sheet, column: Column) -> str:
        if column.role is Role.KIND:
            return self._listed(tuple(kind.value for kind in Kind))
        if column.role is Role.MODEL and sheet.title == TRUCKS:
            # The sheet of models comes later, and its rows are counted here as they will be.
            last = FIRST_ROW - 1 + len(self.models) + NEW_MODELS
            return f"={MODELS}!$A${FIRST_ROW}:$A${last}"
        words = listed_choices(column, self.yards)
        return self._listed(words) if words else ""

    def _listed(self, words: tuple[str, ...]) -> str:
        if words not in self.lists:
            name = xl_col_to_name(len(self.lists), col_abs=True)
            self.lists[words] = f"={LISTS_SHEET}!{name}$1:{name}${len(words)}"
        return self.lists[words]

    def write_lists(self) -> None:
        """Write the words of all drop-downs on a hidden sheet."""
        page = self.book.add_worksheet(LISTS_SHEET)
        for column, words in enumerate(self.lists):
            for row, word in enumerate(words):
                page.write_string(row, column, word)
        page.hide()
        page.protect()

    def _mark_states(self, page: Worksheet, sheet: Sheet) -> None:
        """Let the sign of a cell follow what the clerk types: rules of the cell's own sheet."""
        last = sheet.rows[-1].number
        kept = xl_col_to_name(kept_column(sheet, 1) - 1)
        states = xl_col_to_name(state_column(sheet) - 1, col_abs=True)
        is_same = f"EXACT(A{FIRST_ROW},{kept}{FIRST_ROW})"
        state = f"MID({states}{FIRST_ROW},COLUMN(A{FIRST_ROW}),1)"
        area = (FIRST_ROW - 1, 0, last - 1, len(sheet.columns) - 1)
        rules = (
            (f"=NOT({is_same})", self.looks.changed),
            (f'={state}="{State.INHERITED.value}"', self.looks.inherited),
        )
        for formula, look in rules:
            rule = {"type": "formula", "criteria": formula, "format": look, "stop_if_true": True}
            page.conditional_format(*area, rule)


def _set_up(page: Worksheet, sheet: Sheet, paper: int) -> None:
    keys = sum(column.is_key for column in sheet.columns)
    last = sheet.rows[-1].number - 1
    page.freeze_panes(FIRST_ROW - 1, keys)
    page.autofilter(NAME_ROW - 1, 0, last, len(sheet.columns) - 1)
    page.protect("", _OPEN)
    page.set_landscape()
    page.set_paper(paper)
    page.set_margins(left=0.4, right=0.4, top=0.6, bottom=0.6)
    page.repeat_rows(0, LABEL_ROW - 1)
    page.repeat_columns(0, keys - 1)
    filled = [row.number for row in sheet.rows if row.record] or [FIRST_ROW]
    page.print_area(0, 0, filled[-1] - 1, len(sheet.columns) - 1)
    page.set_print_scale(65)
    page.set_footer("&L&A&RPage &P of &N")


def _as_kept(contents: Sequence[Content]) -> list[str]:
    return [*(content.text for content in contents), _states(contents)]


def _states(contents: Sequence[Content]) -> str:
    # Ends with a full stop: blanks at the end of a cell are lost in some programs.
    return "".join(content.state.value for content in contents) + "."


def _lines(text: str, width: float) -> int:
    """Return how many lines *text* takes in a column of *width* characters, word by word."""
    # Bold letters are wider than those that columns are measured by.
    width /= 1.1
    lines, used = 1, 0
    for word in text.split():
        if used and used + 1 + len(word) > width:
            lines, used = lines + 1, 0
        used += len(word) + (1 if used else 0)
    return lines
