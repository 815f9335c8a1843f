"""The fewest changes of state that a round needs, walking left aside.

Takes in the worlds of a truck; gives out the least number of changes for all checks, and for
every point of a round whether it can still be finished within a number of them.
Refuses to give up: if there is no order at all, the answer is none, and it is certain.
"""

import heapq
from collections.abc import Iterator

from guidegen.round.bounds import NEVER, Bounds
from guidegen.round.worlds import Worlds


class Fewest:
    """Answers about one set of worlds; remembers what it found."""

    def __init__(self, worlds: Worlds) -> None:
        """Begin with nothing found."""
        self._worlds = worlds
        self.bounds = Bounds(worlds)
        self._too_few: dict[tuple[int, int], int] = {}
        """By world and tasks done: a number of changes that is not enough."""

        self._enough: dict[tuple[int, int], int] = {}
        self._changes: dict[int, int | None] = {}
        """By tasks wanted."""

    def changes(self, wanted: int) -> int | None:
        """Return the fewest changes of a round of the tasks *wanted*; none if there is no order.

        Looks at states first: checks that only look are done as soon as the state allows, since
        without walking that costs nothing.
        """
        if wanted not in self._changes:
            self._changes[wanted] = self._fewest_changes(wanted)
        return self._changes[wanted]

    def _fewest_changes(self, wanted: int) -> int | None:
        worlds = self._worlds
        bounds = self.bounds
        start = (0, ~wanted | worlds.looks[0])
        best = {start: 0}
        queue = [(bounds.changes(0, wanted & ~start[1]), 0, *start)]
        while queue:
            total, changes, world, done = heapq.heappop(queue)
            if total >= NEVER:
                return None
            if changes > best[world, done]:
                continue
            if wanted & ~done == 0 and worlds.is_at_rest(world):
                return changes
            for after, then, cost in self._ways(world, done):
                if changes + cost < best.get((after, then), NEVER):
                    best[after, then] = changes + cost
                    total = changes + cost + bounds.changes(after, wanted & ~then)
                    heapq.heappush(queue, (total, changes + cost, after, then))
        return None

    def can_finish(self, world: int, done: int, changes: int) -> bool:
        """Whether the rest of the round can be done from here with at most *changes*."""
        worlds = self._worlds
        done |= worlds.looks[world]
        missing = worlds.wanted & ~done
        if self.bounds.changes(world, missing) > changes:
            return False
        if not missing and worlds.is_at_rest(world):
            return True
        here = (world, done)
        if changes >= self._enough.get(here, NEVER):
            return True
        if changes <= self._too_few.get(here, -1):
            return False
        for after, then, cost in self._ways(world, done):
            if cost <= changes and self.can_finish(after, then, changes - cost):
                self._enough[here] = changes
                return True
        self._too_few[here] = changes
        return False

    def _ways(self, world: int, done: int) -> Iterator[tuple[int, int, int]]:
        """Yield world, tasks done and changes after each move that is worth making."""
        looks = self._worlds.looks
        for move in self._worlds.moves[world]:
            if move.kind:
                yield move.after, done | looks[move.after], 1
            elif move.task is not None and not done >> move.task & 1:
                yield move.after, done | 1 << move.task | looks[move.after], 0
