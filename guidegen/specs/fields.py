"""The kinds of field that a spec may hold.

Takes in located scalars as typed; gives out stated values of the field's kind.
Refuses amounts without a measure, choices that are not on the list and text that is no text:
each refusal is a `Refused` that becomes a finding at the value's own place.
"""

import re
from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, core_schema

from guidegen.finding import Rule, nearest
from guidegen.pickling import numerous
from guidegen.quantity.model import Amount, Dimension, Quantity, QuantityRange, Sense
from guidegen.quantity.parse import (
    BackwardRange,
    MissingMeasure,
    NotANumber,
    UnknownMeasure,
    UnreadableAmount,
    WrongDimension,
    parse_amount,
)
from guidegen.source import Span
from guidegen.specs import rules
from guidegen.yaml_nodes import Listing, Node, Scalar, Table

NOT_FITTED = "not fitted"
LONGEST_TEXT = 300
"""Characters; a longer text belongs in a procedure, not in a spec."""

RECORDED_SCHEMA: Mapping[str, Any] = {
    "type": "object",
    "additionalProperties": False,
    "required": ["on"],
    "properties": {
        "on": {"type": "string", "format": "date", "description": "The day."},
        "by": {"type": "string", "description": "Name of whoever did."},
    },
}
"""When a value was recorded, and who did, for editors."""

Value = Amount | int | bool | str | tuple[str, ...]
"""An amount, a count, yes or no, a choice or text, or several choices or texts."""


@dataclass(frozen=True, slots=True)
class Recorded:
    """When the office recorded a value, and who did."""

    on: str
    """The day, as ``2026-03-02``."""

    by: str
    """Name, as typed; empty if nobody said."""

    span: Span
    """Of the day."""


@numerous
@dataclass(frozen=True, slots=True)
class Stated:
    """One value as a file states it."""

    value: Value
    span: Span
    source: str = ""
    """The document that the office copied the value from, as typed."""

    quoted: Value | None = None
    """The same in other measures as that document prints it; shown instead of a conversion."""

    recorded: Recorded | None = None
    """None if nobody said when."""


class Refused(ValueError):
    """A value that a field does not take, with the words for its finding."""

    def __init__(self, rule: Rule, span: Span, what: str, fix: str) -> None:
        """Keep the place and the words."""
        super().__init__(what)
        self.rule = rule
        self.span = span
        self.what = what
        self.fix = fix


