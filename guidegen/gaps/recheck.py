"""Values that are older than the fleet wants them to be.

Takes in units, the fleet's own limit and the day; gives out what was recorded too long ago, each
record once, with its values and the trucks that have them.
Refuses to know what day it is: the day is passed in, so that no page hangs on a clock.
"""

import calendar
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date

from guidegen.finding import Findings
from guidegen.gaps import rules
from guidegen.gaps.catalog import PLACES
from guidegen.specs.fields import Recorded
from guidegen.units.model import StatedIn, Unit
from guidegen.units.naming import named_units

_MONTHS_IN_A_YEAR = 12
_MOST_NAMED = 6
"""Values that are named in a finding; of more it is said how many."""


@dataclass(frozen=True, slots=True)
class Old:
    """Values that were recorded together, too long ago or on a day that has not come."""

    recorded: Recorded
    names: tuple[str, ...]
    """Dotted names of the facts, in the order of the catalog."""

    sources: tuple[str, ...]
    """Documents that they were copied from, each once."""

    units: Sequence[str]
    """Numbers of the trucks that have any of them."""

    is_to_come: bool = False
    """Whether the day has not come yet: a digit has slipped."""

    @property
    def values(self) -> str:
        """The values in words: their names, or how many there are."""
        if len(self.names) > _MOST_NAMED:
            return f"{len(self.names):,} values"
        return ", ".join(self.names)

    @property
    def said(self) -> str:
        """When they were recorded and by whom, in words."""
        by = f" by {self.recorded.by}" if self.recorded.by else ""
        return f"{self.recorded.on}{by}"


@dataclass(slots=True)
class _Together:
    recorded: Recorded
    names: dict[str, None] = field(default_factory=dict)
    sources: dict[str, None] = field(default_factory=dict)
    units: dict[str, None] = field(default_factory=dict)


def due_day(on: str, months: int) -> date:
    """Return the last day on which a value of the day *on* is not too old.

    The same day of the month, or the last one of a shorter month.

    >>> due_day("2026-03-31", 24), due_day("2025-08-31", 6)
    (datetime.date(2028, 3, 31), datetime.date(2026, 2, 28))
    """
    start = date.fromisoformat(on)
    years, month = divmod(start.month - 1 + months, _MONTHS_IN_A_YEAR)
    year = start.year + years
    if year > date.max.year:
        return date.max
    return date(year, month + 1, min(start.day, calendar.monthrange(year, month + 1)[1]))


def old_values(units: Iterable[Unit], months: int | None, today: str) -> tuple[Old, ...]:
    """Return what was recorded too long ago, the oldest first.

    Args:
        units: The trucks.
        months: Age at which a value is to be checked again; none if the fleet has no limit. Days
            that have not come are reported all the same.
        today: The day, as ``2026-11-30``.
    """
    day = date.fromisoformat(today)
    together: dict[str, _Together] = {}
    for unit in units:
        for fact in unit.facts.values():
            origin = fact.provenance
            if isinstance(origin, StatedIn) and origin.recorded is not None:
                one = together.setdefault(origin.recorded.span.place, _Together(origin.recorded))
                one.names[fact.name] = None
                one.units[unit.number] = None
                if origin.source:
                    one.sources[origin.source] = None
    found = [
        Old(
            each.recorded,
            tuple(sorted(each.names, key=PLACES.__getitem__)),
            tuple(each.sources),
            tuple(each.units),
            each.recorded.on > today,
        )
        for each in together.values()
        if _is_old(each.recorded.on, months, day)
    ]
    return tuple(sorted(found, key=lambda old: (old.recorded.on, old.recorded.span.place)))


def report_old(old: Iterable[Old], findings: Findings) -> None:
    """Report each record of *old*, at the day that was typed."""
    for each in old:
        trucks = named_units(each.units)
        if each.is_to_come:
            findings.add(
                rules.RECORDED_ON_DAY_TO_COME,
                each.recorded.span,
                what=f"recorded {each.said}, a day that has not come: {each.values} of {trucks}",
                fix="correct the day, or the clock of this computer",
            )
        else:
            findings.add(
                rules.VALUE_TO_CHECK_AGAIN,
                each.recorded.span,
                what=f"recorded {each.said}, longer ago than the fleet wants: {each.values} of "
                f"{trucks}",
                fix="look them up again at the truck or in its papers, and write the new day",
            )


def _is_old(on: str, months: int | None, day: date) -> bool:
    if date.fromisoformat(on) > day:
        return True
    return months is not None and day > due_day(on, months)
