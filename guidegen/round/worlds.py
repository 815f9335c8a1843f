"""Every state that a truck can come into during its round, and every way between two of them.

Takes in the tasks and the state at the start; gives out the worlds that can be reached, with the
checks that can be done in each.
Refuses worlds that break a law of the truck, and acts that no task asks for.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from guidegen.procedures.model import RoundPart
from guidegen.round.acts import Act, acts_in
from guidegen.round.states import (
    ACCESS,
    BRAKE,
    TRANSMISSION,
    TRUCK,
    World,
    can_check,
    can_stand,
    is_possible,
    left_in,
    meets,
)
from guidegen.round.tasks import Task

_ONLY_IF_NEEDED = {
    "brake_released": (BRAKE, "released"),
    "neutral": (TRANSMISSION, "neutral"),
}


@dataclass(frozen=True, slots=True)
class Move:
    """A task or an act that is possible in a world."""

    task: int | None
    """Number of the task; none for an act."""

    act: str
    """Key of `ACTS`; empty for a task."""

    station: str | None
    """Where it is done; none if it takes only time."""

    ends: str | None
    """Where the driver stands after it; none if that is the same place."""

    after: int
    """Number of the world after it."""

    kind: str
    """Of the change, if it is done for the state alone; empty for a check."""

    @property
    def is_change(self) -> bool:
        """Whether it is done for the state alone, so that a better round has fewer of them."""
        return self.kind != ""


class Worlds:
    """The worlds that can be reached, numbered from 0, the world at the start.

    Before the first checks are done, nothing else is but what they need, and none of them is done
    again. So a world
    before them is not the same as one after them, even if the truck is in the same state.
    """

    def __init__(self, tasks: Sequence[Task], start: World, *, cab_tilts: bool) -> None:
        """Reach every world from *start* by all tasks and acts, in whatever order."""
        self.tasks = tasks
        self.cab_tilts = cab_tilts
        self.worlds = [start]
        self._firsts = [_bits(n for n, task in enumerate(tasks) if task.part is RoundPart.FIRST)]
        """By world: first checks that are still to be done."""

        self._numbers = {(start, self._firsts[0]): 0}
        self.moves: list[tuple[Move, ...]] = []
        """By world."""

        self.looks: list[int] = []
        """By world: the checks that only look and can be done in it, one bit each."""

        self.wanted = _bits(n for n, task in enumerate(tasks) if task.is_wanted)
        self._acts_left_out = _needless_acts(tasks)
        while len(self.moves) < len(self.worlds):
            self._visit(len(self.moves))

    def is_at_rest(self, world: int) -> bool:
        """Whether the round may end in *world*: not with the hood or cab open."""
        return self.worlds[world][ACCESS] != "open"

    def can_do(self, task: Task, world: World) -> bool:
        """Whether *task* can be done in *world*."""
        return meets(world, task.needs) and can_check(task.station, world, cab_tilts=self.cab_tilts)

    def _visit(self, here: int) -> None:
        world, firsts = self.worlds[here], self._firsts[here]
        moves, looks = [], 0
        for number, task in enumerate(self.tasks):
            if not self.can_do(task, world) or not self._is_its_turn(number, firsts):
                continue
            if task.only_looks:
                looks |= 1 << number
                continue
            after = left_in(world, task.leaves)
            if is_possible(after) and (task.is_wanted or after != world):
                then = self._number(after, firsts & ~(1 << number))
                kind = "" if task.is_wanted else "means"
                moves.append(Move(number, "", task.station, task.ends, then, kind))
        for act in acts_in(world):
            if act.key not in self._acts_left_out and self._can_act(act, world):
                then = self._number(act.after, firsts)
                moves.append(Move(None, act.key, act.station, None, then, act.kind))
        self.moves.append(tuple(moves))
        self.looks.append(looks)

    def _is_its_turn(self, number: int, firsts: int) -> bool:
        """Whether the task is not kept back by first checks that are still to be done."""
        task = self.tasks[number]
        if task.part is RoundPart.FIRST:
            return bool(firsts >> number & 1)
        if not firsts:
            return True
        if task.part is RoundPart.CHECK:
            return False
        waiting = (other for n, other in enumerate(self.tasks) if firsts >> n & 1)
        return any(set(other.asks) & set(task.effects) for other in waiting)

    def _can_act(self, act: Act, world: World) -> bool:
        if not is_possible(act.after):
            return False
        return act.station is None or can_stand(act.station, world, cab_tilts=self.cab_tilts)

    def _number(self, world: World, firsts: int) -> int:
        key = (world, firsts)
        if key not in self._numbers:
            self._numbers[key] = len(self.worlds)
            self.worlds.append(world)
            self._firsts.append(firsts)
        return self._numbers[key]


def _bits(numbers: Iterable[int]) -> int:
    found = 0
    for number in numbers:
        found |= 1 << number
    return found


def _needless_acts(tasks: Iterable[Task]) -> frozenset[str]:
    needed = {(aspect, value) for task in tasks for aspect, value in _values(task)}
    return frozenset(act for act, value in _ONLY_IF_NEEDED.items() if value not in needed)


def _values(task: Task) -> Iterator[tuple[int, str]]:
    for aspect, values in task.needs:
        for value in values:
            yield aspect, value
    if (TRUCK, "moving") in task.leaves:
        # No truck moves with its parking brake set.
        yield BRAKE, "released"