class Field(ABC):
    """What makes a kind of field usable as a pydantic annotation."""

    __slots__ = ()

    @abstractmethod
    def read(self, node: Scalar | Listing, name: str) -> Value:
        """Return the value of *node*, or raise `Refused`; *name* is the field's, for the words."""

    @abstractmethod
    def json_schema(self) -> dict[str, Any]:
        """Return the JSON Schema of the bare value, for editors."""

    def __get_pydantic_core_schema__(
        self, _source: object, _handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(
        self, _schema: CoreSchema, _handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        bare = self.json_schema()
        with_source = {
            "type": "object",
            "additionalProperties": False,
            "required": ["value"],
            "properties": {
                "value": bare,
                "source": {"type": "string"},
                "quoted": bare,
                "recorded": RECORDED_SCHEMA,
            },
        }
        return {"anyOf": [bare, with_source]}

    def _validate(self, given: object, info: ValidationInfo[Any]) -> Stated:
        name = info.field_name or ""
        parts = _parts_of(given, name)
        also = None if parts.quoted is None else self.read(parts.quoted, name)
        value = self.read(parts.value, name)
        return Stated(value, parts.value.span, parts.source, also, parts.recorded)


@dataclass(frozen=True, slots=True)
class AmountField(Field):
    """An amount with a measure."""

    label: str
    dimension: Dimension
    low: str
    """Least amount that is believable; below it the office has mistyped."""

    high: str
    sense: Sense = Sense.NOMINAL

    def read(self, node: Scalar | Listing, name: str) -> Amount:
        """Return the amount with the digits that were typed."""
        scalar = _scalar(node, name)
        try:
            amount = parse_amount(scalar.text, self.dimension)
        except UnreadableAmount as fault:
            raise self._refused(fault, scalar, name) from fault
        self._check_kind(amount, scalar, name)
        self._check_range(amount, scalar, name)
        return amount

    def _refused(self, fault: UnreadableAmount, scalar: Scalar, name: str) -> Refused:
        example = f"`{name}: {self.low}` to `{name}: {self.high}` are believable"
        match fault:
            case MissingMeasure():
                like = " or ".join(f"`{name}: {example}`" for example in fault.examples[:2])
                return Refused(
                    rules.QUANTITY_WITHOUT_MEASURE,
                    scalar.span,
                    f"`{name}: {scalar.text}` has no unit of measure",
                    f"copy the measure from the plate or the handbook, as in {like}",
                )
            case UnknownMeasure():
                suggestion = f"did you mean `{fault.suggestion}`?" if fault.suggestion else example
                return Refused(
                    rules.UNKNOWN_MEASURE,
                    scalar.span,
                    f"`{name}: {scalar.text}` has an unknown unit of measure",
                    suggestion,
                )
            case WrongDimension():
                return Refused(
                    rules.WRONG_DIMENSION,
                    scalar.span,
                    f"`{name}: {scalar.text}` is no {self.dimension.value}",
                    f"state a {self.dimension.value}; {example}",
                )
            case BackwardRange():
                return Refused(
                    rules.BACKWARD_RANGE,
                    scalar.span,
                    f"`{name}: {scalar.text}` runs from the greater to the smaller",
                    "write the smaller amount first, as in `15 to 20 min`",
                )
            case NotANumber():
                return Refused(
                    rules.UNREADABLE_AMOUNT,
                    scalar.span,
                    f"`{name}: {_short(scalar.text)}` {fault.reason}",
                    f"{fault.fix}; {example}",
                )
            case _:
                return Refused(
                    rules.UNREADABLE_AMOUNT,
                    scalar.span,
                    f"`{name}: {_short(scalar.text)}` cannot be read as an amount",
                    f"write digits and one unit of measure; {example}",
                )

    def _check_kind(self, amount: Amount, scalar: Scalar, name: str) -> None:
        if isinstance(amount, QuantityRange) and self.sense is not Sense.RANGE:
            raise Refused(
                rules.RANGE_WHERE_ONE_VALUE,
                scalar.span,
                f"`{name}: {scalar.text}` is a range, and one value is asked for",
                f"state the one value that the maker gives; it is {_SENSE_WORDS[self.sense]}",
            )

    def _check_range(self, amount: Amount, scalar: Scalar, name: str) -> None:
        ends = (amount.low, amount.high) if isinstance(amount, QuantityRange) else (amount,)
        low, high = (_bound(text, self.dimension) for text in (self.low, self.high))
        if all(low <= end.exact <= high for end in ends):
            return
        raise Refused(
            rules.VALUE_OUT_OF_RANGE,
            scalar.span,
            f"`{name}: {scalar.text}` is not between {self.low} and {self.high}",
            "look at the plate or the handbook again: digits, decimal point and measure",
        )

    def json_schema(self) -> dict[str, Any]:
        """Return a schema that shows an example; exact checks are the reader's."""
        return {"type": "string", "examples": [self.low, self.high]}


@dataclass(frozen=True, slots=True)
class ChoiceField(Field):
    """One word out of a closed list."""

    label: str
    choices: Mapping[str, str] = field(hash=False)
    """What is typed, by the words that the guide prints for it."""

    def read(self, node: Scalar | Listing, name: str) -> str:
        """Return the choice as typed."""
        return _choice(_scalar(node, name), name, self.choices)

    def json_schema(self) -> dict[str, Any]:
        """Return the list as an enumeration."""
        return {"enum": list(self.choices)}


@dataclass(frozen=True, slots=True)
class ChoicesField(Field):
    """Several words out of a closed list, in the order typed."""

    label: str
    choices: Mapping[str, str] = field(hash=False)

    def read(self, node: Scalar | Listing, name: str) -> tuple[str, ...]:
        """Return the choices as typed; one choice may stand without a list."""
        scalars = _scalars(node, name)
        chosen = tuple(_choice(scalar, name, self.choices) for scalar in scalars)
        for position, scalar in enumerate(scalars):
            if scalar.text in chosen[:position]:
                raise Refused(
                    rules.CHOICE_TWICE,
                    scalar.span,
                    f"`{name}` names `{scalar.text}` twice",
                    "delete one of the two",
                )
        return chosen

    def json_schema(self) -> dict[str, Any]:
        """Return the list as an enumeration."""
        return {"type": "array", "items": {"enum": list(self.choices)}, "uniqueItems": True}


@dataclass(frozen=True, slots=True)
class TextField(Field):
    """A short text, kept to the letter: ``11R22.5`` and ``NO`` stay as typed."""

    label: str
    pattern: str = r".+"
    says: str = "text"
    """What the pattern asks for, in words."""

    def read(self, node: Scalar | Listing, name: str) -> str:
        """Return the text without its outer blanks."""
        scalar = _scalar(node, name)
        text = " ".join(scalar.text.split())
        if not re.fullmatch(self.pattern, text) or len(text) > LONGEST_TEXT:
            raise Refused(
                rules.TEXT_OF_WRONG_FORM,
                scalar.span,
                f"`{name}: {_short(scalar.text)}` is not {self.says}",
                f"write {self.says}, of {LONGEST_TEXT} characters at most",
            )
        return text

    def json_schema(self) -> dict[str, Any]:
        """Return the pattern."""
        return {"type": ["string", "number"], "maxLength": LONGEST_TEXT}


@dataclass(frozen=True, slots=True)
class DateField(Field):
    """A day, as ISO 8601 writes it."""

    label: str

    def read(self, node: Scalar | Listing, name: str) -> str:
        """Return the day as ``2026-11-20``."""
        scalar = _scalar(node, name)
        try:
            return date.fromisoformat(scalar.text).isoformat()
        except ValueError as fault:
            raise Refused(
                rules.NOT_A_DATE,
                scalar.span,
                f"`{name}: {_short(scalar.text)}` is no date",
                f"write year, month and day, as in `{name}: 2026-11-20`",
            ) from fault

    def json_schema(self) -> dict[str, Any]:
        """Return the form."""
        return {"type": "string", "format": "date"}


@dataclass(frozen=True, slots=True)
class CountField(Field):
    """A whole number of things, without a measure."""

    label: str
    low: int
    high: int

    def read(self, node: Scalar | Listing, name: str) -> int:
        """Return the number."""
        scalar = _scalar(node, name)
        if not re.fullmatch(r"[0-9]{1,9}", scalar.text):
            raise Refused(
                rules.NOT_A_COUNT,
                scalar.span,
                f"`{name}: {_short(scalar.text)}` is not a whole number",
                f"count them, and write digits only, as in `{name}: {self.low}`",
            )
        count = int(scalar.text)
        if not self.low <= count <= self.high:
            raise Refused(
                rules.VALUE_OUT_OF_RANGE,
                scalar.span,
                f"`{name}: {count}` is not between {self.low} and {self.high}",
                "count again, or look at the handbook",
            )
        return count

    def json_schema(self) -> dict[str, Any]:
        """Return the bounds."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True, slots=True)
class FlagField(Field):
    """Yes or no, where a section of its own would hold nothing."""

    label: str

    def read(self, node: Scalar | Listing, name: str) -> bool:
        """Return true for ``yes``, false for ``no`` or ``not fitted``."""
        scalar = _scalar(node, name)
        words = {"yes": True, "no": False, NOT_FITTED: False}
        if scalar.text not in words:
            raise Refused(
                rules.NOT_YES_OR_NO,
                scalar.span,
                f"`{name}: {_short(scalar.text)}` is neither yes nor no",
                f"write `{name}: yes` or `{name}: no`",
            )
        return words[scalar.text]

    def json_schema(self) -> dict[str, Any]:
        """Return the words; editors that read YAML 1.1 take a bare yes for true."""
        return {"enum": ["yes", "no", NOT_FITTED, True, False]}


AnyField = AmountField | ChoiceField | ChoicesField | TextField | CountField | FlagField

_SENSE_WORDS = {
    Sense.NOMINAL: "a nominal value",
    Sense.AT_MOST: "an upper limit",
    Sense.AT_LEAST: "a lower limit",
    Sense.RANGE: "a range",
}


@lru_cache(maxsize=1_000)
def _bound(text: str, dimension: Dimension) -> Fraction:
    amount = parse_amount(text, dimension)
    assert isinstance(amount, Quantity)  # noqa: S101 -- the schema's own bounds are single values
    return amount.exact


@dataclass(frozen=True, slots=True)
class _Parts:
    """What may be typed of one value."""

    value: Scalar | Listing
    source: str = ""
    quoted: Scalar | None = None
    recorded: Recorded | None = None


_PARTS = ("value", "source", "quoted", "recorded")


def _parts_of(given: object, name: str) -> _Parts:
    """Split ``{value: 100 ft, quoted: 30 m, source: …}``; a bare value has no other parts."""
    match given:
        case Scalar() | Listing():
            return _Parts(given)
        case Table(entries=entries, span=span):
            unknown = [key for key in entries if key not in _PARTS]
            value, source = given.get("value"), given.get("source")
            quoted = _scalar(given.entries["quoted"][1], name) if "quoted" in entries else None
            if unknown or not isinstance(value, Scalar | Listing):
                raise Refused(
                    rules.TABLE_WHERE_VALUE,
                    given.key_span(unknown[0]) if unknown else span,
                    f"`{name}` holds a table, and one value is asked for",
                    f"write `{name}: …`, or `{name}: {{value: …, source: …}}`",
                )
            recorded = _recorded(given) if "recorded" in entries else None
            said = source.text if isinstance(source, Scalar) else ""
            return _Parts(value, said, quoted, recorded)
        case _:
            raise TypeError(given)


def _recorded(given: Table) -> Recorded:
    """Read ``recorded: {on: 2026-03-02, by: …}``, or raise `Refused`."""
    node = given.get("recorded")
    entries = node.entries if isinstance(node, Table) else {}
    day = node.get("on") if isinstance(node, Table) else None
    if not isinstance(node, Table) or not isinstance(day, Scalar) or {*entries} - {"on", "by"}:
        raise Refused(
            rules.RECORDED_WITHOUT_DAY,
            given.key_span("recorded"),
            "`recorded` does not hold a day, and a name if anything else",
            "write `recorded: {on: 2026-03-02, by: …}`, or the day alone: `{on: 2026-03-02}`",
        )
    by = (
        TextField("Recorded by").read(_scalar(entries["by"][1], "by"), "by")
        if "by" in entries
        else ""
    )
    return Recorded(DateField("Recorded on").read(day, "on"), by, day.span)


def _scalar(node: Node, name: str) -> Scalar:
    if isinstance(node, Scalar):
        return node
    raise Refused(
        rules.LIST_WHERE_VALUE,
        node.span,
        f"`{name}` holds a list, and one value is asked for",
        f"keep the one that holds for this truck: `{name}: …`",
    )


def _scalars(node: Scalar | Listing, name: str) -> tuple[Scalar, ...]:
    if isinstance(node, Scalar):
        return (node,)
    return tuple(_scalar(inner, name) for inner in node.nodes)


def _choice(scalar: Scalar, name: str, choices: Mapping[str, str]) -> str:
    if scalar.text in choices:
        return scalar.text
    near = nearest(scalar.text, choices)
    listed = ", ".join(f"`{choice}`" for choice in choices)
    raise Refused(
        rules.UNKNOWN_CHOICE,
        scalar.span,
        f"`{name}` cannot be `{_short(scalar.text)}`",
        f"did you mean `{near}`? The list: {listed}" if near else f"choose one of {listed}",
    )


def _short(text: str) -> str:
    longest = 40
    return text if len(text) <= longest else text[: longest - 1] + "…"
