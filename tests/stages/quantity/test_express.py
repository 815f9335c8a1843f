"""The text that a driver reads."""

from decimal import Decimal, localcontext

import pytest

from guidegen.quantity.express import express
from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.quantity.parse import parse_amount


def quantity(amount: str, key: str) -> Quantity:
    return Quantity(Decimal(amount), MEASURES[key])


@pytest.mark.parametrize(
    ("amount", "key", "text"),
    [
        ("135", "psi", "135_psi"),
        ("54000", "lb", "54,000_lb"),
        ("1000", "kPa", "1,000_kPa"),
        ("999", "kPa", "999_kPa"),
        ("3.70", "qt", "3.70_qt"),
        ("11.0", "m", "11.0_m"),
        ("0", "psi", "0_psi"),
        ("0.00", "m", "0.00_m"),
        ("0.0000001", "m", "0.0000001_m"),
        ("50", "%", "50_%"),
        ("-40", "°F", "\u221240_°F"),
        ("-1234.5", "°C", "\u22121,234.5_°C"),
        ("-0", "°C", "0_°C"),
        ("10", "°F difference", "10_°F"),
        ("10", "fl oz", "10_fl_oz"),
        ("20", "imp gal", "20_imp_gal"),
        ("450", "lb·ft", "450_lb·ft"),
        ("25", "inH2O", "25_inH2O"),
        ("4", "/32 in", "4/32_in"),
        ("162", "ft in", "13_ft_6_in"),
        ("162.50", "ft in", "13_ft_6.50_in"),
        ("156", "ft in", "13_ft_0_in"),
        ("6", "ft in", "0_ft_6_in"),
        ("-18", "ft in", "\u22121_ft_6_in"),
        ("12000", "ft in", "1,000_ft_0_in"),
    ],
)
def test_amount_is_printed_with_all_its_digits(amount: str, key: str, text: str) -> None:
    assert text.replace("_", "\u00a0") == express(quantity(amount, key))


@pytest.mark.parametrize(
    ("low", "high", "key", "text"),
    [
        ("15", "20", "min", "15\u201320_min"),
        ("1000", "1200", "rpm", "1,000\u20131,200_rpm"),
        ("6.3", "6.8", "bar", "6.3\u20136.8_bar"),
        ("-40", "-20", "°F", "\u221240_to_\u221220_°F"),
        ("-40", "20", "°F", "\u221240_to_20_°F"),
        ("150", "162", "ft in", "12_ft_6_in_to_13_ft_6_in"),
    ],
)
def test_range_has_an_en_dash_where_no_dash_is_misread(
    low: str, high: str, key: str, text: str
) -> None:
    amount = QuantityRange(quantity(low, key), quantity(high, key))

    assert text.replace("_", "\u00a0") == express(amount)


@pytest.mark.parametrize("key", MEASURES)
def test_printed_text_of_every_measure_is_read_back(key: str) -> None:
    printed = quantity("1234.50", key)

    assert printed == parse_amount(express(printed), MEASURES[key].dimension)


def test_printing_does_not_depend_on_the_decimal_context_of_the_caller() -> None:
    with localcontext() as context:
        context.prec = 3
        texts = [express(quantity("14813.678", key)) for key in ("ft in", "in")]

    assert texts == ["1,234\u00a0ft\u00a05.678\u00a0in", "14,813.678\u00a0in"]
