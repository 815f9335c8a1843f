"""What the inspection round of one truck is.

Takes in nothing; gives out the frozen values: stops in their order, the way to each, and why it
comes where it does.
Refuses the truck's identity: trucks that differ in number, VIN, plate or yard only share a round.
"""

import enum
from dataclasses import dataclass

from guidegen.round.positions import Footprint

State = tuple[str, str]
"""Aspect and state, keys of `guidegen.procedures.words.STATES`."""


class ReasonKind(enum.Enum):
    """Why a stop comes where it does; the words stand in `guidegen.round.reasons`."""

    FIRST = "first"
    COLD = "cold"
    NEEDS = "needs"
    BEFORE = "before"
    ENDS = "ends"
    FOR = "for"
    DONE_WITH = "done_with"
    ANY_TIME = "any_time"
    SAME_PLACE = "same_place"
    ON_THE_WAY = "on_the_way"


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason."""

    kind: ReasonKind
    states: tuple[State, ...] = ()
    stops: tuple[int, ...] = ()
    """Numbers of the stops that it is about."""


@dataclass(frozen=True, slots=True)
class Change:
    """Something done on the way to a stop for the state of the truck alone."""

    act: str
    """Key of `guidegen.round.acts.ACTS`."""

    station: str | None
    """Where; none if it takes only time."""


@dataclass(frozen=True, slots=True)
class Leg:
    """The way to a stop."""

    millimeters: int
    changes: tuple[Change, ...]
    """In the order in which they are made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """One procedure of the round, or a step of one."""

    number: int
    """From 1."""

    procedure: str
    step: str | None
    """Id of the step, if only that one is done here."""

    station: str
    """Key of `guidegen.procedures.words.STATIONS`."""

    state: tuple[State, ...]
    """All that is known of the truck's state when the driver begins."""

    millimeters: int
    """Walked in doing it, such as once around the truck."""

    reasons: tuple[Reason, ...]
    """At least one; the weightiest first."""


@dataclass(frozen=True, slots=True)
class Round:
    """The inspection round of one truck."""

    stops: tuple[Stop, ...]
    legs: tuple[Leg, ...]
    """For each stop the way to it; the first begins in the driver's seat."""

    changes: int
    """How often the state is changed for its own sake, by an act or by a procedure."""

    millimeters: int
    """The whole walk."""

    premises: tuple[str, ...]
    """What the round takes for granted, keys of `guidegen.round.reasons.PREMISES`."""

    truck: Footprint
