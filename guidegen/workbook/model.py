"""What stands in a workbook, and what a clerk changed in it.

Takes in nothing; gives out records, sheets, columns, cells and changes as frozen values.
Refuses nothing: readers have checked what they make of these.
"""

import enum
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from guidegen.specs.fields import AnyField, DateField


class Kind(enum.Enum):
    """Whose file it is."""

    MODEL = "model"
    TRUCK = "truck"


RecordKey = tuple[Kind, str]
"""Kind and unit number or model id."""

SOURCE, ON, BY = "source", "recorded.on", "recorded.by"
ORIGIN = (SOURCE, ON, BY)
"""Where a value comes from: the document, the day on which it was recorded, and who did.

Alone these are names of columns for a whole file; `origin_of` names those of a single value.
"""


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
    """Text as typed by dotted name of fact, or name of a part of its origin; ``not fitted`` by
    dotted name of section."""

    sources: Mapping[str, str] = field(default_factory=dict)
    """The document of a single value, by dotted name of fact."""

    @property
    def id(self) -> RecordKey:
        """Kind and key."""
        return self.kind, self.key


def origin_of(fact: str, part: str) -> str:
    """Return the name of one part of where the value of *fact* comes from.

    >>> origin_of("tires.steer.size", SOURCE), fact_of(origin_of("tires.steer.size", ON))
    ('tires.steer.size source', 'tires.steer.size')
    """
    return f"{fact} {part}"


def fact_of(name: str) -> str:
    """Return the fact that *name* is of: itself, or that whose origin it names a part of."""
    return name.partition(" ")[0]


def is_origin(name: str) -> bool:
    """Whether *name* is of a part of an origin: of a single value, or of a whole file."""
    return " " in name or name in ORIGIN


def steps_of(name: str) -> list[str]:
    """Return the keys that lead to *name* in a file."""
    return name.replace(" ", ".").split(".")


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
    """A part of the origin of a whole file."""

    NAMED = "named"
    """The fact that a row is about: its dotted name."""

    CALLED = "called"
    """What people call it."""

    SHOWN = "shown"
    """Its value, which is changed elsewhere."""

    ORIGIN = "origin"
    """A part of the origin of the row's value."""

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

    kind: AnyField | DateField | None = None
    """Of a fact: what it takes."""

    @property
    def is_key(self) -> bool:
        """Whether the clerk may not change it in a row that has its truck."""
        return self.role in (Role.KIND, Role.KEY, Role.MODEL, Role.NAMED, Role.CALLED)


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a sheet."""

    number: int
    """As the program for spreadsheets counts, from 1."""

    record: Record | None
    """None where a new truck or model may be entered."""

    fact: str = ""
    """Dotted name of the one fact that the row is about; empty if it is about a truck or model."""

    def column(self, column: Column) -> Column:
        """Return *column* as it is in this row: of the origin of one value, or as it stands."""
        if column.role is not Role.ORIGIN:
            return column
        return replace(column, name=origin_of(self.fact, column.name))


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
    """Dotted name of fact or section, or name of a part of an origin."""

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
