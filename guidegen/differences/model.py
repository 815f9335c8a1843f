"""What a difference sheet is.

Takes in facts, sections and procedures of two guides; gives out frozen differences, each with
its standing. Refuses to know any page: how a difference is worded is for the printing.
"""

from dataclasses import dataclass

from guidegen.differences.standing import Standing
from guidegen.guide.model import Caution, Procedure, Step, Text
from guidegen.units.model import Fact, Presence


@dataclass(frozen=True, slots=True)
class ValueChanged:
    """A value that both trucks have on record, and not the same."""

    known: Fact
    given: Fact
    standing: Standing


@dataclass(frozen=True, slots=True)
class ControlChanged:
    """A control, or something to look at, that is elsewhere or works another way."""

    known: Fact
    given: Fact
    standing: Standing


@dataclass(frozen=True, slots=True)
class ValueGained:
    """A value that only the given truck has on record, of a thing that both have."""

    given: Fact
    standing: Standing


@dataclass(frozen=True, slots=True)
class ValueLost:
    """A value that only the known truck has on record, of a thing that both have."""

    known: Fact
    standing: Standing


@dataclass(frozen=True, slots=True)
class ThingGained:
    """A thing that the given truck has."""

    section: str
    """Dotted name."""

    known: Presence
    """What is on record of it for the known truck."""

    facts: tuple[Fact, ...]
    """All that is on record of it for the given truck, without the things within it."""

    standing: Standing


@dataclass(frozen=True, slots=True)
class ThingLost:
    """A thing that the known truck has."""

    section: str
    given: Presence
    """What is on record of it for the given truck."""

    facts: tuple[Fact, ...]
    """All that is on record of it for the known truck, without the things within it."""

    standing: Standing


@dataclass(frozen=True, slots=True)
class ThingInDoubt:
    """A thing that one truck does not have, and of which nobody has said whether the other has."""

    section: str
    known: Presence
    given: Presence
    standing: Standing


@dataclass(frozen=True, slots=True)
class LampGained:
    """A lamp that only the given truck has."""

    lamp: str
    """Key of `guidegen.specs.topics.lamps.LAMPS`."""

    procedure: Procedure | None
    """What the lamp means and asks for, if the guide of the truck that has it says so."""

    standing: Standing


@dataclass(frozen=True, slots=True)
class LampLost:
    """A lamp that only the known truck has."""

    lamp: str
    procedure: Procedure | None
    standing: Standing


@dataclass(frozen=True, slots=True)
class Line:
    """A text of a procedure beside its steps and cautions."""

    role: str
    """``title``, ``expect``, ``meaning`` or ``if_not``."""

    text: Text

    @property
    def id(self) -> str:
        """That of the text."""
        return self.text.id


Part = Step | Caution | Line
"""What a procedure is made of; each has an id."""


@dataclass(frozen=True, slots=True)
class PartGained:
    """A part that only the given truck's procedure has."""

    part: Part


@dataclass(frozen=True, slots=True)
class PartLost:
    """A part that only the known truck's procedure has."""

    part: Part


@dataclass(frozen=True, slots=True)
class PartReworded:
    """A part that both have under one id, in other words, or with another signal word."""

    known: Part
    given: Part


@dataclass(frozen=True, slots=True)
class StanceChanged:
    """The work is done at another place, or with the truck in another state."""

    known: Procedure
    given: Procedure


@dataclass(frozen=True, slots=True)
class OrderChanged:
    """What both have comes in another order."""


PartChange = PartGained | PartLost | PartReworded | StanceChanged | OrderChanged


@dataclass(frozen=True, slots=True)
class ProcedureGained:
    """Work that only the given truck asks for."""

    procedure: Procedure
    chapter: str
    """Id of the chapter that it stands in."""

    standing: Standing


@dataclass(frozen=True, slots=True)
class ProcedureLost:
    """Work that only the known truck asks for."""

    procedure: Procedure
    chapter: str
    standing: Standing


@dataclass(frozen=True, slots=True)
class ProcedureChanged:
    """Work that both ask for, and not in the same way."""

    known: Procedure
    given: Procedure
    chapter: str
    changes: tuple[PartChange, ...]
    standing: Standing


@dataclass(frozen=True, slots=True)
class ProcedureReplaced:
    """Work that goes by one title on both trucks, and by another procedure on each."""

    known: Procedure
    given: Procedure
    chapter: str
    standing: Standing


Difference = (
    ValueChanged
    | ControlChanged
    | ValueGained
    | ValueLost
    | ThingGained
    | ThingLost
    | ThingInDoubt
    | LampGained
    | LampLost
    | ProcedureGained
    | ProcedureLost
    | ProcedureChanged
    | ProcedureReplaced
)


@dataclass(frozen=True, slots=True)
class DifferenceSheet:
    """What changes for a driver who knows one truck and is given another."""

    known: str
    """Number of the truck that the driver knows."""

    given: str
    """Number of the truck that the driver is given."""

    differences: tuple[Difference, ...]
    """Those that can hurt first come first."""
