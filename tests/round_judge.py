"""A second opinion on rounds: the states of a truck told anew, and searches too plain to be wrong.

Shares with the planner the tasks as data and the distances between two places, and no code that
decides what a state means, what a task leaves, which order is possible or what it costs.
"""

import heapq
from collections.abc import Iterable, Iterator, Mapping
from itertools import permutations

from guidegen.procedures.model import RoundPart
from guidegen.round.positions import Place, Walk
from guidegen.round.tasks import Task

Truck = tuple[tuple[str, str], ...]
"""Aspects and values that are known, sorted."""

Cost = tuple[int, int]
"""Changes of state, then millimeters."""

_COUNTS_AS = {
    "engine.off": {"off_cold", "off", "off_warm"},
    "engine.idling": {"idling", "idling_warm"},
    "engine.running": {"idling", "idling_warm"},
    "key.off": {"off", "out"},
    "drive.off": {"off", "off_again"},
}


def truck(**values: str) -> Truck:
    return tuple(sorted(values.items()))


def holds(state: Truck, asked: Iterable[tuple[str, str]]) -> bool:
    """Every asked word is satisfied by what is known."""
    known = dict(state)
    return all(
        known.get(aspect) in _COUNTS_AS.get(f"{aspect}.{word}", {word}) for aspect, word in asked
    )


def after(state: Truck, left: Iterable[tuple[str, str]]) -> Truck:
    """What the truck is in once it is left so."""
    stated = dict(left)
    known = {**dict(state), **stated}
    was_warm = dict(state).get("engine") in ("idling_warm", "off_warm")
    if stated.get("engine") in ("idling", "running"):
        known["engine"] = "idling_warm" if was_warm else "idling"
    if stated.get("engine") == "off":
        known["engine"] = "off_warm" if was_warm else "off"
    if stated.get("drive") == "off":
        known["drive"] = "off_again"
    if _runs({aspect: known[aspect] for aspect in stated}):
        known["key"] = "on"
    if known.get("key") in ("off", "out"):
        known |= {aspect: _STOPPED.get(value, value) for aspect, value in known.items()}
    return tuple(sorted(known.items()))


def _runs(known: Mapping[str, str]) -> bool:
    return known.get("engine") in ("idling", "idling_warm") or known.get("drive") == "ready"


def can_be(state: Truck) -> bool:
    known = dict(state)
    if _runs(known) and known.get("key", "on") != "on":
        return False
    if known.get("truck") == "moving":
        return not (
            known.get("parking_brake") == "set"
            or known.get("wheels") == "chocked"
            or known.get("access") == "open"
        )
    return True


def can_stand(station: str, state: Truck, *, cab_tilts: bool) -> bool:
    known = dict(state)
    if station == "cab":
        return not (cab_tilts and known.get("access") == "open")
    return known.get("parking_brake") != "released" and known.get("truck") != "moving"


def can_check(station: str, state: Truck, *, cab_tilts: bool) -> bool:
    """No check from the driver's seat behind an open hood."""
    is_blind = station == "cab" and dict(state).get("access") == "open"
    return not is_blind and can_stand(station, state, cab_tilts=cab_tilts)


def acts(state: Truck) -> Iterator[tuple[str | None, Truck]]:
    """Where a driver can change the state without a procedure, and the state then."""
    known = dict(state)
    sees_ahead = known.get("access") != "open"
    may_begin = sees_ahead and known.get("parking_brake") == "set"
    possible = {
        ("cab", "engine", "idling"): known.get("engine") in ("off", "off_warm") and may_begin,
        ("cab", "drive", "ready"): known.get("drive") == "off_again" and may_begin,
        ("cab", "transmission", "neutral"): known.get("transmission") == "park",
        ("cab", "parking_brake", "set"): known.get("parking_brake") == "released",
        ("cab", "parking_brake", "released"): may_begin and known.get("wheels") == "chocked",
        (None, "engine", "idling_warm"): known.get("engine") == "idling" and sees_ahead,
    }
    for key in ("out", "off", "on"):
        is_turn = key != known.get("key") and (known.get("key"), key) != ("out", "off")
        possible["cab", "key", key] = is_turn
    for (station, aspect, value), can in possible.items():
        if can:
            yield station, after(state, [(aspect, value)])


_STOPPED = {"idling": "off", "idling_warm": "off_warm", "ready": "off_again"}
"""What a key that is turned off does to engine and drive system."""

Node = tuple[Truck, str, bool, frozenset[int]]
"""The state, where the driver is, whether a walk around goes on, and what is done.

On the ground below a station off the walk, the place is its name with ``below`` before it.
"""


