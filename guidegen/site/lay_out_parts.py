"""From the changes of a procedure to what stands on either side of a sheet.

Takes in the changes in their order; gives out the parts of each truck, those of one side and
kind together. Refuses to part a caution that was added from its place before its step.
"""

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple, assert_never

from guidegen.differences.model import (
    Line,
    OrderChanged,
    Part,
    PartChange,
    PartGained,
    PartLost,
    PartReworded,
    StanceChanged,
)
from guidegen.guide.model import Caution, Procedure, Step
from guidegen.procedures.words import STATES, STATIONS
from guidegen.site.difference_views import PartView, SideView, StanceView
from guidegen.site.texts import Texts
from guidegen.site.views import Worded


class _Side(NamedTuple):
    is_known: bool
    label: str


_ONLY_KNOWN, _ONLY_GIVEN = (
    _Side(is_known=True, label="only_on"),
    _Side(is_known=False, label="only_on"),
)
_ON_KNOWN, _ON_GIVEN = _Side(is_known=True, label="on"), _Side(is_known=False, label="on")


@dataclass(frozen=True, slots=True)
class PartsLayout:
    """The words of both trucks."""

    known: Texts
    given: Texts

    def sides(self, changes: Iterable[PartChange]) -> tuple[SideView, ...]:
        """Return the parts by side; that the order changed is told elsewhere."""
        placed = [each for change in changes for each in self._placed(change)]
        return tuple(
            SideView(side.is_known, side.label, tuple(part for _, part in parts))
            for side, parts in itertools.groupby(placed, key=lambda each: each[0])
        )

    def _placed(self, change: PartChange) -> Iterator[tuple[_Side, PartView]]:
        match change:
            case PartGained(part=part):
                yield _ONLY_GIVEN, self._part(part, self.given)
            case PartLost(part=part):
                yield _ONLY_KNOWN, self._part(part, self.known)
            case PartReworded(known=before, given=after):
                yield _ON_KNOWN, self._part(before, self.known)
                yield _ON_GIVEN, self._part(after, self.given)
            case StanceChanged(known=before, given=after):
                yield _ON_KNOWN, PartView(stance=_stance(before))
                yield _ON_GIVEN, PartView(stance=_stance(after))
            case OrderChanged():
                return
            case _:
                assert_never(change)

    def _part(self, part: Part, texts: Texts) -> PartView:
        match part:
            case Step():
                return PartView(number=part.number, text=texts.text(part.text))
            case Line():
                role = "" if part.role == "title" else part.role
                return PartView(role=role, text=texts.text(part.text))
            case Caution():
                return PartView(caution=texts.caution(part))
            case _:
                assert_never(part)


def _stance(procedure: Procedure) -> StanceView:
    return StanceView(
        Worded(procedure.station, STATIONS[procedure.station]),
        tuple(
            Worded(f"{aspect}.{state}", STATES[aspect][state]) for aspect, state in procedure.state
        ),
    )
