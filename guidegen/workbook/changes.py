"""From what the clerk entered to what changes in the record, cell against cell.

Takes in the touched cells, what the files stated when the workbook was exported and what they
state now; gives out the changes. Refuses a cell that both the clerk and somebody else changed,
values of a thing that is not fitted, and values that their field does not take.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.finding import Findings, Rule
from guidegen.source_text import unseen_character
from guidegen.specs.equipment import EQUIPMENT_FACTS
from guidegen.specs.fields import (
    NOT_FITTED,
    AnyField,
    ChoicesField,
    DateField,
    FlagField,
    Refused,
    TextField,
)
from guidegen.workbook import rules
from guidegen.workbook.check_book import Book
from guidegen.workbook.contents import states_any
from guidegen.workbook.model import Change, Record, RecordKey, Role, State, fact_of
from guidegen.workbook.records import BETWEEN
from guidegen.workbook.topics import FITTED, FITTED_WORDS
from guidegen.workbook.touched import Touched, located
from guidegen.yaml_nodes import Listing, Scalar

_SOURCE_TEXT = TextField("Source")


@dataclass(slots=True)
class Comparison:
    """One truck or model: what was exported, what is on record, what the clerk entered."""

    book: Book
    id: RecordKey
    now: Record | None
    """None if it has no file."""

    model: Record | None
    """Of a truck: its model now."""

    exported: Mapping[str, str]
    """What its file stated itself when the workbook was exported."""

    findings: Findings
    followers: tuple[Record, ...] = ()
    """Of a model: its trucks."""

    is_new: bool = False
    """Whether the clerk enters it here for the first time."""

    changes: list[Change] = field(default_factory=list)

    def compare(self, touched: list[Touched]) -> tuple[Change, ...]:
        """Return the changes that *touched* asks for, in the order of the sheets."""
        sections = {t.column.name: t for t in touched if t.column.role is Role.SECTION}
        for cell in touched:
            if cell.column.role is Role.SECTION:
                self._compare_section(cell, touched)
            else:
                self._compare_value(cell, sections)
        return tuple(self.changes)

    def _compare_value(self, cell: Touched, sections: Mapping[str, Touched]) -> None:
        after = self._typed(cell)
        if cell.text and after is None:
            return
        name = cell.column.name
        fact = fact_of(name)
        if after is not None and cell.column.role in (Role.FACT, Role.ORIGIN):
            missing = self._missing_section(fact, sections)
            if missing:
                self._report_missing(cell, missing)
                return
        # An origin belongs to the value that the clerk saw: not to one that came since.
        self._change(cell, after, tuple(dict.fromkeys((name, fact, *_enclosing(fact)))))

    def _typed(self, cell: Touched) -> str | None:
        """Return the text to write; nothing, with a finding, if the field does not take it."""
        if not cell.text:
            return None
        unseen = unseen_character(cell.text)
        if unseen:
            self._refuse(
                cell,
                rules.NOT_TYPED_AS_TEXT,
                f"the character {unseen} stands here and cannot be seen",
                "clear the cell, and type the value by hand instead of copying it",
            )
            return None
        kind = _SOURCE_TEXT if cell.column.kind is None else cell.column.kind
        last = cell.column.name.rpartition(".")[2]
        is_fact = cell.column.role is Role.FACT
        if cell.text == NOT_FITTED and is_fact and not isinstance(kind, FlagField):
            self._report_not_fitted(cell)
            return None
        node, text = _node(kind, cell.text)
        try:
            kind.read(node, last)
        except Refused as refused:
            self._refuse(cell, refused.rule, refused.what, refused.fix)
            return None
        return text

    def _compare_section(self, cell: Touched, touched: list[Touched]) -> None:
        name = cell.column.name
        if cell.text and cell.text not in FITTED_WORDS:
            fix = f"choose `{FITTED}` or `{NOT_FITTED}` from the list"
            self._refuse(cell, rules.FITTED_UNCLEAR, f"`{cell.text[:40]}` is neither", fix)
            return
        has_value = any(
            t.text and t.column.role is Role.FACT and t.column.name.startswith(f"{name}.")
            for t in touched
        )
        if cell.text == NOT_FITTED:
            inner = (n for n in self._stated_in(name))
            self._change(cell, NOT_FITTED, (name, *_enclosing(name), *inner))
        elif cell.was.state is State.OWN_NOT_FITTED:
            is_inherited = self.model is not None and states_any(self.model, name)
            if cell.text == FITTED and not has_value and not is_inherited:
                self._report_without_value(cell)
                return
            self._change(cell, None, (name, *_enclosing(name)))
        elif cell.text == FITTED:
            if not has_value:
                self._report_without_value(cell)
        else:
            self._refuse(
                cell,
                rules.FITTED_UNCLEAR,
                f"`{cell.was.text}` was cleared, and nothing says what is true instead",
                f"choose `{NOT_FITTED}`, or leave `{cell.was.text}` and clear the values",
            )

    def _stated_in(self, section: str) -> Iterator[str]:
        stated = {*self.exported, *(self.now.own if self.now else ())}
        yield from sorted(name for name in stated if name.startswith(f"{section}."))

    def _missing_section(self, fact: str, sections: Mapping[str, Touched]) -> Touched | str | None:
        """Return the section that is not fitted and holds *fact*; its cell if it was touched."""
        for name in _enclosing(fact):
            cell = sections.get(name)
            if cell is not None and cell.text == NOT_FITTED:
                return cell
            if cell is None and self._shown_missing(name):
                return name
        return None

    def _shown_missing(self, section: str) -> bool:
        for sheet in self.book.layout.sheets:
            for row in sheet.rows:
                if row.record is None or row.record.id != self.id:
                    continue
                for column, was in zip(
                    sheet.columns, self.book.shown[sheet.title][row.number], strict=True
                ):
                    if column.role is Role.SECTION and column.name == section:
                        return was.text == NOT_FITTED
        return False

    def _change(self, cell: Touched, after: str | None, compared: tuple[str, ...]) -> None:
        now = self.now.own if self.now else {}
        name = cell.column.name
        if now.get(name) == after:
            return
        is_gone = self.now is None and not self.is_new
        if is_gone or any(now.get(each) != self.exported.get(each) for each in compared):
            self._report_both(cell, now.get(name))
            return
        followers = tuple(
            truck.key
            for truck in self.followers
            if fact_of(name) not in truck.own
            and not any(s in truck.own for s in _enclosing(fact_of(name)))
        )
        self.changes.append(
            Change(*self.id, name, now.get(name), after, cell.place, cell.was.text, followers)
        )

    def _refuse(self, cell: Touched, rule: Rule, what: str, fix: str) -> None:
        self.book.report(self.findings, rule, cell.place, what, fix)

    def _report_not_fitted(self, cell: Touched) -> None:
        section = EQUIPMENT_FACTS[cell.column.name].section
        what = f"`{NOT_FITTED}` is no value of `{cell.column.name}`"
        fix = f"choose `{NOT_FITTED}` in the column `{section}`, or clear this cell"
        self._refuse(cell, rules.NOT_FITTED_IN_VALUE, what, fix)

    def _report_missing(self, cell: Touched, missing: Touched | str) -> None:
        name = missing if isinstance(missing, str) else missing.column.name
        what = f"`{cell.column.name}` has a value, and `{name}` is {NOT_FITTED}"
        fix = f"choose `{FITTED}` in the column `{name}` of this row, or clear this cell"
        self._refuse(cell, rules.VALUE_NOT_FITTED, what, fix)

    def _report_without_value(self, cell: Touched) -> None:
        what = f"`{cell.column.name}` is to be {FITTED}, and no value of it was entered"
        fix = "enter at least one of its values in this row, or take the word back"
        self._refuse(cell, rules.FITTED_WITHOUT_VALUE, what, fix)

    def _report_both(self, cell: Touched, now: str | None) -> None:
        name, key = cell.column.name, self.id[1]
        record = f"`{now}`" if now else "no value of its own"
        if self.now is None:
            rule, what = rules.RECORD_GONE, f"the file of `{key}` is gone since the export"
            fix = "ask whoever keeps the specs; a truck that is gone needs a fresh workbook"
        else:
            rule = rules.CHANGED_ON_BOTH_SIDES
            what = (
                f"`{name}` of `{key}` was `{cell.was.text}` when it was exported, is {record} on"
                f" record now, and `{cell.text or 'nothing'}` here"
            )
            fix = (
                f"find out which is true; if the record is, type {record} here, else correct the"
                " record or ask for a fresh workbook"
            )
        self._refuse(cell, rule, what, fix)


def exported_own(book: Book) -> Mapping[RecordKey, Mapping[str, str]]:
    """Return what each file stated itself when *book* was exported, by dotted name."""
    own: dict[RecordKey, dict[str, str]] = {record.id: {} for record in book.records}
    for sheet in book.layout.sheets:
        for row in sheet.rows:
            if row.record is None:
                continue
            for column, was in zip(sheet.columns, book.shown[sheet.title][row.number], strict=True):
                is_value = column.role in (Role.FACT, Role.SOURCE, Role.ORIGIN)
                if (is_value and was.state is State.OWN) or was.state is State.OWN_NOT_FITTED:
                    own[row.record.id][row.column(column).name] = was.text
    return own


def _node(kind: AnyField | DateField, text: str) -> tuple[Scalar | Listing, str]:
    """Return *text* as a file would hold it, and as it is to be written."""
    if not isinstance(kind, ChoicesField):
        return located(text), text
    words = [word.strip() for word in text.split(",") if word.strip()]
    return Listing(tuple(map(located, words)), located(text).span), BETWEEN.join(words)


def _enclosing(name: str) -> Iterator[str]:
    while "." in name:
        name = name.rpartition(".")[0]
        yield name
