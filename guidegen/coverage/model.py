"""What the law lists, and how far a guide meets it.

Takes in nothing; gives out the shapes of a list and of what came of comparing it.
Refuses an item that is silently left out: every one is met, not needed, outside the guide or a gap.
"""

import enum
from dataclasses import dataclass

from guidegen.procedures.condition_model import Condition
from guidegen.source import Span


@dataclass(frozen=True, slots=True)
class Need:
    """Something that must be in the guide for an item to be met."""

    any_of: tuple[str, ...]
    """Ids of procedures, or of steps as ``start-up.steps.belt``; one of them is enough."""

    when: Condition | None
    """None if every truck needs it."""


@dataclass(frozen=True, slots=True)
class ListedItem:
    """One thing that the law wants the driver to look at."""

    id: str
    wording: str
    """What the law lists, in our own short words."""

    source: str
    edition: str
    needs: tuple[Need, ...]
    """All of them; none if no procedure of the library meets the item."""

    not_needed_when: Condition | None
    outside: str
    """Why the guide of a truck cannot hold it; empty if it can."""

    must_stop: bool
    """Whether the list knows faults of it that take the truck off the road."""

    span: Span


@dataclass(frozen=True, slots=True)
class CoverageList:
    """All that one law lists."""

    id: str
    name: str
    source: str
    edition: str
    jurisdictions: tuple[str, ...]
    """Keys of `guidegen.specs.fleet.JURISDICTIONS`."""

    items: tuple[ListedItem, ...]
    no_list: str
    """Why there is none; empty if there is one."""

    span: Span


class State(enum.Enum):
    """How far one item is met by one guide."""

    MET = "met"
    NOT_NEEDED = "not fitted"
    OUTSIDE = "outside"
    GAP = "gap"


@dataclass(frozen=True, slots=True)
class Entry:
    """One item beside one guide."""

    item: ListedItem
    state: State
    met_by: tuple[str, ...]
    """Procedures and steps of the guide that meet it."""

    missing: tuple[Need, ...]
    """Needs that nothing in the guide meets."""

    stops: bool
    """Whether one of the procedures says when not to drive; true if the item does not ask."""


@dataclass(frozen=True, slots=True)
class UnitCoverage:
    """One guide beside the whole list."""

    unit: str
    entries: tuple[Entry, ...]

    @property
    def gaps(self) -> tuple[Entry, ...]:
        """Items that nothing in the guide meets."""
        return tuple(entry for entry in self.entries if entry.state is State.GAP)

    def count(self, state: State) -> int:
        """Return how many items are in *state*."""
        return sum(entry.state is state for entry in self.entries)
