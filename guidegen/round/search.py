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
from guidegen.round.worlds import Move, Worlds

Node = tuple[int, int, int]
"""World, position and tasks done."""

Way = tuple[int, Move | None, Node, int]
"""Millimeters, the move (none for a walk to checks that only look), what it leads to, and its
changes. A plain tuple: tens of thousands are made for one truck."""

_ACT_RANK = {act: number for number, act in enumerate(ACTS)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One place of the round, the way to it, and what is done there."""

    walked: int
    """To the place, in millimeters."""

    within: int
    """Walked in what is done there, such as once around the truck."""

    is_loop: bool
    """Whether the driver has walked once around the truck for it."""

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

    def __init__(self, worlds: Worlds, ground: Ground) -> None:
        """Take over worlds and ground."""
        self._worlds = worlds
        self._ground = ground
        self._fewest = Fewest(worlds)
        self._walked: dict[Node, int] = {}
        self._ways: dict[Node, list[Way]] = {}

    def best(self) -> Best | None:
        """Return the best round from the driver's seat; nothing if there is no order."""
        changes = self._fewest.changes(self._worlds.wanted)
        if changes is None:
            return None
        seat = self._ground.number_of("cab")
        start = (0, seat, self._worlds.looks[0] & self._ground.here[seat])
        walked = self._explore(start, changes)
        return Best(changes, walked, self._preferred(start, walked))

    def _is_end(self, node: Node) -> bool:
        return not self._worlds.wanted & ~node[2] and self._worlds.is_at_rest(node[0])

    def _explore(self, start: Node, changes: int) -> int:
        """Return the shortest walk of a round of so few changes; remember all ways to it.

        Only points from which the round can be finished with the fewest changes are looked at,
        so a point has one number of changes behind it, and the walk alone decides.
        """
        walked, at_least = self._walked, self._ground.at_least
        walked[start] = 0
        queue = [(at_least(start[1], self._worlds.wanted & ~start[2]), 0, changes, start)]
        limit: int | None = None
        while queue:
            total, far, left, node = heapq.heappop(queue)
            if limit is not None and total > limit:
                break
            if far > walked[node] or node in self._ways:
                continue
            self._ways[node] = []
            if self._is_end(node):
                limit = total
                continue
            for way in self._ways_from(node, left):
                self._ways[node].append(way)
                length, _, after, cost = way
                reached = far + length
                if reached < walked.get(after, reached + 1):
                    walked[after] = reached
                    rest = at_least(after[1], self._worlds.wanted & ~after[2])
                    heapq.heappush(queue, (reached + rest, reached, left - cost, after))
        assert limit is not None  # noqa: S101 -- a round of so few changes has been found
        return limit

    def _ways_from(self, node: Node, left: int) -> Iterator[Way]:
        world, position, done = node
        yield from self._walks(world, position, done)
        can_finish = self._fewest.can_finish
        looks = self._worlds.looks
        for move in self._ground.moves[world][position]:
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

    def _preferred(self, start: Node, total: int) -> tuple[Visit, ...]:
        """Return the visits of the best round that keeps nearest to the order of the guide."""
        good = self._good(total)
        visits = [self._seen_from_the_seat(start)] if start[2] else []
        node, begins, walked = start, start[1], 0
        while not self._is_end(node):
            ways = [way for way in self._ways[node] if way[2] in good and self._is_short(node, way)]
            far, move, after, _ = min(ways, key=lambda way: self._rank(way, node))
            # A step to a neighbor ends elsewhere; what is made here ends where it may.
            is_step = move is None and after[1] != node[1]
            walked += far if is_step else 0
            looked = after[2] & ~node[2]
            if not is_step or looked:
                visits.append(
                    Visit(
                        walked=walked,
                        within=0 if is_step else far,
                        is_loop=not is_step and (move is None or move.station == AROUND),
                        move=move,
                        looked=looked & ~_bit_of(move),
                        begins=begins,
                        position=after[1] if is_step else node[1],
                        world=node[0],
                    )
                )
                walked, begins = 0, after[1]
            node = after
        return tuple(visits)

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

    def _is_short(self, node: Node, way: Way) -> bool:
        return self._walked[node] + way[0] == self._walked[way[2]]

    def _good(self, total: int) -> set[Node]:
        """Return the points that lie on a best round."""
        before: dict[Node, list[Node]] = {}
        for node, ways in self._ways.items():
            for way in ways:
                if self._is_short(node, way):
                    before.setdefault(way[2], []).append(node)
        pending = [
            node for node in self._ways if self._is_end(node) and self._walked[node] == total
        ]
        good = set(pending)
        while pending:
            for node in before.get(pending.pop(), ()):
                if node not in good:
                    good.add(node)
                    pending.append(node)
        return good

    def _rank(self, way: Way, node: Node) -> tuple[bool, int, int]:
        """Tell which of two ways to take: checks before changes, then as in the guide."""
        _, move, after, cost = way
        last = len(self._worlds.tasks)
        if move is not None and move.task is None:
            return (True, last, _ACT_RANK[move.act])
        if move is not None and move.task is not None and cost:
            return (True, move.task, 0)
        done = after[2] & ~node[2]
        return (False, (done & -done).bit_length() or last + 1, after[1])


def _bit_of(move: Move | None) -> int:
    return 0 if move is None or move.task is None else 1 << move.task
