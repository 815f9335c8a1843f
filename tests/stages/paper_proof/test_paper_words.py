from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from plants.paper_press import Shop

from guidegen.paper_proof.match import match
from guidegen.paper_proof.sheet_model import Box, TextRead
from guidegen.paper_proof.stream import stream_of
from guidegen.paper_proof.values import Values
from guidegen.quantity.express import express
from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Amount, Quantity, QuantityRange

RANGE = "brakes.air.spring_apply"
SLOT = f"\0{RANGE}\0"


def read(text: str, left: float, baseline: float, width: float = 50) -> TextRead:
    box = Box(left, baseline, left + width, baseline + 7)
    return TextRead(0, text, box, baseline, 9.5, "F", True, (0, 0, 0), "", False)  # noqa: FBT003


def test_texts_on_one_line_are_joined_as_they_stand() -> None:
    stream = stream_of([(0, read("no more than ", 0, 90)), (0, read("45\u00a0s", 53, 90, 20)),
                        (0, read(".", 73, 90, 2))])  # fmt: skip

    assert stream.text == "no more than 45 s."


def test_lines_are_joined_by_a_blank() -> None:
    stream = stream_of([(0, read("Park", 0, 90)), (0, read("first.", 0, 80))])

    assert stream.text == "Park first."


def test_a_line_that_ends_in_a_dash_leaves_open_whether_a_blank_belongs_there() -> None:
    stream = stream_of([(0, read("20\u2013", 0, 90)), (0, read("45 psi", 0, 80))])

    assert stream.text == "20\u2013\n45 psi"


def test_each_letter_knows_its_text_and_its_side() -> None:
    stream = stream_of([(0, read("Park", 0, 90)), (1, read("first.", 0, 80))])

    assert [stream.side(place) for place in (0, 3, 5, 10)] == [0, 0, 1, 1]
    assert stream.reads[stream.place(5)].text == "first."


def test_words_may_end_a_line_after_a_hyphen_and_nowhere_else(shop: Shop) -> None:
    values = Values(shop.guides["T-17"].facts)

    assert match("low-air warning", "low-\nair warning", 0, values)
    assert match("low-air warning", "lo\nw-air warning", 0, values) is None
    assert match("low-air warning", "low- air warning", 0, values) is None


def test_a_value_is_read_over_the_end_of_a_line(shop: Shop) -> None:
    values = Values(shop.guides["T-17"].facts)
    printed = "range 20\u2013\n45 psi (140\u2013310 kPa)."

    found = match(f"range {SLOT}.", printed, 0, values)

    assert found is not None
    assert found.end == len(printed)
    assert [value.text for value in found.values] == ["20\u201345 psi (140\u2013310 kPa)"]


def test_another_number_is_not_the_value(shop: Shop) -> None:
    values = Values(shop.guides["T-17"].facts)

    assert match(SLOT, "20\u201346 psi (140\u2013310 kPa)", 0, values) is None
    assert match(SLOT, "20\u201345 kPa (140\u2013310 psi)", 0, values) is None
    assert match(SLOT, "20\u201345 psi", 0, values) is None


def test_words_must_end_where_a_word_ends(shop: Shop) -> None:
    values = Values(shop.guides["T-17"].facts)

    assert match("1 Start", "1 Starter", 0, values) is None
    assert match("1 Start", "1 Start the engine", 0, values) is not None


AMOUNTS = st.decimals(-99_999_999, 99_999_999, places=3) | st.integers(-999_999, 999_999)


@given(
    first=AMOUNTS,
    second=AMOUNTS,
    key=st.sampled_from(sorted(MEASURES)),
    other=st.sampled_from(sorted(MEASURES)),
)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_no_amount_is_printed_with_more_letters_than_are_looked_at(
    shop: Shop, first: Decimal, second: Decimal, key: str, other: str
) -> None:
    fact = shop.guides["T-17"].facts[RANGE]
    one = Quantity(Decimal(first), MEASURES[key])
    low, high = sorted({Decimal(first), Decimal(second), Decimal(second) + 1})[:2]
    two = QuantityRange(Quantity(low, MEASURES[other]), Quantity(high, MEASURES[other]))
    cases: tuple[tuple[Amount, ...], ...] = ((one,), (two,), (one, two), (two, two))
    for shown in cases:
        values = Values({RANGE: replace(fact, shown=shown)})
        printed = " (".join(map(express, shown)) + ")" * (len(shown) - 1)

        assert len(printed) <= values.longest(RANGE)


@pytest.mark.parametrize("unit", ["E-02", "R-12", "T-17"])
def test_a_value_far_longer_than_its_fact_is_not_looked_for(unit: str, shop: Shop) -> None:
    facts = shop.guides[unit].facts
    values = Values(facts)

    assert {name for name in facts if not 0 < values.longest(name) < 1500} == set()
    assert values.longest("no.such.fact") == 0
