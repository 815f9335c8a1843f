"""Trucks with the same gaps, as one row.

Takes in the gaps of a fleet; gives out groups of trucks, and topics with their gaps.
Refuses to name every truck of a large group: it counts them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby

from guidegen.gaps.catalog import PLACES, topic_of
from guidegen.gaps.model import FleetGaps, Gap, Grade, UnitGaps
from guidegen.guide.counting_order import in_counting_order


@dataclass(frozen=True, slots=True)
class Group:
    """Trucks that lack the same."""

    units: tuple[str, ...]
    """Their numbers, in counting order."""

    gaps: Mapping[str, Gap]
    """By name, without those of a value only."""

    has_other_faults: bool

    @property
    def is_held_back(self) -> bool:
        """Whether these trucks have no guide because of a gap."""
        return any(gap.grade is Grade.HOLDS for gap in self.gaps.values())


@dataclass(frozen=True, slots=True)
class Topic:
    """Gaps that stand in one section of a spec."""

    name: str
    gaps: tuple[str, ...]
    """Names, in the order of the catalog."""


def group_units(fleet: FleetGaps) -> tuple[Group, ...]:
    """Return the trucks with the same gaps together: those held back first, then large groups."""
    alike: dict[object, list[UnitGaps]] = {}
    for unit in fleet.units.values():
        told = frozenset((gap.name, gap.grade) for gap in unit.gaps if _is_told(gap))
        key = (told, unit.has_other_faults)
        alike.setdefault(key, []).append(unit)
    groups = [_group(units) for units in alike.values()]
    return tuple(sorted(groups, key=_gravest_first))


def topics_of(groups: tuple[Group, ...]) -> tuple[Topic, ...]:
    """Return the columns of the matrix: every gap that any of *groups* has, by topic."""
    names = sorted({name for group in groups for name in group.gaps}, key=PLACES.__getitem__)
    return tuple(Topic(topic, tuple(own)) for topic, own in groupby(names, key=topic_of))


def _group(units: list[UnitGaps]) -> Group:
    first = units[0]
    told = {gap.name: gap for gap in first.gaps if _is_told(gap)}
    numbers = sorted((unit.number for unit in units), key=in_counting_order)
    return Group(tuple(numbers), told, first.has_other_faults)


def _is_told(gap: Gap) -> bool:
    return gap.grade is not Grade.VALUE_ONLY


def _gravest_first(group: Group) -> tuple[bool, int, list[tuple[int, str]]]:
    return (not group.is_held_back, -len(group.units), in_counting_order(group.units[0]))
