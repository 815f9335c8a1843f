"""What stands in a workbook, and what a clerk changed in it.

Takes in nothing; gives out records, sheets, columns, cells and changes as frozen values.
Refuses nothing: readers have checked what they make of these.
"""

import enum
from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.specs.fields import AnyField


class Kind(enum.Enum):
    """Whose file it is."""

    MODEL = "model"
    TRUCK = "truck"


RecordKey = tuple[Kind, str]
"""Kind and unit number or model id."""

SOURCE = "source"
"""Name of the column for the document that a whole file was copied from."""


@dataclass(frozen=True, slots=True)
class Record:
    """What one unit or model file states itself, as text."""

    kind: Kind
    key: str
    """Unit number or model id."""

    model: str
    """Of a truck: its model's id. Of a model: itself."""

    path: str
    """As findings show it: ``specs/units/T-17.yml``."""

    digest: str
    """SHA-256 of the file's bytes, in hexadecimal."""

    own: Mapping[str, str]
    """Text as typed by dotted name of fact; ``not fitted`` by dotted name of section."""

    sources: Mapping[str, str] = field(default_factory=dict)
    """The document of a single value, by dotted name of fact."""

    @property
    def id(self) -> RecordKey:
        """Kind and key."""
        return self.kind, self.key


class State(enum.Enum):
    """What is known of a cell's value; the letter is kept in the workbook."""

    OWN = "o"
    INHERITED = "i"
    OWN_NOT_FITTED = "x"
    """A section that the file itself says is not fitted."""

    NOT_FITTED = "n"
    """Not fitted by the model's word or by that of an outer section."""

    NOT_ON_RECORD = "r"
    NEW = " "
    """A cell of a row that waits for a new truck or model."""


@dataclass(frozen=True, slots=True)
class Content:
    """What a cell shows."""

    text: str
    state: State


class Role(enum.Enum):
    """What a column is for."""

    KIND = "kind"
    KEY = "key"
    MODEL = "model"
    SOURCE = "source"
    SECTION = "section"
    FACT = "fact"


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a sheet."""

    role: Role
    name: str
    """Dotted name of the fact or section; of other columns a word of its own."""

    label: str
    note: str
    """What the note on the header says."""

    group: str = ""
    """Label of the section, for the band above the headers."""

    kind: AnyField | None = None
    """Of a fact: what it takes."""

    @property
    def is_key(self) -> bool:
        """Whether the clerk may not change it in a row that has its truck."""
        return self.role in (Role.KIND, Role.KEY, Role.MODEL)


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a sheet."""

    number: int
    """As the program for spreadsheets counts, from 1."""

    record: Record | None
    """None where a new truck or model may be entered."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet with trucks or models as rows."""

    title: str
    hint: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    def position(self, role: Role) -> int | None:
        """Return the number of the column for *role*, counted from 1."""
        found = (n for n, column in enumerate(self.columns, 1) if column.role is role)
        return next(found, None)


@dataclass(frozen=True, slots=True)
class Place:
    """A cell of a workbook."""

    sheet: str
    row: int
    column: int

    @property
    def cell(self) -> str:
        """``D18``."""
        letters, number = "", self.column
        while number:
            number, rest = divmod(number - 1, 26)
            letters = chr(ord("A") + rest) + letters
        return f"{letters}{self.row}"

    def within(self, file: str) -> str:
        """Return ``fleet.xlsx:Tires!D18``, quoted as spreadsheets quote names with blanks."""
        sheet = self.sheet if self.sheet.isalnum() else f"'{self.sheet}'"
        return f"{file}:{sheet}!{self.cell}"


@dataclass(frozen=True, slots=True)
class Change:
    """One value that the clerk wants to be another."""

    kind: Kind
    key: str
    name: str
    """Dotted name of fact or section, or ``source``."""

    before: str | None
    """The file's own value now; none if it states none."""

    after: str | None
    """None if the file is to state none."""

    place: Place
    shown_before: str
    """What the cell showed, for the dry run."""

    followers: tuple[str, ...] = ()
    """Trucks that inherit it."""

    @property
    def id(self) -> RecordKey:
        """Kind and key of the record."""
        return self.kind, self.key
