"""The planner's round costs what the best of all orders costs, told by plain searches."""

from collections.abc import Mapping, Sequence
from random import Random
from types import MappingProxyType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from round_judge import Cost, Judge, truck

from guidegen.procedures.model import RoundPart
from guidegen.round.fewest import Fewest
from guidegen.round.ground import Ground
from guidegen.round.positions import Footprint, Walk, walk_of
from guidegen.round.search import Best, Search
from guidegen.round.states import needs_of, number_of, world_of
from guidegen.round.tasks import Task
from guidegen.round.worlds import Worlds
from guidegen.source import SourceFile, Span

NOWHERE = Span(SourceFile("", ""), 1, 1, 1, 1)
START = {
    "truck": "stopped",
    "parking_brake": "set",
    "wheels": "chocked",
    "engine": "off_cold",
    "key": "out",
    "access": "shut",
}
STATIONS = (
    *("cab", "front", "engine", "left_side", "right_side", "rear", "right_front"),
    *("around", "outlet"),
)
NEEDS = {
    "engine": ("off_cold", "off", "off_warm", "idling", "idling_warm"),
    "key": ("out", "off", "on"),
    "access": ("open", "shut"),
    "wheels": ("chocked",),
    "parking_brake": ("set",),
}
LEFT = (
    *({"engine": "idling"}, {"engine": "off", "key": "on"}, {"key": "on"}, {"wheels": "free"}),
    *({"access": "open"}, {"access": "shut"}, {"key": "out"}, {"parking_brake": "released"}),
)
TRUCK = Footprint(8000, 2600, 1700, 3300, 2400, 1000, (), is_length_known=True)


def task(
    station: str,
    asks: dict[str, str],
    left: dict[str, str],
    part: RoundPart = RoundPart.CHECK,
    ends: str | None = None,
) -> Task:
    asked = tuple(asks.items())
    return Task(
        procedure=f"{station} {asks} {left}",
        step=None,
        part=part,
        station=station,
        asks=asked,
        needs=needs_of(asked),
        leaves=tuple((number_of(aspect), word) for aspect, word in left.items()),
        ends=ends,
        place=0,
        span=NOWHERE,
    )


def looks(station: str, **asks: str) -> Task:
    return task(station, asks, {})


@st.composite
def tasks(draw: st.DrawFn, most: int) -> tuple[Task, ...]:
    some_needs = st.fixed_dictionaries(
        {}, optional={aspect: st.sampled_from(words) for aspect, words in NEEDS.items()}
    )
    station = st.sampled_from(STATIONS)
    check = st.builds(looks_at, station, some_needs)
    effective = st.builds(
        task,
        station,
        some_needs,
        st.sampled_from(LEFT),
        st.just(RoundPart.CHECK),
        st.one_of(st.none(), st.sampled_from([s for s in STATIONS if s != "around"])),
    )
    first = st.builds(
        task, station, st.just({}), st.sampled_from(LEFT[:1]), st.just(RoundPart.FIRST)
    )
    opening = (
        task("front", {"key": "out", "access": "shut"}, {"access": "open"}, RoundPart.MEANS),
        task("front", {"access": "open"}, {"access": "shut"}, RoundPart.MEANS),
    )
    wanted = draw(st.lists(st.one_of(check, check, effective), min_size=1, max_size=most))
    begins = draw(st.lists(first, max_size=1)) if draw(st.booleans()) else []
    means = draw(st.sampled_from([(), opening]))
    return (*begins[: most - len(wanted)], *wanted, *means)


def looks_at(station: str, asks: dict[str, str]) -> Task:
    return task(station, asks, {})


def planned(
    some: Sequence[Task],
    walk: Walk,
    start: Mapping[str, str] = MappingProxyType(START),
    *,
    cab_tilts: bool = False,
) -> Best | None:
    worlds = Worlds(some, world_of(start), cab_tilts=cab_tilts)
    return Search(worlds, Ground(worlds, walk), Fewest(worlds)).best()


def cost_of(best: Best | None) -> Cost | None:
    return None if best is None else (best.changes, best.walked)


WALK = walk_of(TRUCK)


