"""Lengths that no rest of a round undercuts.

Takes in the worlds and the ground of a truck; gives out for a point of the round a lower bound of
the walk to come.
Refuses to overestimate: a bound too long by a millimeter could hide the best round.

The bound has three parts that add up, because each counts other stretches of the walk: the way
between the tasks that change something, as if everything else could be seen from there; a walk
around the truck for what is seen on one; and the ways out to what lies off all that.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import reduce
from itertools import pairwise
from operator import and_

from guidegen.procedures.model import RoundPart
from guidegen.round.fewest import Fewest
from guidegen.round.ground import AROUND, Ground
from guidegen.round.worlds import Move, Worlds

_NO_WAY = 1 << 40

Node = tuple[int, int, int]
"""World, position and tasks done."""


@dataclass(frozen=True, slots=True)
class _Looks:
    """Checks that only look and can be done in the same worlds."""

    tasks: int
    worlds: int
    """One bit for each world."""


class Remainder:
    """Lower bounds of the walk for one truck."""

    def __init__(self, worlds: Worlds, ground: Ground, fewest: Fewest, changes: int) -> None:
        """Sort the tasks by how they are come past, in rounds of so many *changes*."""
        self._worlds = worlds
        self._ground = ground
        self._fewest = fewest
        self._between: dict[Node, int] = {}
        self._loops: dict[int, tuple[int, tuple[int, ...]]] = {}
        self._out: dict[tuple[int, int, frozenset[int]], int] = {}
        only_look = sum(1 << n for n, task in enumerate(worlds.tasks) if task.only_looks)
        self._firsts = sum(
            1 << n for n, task in enumerate(worlds.tasks) if task.part is RoundPart.FIRST
        )
        self._shared_loops = only_look & ground.loops
        self._on_walk = only_look & ground.passed & ~ground.loops
        self._groups = self._groups_of(only_look)
        moves, ends = self._moves_made(changes)
        last = (group.tasks for group in self._groups if group.worlds & ends)
        self._at_the_end = sum(last) if ends >= 0 else only_look
        """Checks from which nobody may come back, since the round can end there."""

        later = {move for move in moves if not self._is_first(move)}
        self._points_at_first = self._points(moves)
        self._points_later = self._points(later)

    def at_least(self, node: Node, left: int) -> int:
        """Return a lower bound of the walk from *node*, with *left* changes to come."""
        world, position, done = node
        length = self._way_between(world, position, done | self._worlds.looks[world], left)
        loops = self._shared_loops & ~done
        beside = self._on_walk & ~done
        points = self._points_at_first if self._firsts & ~done else self._points_later
        if not loops:
            return length + self._ways_out(position, beside, points)
        walks, seen = self._walks_around(loops)
        out = min(self._ways_out(position, beside & ~tasks, points) for tasks in seen)
        return length + walks * self._ground.around + out

    def _way_between(self, world: int, position: int, done: int, left: int) -> int:
        """Return the exact walk if whatever can be looked at in a state is seen from anywhere."""
        key = (world, position, done)
        if key not in self._between:
            ends = not self._worlds.wanted & ~done and self._worlds.is_at_rest(world)
            self._between[key] = 0 if ends else self._least_way(world, position, done, left)
        return self._between[key]

    def _least_way(self, world: int, position: int, done: int, left: int) -> int:
        least = _NO_WAY
        for move, then, cost in self._feasible(world, done, left):
            station, far = self._way_to(position, move)
            end, within = self._ground.end_of(station, move)
            if far + within < least:
                rest = self._way_between(move.after, end, then, left - cost)
                least = min(least, far + within + rest)
        return least

    def _feasible(self, world: int, done: int, left: int) -> Iterator[tuple[Move, int, int]]:
        """Yield the moves of rounds with few enough changes, with what is done then."""
        looks = self._worlds.looks
        for move in self._worlds.moves[world]:
            cost = 1 if move.kind else 0
            if cost > left or (move.task is not None and not cost and done >> move.task & 1):
                continue
            then = done | looks[move.after] | (0 if move.task is None else 1 << move.task)
            if self._fewest.can_finish(move.after, then, left - cost):
                yield move, then, cost

    def _moves_made(self, changes: int) -> tuple[set[Move], int]:
        """Return all moves of rounds of so few *changes*, and the worlds in which these end.

        All worlds, if a round can end with a move that is made wherever the driver happens to be.
        """
        start = (0, self._worlds.looks[0])
        pending, seen = [(*start, changes)], {start}
        found: set[Move] = set()
        ends = 0
        while pending:
            world, done, left = pending.pop()
            if not self._worlds.wanted & ~done:
                ends |= 1 << world
            for move, then, cost in self._feasible(world, done, left):
                found.add(move)
                is_anywhere = move.station in (None, AROUND) and move.ends is None
                if is_anywhere and not self._worlds.wanted & ~then:
                    ends = -1
                if (move.after, then) not in seen:
                    seen.add((move.after, then))
                    pending.append((move.after, then, left - cost))
        return found, ends

    def _way_to(self, position: int, move: Move) -> tuple[int, int]:
        ground = self._ground
        if move.station is None:
            return position, 0
        at_foot = move.station == AROUND
        station = ground.foot[position] if at_foot else ground.number_of(move.station)
        return station, ground.far[position][station]

    def _walks_around(self, loops: int) -> tuple[int, tuple[int, ...]]:
        """Return how many walks around *loops* take at least, and what may be seen on them.

        The latter for each state that one walk can be done in. A walk more would see more, but
        it is no shorter than the way out to what it saves.
        """
        if loops not in self._loops:
            groups = [group for group in self._groups if group.tasks & loops]
            shared = reduce(and_, (group.worlds for group in groups))
            if shared:
                seen = {look for n, look in enumerate(self._worlds.looks) if shared >> n & 1}
                self._loops[loops] = (1, _widest(seen))
            else:
                self._loops[loops] = (2, (-1,))
        return self._loops[loops]

    def _groups_of(self, only_look: int) -> list[_Looks]:
        groups: dict[int, int] = {}
        for number in range(len(self._worlds.tasks)):
            if only_look >> number & 1:
                here = (looks >> number & 1 for looks in self._worlds.looks)
                worlds = sum(1 << world for world, can in enumerate(here) if can)
                groups[worlds] = groups.get(worlds, 0) | 1 << number
        return [_Looks(tasks, worlds) for worlds, tasks in groups.items()]

    def _is_first(self, move: Move) -> bool:
        return move.task is not None and bool(self._firsts >> move.task & 1)

    def _points(self, moves: Iterable[Move]) -> frozenset[int]:
        """Return the points of the walk where *moves* begin and end."""
        ground = self._ground
        stations = {station for move in moves for station in (move.station, move.ends)}
        return frozenset(
            ground.along(ground.number_of(station))
            for station in stations
            if station is not None and station != AROUND
        )

    def _ways_out(self, position: int, tasks: int, points: frozenset[int]) -> int:
        """Return the walk off the stretch of the walk that the rest of the round is done on.

        Checks that cannot be done in one state are gone out to separately, and those ways add up.
        """
        key = (position, tasks, points)
        if key not in self._out:
            self._out[key] = self._sum_of_ways_out(*key) if tasks else 0
        return self._out[key]

    def _sum_of_ways_out(self, position: int, tasks: int, base: frozenset[int]) -> int:
        points = sorted(base | {self._ground.along(position)})
        around = self._ground.around
        following = [*points[1:], points[0] + around]
        gap, begin = max(
            (after - point, point) for point, after in zip(points, following, strict=True)
        )
        found = [(self._way_out(group.tasks & tasks, begin, gap), group) for group in self._groups]
        found.sort(key=lambda each: -each[0])
        total, used = 0, 0
        for length, group in found:
            if length and not group.worlds & used:
                total += length
                used |= group.worlds
        total = max(total, self._way_out(tasks, begin, gap))
        return total - self._way_back(tasks & self._at_the_end, begin, gap)

    def _way_back(self, tasks: int, begin: int, gap: int) -> int:
        """Return the longest way back that is saved if the round ends at one of *tasks*."""
        return max(
            (min(point, gap - point) for point in self._inside(tasks, begin, gap)), default=0
        )

    def _inside(self, tasks: int, begin: int, gap: int) -> list[int]:
        """Return how far into the gap each of *tasks* in it lies."""
        around = self._ground.around
        into = sorted((along - begin) % around for along in self._ground.alongs(tasks))
        return [point for point in into if 0 < point < gap]

    def _way_out(self, tasks: int, begin: int, gap: int) -> int:
        """Return the shortest way out to *tasks* in a gap, and back, or right through it.

        Who walks through the gap saves the stretch on the other side at most.
        """
        inside = self._inside(tasks, begin, gap)
        if not inside:
            return 0
        through = max(0, gap - (self._ground.around - gap))
        return min(through, *(2 * (a + gap - b) for a, b in pairwise([0, *inside, gap])))


def _widest(sets: Iterable[int]) -> tuple[int, ...]:
    """Return those of *sets*, bits each, that lie in no other."""
    found = sorted(sets)
    return tuple(
        one for one in found if not any(one != other and not one & ~other for other in found)
    )
