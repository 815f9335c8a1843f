"""Places around a truck, and the way from one to another, told from their coordinates."""

from collections.abc import Mapping
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.guide.model import Guide
from guidegen.procedures.words import STATIONS
from guidegen.quantity.model import Dimension
from guidegen.quantity.parse import parse_amount
from guidegen.round.positions import (
    CABLE,
    CLIMB,
    HOSE,
    LENGTH_NOT_ON_RECORD,
    REACH,
    Footprint,
    footprint_of,
    walk_of,
)
from guidegen.specs.fields import Value

footprints = st.builds(
    Footprint,
    length=st.integers(4000, 23000),
    width=st.just(2590),
    hood=st.just(1700),
    cab=st.just(3300),
    door=st.integers(600, 2500),
    engine=st.integers(600, 2500),
    axles=st.just(()),
    is_length_known=st.just(True),  # noqa: FBT003 -- the field of that name
)
OFF_THE_WALK = {"cab": CLIMB, "outlet": CABLE, "pump": HOSE}


def points(truck: Footprint) -> dict[str, tuple[int, int]]:
    """Where a driver stands at each station, from the front bumper back and from the middle."""
    side, end = truck.width // 2 + REACH, truck.length + REACH
    return {
        "cab": (truck.door, -side),
        "front": (-REACH, 0),
        "left_front": (0, -side),
        "right_front": (0, side),
        "engine": (truck.engine, -side),
        "left_side": (truck.length // 2, -side),
        "right_side": (truck.length // 2, side),
        "left_rear": (truck.length, -side),
        "right_rear": (truck.length, side),
        "rear": (end, 0),
        "outlet": (0, -side),
        "pump": (truck.length // 2, -side),
    }


def way(truck: Footprint, one: tuple[int, int], other: tuple[int, int]) -> int:
    """Walk clockwise and the other way along the rectangle, and take the shorter."""
    side, long = truck.width + 2 * REACH, truck.length + 2 * REACH

    def clockwise(point: tuple[int, int]) -> int:
        """From the left front corner: to the right, back, to the left, forward."""
        x, y = point[0] + REACH, point[1] + side // 2
        if x == 0:
            return y
        if y == side:
            return side + x
        if x == long:
            return side + long + side - y
        return 2 * side + long + long - x

    around = 2 * (side + long)
    ahead = (clockwise(other) - clockwise(one)) % around
    return min(ahead, around - ahead)


@given(footprints)
def test_every_station_but_around_has_a_place(truck: Footprint) -> None:
    assert set(walk_of(truck).places) == set(STATIONS) - {"around"}


@given(footprints, st.sampled_from(sorted(set(STATIONS) - {"around"})), st.data())
def test_the_way_is_the_shorter_one_along_the_truck(
    truck: Footprint, one: str, data: st.DataObject
) -> None:
    other = data.draw(st.sampled_from(sorted(set(STATIONS) - {"around", one})))
    walk, at = walk_of(truck), points(truck)
    off = OFF_THE_WALK.get(one, 0) + OFF_THE_WALK.get(other, 0)
    expected = way(truck, at[one], at[other]) + off

    # Places that fall together are set apart by a millimeter.
    assert abs(walk.between(walk.places[one], walk.places[other]) - expected) <= 2


@given(footprints, st.permutations(sorted(set(STATIONS) - {"around"})))
def test_ways_are_the_same_both_ways_and_no_detour_is_shorter(
    truck: Footprint, order: list[str]
) -> None:
    walk = walk_of(truck)
    one, other, third = (walk.places[station] for station in order[:3])

    assert walk.between(one, one) == 0
    assert walk.between(one, other) == walk.between(other, one)
    assert walk.between(one, third) <= walk.between(one, other) + walk.between(other, third)


@given(footprints)
def test_once_around_is_the_rectangle_that_a_driver_walks(truck: Footprint) -> None:
    assert walk_of(truck).around == 2 * (truck.length + truck.width + 4 * REACH)


@given(footprints)
def test_no_two_places_on_the_walk_are_one(truck: Footprint) -> None:
    on_walk = [place.along for place in walk_of(truck).places.values() if not place.off]

    assert len(set(on_walk)) == len(on_walk)


LENGTHS = {"T-17": "27 ft 8 in", "V-08": "7.25 m", "E-02": "30 ft 5 in", "R-12": "33 ft 2 in"}


@pytest.mark.parametrize("number", LENGTHS)
def test_the_length_is_the_trucks_own(guides: Mapping[str, Guide], number: str) -> None:
    """The lengths stand in the model files."""
    inches = {"T-17": 332, "E-02": 365, "R-12": 398}
    millimeters = 7250 if number == "V-08" else round(inches[number] * 25.4)

    assert footprint_of(guides[number]).length == millimeters


AXLES = {
    "T-17": "s..dd",
    "V-08": "s..d",
    "E-02": "s..d",
    "D-31": "s..ddd",
    "R-12": "s..dd",
}


@pytest.mark.parametrize("number", AXLES)
def test_axles_follow_from_the_configuration(guides: Mapping[str, Guide], number: str) -> None:
    truck = footprint_of(guides[number])
    found = "".join("s" if axle.is_steered else "d" for axle in truck.axles)
    xs = [axle.x for axle in truck.axles]

    assert found == AXLES[number].replace(".", "")
    assert xs == sorted(xs)
    assert 0 < xs[0] < truck.length / 3
    assert truck.length / 2 < xs[-1] < truck.length


def configured(guide: Guide, value: Value) -> Footprint:
    name = "axles.configuration"
    return footprint_of(
        replace(guide, facts={**guide.facts, name: replace(guide.facts[name], value=value)})
    )


@pytest.mark.parametrize("configuration", ["4x2", "6x4", "8x4", "10x6", "12x4", "4x4"])
def test_axles_stay_in_their_order_on_a_very_short_truck(
    guides: Mapping[str, Guide], configuration: str
) -> None:
    name = "identity.overall_length"
    guide = guides["V-08"]
    length = replace(guide.facts[name], value=parse_amount("10 ft 0 in", Dimension.LENGTH))
    truck = configured(replace(guide, facts={**guide.facts, name: length}), configuration)
    xs = [axle.x for axle in truck.axles]

    assert len(xs) == int(configuration.partition("x")[0]) // 2
    assert xs == sorted(xs)
    assert all(0 < x < truck.length for x in xs)


def test_the_fourth_axle_is_steered_on_a_truck_without_a_tag_axle(
    guides: Mapping[str, Guide],
) -> None:
    truck = configured(guides["T-17"], "8x4")

    assert [axle.is_steered for axle in truck.axles] == [True, True, False, False]


def test_a_length_that_is_not_on_record_is_a_usual_one_and_says_so(
    guides: Mapping[str, Guide],
) -> None:
    guide = guides["T-17"]
    facts = {name: f for name, f in guide.facts.items() if name != "identity.overall_length"}
    truck = footprint_of(replace(guide, facts=facts))

    assert (truck.length, truck.is_length_known) == (LENGTH_NOT_ON_RECORD, False)


def test_a_cab_over_the_engine_has_no_hood(guides: Mapping[str, Guide]) -> None:
    assert footprint_of(guides["V-08"]).hood == 0
    assert footprint_of(guides["T-17"]).hood > 0
