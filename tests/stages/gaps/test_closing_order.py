from collections.abc import Mapping

from gap_fleet import demo, fleet_with_gaps, resolved
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.gaps.model import FleetGaps, Gap, Grade, Line, UnitGaps
from guidegen.gaps.order import closing_order, smallest_set, waiting

NAMES = ("brakes", "tires.steer.count", "engine.fuel", "horn", "cruise")


def fleet_of(lacking: Mapping[str, frozenset[str]], faulty: frozenset[str]) -> FleetGaps:
    """Return a fleet whose trucks lack what is named, each gap holding the guide back."""
    specs, _ = demo()
    unit = resolved(next(iter(specs.units.values())))
    units = {
        number: UnitGaps(
            number,
            unit.model,
            "",
            tuple(
                Gap(name, Grade.HOLDS, (Line(name, is_certain=True),))
                for name in NAMES
                if name in names
            ),
            number in faulty,
            resolved=lambda: unit,
        )
        for number, names in lacking.items()
    }
    held = tuple(number for number, each in units.items() if each.is_held_back)
    return FleetGaps(units, {}, held_back=held)


NEEDS = st.dictionaries(
    st.sampled_from(["T-1", "T-2", "T-3", "T-4", "T-5", "T-6"]),
    st.frozensets(st.sampled_from(NAMES)),
    max_size=6,
)


@settings(deadline=None)
@given(NEEDS)
def test_a_gap_alone_frees_just_the_trucks_that_lack_nothing_else(
    needs: Mapping[str, frozenset[str]],
) -> None:
    for closing in closing_order(fleet_of(needs, frozenset())):
        alone = [number for number, names in needs.items() if names == {closing.name}]
        assert closing.frees_alone == len(alone)


@settings(deadline=None)
@given(NEEDS)
def test_in_order_a_truck_is_free_with_the_last_of_its_gaps_and_not_before(
    needs: Mapping[str, frozenset[str]],
) -> None:
    closed: set[str] = set()
    free: set[str] = set()
    for closing in closing_order(fleet_of(needs, frozenset())):
        closed.add(closing.name)
        now = {number for number, names in needs.items() if names and names <= closed}
        assert set(closing.freed) == now - free
        free = now
        assert closing.freed_so_far == len(free)
    assert free == {number for number, names in needs.items() if names}


@settings(deadline=None)
@given(NEEDS)
def test_the_order_begins_with_the_gaps_of_a_truck_that_free_most_trucks_for_each_gap(
    needs: Mapping[str, frozenset[str]],
) -> None:
    order = closing_order(fleet_of(needs, frozenset()))
    wanted = [names for names in needs.values() if names]
    worth = [sum(other <= names for other in wanted) / len(names) for names in wanted]

    closed: set[str] = set()
    reached = []
    for count, closing in enumerate(order, start=1):
        closed.add(closing.name)
        reached.append(sum(names <= closed for names in wanted) / count)

    assert not worth or max(reached) >= max(worth) - 1e-9


def test_a_truck_with_other_faults_is_never_counted_as_freed() -> None:
    fleet = fleet_of(
        {"T-1": frozenset({"horn"}), "T-2": frozenset({"horn"})}, faulty=frozenset({"T-2"})
    )

    (closing,) = closing_order(fleet)

    assert closing.lacking == ("T-1", "T-2")
    assert closing.frees_alone == 1
    assert closing.freed == ("T-1",)
    assert waiting(fleet) == {"T-1": frozenset({"horn"})}


def test_the_gap_that_frees_most_trucks_comes_first() -> None:
    lone = {f"T-{number}": frozenset({"cruise"}) for number in range(1, 4)}
    fleet = fleet_of({**lone, "T-8": frozenset({"horn"})}, frozenset())

    assert [closing.name for closing in closing_order(fleet)] == ["cruise", "horn"]


def test_two_gaps_come_first_if_they_free_more_than_twice_as_many() -> None:
    both = {f"T-{number}": frozenset({"brakes", "horn"}) for number in range(1, 6)}
    fleet = fleet_of({**both, "T-8": frozenset({"cruise"})}, frozenset())

    assert [closing.name for closing in closing_order(fleet)] == ["brakes", "horn", "cruise"]


def test_what_is_enough_for_a_truck_leaves_out_what_only_shortens_its_guide() -> None:
    fleet = fleet_with_gaps()

    assert smallest_set(fleet.units["T-17"]) == ("brakes.air.cut_out", "block_heater")
    assert smallest_set(fleet.units["T-18"]) == ("brakes.air.cut_out",)
    assert smallest_set(fleet.units["V-08"]) == ()