class Judge:
    """Plain searches for the best round of some tasks."""

    def __init__(self, tasks: tuple[Task, ...], walk: Walk, *, cab_tilts: bool) -> None:
        self.tasks = tasks
        self.walk = walk
        self.cab_tilts = cab_tilts
        self.wanted = frozenset(n for n, t in enumerate(tasks) if t.part is not RoundPart.MEANS)
        self.firsts = frozenset(n for n, t in enumerate(tasks) if t.part is RoundPart.FIRST)

    def best(self, start: Truck) -> Cost | None:
        """Search all orders at once: what is done is a set."""
        return self._search(start, None)

    def best_of_all_orders(self, start: Truck) -> Cost | None:
        """Go through every order of the wanted tasks, one by one."""
        costs = [self._search(start, order) for order in permutations(sorted(self.wanted))]
        return min((cost for cost in costs if cost is not None), default=None)

    def _search(self, start: Truck, order: tuple[int, ...] | None) -> Cost | None:
        first: Node = (start, "cab", False, frozenset())
        best: dict[Node, Cost] = {first: (0, 0)}
        count = 0
        queue: list[tuple[Cost, int, Node]] = [((0, 0), 0, first)]
        while queue:
            cost, _, node = heapq.heappop(queue)
            if cost > best[node]:
                continue
            if node[3] == self.wanted and dict(node[0]).get("access") != "open":
                return cost
            for (changes, far), then in self._ways(node, order):
                total = (cost[0] + changes, cost[1] + far)
                if total < best.get(then, (1 << 30, 0)):
                    best[then] = total
                    count += 1
                    heapq.heappush(queue, (total, count, then))
        return None

    def _ways(self, node: Node, order: tuple[int, ...] | None) -> Iterator[tuple[Cost, Node]]:
        state, at, _, done = node
        for station, then in acts(state):
            if can_be(then) and self._may_stand(station or at, state):
                to = station or at
                yield (1, self._far(at, to)), (then, to, False, done)
        for number, task in enumerate(self.tasks):
            if number in done or not self._may_be_next(number, done, order):
                continue
            if holds(state, task.asks) and can_check(task.station, state, cab_tilts=self.cab_tilts):
                then = after(state, task.effects)
                if can_be(then):
                    yield from self._done(node, number, then)

    def _may_be_next(
        self, number: int, done: frozenset[int], order: tuple[int, ...] | None
    ) -> bool:
        part = self.tasks[number].part
        if part is RoundPart.MEANS:
            waiting = [self.tasks[n] for n in self.firsts - done]
            brings = set(self.tasks[number].effects)
            return not waiting or any(brings & set(task.asks) for task in waiting)
        if part is RoundPart.CHECK and not self.firsts <= done:
            return False
        return order is None or order[len(done)] == number

    def _done(self, node: Node, number: int, then: Truck) -> Iterator[tuple[Cost, Node]]:
        _, at, is_walking, done = node
        task = self.tasks[number]
        is_means = task.part is RoundPart.MEANS
        now = done if is_means else done | {number}
        changes = 1 if is_means else 0
        only_looks = task.part is RoundPart.CHECK and not task.effects and task.ends is None
        if is_walking and only_looks and self._is_on_walk(task.station):
            yield (0, 0), (then, at, True, now)
        if task.station == "around":
            foot = self._below(at)
            end = task.ends or foot
            far = self._far(at, foot) + self.walk.around + self._far(foot, end)
            yield (changes, far), (then, end, only_looks, now)
        else:
            end = task.ends or task.station
            far = self._far(at, task.station) + self._far(task.station, end)
            yield (changes, far), (then, end, False, now)

    def _may_stand(self, at: str, state: Truck) -> bool:
        # Who only waits stays where he is.
        return at.startswith("below") or can_stand(at, state, cab_tilts=self.cab_tilts)

    def _is_on_walk(self, station: str) -> bool:
        return station == "around" or not self.walk.places[station].off

    def _below(self, at: str) -> str:
        return at if at.startswith("below") or self._is_on_walk(at) else f"below {at}"

    def _far(self, one: str, other: str) -> int:
        return self.walk.between(self._place(one), self._place(other))

    def _place(self, at: str) -> Place:
        if not at.startswith("below"):
            return self.walk.places[at]
        place = self.walk.places[at.removeprefix("below ")]
        return Place(place.along, 0, place.x, place.y)


def state_of(values: Mapping[str, str]) -> Truck:
    return tuple(sorted(values.items()))