@pytest.mark.parametrize("cab_tilts", [False, True])
@given(some=tasks(most=4))
@settings(max_examples=30, deadline=None)
def test_no_order_of_the_checks_is_better_than_the_planned_one(
    some: tuple[Task, ...], *, cab_tilts: bool
) -> None:
    best = planned(some, WALK, cab_tilts=cab_tilts)
    judge = Judge(some, WALK, cab_tilts=cab_tilts)

    assert cost_of(best) == judge.best_of_all_orders(truck(**START))


@pytest.mark.parametrize("cab_tilts", [False, True])
@given(some=tasks(most=7))
@settings(max_examples=60, deadline=None)
def test_the_planned_round_costs_what_a_plain_search_finds(
    some: tuple[Task, ...], *, cab_tilts: bool
) -> None:
    best = planned(some, WALK, cab_tilts=cab_tilts)
    judge = Judge(some, WALK, cab_tilts=cab_tilts)

    assert cost_of(best) == judge.best(truck(**START))


FIRST = task(
    "cab",
    {"truck": "stopped"},
    {"parking_brake": "set", "wheels": "chocked", "key": "out"},
    RoundPart.FIRST,
    "left_rear",
)
COLD = {"wheels": "chocked", "engine": "off_cold", "key": "out"}
AIR = {"wheels": "chocked", "key": "off"}
DAY = (
    looks("around", wheels="chocked", key="out"),
    looks("left_side", wheels="chocked", key="out"),
    looks("engine", **COLD, access="open"),
    looks("engine", **COLD),
    looks("cab", parking_brake="set"),
    task("cab", {"key": "off"}, {"key": "on"}),
    looks("rear", key="on", access="shut"),
    task("around", {"key": "on", "access": "shut"}, {}, ends="cab"),
    task("cab", {"engine": "off_cold", "key": "off"}, {"engine": "idling"}),
    looks("engine", engine="idling_warm", access="open"),
    looks("engine", engine="off_warm", key="out"),
    task("cab", AIR, {"engine": "idling"}),
    task("cab", AIR, {"engine": "off", "key": "on"}),
    task("cab", {"parking_brake": "set", "access": "shut"}, {"wheels": "free"}),
    task("cab", {"engine": "running"}, {"wheels": "free", "parking_brake": "released"}),
    task("outlet", {"key": "out"}, {"key": "on"}, ends="cab"),
)
OPENING = (
    task("front", {"key": "out", "wheels": "chocked"}, {"access": "open"}, RoundPart.MEANS),
    task("front", {"access": "open"}, {"access": "shut"}, RoundPart.MEANS),
)


@given(st.lists(st.sampled_from(DAY), min_size=3, max_size=8, unique=True))
@settings(max_examples=60, deadline=None)
def test_a_part_of_a_drivers_day_is_planned_as_well_as_a_plain_search_does(
    part: list[Task],
) -> None:
    some = (FIRST, *part, *OPENING)
    start = {"truck": "stopped", "engine": "off_cold", "key": "out", "access": "shut"}

    assert cost_of(planned(some, WALK, start)) == Judge(some, WALK, cab_tilts=False).best(
        truck(**start)
    )


@given(tasks(most=6), st.randoms(use_true_random=False))
@settings(max_examples=60, deadline=None)
def test_the_cost_does_not_hang_on_the_order_of_the_library(
    some: tuple[Task, ...], luck: Random
) -> None:
    shuffled = list(some)
    luck.shuffle(shuffled)

    assert cost_of(planned(shuffled, WALK)) == cost_of(planned(some, WALK))


@given(tasks(most=6))
@settings(max_examples=60, deadline=None)
def test_the_visits_add_up_to_the_cost_and_hold_every_check_once(some: tuple[Task, ...]) -> None:
    best = planned(some, WALK)
    if best is None:
        return
    moves = [visit.move for visit in best.visits if visit.move is not None]
    done = [move.task for move in moves if move.task is not None and not move.kind]
    done += [n for visit in best.visits for n in range(len(some)) if visit.looked >> n & 1]

    assert best.walked == sum(visit.walked + visit.within for visit in best.visits)
    assert best.changes == sum(1 for move in moves if move.kind)
    assert sorted(done) == [n for n, one in enumerate(some) if one.part is not RoundPart.MEANS]
