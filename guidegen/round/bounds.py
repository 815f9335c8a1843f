"""Numbers of changes that no rest of a round undercuts.

Takes in the worlds of a truck; gives out for a world and the checks still missing a lower bound
of the changes to come.
Refuses to overestimate: a bound too high by one would hide the best round.

Changes of different kinds add up. So the bound is the sum, over the kinds, of what the round
would cost if changes of all other kinds were free and tasks could be done again and again.
"""

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.round.states import Needs, meets
from guidegen.round.worlds import Worlds

NEVER = 1 << 30
"""More changes than any round has."""

_ANY = ""


@dataclass(frozen=True, slots=True)
class _Toll:
    """What tasks cost that all need one state of one aspect, in changes of one kind."""

    changes: tuple[int, ...]
    """From each world to one in which the state holds."""

    tasks: int
    """One bit for each task that needs the state."""

    enders: int
    """Those of them that end the state."""

    again: int
    """From what an ender leaves back to the state, at least."""

    to_rest: int
    """From the state to the end of the round, at least."""

    @property
    def matters(self) -> bool:
        """Whether it ever raises a bound."""
        returns = self.again > 0 and self.enders.bit_count() > 1
        return returns or self.to_rest > 0 or any(self.changes)


class Bounds:
    """Lower bounds for one set of worlds."""

    def __init__(self, worlds: Worlds) -> None:
        """Work out the tables."""
        self._worlds = worlds
        self._known: dict[tuple[int, int], int] = {}
        kinds = sorted({move.kind for moves in worlds.moves for move in moves} - {_ANY})
        self._into = {kind: self._costs_into(kind) for kind in (_ANY, *kinds)}
        self._rest = [worlds.is_at_rest(number) for number in range(len(worlds.worlds))]
        self._ends = {kind: self._changes_to(self._rest, kind) for kind in (_ANY, *kinds)}
        self._tolls = [(self._ends[kind], self._tolls_of(kind)) for kind in kinds]
        self.doable = self._tasks_doable()
        """By world: the tasks that can be done in it, one bit each."""

        self.shut_off = self._tasks_shut_off()
        """By world: the tasks that can never be done any more, one bit each."""

    def changes(self, world: int, missing: int) -> int:
        """Return a lower bound of the changes from *world* until *missing* are done."""
        key = (world, missing)
        if key not in self._known:
            self._known[key] = self._bound(world, missing)
        return self._known[key]

    def comes_to_rest(self, world: int) -> bool:
        """Whether a round can end after *world*, whatever it holds."""
        return self._ends[_ANY][world] < NEVER

    def _bound(self, world: int, missing: int) -> int:
        if self.shut_off[world] & missing or not self.comes_to_rest(world):
            return NEVER
        total = 0
        for ends, tolls in self._tolls:
            most = ends[world]
            for toll in tolls:
                if toll.tasks & missing:
                    cost = toll.changes[world] + toll.to_rest
                    enders = (toll.enders & missing).bit_count()
                    if enders > 1:
                        cost += (enders - 1) * toll.again
                    most = max(most, cost)
            total += most
        return min(total, NEVER)

    def _tasks_doable(self) -> list[int]:
        doable = list(self._worlds.looks)
        for number, moves in enumerate(self._worlds.moves):
            for move in moves:
                doable[number] |= 0 if move.task is None else 1 << move.task
        return doable

    def _tasks_shut_off(self) -> list[int]:
        worlds = self._worlds
        groups: dict[tuple[bool, ...], int] = {}
        for number, task in enumerate(worlds.tasks):
            if task.is_wanted:
                met = tuple(bool(here >> number & 1) for here in self.doable)
                groups[met] = groups.get(met, 0) | 1 << number
        found = [0] * len(worlds.worlds)
        for met, tasks in groups.items():
            for world, changes in enumerate(self._changes_to(met, _ANY)):
                found[world] |= tasks if changes >= NEVER else 0
        return found

    def _tolls_of(self, kind: str) -> list[_Toll]:
        moved = self._aspects_moved_by(kind)
        tasks: dict[tuple[int, frozenset[str]], int] = {}
        for number, task in enumerate(self._worlds.tasks):
            for aspect, values in task.needs:
                if task.is_wanted and aspect in moved:
                    tasks[aspect, values] = tasks.get((aspect, values), 0) | 1 << number
        tolls = [self._toll((need,), mask, kind) for need, mask in tasks.items()]
        return [toll for toll in tolls if toll.matters]

    def _toll(self, needs: Needs, tasks: int, kind: str) -> _Toll:
        met = [meets(world, needs) for world in self._worlds.worlds]
        table = self._changes_to(met, kind)
        left: dict[int, int] = {}
        for moves in self._worlds.moves:
            for move in moves:
                if move.task is not None and tasks >> move.task & 1:
                    left[move.task] = min(left.get(move.task, NEVER), table[move.after])
        enders = [task for task, changes in left.items() if changes]
        again = min((left[task] for task in enders), default=0)
        ends = self._ends[kind]
        to_rest = min((ends[world] for world, holds in enumerate(met) if holds), default=0)
        return _Toll(tuple(table), tasks, sum(1 << task for task in enders), again, to_rest)

    def _aspects_moved_by(self, kind: str) -> set[int]:
        worlds = self._worlds.worlds
        return {
            aspect
            for before, moves in zip(worlds, self._worlds.moves, strict=True)
            for move in moves
            if move.kind == kind
            for aspect, value in enumerate(before)
            if value != worlds[move.after][aspect]
        }

    def _changes_to(self, met: Sequence[bool], kind: str) -> list[int]:
        """Return the fewest changes of *kind*, or of any, from each world to a marked one."""
        changes = [0 if holds else NEVER for holds in met]
        pending = deque(number for number, holds in enumerate(met) if holds)
        into = self._into[kind]
        while pending:
            number = pending.popleft()
            for before, cost in into[number]:
                if changes[number] + cost < changes[before]:
                    changes[before] = changes[number] + cost
                    if cost:
                        pending.append(before)
                    else:
                        pending.appendleft(before)
        return changes

    def _costs_into(self, kind: str) -> list[list[tuple[int, int]]]:
        into: list[list[tuple[int, int]]] = [[] for _ in self._worlds.worlds]
        for number, moves in enumerate(self._worlds.moves):
            for move in moves:
                costs = move.is_change if kind == _ANY else move.kind == kind
                into[move.after].append((number, int(costs)))
        return into
