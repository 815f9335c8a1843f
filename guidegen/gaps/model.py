"""What a gap is.

Takes in nothing; gives out the shapes of gaps, of one truck and of a fleet.
Refuses a gap that holds nothing back and has no name: each names what is not on record.
"""

import enum
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Self

from guidegen.pickling import numerous
from guidegen.specs.unit_form import YARD
from guidegen.units.model import Unit


class Grade(enum.Enum):
    """What a gap holds back, gravest first."""

    HOLDS = "holds the guide back"
    """The guide is not published until somebody has looked it up."""

    MAY_HOLD = "may hold the guide back next"
    """It is asked for if what is looked up first turns out so."""

    LEAVES_OUT = "leaves something out"
    """The guide is published without a procedure, a step, a drawing or a limit."""

    VALUE_ONLY = "only a value is missing"
    """Nothing but the data page would show it."""

    @property
    def rank(self) -> int:
        """0 for the gravest."""
        return list(Grade).index(self)

    @property
    def is_needed(self) -> bool:
        """Whether a guide can hang on it."""
        return self in (Grade.HOLDS, Grade.MAY_HOLD)


@dataclass(frozen=True, slots=True)
class LeftOut:
    """What a guide is published without."""

    procedure: str
    """Its id."""

    part: str
    """Such as ``step idle`` or ``drawing``; empty if it is the whole procedure."""


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to look up for a gap."""

    name: str
    """Dotted name of a section or fact."""

    is_certain: bool
    """Whether it must be looked up in any case; if not, it hangs on what was found before."""


@dataclass(frozen=True, slots=True)
class Gap:
    """One thing that nobody has on record of a truck, with all that belongs to it.

    What is not on record of a thing that nobody has said to be fitted belongs to that thing: one
    look at the truck closes it.
    """

    name: str
    """Dotted name of the section or fact."""

    grade: Grade
    lines: tuple[Line, ...]
    """What to look up, in the order of the catalog; *name* itself is among them."""

    asked_by: tuple[str, ...] = ()
    """Ids of the procedures whose steps or values hang on it."""

    left_out: tuple[LeftOut, ...] = ()


@numerous
@dataclass(frozen=True, slots=True)
class LookUp:
    """One thing to look up at one truck, or in its papers."""

    name: str
    """Dotted name, as a spec states it."""

    what: str
    """In plain words."""

    measure: str
    """In which measure, or of which words."""

    believable: str
    """Between which amounts; empty if there are none."""

    where: str
    """Where on the truck."""

    document: str
    """Where the values around it were copied from; empty if nobody said."""

    depends: str
    """On what found before it hangs; empty if it is asked for in any case."""

    topic: str
    grade: Grade
    gap: Gap


@dataclass(frozen=True, slots=True)
class KnownGaps:
    """What was found of one truck, for all that state the same but for what tells them apart."""

    gaps: tuple[Gap, ...]
    """In the order of the catalog."""

    look_ups: tuple[LookUp, ...]
    """All that is to be looked up, as of `guidegen.gaps.look_up.look_ups`."""


@dataclass(frozen=True, slots=True)
class UnitGaps:
    """The gaps of one truck."""

    number: str
    """Of the unit."""

    model: str
    """Its id."""

    yard: str
    """Name of its yard; empty if none is on record."""

    gaps: tuple[Gap, ...]
    """In the order of the catalog."""

    has_other_faults: bool = False
    """Whether something holds it back that no gap explains; `guidegen check` says what."""

    alike: str = ""
    """Number of one truck for all that state the same but for number, VIN, plate and yard: the
    same is to be looked up of each. Empty if nobody has looked for such trucks."""

    look_ups: tuple[LookUp, ...] | None = None
    """All that is to be looked up, if that was put together for trucks that are alike."""

    resolved: Callable[[], Unit] = field(kw_only=True, compare=False, repr=False)
    """Gives out the unit: to make one takes long, and most are not asked for."""

    @classmethod
    def in_unit(cls, unit: Unit, gaps: tuple[Gap, ...]) -> Self:
        """Return the *gaps* of *unit*, which is there."""
        yard = unit.facts.get(YARD)
        said = "" if yard is None else str(yard.value)
        return cls(unit.number, unit.model, said, gaps, resolved=lambda: unit)

    @property
    def unit(self) -> Unit:
        """The truck."""
        return self.resolved()

    @property
    def needed(self) -> frozenset[str]:
        """Names of the gaps that together are enough for its guide, whatever is found."""
        return frozenset(gap.name for gap in self.gaps if gap.grade.is_needed)

    @property
    def is_held_back(self) -> bool:
        """Whether it has no guide because of a gap."""
        return any(gap.grade is Grade.HOLDS for gap in self.gaps)

    def of(self, grade: Grade) -> tuple[Gap, ...]:
        """Return the gaps of one grade."""
        return tuple(gap for gap in self.gaps if gap.grade is grade)


@dataclass(frozen=True, slots=True)
class FleetGaps:
    """The gaps of a fleet."""

    units: Mapping[str, UnitGaps]
    """By unit number, in the order of the fleet."""

    titles: Mapping[str, str]
    """Of procedures, by id, in plain words."""

    not_read: tuple[str, ...] = ()
    """Numbers of units whose files have faults, so that nobody can say what is missing."""

    held_back: tuple[str, ...] = field(default=(), kw_only=True)
    """Numbers of the units that gaps hold back."""
