"""The inspection round of one truck: one order of its checks that can be walked.

Takes in a guide and the library that it was fitted from; gives out the round, or nothing and the
findings that say which states stand in its way.
Refuses an order in which a check comes before the state that it needs.

The order has as few changes of state as there can be, and with these the shortest walk.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from guidegen.finding import Findings
from guidegen.guide.known import KnownOf
from guidegen.guide.model import Guide
from guidegen.procedures.model import ProcedureTemplate
from guidegen.round.acts import WEAKER, acts_in, leave_key_in
from guidegen.round.contradictions import (
    report_contradictions,
    report_exclusion,
    report_out_of_reach,
)
from guidegen.round.fewest import Fewest
from guidegen.round.ground import AROUND, Ground
from guidegen.round.model import Change, Leg, Round, Stop
from guidegen.round.positions import Footprint, footprint_of, walk_of
from guidegen.round.reasons import Placed, reasons_for
from guidegen.round.search import Best, Search, Visit
from guidegen.round.states import DRIVE, ENGINE, KEY, World, left_in, words_of, world_of
from guidegen.round.tasks import Task, tasks_of
from guidegen.round.worlds import Move, Worlds


def plan_round(
    guide: Guide, library: Mapping[str, ProcedureTemplate], findings: Findings
) -> Round | None:
    """Return the inspection round of the guide's truck.

    Args:
        guide: The guide of the truck.
        library: Procedure templates by id; those with a ``round`` take part.
        findings: Takes contradictions, and states that are out of reach.

    Returns:
        The round; nothing if there are findings, or if no procedure takes part. Guides that
        differ in number, VIN, plate and yard only have the same round.
    """
    own = Findings()
    tasks = tasks_of(guide, library, own)
    report_contradictions(guide, tasks, own)
    best: _Found | None = None
    if not own.has_errors and any(task.is_wanted for task in tasks):
        best = _search(guide, tasks, own)
    findings.extend(own)
    return None if best is None else _Writing(best).round(guide)


@dataclass(frozen=True, slots=True)
class _Found:
    best: Best
    tasks: tuple[Task, ...]
    ground: Ground
    start: World


def _search(guide: Guide, tasks: tuple[Task, ...], findings: Findings) -> _Found | None:
    start = _start(guide)
    kind = guide.facts.get("cab_access.kind")
    states = _states_of(tasks, start, kind is not None and kind.value == "tilt_cab")
    report_out_of_reach(guide, states.worlds, states.fewest.bounds, findings)
    if findings.has_errors:
        return None
    walked = _walked(states, footprint_of(guide))
    if walked is None:
        report_exclusion(guide, states.worlds, states.fewest, findings)
        return None
    best, ground = walked
    return _Found(best, tasks, ground, start)


@dataclass(frozen=True, slots=True, eq=False)
class _States:
    """All that can be told of tasks before anyone walks."""

    worlds: Worlds
    fewest: Fewest


# Trucks that differ in what no task asks for have the same states; trucks of one size, the same
# walk. A fleet has some dozen of either, and they take most of the planning.
@lru_cache(maxsize=64)
def _states_of(tasks: tuple[Task, ...], start: World, cab_tilts: bool) -> _States:  # noqa: FBT001 -- a key
    worlds = Worlds(tasks, start, cab_tilts=cab_tilts)
    return _States(worlds, Fewest(worlds))


@lru_cache(maxsize=256)
def _walked(states: _States, truck: Footprint) -> tuple[Best, Ground] | None:
    """Return the best round, with the ground it is walked on; nothing if there is no order."""
    ground = Ground(states.worlds, walk_of(truck))
    best = Search(states.worlds, ground, states.fewest).best()
    return None if best is None else (best, ground)


def _start(guide: Guide) -> World:
    """Return the state in which a driver finds the truck: parked since its last run."""
    known = KnownOf(guide)
    values = {"truck": "stopped", "key": "out", "access": "shut"}
    if known.fitted("engine"):
        values["engine"] = "off_cold"
    if known.fitted("high_voltage"):
        values["drive"] = "off"
    return world_of(values)


@dataclass(slots=True)
class _Writing:
    """Turns the visits of the best round into stops and legs, with the worlds as they come."""

    found: _Found
    _placed: list[Placed] = field(default_factory=list)
    _legs: list[Leg] = field(default_factory=list)
    _within: list[int] = field(default_factory=list)
    _changes: list[Change] = field(default_factory=list)
    _walked: int = 0

    def round(self, guide: Guide) -> Round:
        """Write the round."""
        world = self.found.start
        visits = self.found.best.visits
        for number, visit in enumerate(visits):
            self._walked += visit.walked
            world = self._visit(visit, world, visits[number + 1 :])
        reasons = reasons_for(tuple(self._placed))
        stops = tuple(
            Stop(
                number=number,
                procedure=placed.task.procedure,
                step=placed.task.step,
                station=placed.task.station,
                state=words_of(placed.world),
                millimeters=within,
                reasons=why,
            )
            for number, (placed, within, why) in enumerate(
                zip(self._placed, self._within, reasons, strict=True), start=1
            )
        )
        truck = footprint_of(guide)
        premises = ["cold"] if KnownOf(guide).fitted("engine") else []
        premises += ["guessed"] if truck.is_length_known else ["guessed", "length"]
        best = self.found.best
        return Round(stops, tuple(self._legs), best.changes, best.walked, tuple(premises), truck)

    def _visit(self, visit: Visit, world: World, following: tuple[Visit, ...]) -> World:
        move, within = visit.move, visit.within
        if move is not None and move.task is None:
            world = self._act(visit, move, world, following)
        if move is not None and move.task is not None:
            task = self.found.tasks[move.task]
            after = left_in(world, task.leaves)
            self._place(Placed(task, world, after, self._is_far(), is_on_the_way=False), within)
            world, within = after, 0
        is_shared = visit.is_loop and move is None
        for number, task in enumerate(self._in_order(visit)):
            is_on_the_way = is_shared and number > 0
            far = self._is_far() or (is_shared and number == 0)
            self._place(Placed(task, world, world, far, is_on_the_way), within)
            within = 0
        return world

    def _act(self, visit: Visit, move: Move, world: World, following: tuple[Visit, ...]) -> World:
        key = move.act
        if key in WEAKER and not self._is_key_wanted_out(visit, following):
            key = WEAKER[key]
            after = leave_key_in(key, world)
        else:
            after = next(act.after for act in acts_in(world) if act.key == key)
        self._changes.append(Change(key, move.station))
        return after

    def _is_key_wanted_out(self, visit: Visit, following: tuple[Visit, ...]) -> bool:
        """Whether a task needs the key out, or is away from it, before it is worked again."""
        if any(_takes_key_along(task) for task in self._in_order(visit)):
            return True
        for later in following:
            move = later.move
            if move is not None and move.task is not None:
                task = self.found.tasks[move.task]
                if _takes_key_along(task):
                    return True
                if any(aspect in (KEY, ENGINE, DRIVE) for aspect, _ in task.leaves):
                    return False
            elif move is not None and move.kind in ("key", "start"):
                return False
            if any(_takes_key_along(task) for task in self._in_order(later)):
                return True
        return False

    def _in_order(self, visit: Visit) -> list[Task]:
        """Return the checks that only look: in the order of the guide, or as one comes past."""
        numbers = [n for n in range(len(self.found.tasks)) if visit.looked >> n & 1]
        if visit.is_loop and visit.move is None:
            numbers.sort(key=lambda number: self._comes_past(visit, number))
        return [self.found.tasks[number] for number in numbers]

    def _comes_past(self, visit: Visit, number: int) -> tuple[bool, int, int]:
        task = self.found.tasks[number]
        if task.station == AROUND:
            return (False, 0, number)
        ground = self.found.ground
        begin, here = ground.along(visit.position), ground.along(ground.number_of(task.station))
        return (True, (here - begin) % ground.around, number)

    def _is_far(self) -> bool:
        return self._walked > 0

    def _place(self, placed: Placed, within: int) -> None:
        self._placed.append(placed)
        self._legs.append(Leg(self._walked, tuple(self._changes)))
        self._within.append(within)
        self._walked, self._changes = 0, []


def _takes_key_along(task: Task) -> bool:
    """Whether the key is out during the task: as asked, or because the driver is not in the cab."""
    return task.station != "cab" or dict(task.needs).get(KEY) == frozenset({"out"})
