"""Units in batches: all of them once, those of an edition together, of one model each."""

from types import SimpleNamespace
from typing import cast

from hypothesis import given
from hypothesis import strategies as st

from guidegen.build.batches import batches_of
from guidegen.build.unit_guides import EditionUnits

FLEETS = st.lists(
    st.tuples(st.sampled_from(["ridge", "wren", "tarn"]), st.integers(1, 150)), max_size=70
)


def edition(number: int, model: str, units: int) -> EditionUnits:
    numbers = tuple(f"{number}-{unit}" for unit in range(units))
    records = (SimpleNamespace(model=model),)
    return cast(EditionUnits, SimpleNamespace(numbers=numbers, records=records))


@given(FLEETS, st.sets(st.integers(0, 69)))
def test_each_unit_that_does_not_stand_is_in_one_batch(
    fleet: list[tuple[str, int]], standing: set[int]
) -> None:
    editions = [edition(number, *each) for number, each in enumerate(fleet)]
    every = [unit for each in editions for unit in each.numbers]
    stand = {unit for unit in every if int(unit.partition("-")[0]) in standing}

    batches = list(batches_of(editions, stand))

    assert sorted(unit for batch in batches for unit in batch) == sorted({*every} - stand)
    assert all(0 < len(batch) <= 64 for batch in batches)
    for batch in batches:
        of = [int(unit.partition("-")[0]) for unit in batch]
        assert len({fleet[number][0] for number in of}) == 1
        # Units of an edition stand next to one another.
        assert of == sorted(of)


def test_few_large_editions_have_a_batch_each_and_many_small_ones_share_one() -> None:
    large = [edition(number, "ridge", 40) for number in range(8)]
    small = [edition(number, "ridge", 2) for number in range(64)]

    assert [len(batch) for batch in batches_of(large, ())] == [40] * 8
    assert [len(batch) for batch in batches_of(small, ())] == [8] * 16
