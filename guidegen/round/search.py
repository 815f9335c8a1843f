"""The best round: fewest changes of state, then the shortest walk.

Takes in the worlds of a truck and the walk around it; gives out the visits of the best round.
Refuses to stop at a good round: the search is exact, and of rounds that are equally good it takes
the one that keeps nearest to the order of the guide.
"""

import heapq
from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.round.acts import ACTS
from guidegen.round.fewest import Fewest
from guidegen.round.ground import AROUND, Ground
from guidegen.round.remainder import Node, Remainder
from guidegen.round.worlds import Move, Worlds

Way = tuple[int, Move | None, Node, int]
"""Millimeters, the move (none for a walk to checks that only look), what it leads to, and its
changes. A plain tuple: thousands are made for one truck."""

_ACT_RANK = {act: number for number, act in enumerate(ACTS)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One place of the round, the way to it, and what is done there."""

    walked: int
    """To the place, in millimeters."""

    within: int
    """Walked in what is done there, such as once around the truck."""

    is_loop: bool
    """Whether the driver walks once around the truck for it."""

    move: Move | None
    """A task that changes something, or an act; none at a place of checks that only look."""

    looked: int
    """Checks that only look: done here, after the move if there is one; one bit each."""

    begins: int
    """Position from which the driver comes."""

    position: int
    """Where it is done; for a walk around, where that begins and ends."""

    world: int
    """In which the driver comes."""


@dataclass(frozen=True, slots=True)
class Best:
    """The best round of one truck."""

    changes: int
    walked: int
    visits: tuple[Visit, ...]


class Search:
    """One search."""

    def __init__(self, worlds: Worlds, ground: Ground, fewest: Fewest) -> None:
        """Take over what is known of the states and of the ground."""
        self._worlds = worlds
        self._ground = ground
        self._fewest = fewest
        self._only_look = sum(1 << n for n, task in enumerate(worlds.tasks) if task.only_looks)

    def best(self) -> Best | None:
        """Return the best round from the driver's seat; nothing if there is no order."""
        changes = self._fewest.changes(self._worlds.wanted)
        if changes is None:
            return None
        seat = self._ground.number_of("cab")
        self._remainder = Remainder(self._worlds, self._ground, self._fewest, changes)
        start = (0, seat, self._worlds.looks[0] & self._ground.here[seat])
        walked = self._shortest(start, changes)
        ways = self._preferred(start, changes, walked)
        return Best(changes, walked, tuple(self._visits(start, ways)))

    def _is_end(self, node: Node) -> bool:
        return not self._worlds.wanted & ~node[2] and self._worlds.is_at_rest(node[0])

    def _shortest(self, start: Node, changes: int) -> int:
        """Return the shortest walk of a round of so few changes.

        Only points from which the round can be finished with the fewest changes are looked at,
        so a point has one number of changes behind it, and the walk alone decides.
        """
        at_least = self._remainder.at_least
        walked = {start: 0}
        fronts = _Fronts(self._only_look)
        queue = [(at_least(start, changes), 0, changes, start)]
        while queue:
            total, back, left, node = heapq.heappop(queue)
            if self._is_end(node):
                return total
            if -back > walked[node] or not fronts.advance(node, -back):
                continue
            for far, _, after, cost in self._ways_from(node, left):
                reached = far - back
                if reached < walked.get(after, reached + 1):
                    walked[after] = reached
                    rest = at_least(after, left - cost)
                    # Of two that promise the same, the one that has come farther.
                    heapq.heappush(queue, (reached + rest, -reached, left - cost, after))
        raise AssertionError("a round of so few changes has been found")

    def _preferred(self, start: Node, changes: int, walked: int) -> list[Way]:
        """Return the ways of the best round that keeps nearest to the order of the guide.

        Of all ways on from a point, the preferred one is tried first; what has led nowhere once
        is not tried again.
        """
        tried = _Fronts(self._only_look)
        tried.advance(start, 0)
        path: list[Way] = []
        open_ways = [iter(self._sorted_ways(start, changes))]
        behind = [(start, 0, changes)]
        while not self._is_end(behind[-1][0]):
            way = next(open_ways[-1], None)
            if way is None:
                assert path, "the shortest walk has been walked once"  # noqa: S101
                open_ways.pop()
                behind.pop()
                path.pop()
                continue
            _, far, left = behind[-1]
            length, _, after, cost = way
            reached = far + length
            is_good = reached + self._remainder.at_least(after, left - cost) <= walked
            if is_good and tried.advance(after, reached):
                path.append(way)
                behind.append((after, reached, left - cost))
                open_ways.append(iter(self._sorted_ways(after, left - cost)))
        return path

    def _sorted_ways(self, node: Node, left: int) -> list[Way]:
        return sorted(self._ways_from(node, left), key=lambda way: self._rank(way, node))

    def _ways_from(self, node: Node, left: int) -> Iterator[Way]:
        world, position, done = node
        yield from self._walks(world, position, done)
        can_finish = self._fewest.can_finish
        looks = self._worlds.looks
        for move in self._ground.moves(world, position):
            cost = 1 if move.kind else 0
            if cost > left or (move.task is not None and not cost and done >> move.task & 1):
                continue
            then = done if move.task is None else done | 1 << move.task
            if can_finish(move.after, then, left - cost):
                end, far = self._ground.end_of(position, move)
                then |= looks[move.after] & self._ground.here[end]
                yield far, move, (move.after, end, then), cost

    def _walks(self, world: int, position: int, done: int) -> Iterator[Way]:
        """Yield the steps to each neighbor, and the walk around if there is something to see.

        Whatever can be looked at on the way is. That costs nothing and hinders nothing.
        """
        ground, looks = self._ground, self._worlds.looks[world]
        for neighbor, far in ground.steps[position]:
            yield far, None, (world, neighbor, done | looks & ground.here[neighbor]), 0
        if looks & ~done & ground.loops and ground.foot[position] == position:
            yield ground.around, None, (world, position, done | looks & ground.passed), 0

    def _rank(self, way: Way, node: Node) -> tuple[int, int]:
        """Tell which of two ways to take: checks at hand, then changes, then the next walk.

        Checks go as in the guide, and of the acts the wait comes last: so a driver does in the
        seat what is done in the seat, and the engine warms up meanwhile.
        """
        _, move, after, cost = way
        last = len(self._worlds.tasks)
        if move is not None and cost:
            return (1, last + _ACT_RANK[move.act] if move.task is None else move.task)
        done = after[2] & ~node[2]
        return (0, (done & -done).bit_length()) if done else (2, after[1])

    def _visits(self, start: Node, ways: list[Way]) -> Iterator[Visit]:
        node, begins, walked = start, start[1], 0
        if start[2]:
            yield self._seen_from_the_seat(start)
        for far, move, after, _ in ways:
            # A step to a neighbor ends elsewhere; what is made here ends where it may.
            is_step = move is None and after[1] != node[1]
            walked += far if is_step else 0
            looked = after[2] & ~node[2]
            if not is_step or looked:
                yield Visit(
                    walked=walked,
                    within=0 if is_step else far,
                    is_loop=not is_step and (move is None or move.station == AROUND),
                    move=move,
                    looked=looked & ~_bit_of(move),
                    begins=begins,
                    position=after[1] if is_step else node[1],
                    world=node[0],
                )
                walked, begins = 0, after[1]
            node = after

    def _seen_from_the_seat(self, start: Node) -> Visit:
        seat = start[1]
        return Visit(
            walked=0,
            within=0,
            is_loop=False,
            move=None,
            looked=start[2],
            begins=seat,
            position=seat,
            world=0,
        )


class _Fronts:
    """The points from which the search has gone on.

    A point at which less is done and to which it is no shorter leads to no better round: checks
    that only look hinder nothing.
    """

    def __init__(self, only_look: int) -> None:
        """Begin with none."""
        self._only_look = only_look
        self._points: dict[Node, list[tuple[int, int]]] = {}

    def advance(self, node: Node, walked: int) -> bool:
        """Whether to go on from *node*; remember it if so."""
        world, position, done = node
        front = self._points.setdefault((world, position, done & ~self._only_look), [])
        for more, far in front:
            if far <= walked and not done & ~more:
                return False
        front.append((done, walked))
        return True


def _bit_of(move: Move | None) -> int:
    return 0 if move is None or move.task is None else 1 << move.task
