"""Laws of the comparison, on guides made by chance."""

from difference_strategies import applied, guides, mirrored
from hypothesis import given
from hypothesis import strategies as st

from guidegen.differences.compare import compare_guides, say_the_same
from guidegen.guide.model import STAMPED, Guide

PAIRS = st.tuples(guides("A-1"), guides("B-2"))


@given(guides("A-1"))
def test_a_truck_does_not_differ_from_itself(guide: Guide) -> None:
    assert compare_guides(guide, guide).differences == ()


@given(PAIRS)
def test_both_ways_mirror_each_other_in_the_same_order(pair: tuple[Guide, Guide]) -> None:
    known, given = pair
    there, back = compare_guides(known, given), compare_guides(given, known)
    assert tuple(map(mirrored, there.differences)) == back.differences
    assert (there.known, there.given) == (back.given, back.known)


@given(PAIRS)
def test_a_sheet_makes_the_facts_of_the_one_truck_into_those_of_the_other(
    pair: tuple[Guide, Guide],
) -> None:
    known, given = pair
    made = applied(compare_guides(known, given).differences, known.facts)
    wanted = {name: fact for name, fact in given.facts.items() if name not in STAMPED}
    assert set(made) == set(wanted)
    for name, fact in wanted.items():
        assert say_the_same(made[name].value, fact.value), name


@given(PAIRS)
def test_what_can_hurt_first_comes_first(pair: tuple[Guide, Guide]) -> None:
    orders = [each.standing.order for each in compare_guides(*pair).differences]
    assert orders == sorted(orders)
