"""Which cells the clerk touched, and whose they are.

Takes in a workbook whose fixed parts are as exported; gives out every cell that is not as it was,
by truck or model, and the trucks and models that are new. Refuses formulas, numbers that lost
digits, and rows of which nobody can say whose they are.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.finding import Findings, nearest
from guidegen.source import SourceFile, Span
from guidegen.specs.equipment import MODEL_ID, UNIT_NUMBER
from guidegen.specs.fields import AmountField, CountField, Refused
from guidegen.workbook import rules
from guidegen.workbook.check_book import Book
from guidegen.workbook.contents import NONE_HERE, UNKNOWN
from guidegen.workbook.model import Column, Content, Kind, Place, RecordKey, Role, Row, Sheet, State
from guidegen.workbook.read import Cell
from guidegen.workbook.topics import MODELS, TRUCKS
from guidegen.yaml_nodes import Scalar

_EMPTY = ("", UNKNOWN, NONE_HERE, "-", "—")
_AS_TEXT = "format the cell as text, and type the value again as it stands on the plate"


@dataclass(frozen=True, slots=True)
class Touched:
    """A cell that is not as it was exported."""

    column: Column
    was: Content
    text: str
    """What stands there now; empty if it was cleared."""

    place: Place


@dataclass(slots=True)
class Entered:
    """All that a clerk did in one workbook."""

    touched: dict[RecordKey, list[Touched]] = field(default_factory=dict)
    new: dict[RecordKey, Place] = field(default_factory=dict)
    """Where each new truck and model was entered."""

    models: dict[str, tuple[str, Place]] = field(default_factory=dict)
    """Model of each new truck, and where that stands."""


def entered_in(book: Book, findings: Findings) -> Entered:
    """Return what the clerk entered; what cannot be taken over is reported."""
    entered = Entered()
    for sheet in book.layout.sheets:
        seen = {row.record.id: row.number for row in sheet.rows if row.record is not None}
        for row in sheet.rows:
            cells = list(_touched(book, sheet, row, findings))
            if row.record is None:
                _take_new_row(book, sheet, row, cells, seen, entered, findings)
            elif cells:
                entered.touched.setdefault(row.record.id, []).extend(cells)
    return entered


def _take_new_row(  # noqa: PLR0913, PLR0917 -- one row, and what is made of it
    book: Book,
    sheet: Sheet,
    row: Row,
    cells: list[Touched],
    seen: dict[RecordKey, int],
    entered: Entered,
    findings: Findings,
) -> None:
    id_ = _whose(book, sheet, row, cells, findings)
    if id_ is None:
        return
    place = Place(sheet.title, row.number, sheet.position(Role.KEY) or 1)
    if id_ in seen:
        what = f"`{id_[1]}` also has row {seen[id_]} of the sheet `{sheet.title}`"
        fix = "keep one of the two rows; clear the other"
        book.report(findings, rules.ROW_TWICE, place, what, fix)
        return
    seen[id_] = row.number
    if sheet.title in (TRUCKS, MODELS):
        entered.new[id_] = place
        _take_model(book, sheet, row, id_, entered, findings)
    else:
        known = [*(record.id for record in book.records), *entered.new]
        if id_ not in known:
            _report_stranger(book, place, id_, known, findings)
    entered.touched.setdefault(id_, []).extend(c for c in cells if not c.column.is_key)


def _touched(book: Book, sheet: Sheet, row: Row, findings: Findings) -> Iterator[Touched]:
    shown: Mapping[int, tuple[Content, ...]] = book.shown[sheet.title]
    for number, (column, was) in enumerate(zip(sheet.columns, shown[row.number], strict=True), 1):
        if row.record is not None and column.is_key:
            continue
        place = Place(sheet.title, row.number, number)
        cell = book.cell(place)
        if column.role is Role.SHOWN:
            _check_shown(book, row, was, cell, place, findings)
            continue
        if cell is not None and not _is_typed(book, column, cell, place, findings):
            continue
        text = cell.text if cell else ""
        if text == was.text:
            continue
        text = "" if text in _EMPTY and not column.is_key else text
        is_nothing_own = was.state in (State.NEW, State.INHERITED, State.NOT_ON_RECORD)
        if text or not (is_nothing_own or was.text == NONE_HERE):
            yield Touched(row.column(column), was, text, place)


def _check_shown(  # noqa: PLR0913, PLR0917 -- one cell, and what stands in it
    book: Book, row: Row, was: Content, cell: Cell | None, place: Place, findings: Findings
) -> None:
    """Report a value that was changed where it is only shown."""
    text = cell.text if cell else ""
    if text != was.text:
        what = f"`{text[:40]}` stands where the value `{was.text[:40]}` is only shown"
        fix = f"take it back, and change `{row.fact}` on the sheet of its topic"
        book.report(findings, rules.KEY_CHANGED, place, what, fix)


def _is_typed(book: Book, column: Column, cell: Cell, place: Place, findings: Findings) -> bool:
    if cell.kind == "text":
        return True
    takes_numbers = isinstance(column.kind, CountField | AmountField)
    if cell.kind == "number" and takes_numbers and cell.text.isdigit():
        return True
    if cell.kind == "formula":
        what = f"`{cell.text[:40]}` is a formula"
        fix = "type the value itself, as it stands on the plate or in the handbook"
        book.report(findings, rules.FORMULA_IN_CELL, place, what, fix)
    else:
        kind = "a fault of a formula" if cell.kind == "error" else f"kept as {_article(cell.kind)}"
        what = f"`{cell.text[:40]}` is {kind}, not as it was typed"
        book.report(findings, rules.NOT_TYPED_AS_TEXT, place, what, _AS_TEXT)
    return False


def _article(kind: str) -> str:
    return kind if kind == "yes or no" else f"a {kind}"


def _whose(
    book: Book, sheet: Sheet, row: Row, cells: list[Touched], findings: Findings
) -> RecordKey | None:
    """Return the truck or model of a row that was empty; nothing if it still is, or is unclear."""
    if not cells:
        return None
    by_role = {cell.column.role: cell for cell in cells if cell.column.is_key}
    key = by_role.get(Role.KEY)
    place = Place(sheet.title, row.number, sheet.position(Role.KEY) or 1)
    if key is None:
        what = f"row {row.number} holds values and names no truck or model"
        fix = "enter whose values they are, or clear the row"
        book.report(findings, rules.ROW_WITHOUT_KEY, place, what, fix)
        return None
    kind = _kind(sheet, by_role)
    if kind is None:
        place = Place(sheet.title, row.number, sheet.position(Role.KIND) or 1)
        what = f"row {row.number} does not say whether `{key.text}` is a truck or a model"
        fix = "choose `truck` or `model`"
        book.report(findings, rules.ROW_WITHOUT_KEY, place, what, fix)
        return None
    try:
        takes = UNIT_NUMBER if kind is Kind.TRUCK else MODEL_ID
        takes.read(located(key.text), key.column.label.lower())
    except Refused as refused:
        book.report(findings, refused.rule, place, refused.what, refused.fix)
        return None
    return kind, key.text


def _kind(sheet: Sheet, by_role: Mapping[Role, Touched]) -> Kind | None:
    if sheet.title in (TRUCKS, MODELS):
        return Kind.TRUCK if sheet.title == TRUCKS else Kind.MODEL
    chosen = by_role.get(Role.KIND)
    return next((kind for kind in Kind if chosen and kind.value == chosen.text), None)


def _take_model(  # noqa: PLR0913, PLR0917 -- one row, and what is made of it
    book: Book, sheet: Sheet, row: Row, id_: RecordKey, entered: Entered, findings: Findings
) -> None:
    column = sheet.position(Role.MODEL)
    if column is None:
        return
    place = Place(sheet.title, row.number, column)
    cell = book.cell(place)
    if cell is None:
        what = f"the new truck `{id_[1]}` names no model"
        fix = "choose its model from the list; enter a new model on the sheet Models first"
        book.report(findings, rules.MODEL_MISSING, place, what, fix)
        return
    entered.models[id_[1]] = cell.text, place


def _report_stranger(
    book: Book, place: Place, id_: RecordKey, known: list[RecordKey], findings: Findings
) -> None:
    kind, key = id_
    sheet = TRUCKS if kind is Kind.TRUCK else MODELS
    near = nearest(key, [each for of, each in known if of is kind])
    guess = f"did you mean `{near}`? " if near else ""
    what = f"there is no {kind.value} `{key}`"
    fix = f"{guess}A new one is entered on the sheet {sheet} first"
    book.report(findings, rules.ROW_OF_NOBODY, place, what, fix)


def located(text: str) -> Scalar:
    """Return *text* as the fields of specs read it; its own place says nothing."""
    return Scalar(text, Span(SourceFile("", text), 1, 1, 1, 1), is_plain=True)
