"""What states let pass, exclude and leave, told against a second telling of the same."""

from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st
from round_judge import Truck, acts, after, can_be, can_check, can_stand, holds, state_of

from guidegen.procedures.words import STATES
from guidegen.round import states
from guidegen.round.acts import ACTS, KINDS, WEAKER, acts_in, leave_key_in
from guidegen.round.states import (
    ASPECTS,
    all_values,
    can_all_hold,
    is_possible,
    left_in,
    meets,
    needs_of,
    number_of,
    words_of,
    world_of,
)

VALUES = {aspect: sorted(all_values(number)) for number, aspect in enumerate(ASPECTS)}
WORDS = [(aspect, word) for aspect, words in STATES.items() for word in words]

trucks = st.fixed_dictionaries(
    {}, optional={aspect: st.sampled_from(values) for aspect, values in VALUES.items()}
)
seen = trucks.filter(lambda values: "key" in values and can_be(state_of(values)))
some_words = st.dictionaries(
    st.sampled_from(list(STATES)), st.integers(0, 5), min_size=1, max_size=4
).map(lambda chosen: [(a, list(STATES[a])[n % len(STATES[a])]) for a, n in chosen.items()])


def told(world: states.World) -> Truck:
    return state_of({a: v for a, v in zip(ASPECTS, world, strict=True) if v})


@given(trucks, some_words)
def test_a_word_lets_pass_what_it_means(
    values: Mapping[str, str], asked: list[tuple[str, str]]
) -> None:
    assert meets(world_of(values), needs_of(asked)) == holds(state_of(values), asked)


@given(seen, some_words)
def test_what_is_left_brings_with_it_what_follows(
    values: Mapping[str, str], left: list[tuple[str, str]]
) -> None:
    leaves = tuple((number_of(aspect), word) for aspect, word in left)

    assert told(left_in(world_of(values), leaves)) == after(state_of(values), left)


@given(trucks)
def test_the_laws_of_the_truck_are_these(values: Mapping[str, str]) -> None:
    assert is_possible(world_of(values)) == can_be(state_of(values))


@given(trucks, st.sampled_from(["cab", "front", "around", "outlet"]), st.booleans())
def test_nobody_sits_in_a_tilted_cab_checks_behind_a_hood_or_leaves_a_truck_that_may_roll(
    values: Mapping[str, str],
    station: str,
    tilts: bool,  # noqa: FBT001 -- drawn by Hypothesis
) -> None:
    world, state = world_of(values), state_of(values)

    assert states.can_stand(station, world, cab_tilts=tilts) == can_stand(
        station, state, cab_tilts=tilts
    )
    assert states.can_check(station, world, cab_tilts=tilts) == can_check(
        station, state, cab_tilts=tilts
    )


@given(seen)
def test_acts_are_those_of_the_second_telling_but_for_the_key_left_in(
    values: Mapping[str, str],
) -> None:
    """The planner takes the key out each time and leaves it in afterwards where it may."""
    world = world_of(values)
    mine = {(act.station, told(act.after)) for act in acts_in(world)}
    mine |= {("cab", told(leave_key_in("key_off", world)))} if values.get("key") == "on" else set()

    assert mine == set(acts(state_of(values)))


@given(trucks)
def test_the_state_in_words_is_on_the_closed_list(values: Mapping[str, str]) -> None:
    words = words_of(world_of(values))

    assert all(word in STATES[aspect] for aspect, word in words)
    assert [aspect for aspect, _ in words] == [a for a in ASPECTS if a in values]


@given(some_words)
def test_states_can_hold_together_if_some_truck_is_in_them(
    asked: list[tuple[str, str]],
) -> None:
    from_all = _some_truck(asked)

    assert can_all_hold(needs_of(asked)) == from_all


def _some_truck(asked: list[tuple[str, str]]) -> bool:
    found: list[dict[str, str]] = [{}]
    for aspect, _ in asked:
        found = [{**each, aspect: value} for each in found for value in VALUES[aspect]]
    return any(holds(state_of(each), asked) and can_be(state_of(each)) for each in found)


@pytest.mark.parametrize(("aspect", "word"), WORDS)
def test_every_word_of_the_list_can_hold_alone(aspect: str, word: str) -> None:
    assert can_all_hold(needs_of([(aspect, word)]))


def test_an_engine_that_has_run_is_never_cold_again() -> None:
    worlds = [world_of({"engine": "off_cold", "key": "out", "parking_brake": "set"})]
    started = left_in(worlds[0], ((number_of("engine"), "idling"),))
    pending, seen = [started], {started}
    while pending:
        for act in acts_in(pending.pop()):
            if act.after not in seen:
                seen.add(act.after)
                pending.append(act.after)

    assert {dict(words_of(world))["engine"] for world in seen} == {
        *("idling", "idling_warm", "off", "off_warm")
    }


def test_every_act_has_words_and_a_kind() -> None:
    assert set(KINDS) <= set(ACTS)
    assert {*WEAKER, *WEAKER.values()} <= set(ACTS)
    assert all(words.endswith(".") for words in ACTS.values())


def test_only_the_key_is_left_in() -> None:
    with pytest.raises(ValueError, match="warm_up"):
        leave_key_in("warm_up", world_of({}))
