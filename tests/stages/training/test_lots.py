"""Draws are the same everywhere, and fair.

Outside judges: coreutils' sha256sum for one lot, itertools for the orders there are, and scipy's
chi-square test for their frequencies. The seeds are fixed, so that nothing here is left to luck.
"""

from collections import Counter
from itertools import permutations

from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chisquare  # type: ignore[import-untyped]  # it has no hints

from guidegen.training.lots import Lots

SEEDS = 4800
LEAST_LIKELY = 0.001
"""Below this, frequencies are called unfair."""


def test_a_lot_is_the_sha_256_of_seed_and_names() -> None:
    # printf 'fd148d5139a1\0answers\0stop' | sha256sum
    digest = "f68f218598a071ddcf796f13f64f679dc61327930553c64bedf554b06186a404"
    assert int(digest, 16) == Lots("fd148d5139a1").lot("answers", "stop")


def test_every_order_is_as_likely_as_any_other() -> None:
    orders = Counter(tuple(Lots(str(seed)).shuffled("abcd", str, "order")) for seed in range(SEEDS))
    assert set(permutations("abcd")) == set(orders)
    assert chisquare(list(orders.values())).pvalue > LEAST_LIKELY


def test_two_draws_with_one_seed_know_nothing_of_each_other() -> None:
    firsts = Counter(
        (
            Lots(str(seed)).shuffled("abc", str, "one")[0],
            Lots(str(seed)).shuffled("abc", str, "two")[0],
        )
        for seed in range(SEEDS)
    )
    assert len(firsts) == 9
    assert chisquare(list(firsts.values())).pvalue > LEAST_LIKELY


def test_a_thing_comes_first_with_a_chance_in_proportion_to_its_weight() -> None:
    weights = {"light": 1, "middle": 3, "heavy": 20}
    firsts = Counter(
        Lots(str(seed)).weighed(weights, str, weights.__getitem__, "draw")[0]
        for seed in range(SEEDS)
    )
    whole = sum(weights.values())
    expected = [SEEDS * weight / whole for weight in weights.values()]
    assert chisquare([firsts[name] for name in weights], expected).pvalue > LEAST_LIKELY


def test_the_second_is_drawn_by_weight_among_those_left() -> None:
    weights = {"light": 1, "middle": 3, "heavy": 20}
    seconds = Counter(
        order[1]
        for seed in range(SEEDS)
        if (order := Lots(str(seed)).weighed(weights, str, weights.__getitem__, "draw"))[0]
        == "heavy"
    )
    whole = seconds.total()
    expected = [whole / 4, whole * 3 / 4]
    assert chisquare([seconds["light"], seconds["middle"]], expected).pvalue > LEAST_LIKELY


def test_what_weighs_nothing_is_never_drawn() -> None:
    weights = {"none": 0, "some": 1}
    assert Lots("seed").weighed(weights, str, weights.__getitem__, "draw") == ["some"]


@given(st.text(max_size=8), st.lists(st.text(max_size=5), unique=True, max_size=8), st.data())
def test_an_order_depends_on_the_names_alone(
    seed: str, names: list[str], data: st.DataObject
) -> None:
    lots = Lots(seed)
    order = lots.shuffled(names, str, "draw")
    mixed = data.draw(st.permutations(names))
    assert lots.shuffled(mixed, str, "draw") == order
    kept = [name for name in names if data.draw(st.booleans())]
    assert lots.shuffled(kept, str, "draw") == [name for name in order if name in kept]
