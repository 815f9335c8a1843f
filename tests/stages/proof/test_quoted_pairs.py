"""Pairs of amounts that a rule prints, as the proof judges them."""

import pytest

from guidegen.proof.quantities import strays, strays_quoted
from guidegen.quantity.model import Amount, Dimension, Sense
from guidegen.quantity.parse import parse_amount


def read(text: str, dimension: Dimension = Dimension.LENGTH) -> Amount:
    return parse_amount(text, dimension)


def test_rules_own_pair_is_too_far_for_a_conversion_and_near_enough_for_a_quote() -> None:
    """49 CFR 392.22(b) prints 100 ft as 30 m, and 100 ft is 30.48 m (NIST SP 811)."""
    typed, shown = read("100 ft"), (read("100 ft"), read("30 m"))

    assert strays(typed, shown, Sense.NOMINAL) != ""
    assert strays_quoted(typed, shown) == ""


@pytest.mark.parametrize("other", ["3 m", "28.9 m", "32.1 m"])
def test_pair_of_two_things_is_found(other: str) -> None:
    assert strays_quoted(read("100 ft"), (read("100 ft"), read(other))) != ""


def test_pair_without_the_typed_amount_is_found() -> None:
    assert strays_quoted(read("100 ft"), (read("101 ft"), read("30 m"))) != ""


@pytest.mark.parametrize(("other", "is_fair"), [("-11 °C", True), ("-13 °C", False)])
def test_temperatures_are_near_by_degrees(other: str, *, is_fair: bool) -> None:
    """ISO 22241 gives -11 °C, the API program 12 °F; a share of the absolute scale says nothing."""
    typed = read("12 °F", Dimension.TEMPERATURE)

    fault = strays_quoted(typed, (typed, read(other, Dimension.TEMPERATURE)))

    assert (fault == "") is is_fair


def test_ranges_are_near_at_both_ends() -> None:
    typed = read("12 to 86 °F", Dimension.TEMPERATURE)
    fair = read("-11 to 30 °C", Dimension.TEMPERATURE)
    wrong = read("-11 to 35 °C", Dimension.TEMPERATURE)

    assert strays_quoted(typed, (typed, fair)) == ""
    assert strays_quoted(typed, (typed, wrong)) != ""
    assert strays_quoted(typed, (typed, read("-11 °C", Dimension.TEMPERATURE))) != ""
