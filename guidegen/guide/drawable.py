"""Whether a figure can be drawn of a truck whose facts are all on record.

Takes in the facts of a unit; gives out its axles with the tires at each end, and what stands
against a drawing. Refuses to draw wheels that do not add up.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.units.model import Fact

_ENDS = 2
"""An axle has a left and a right end."""

_MOST_AT_AN_END = 2
"""Dual tires."""

_READ_ON_MARKS = ("dipstick", "sight_glass")

LOOKED_AT = (
    "axles.configuration",
    "tires.steer.count",
    "tires.drive.count",
    "tires.tag.count",
    "transmission.check",
)
"""The facts whose values say whether a figure can be drawn."""


@dataclass(frozen=True, slots=True)
class AxleGroup:
    """Axles of one tire position."""

    position: str
    """``steer``, ``drive`` or ``tag``."""

    axles: int
    tires_at_end: int
    """1, or 2 for dual tires."""


def axle_groups(facts: Mapping[str, Fact]) -> tuple[AxleGroup, ...] | None:
    """Return the axles from front to rear; nothing if tires and configuration do not agree.

    Configurations count wheel ends, not tires (6x4: three axles, two of them driven).
    """
    ends, driven = map(int, str(facts["axles.configuration"].value).split("x"))
    steer = _count(facts, "steer") // _ENDS
    behind = ends // _ENDS - steer
    drive = min(driven // _ENDS, behind)
    counted = (("steer", steer), ("drive", drive), ("tag", behind - drive))
    if ends % _ENDS or driven % _ENDS or steer < 1 or drive < 1 or behind < drive:
        return None
    groups = []
    for position, axles in counted:
        tires = _count(facts, position)
        if axles == 0 and tires == 0:
            continue
        at_end, left_over = divmod(tires, axles * _ENDS) if axles else (0, tires)
        if left_over or not 1 <= at_end <= _MOST_AT_AN_END:
            return None
        groups.append(AxleGroup(position, axles, at_end))
    return tuple(groups)


def why_not_drawn(kind: str, facts: Mapping[str, Fact]) -> str:
    """Return what about the facts stands against a figure of *kind*; nothing if it can be drawn."""
    match kind:
        case "tire_plan" if axle_groups(facts) is None:
            return "has axles and tires that do not make pairs"
        case "transmission_level" if facts["transmission.check"].value not in _READ_ON_MARKS:
            return "has no marks that the fluid is read at"
        case _:
            return ""


def _count(facts: Mapping[str, Fact], position: str) -> int:
    fact = facts.get(f"tires.{position}.count")
    return int(str(fact.value)) if fact else 0
