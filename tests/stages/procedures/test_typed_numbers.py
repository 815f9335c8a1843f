"""Numbers of one truck are found in a text, and small counts are let be."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.procedures.typed_numbers import GREATEST_COUNT, leading_measure, typed_numbers
from guidegen.quantity.express import express
from guidegen.quantity.measures import FEET_AND_INCHES, MEASURES
from guidegen.quantity.model import Measure, Quantity

FOUND = [
    ("Keep below 25 mph.", ["25 mph"]),
    ("Fill to 135 psi (930 kPa).", ["135 psi", "930 kPa"]),
    ("Wait 15 minutes.", ["15 minutes"]),
    ("A 15-minute wait.", ["15-minute"]),
    ("Idle at 750 rpm", ["750 rpm"]),
    ("Idle at 750rpm", ["750rpm"]),
    ("from 40 to 80 psi", ["40 to 80 psi"]),
    ("from 40-80 psi", ["40-80 psi"]),
    ("from 40 \u2013 80 psi", ["40 \u2013 80 psi"]),
    ("13 ft 6 in high", ["13 ft 6 in"]),
    ("13' 6\" high", ["13' 6\""]),
    ("at -20 °F", ["-20 °F"]),
    ("54,000 lb or less", ["54,000 lb"]),
    ("0.5 qt", ["0.5 qt"]),
    ("½ in", ["½ in"]),
    ("1½ in", ["1½ in"]),
    ("1/2 turn", ["1/2"]),
    ("at 10%", ["10%"]),
    ("at 3 h", ["3 h"]),
    ("2 pounds per square inch", ["2 pounds per square inch"]),
    ("torque of 450 ft-lb", ["450 ft-lb"]),
    ("the needle at 55", ["55"]),
    ("an 11R22.5 tire", ["22.5"]),
    ("15W-40 oil", ["15W", "-40"]),
    ("a 24V system", ["24V"]),
    ("30th", ["30"]),
]
LET_BE = [
    "Try three times.",
    "Pump 3 times.",
    "gauge 2 of 2",
    "all 12 lug nuts",
    "No. 2 diesel",
    "Call 911.",
    "DEF to ISO 22241",
    "the SAE J560 socket",
    "Hold for ten seconds.",
    "the 2nd tank",
    "a 6x4",
    "",
]


@pytest.mark.parametrize(("text", "expected"), FOUND)
def test_amounts_and_great_numbers_are_found(text: str, expected: list[str]) -> None:
    found = list(typed_numbers(text))

    assert expected == [number.text for number in found]
    assert expected == [text[number.start : number.end] for number in found]


@pytest.mark.parametrize("text", LET_BE)
def test_small_counts_and_numbers_that_are_names_are_let_be(text: str) -> None:
    assert [number.text for number in typed_numbers(text)] == []


@given(
    st.decimals(min_value=0, max_value=99999, places=1),
    st.sampled_from([measure for measure in MEASURES.values() if measure is not FEET_AND_INCHES]),
)
def test_every_amount_that_is_ever_printed_is_found(amount: Decimal, measure: Measure) -> None:
    printed = express(Quantity(amount, measure))

    (found,) = typed_numbers(f"Hold it at {printed} or so.")

    assert printed == found.text


@given(st.integers(min_value=0, max_value=10**6))
def test_bare_whole_number_is_let_be_up_to_a_dozen(number: int) -> None:
    found = list(typed_numbers(f"Count {number} of them."))

    assert bool(found) == (number > GREATEST_COUNT)


@pytest.mark.parametrize(
    ("text", "expected"),
    [(" psi", 4), ("psi.", 3), ("-psi", 4), (" at the gauge", 0), (". Psi", 0), ("", 0)],
)
def test_measure_at_the_beginning_ends_where_its_word_ends(text: str, expected: int) -> None:
    assert expected == leading_measure(text)
