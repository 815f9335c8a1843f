from decimal import Decimal

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from guidegen.proof.quantities import misread_amount, strays
from guidegen.quantity.convert import show_pair
from guidegen.quantity.express import express
from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Amount, Dimension, Quantity, QuantityRange, Sense, System
from guidegen.quantity.parse import parse_amount

PRESSURE = Dimension.PRESSURE


def pressure(text: str) -> Amount:
    return parse_amount(text, PRESSURE)


PAIR = (pressure("1,350 psi"), pressure("9,310 kPa"))


def test_two_amounts_are_read_back_from_what_is_printed() -> None:
    assert misread_amount(PAIR, "1,350 psi (9,310 kPa)", PRESSURE) == ""


@pytest.mark.parametrize(
    "text",
    [
        "1,350 psi",
        "9,310 kPa",
        "9,310 kPa (1,350 psi)",
        "1350 psi (9,310 kPa)",
        "1 350 psi (9,310 kPa)",
        "1,350.0 psi (9,310 kPa)",
        "1,350 psig (9,310 kPa)",
        "1,350 PSI (9,310 kPa)",
        "1,350psi (9,310 kPa)",
        "-1,350 psi (9,310 kPa)",
        "01,350 psi (9,310 kPa)",
        "1,350 psi (9,310 kPa) (9,310 kPa)",
        "1,350 psi / 9,310 kPa",
        "1,350 psi 9,310 kPa",
        "about 1,350 psi (9,310 kPa)",
        "1,350 psi (9,31O kPa)",
        "1,350 to 1,351 psi (9,310 kPa)",
        "",
        "()",
    ],
)
def test_nothing_else_is_taken_for_two_amounts(text: str) -> None:
    assert misread_amount(PAIR, text, PRESSURE) != ""


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("20 to 45 psi", "20–45 psi"),  # noqa: RUF001 -- as printed
        ("13 ft 6 in", "13 ft 6 in"),
        ("-40 to -20 F", "−40 to −20 °F"),  # noqa: RUF001 -- as printed
        ("22 inH2O", "22 inH2O"),
        ("3.70 qt", "3.70 qt"),
        ("50 %", "50 %"),
    ],
)
def test_every_form_of_amount_is_read_back(typed: str, text: str) -> None:
    dimension = next(d for d in Dimension if _can_read(typed, d))

    assert misread_amount((parse_amount(typed, dimension),), text, dimension) == ""


def _can_read(text: str, dimension: Dimension) -> bool:
    try:
        parse_amount(text, dimension)
    except ValueError:
        return False
    return True


def test_digits_that_were_typed_are_digits_that_must_be_read() -> None:
    typed = (parse_amount("3.70 qt", Dimension.VOLUME),)

    assert misread_amount(typed, "3.7 qt", Dimension.VOLUME) != ""
    assert misread_amount(typed, "3.700 qt", Dimension.VOLUME) != ""


@pytest.mark.parametrize(
    ("typed", "other", "sense", "is_fair"),
    [
        # Published pairs: Ontario Air Brake Handbook gives 80 psi as 552 kPa, BC as 552, and
        # 90 psi as 621 and 620; SP 811 (2008) B.7.2 gives 36 ft as 11.0 m.
        ("80 psi", "552 kPa", Sense.NOMINAL, True),
        ("90 psi", "621 kPa", Sense.NOMINAL, True),
        ("90 psi", "620 kPa", Sense.NOMINAL, True),
        ("36 ft", "11.0 m", Sense.NOMINAL, True),
        ("36 ft", "11.2 m", Sense.NOMINAL, False),
        ("36 ft", "10.7 m", Sense.NOMINAL, False),
        # 3 psi are 20.68 kPa: 21 lets more air out than the limit, whoever prints it.
        ("3 psi", "21 kPa", Sense.AT_MOST, False),
        ("3 psi", "20 kPa", Sense.AT_MOST, True),
        ("3 psi", "13 kPa", Sense.AT_MOST, False),
        ("60 psi", "413 kPa", Sense.AT_LEAST, False),
        ("60 psi", "414 kPa", Sense.AT_LEAST, True),
        ("60 psi", "421 kPa", Sense.AT_LEAST, False),
        # 13 ft 6 in are 4.1148 m; the printed height may not be less.
        ("13 ft 6 in", "4.12 m", Sense.AT_LEAST, True),
        ("13 ft 6 in", "4.11 m", Sense.AT_LEAST, False),
        ("-10 °F", "-23.5 °C", Sense.NOMINAL, True),
        ("-10 °F", "-22.5 °C", Sense.NOMINAL, False),
        ("20 to 45 psi", "140 to 310 kPa", Sense.RANGE, True),
        ("20 to 45 psi", "137 to 310 kPa", Sense.RANGE, False),
        ("20 to 45 psi", "140 to 311 kPa", Sense.RANGE, False),
        ("20 to 45 psi", "140 kPa", Sense.RANGE, False),
    ],
)
def test_a_conversion_is_held_against_its_sense(
    typed: str, other: str, sense: Sense, *, is_fair: bool
) -> None:
    dimension = next(d for d in Dimension if _can_read(typed, d))
    first, second = (parse_amount(text, dimension) for text in (typed, other))

    assert (strays(first, (first, second), sense) == "") is is_fair


