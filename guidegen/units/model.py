"""What is known of one truck.

Takes in stated values, layered; gives out facts by dotted name, each with its provenance.
Refuses a fact without one: a number that nobody can trace is not printed.
"""

import enum
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from guidegen.photos.model import Photo
from guidegen.pickling import numerous
from guidegen.quantity.model import Amount
from guidegen.source import Span
from guidegen.specs.equipment import FactField
from guidegen.specs.fields import Recorded, Value


class Layer(enum.Enum):
    """Which file states a value."""

    UNIT = "stated for this unit"
    MODEL = "inherited from the model"
    FLEET = "stated for the fleet"
    PROFILE = "set by the jurisdiction"
    LIBRARY = "known to the library"


@dataclass(frozen=True, slots=True)
class StatedIn:
    """A value that a file states."""

    layer: Layer
    span: Span
    source: str
    """The document that it was copied from; empty if nobody said."""

    recorded: Recorded | None = None
    """None if nobody said when."""


@dataclass(frozen=True, slots=True)
class WorkedOut:
    """A value that follows from others."""

    formula: str
    """In words with fact names, such as ``block_heater.power / block_heater.voltage``."""

    of: tuple[str, ...]
    """Names of the facts that it follows from."""

    span: Span
    """Of the first of them."""


Provenance = StatedIn | WorkedOut

Show = Callable[[FactField, Amount], tuple[Amount, ...]]
"""What is printed for an amount of a fact, in the fleet's order."""


@numerous
@dataclass(frozen=True, slots=True)
class Fact:
    """One value of one truck."""

    field: FactField
    value: Value
    provenance: Provenance
    shown: tuple[Amount, ...] = ()
    """For an amount: what is printed, in the fleet's order; the typed one keeps its digits."""

    is_quoted: bool = False
    """Whether both amounts are printed as the source has them, and neither is converted."""

    id: str = ""
    """What spec files call it where guides print a name: the id of a yard. Else empty."""

    @property
    def compared(self) -> Value:
        """What conditions compare: the word that specs type."""
        return self.id or self.value

    @property
    def name(self) -> str:
        """Dotted name."""
        return self.field.name


class Presence(enum.Enum):
    """What is known of a section."""

    GIVEN = "fitted"
    NOT_FITTED = "not fitted"
    NOT_ON_RECORD = "not on record"


@dataclass(frozen=True, slots=True)
class SectionState:
    """Whether the truck has the thing, and where that stands."""

    presence: Presence
    span: Span | None
    """None if it stands nowhere."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One truck."""

    number: str
    model: str
    span: Span
    """Of the unit number in the unit's file."""

    facts: Mapping[str, Fact]
    """By dotted name, in the order of the catalog."""

    sections: Mapping[str, SectionState]
    """By dotted name; every section of the catalog is in it."""

    own_photos: tuple[Photo, ...] = ()
    """Those that are of this truck."""

    model_photos: tuple[Photo, ...] = ()
    """Those of its model, but where it has one of its own."""


@dataclass(frozen=True, slots=True)
class Identity:
    """One truck of an edition."""

    number: str
    span: Span
    """Of the number in the unit's file."""

    facts: tuple[Fact, ...]
    """What its own file states of number, VIN, plate and yard; what it inherits, such as the
    yard of all trucks of a model, is the edition's."""
