"""Cords that the office states: thick enough for the heater, and in their order."""

import pytest
from one_unit import look_at

HEATER = "block_heater: {{voltage: 120 V, power: '{power}', circuit: 20 A, {cord}}}\n"


# NEC Table 400.5(A), as an appliance standard quotes it: 10, 13, 18 and 25 A.
@pytest.mark.parametrize(
    ("power", "gauge", "is_below"),
    [
        ("1,200 W", "awg_18", False),
        ("1,250 W", "awg_18", True),
        ("1,250 W", "mm2_1", True),
        ("1,500 W", "awg_16", False),
        ("1,600 W", "mm2_1.5", True),
        ("1,600 W", "awg_14", False),
        ("1,600 W", "none", False),
    ],
)
def test_a_stated_cord_carries_the_heater(power: str, gauge: str, *, is_below: bool) -> None:
    looked = look_at(HEATER.format(power=power, cord=f"long_cord_gauge: {gauge}"))

    assert ("cord-below-heater-current" in looked.rules) == is_below
    assert bool(looked.units) != is_below


def test_a_cord_that_nobody_stated_is_not_doubted() -> None:
    assert look_at(HEATER.format(power="1,500 W", cord="use_below: 10 °F")).rules == set()


@pytest.mark.parametrize(
    ("cord", "what"),
    [
        (
            "short_cord: 60 ft",
            "`block_heater.medium_cord: 50 ft` is not longer than `block_heater.short_cord: 60 ft`",
        ),
        (
            "longest_cord: 20 m",
            "`block_heater.longest_cord: 20 m` is not longer than `block_heater.long_cord: 75 ft`",
        ),
    ],
)
def test_cords_rise_in_length(cord: str, what: str) -> None:
    looked = look_at(HEATER.format(power="900 W", cord=cord))

    assert looked.what("cords-out-of-order") == what


def test_the_doubt_stands_at_the_length_that_somebody_stated() -> None:
    looked = look_at(HEATER.format(power="900 W", cord="short_cord: 60 ft"))

    (finding,) = looked.findings
    assert finding.span is not None
    assert finding.span.file.line(finding.span.line)[finding.span.column - 1 :].startswith("60 ft")


def test_cords_in_their_order_raise_no_doubt() -> None:
    cords = "short_cord: 10 m, medium_cord: 15 m, long_cord: 20 m, longest_cord: 25 m"

    assert look_at(HEATER.format(power="900 W", cord=cords)).rules == set()