def test_the_typed_amount_must_be_among_those_shown() -> None:
    typed = pressure("135 psi")

    assert strays(typed, (pressure("930 kPa"),), Sense.NOMINAL) != ""
    assert strays(typed, (pressure("135.0 psi"), pressure("930 kPa")), Sense.NOMINAL) != ""
    assert strays(typed, (pressure("930 kPa"), typed), Sense.NOMINAL) == ""


MEASURED = st.sampled_from(
    [
        each
        for each in MEASURES.values()
        if each.system is not System.BOTH and " " not in each.symbol
    ]
)
AMOUNTS = st.decimals(min_value=Decimal("0.1"), max_value=Decimal(99_999), places=1) | st.integers(
    1, 99_999
).map(Decimal)
SENSES = st.sampled_from([Sense.NOMINAL, Sense.AT_MOST, Sense.AT_LEAST])


@given(amount=AMOUNTS, measure=MEASURED, sense=SENSES)
@settings(deadline=None)
def test_what_guidegen_converts_and_prints_is_read_back(
    amount: Decimal, measure: object, sense: Sense
) -> None:
    measured = next(each for each in MEASURES.values() if each is measure)
    typed = Quantity(amount, measured)
    shown = show_pair(typed, sense, measured.system, None)
    both = show_pair(
        typed,
        sense,
        measured.system,
        System.US if measured.system is System.METRIC else System.METRIC,
    )
    text = " (".join(express(each) for each in both) + ")" * (len(both) - 1)

    assert strays(typed, both, sense) == ""
    assert strays(typed, shown, sense) == ""
    assert misread_amount(both, " ".join(text.split()), typed.dimension) == ""


@given(amount=AMOUNTS, measure=MEASURED, sense=SENSES, steps=st.sampled_from([-1, 1]))
@settings(deadline=None)
def test_a_second_amount_on_the_unsafe_side_is_never_fair(
    amount: Decimal, measure: object, sense: Sense, steps: int
) -> None:
    measured = next(each for each in MEASURES.values() if each is measure)
    typed = Quantity(amount, measured)
    first, *others = show_pair(
        typed,
        sense,
        measured.system,
        System.US if measured.system is System.METRIC else System.METRIC,
    )
    assume(others and isinstance(others[0], Quantity))
    second = others[0]
    assert isinstance(second, Quantity)
    exponent = second.amount.as_tuple().exponent
    assert isinstance(exponent, int)
    moved = Quantity(second.amount + steps * Decimal(1).scaleb(exponent), second.measure)
    is_unsafe = (sense is Sense.AT_MOST and moved.exact > typed.exact) or (
        sense is Sense.AT_LEAST and moved.exact < typed.exact
    )

    fault = strays(typed, (first, moved), sense)

    assert not is_unsafe or fault != ""


def test_a_range_reads_back_as_a_range_only() -> None:
    ends = pressure("20 to 45 psi")
    assert isinstance(ends, QuantityRange)

    assert misread_amount((ends,), "20 psi", PRESSURE) != ""
    assert misread_amount((ends.low,), "20–45 psi", PRESSURE) != ""  # noqa: RUF001 -- as printed
