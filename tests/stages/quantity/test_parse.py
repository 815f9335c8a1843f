"""What people type, and what is refused."""

import pickle
from decimal import Decimal, localcontext

import pytest

from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Dimension, Quantity, QuantityRange
from guidegen.quantity.parse import (
    BackwardRange,
    MissingMeasure,
    MixedMeasures,
    NotANumber,
    UnknownMeasure,
    UnreadableAmount,
    WrongDimension,
    parse_amount,
)


def quantity(amount: str, key: str) -> Quantity:
    return Quantity(Decimal(amount), MEASURES[key])


@pytest.mark.parametrize(
    ("typed", "amount", "key"),
    [
        ("135 psi", "135", "psi"),
        ("135psi", "135", "psi"),
        ("  135  psi ", "135", "psi"),
        ("0.5 psi", "0.5", "psi"),
        ("54,000 lb", "54000", "lb"),
        ("54 000 lb", "54000", "lb"),
        ("54\u00a0000\u00a0lb", "54000", "lb"),
        ("54\u202f000\u202flb", "54000", "lb"),
        ("54\u2009000 lb", "54000", "lb"),
        ("54000 lb", "54000", "lb"),
        ("1,234,567.8 lb", "1234567.8", "lb"),
        ("3.70 qt", "3.70", "qt"),
        ("10 fl oz", "10", "fl oz"),
        ("20 imp gal", "20", "imp gal"),
        ("25 in H2O", "25", "inH2O"),
        ("100 lb-ft", "100", "lb·ft"),
        ("100 lb·ft", "100", "lb·ft"),
        ("-40 °F", "-40", "°F"),
        ("\u221240\u00a0°F", "-40", "°F"),
        ("-40F", "-40", "°F"),
        ("-0 °F", "0", "°F"),
        ("-0.0 °C", "0.0", "°C"),
        ("50 %", "50", "%"),
        ("50%", "50", "%"),
        ("4/32 in", "4", "/32 in"),
        ('4/32"', "4", "/32 in"),
        ("2/32 inch", "2", "/32 in"),
        ("13 ft 6 in", "162", "ft in"),
        ("13ft6in", "162", "ft in"),
        ("13 feet 6 inches", "162", "ft in"),
        ("13' 6\"", "162", "ft in"),
        ("13'6\"", "162", "ft in"),
        ("13'-6\"", "162", "ft in"),
        ("13\u2032 6\u2033", "162", "ft in"),
        ("13\u2019 6\u201d", "162", "ft in"),
        ("13 ft 6.50 in", "162.50", "ft in"),
        ("0 ft 6 in", "6", "ft in"),
        ("-1 ft 6 in", "-18", "ft in"),
        ("13.5 ft", "13.5", "ft"),
        ("162 in", "162", "in"),
    ],
)
def test_amount_is_read_with_the_digits_as_typed(typed: str, amount: str, key: str) -> None:
    read = parse_amount(typed, MEASURES[key].dimension)

    assert quantity(amount, key) == read
    assert isinstance(read, Quantity)
    assert amount == str(read.amount)


@pytest.mark.parametrize(
    ("typed", "low", "high", "key"),
    [
        ("15-20 min", "15", "20", "min"),
        ("15\u201320 min", "15", "20", "min"),
        ("15\u201320\u00a0min", "15", "20", "min"),
        ("15 - 20 min", "15", "20", "min"),
        ("15 to 20 min", "15", "20", "min"),
        ("15 min to 20 min", "15", "20", "min"),
        ("15 min-20 minutes", "15", "20", "min"),
        ("1.50-2.0 h", "1.50", "2.0", "h"),
        ("450-500 lb-ft", "450", "500", "lb·ft"),
        ("1,000-1,200 rpm", "1000", "1200", "rpm"),
        ("-40 to -20 °F", "-40", "-20", "°F"),
        ("\u221240\u00a0to\u00a020\u00a0°F", "-40", "20", "°F"),
        ("12 ft 6 in to 13 ft 6 in", "150", "162", "ft in"),
        ("12'-6\" to 13'-6\"", "150", "162", "ft in"),
        ("12'6\"-13'6\"", "150", "162", "ft in"),
    ],
)
def test_range_is_read_with_both_ends_in_one_measure(
    typed: str, low: str, high: str, key: str
) -> None:
    read = parse_amount(typed, MEASURES[key].dimension)

    assert QuantityRange(quantity(low, key), quantity(high, key)) == read
    assert isinstance(read, QuantityRange)
    assert (low, high) == (str(read.low.amount), str(read.high.amount))


def test_dimension_tells_a_difference_from_a_temperature() -> None:
    assert quantity("10", "°F difference") == parse_amount(
        "10 °F", Dimension.TEMPERATURE_DIFFERENCE
    )
    assert quantity("10", "°F") == parse_amount("10 °F", Dimension.TEMPERATURE)


@pytest.mark.parametrize(
    "typed",
    [
        "",
        " ",
        "psi",
        "one psi",
        "NaN psi",
        "inf psi",
        "-inf psi",
        "Infinity",
        "1,35 psi",
        "1,3500 psi",
        "0,350 psi",
        "1.350,5 psi",
        "1.350.000 psi",
        "13,50,000 psi",
        "1,234 567 psi",
        "54  000 psi",
        "5 6 psi",
        "1e3 psi",
        "1E3 psi",
        "1e+3 psi",
        "5. psi",
        ".5 psi",
        "05 psi",
        "00.5 psi",
        "+5 psi",
        "- 5 psi",
        "--5 psi",
        "1_000 psi",
        "0x10 psi",
        "1/2 psi",
        "13\u00bd psi",
        "12:30 psi",
        "135 psi 20",
        "135 psi (930 kPa)",
        "1234567890123456 psi",
        "0.1234567890123456 psi",
        "\u0661\u0662 psi",
        "1\uff12 psi",
        "\uff11\uff12 psi",
        "-40--20 psi",
        "-40-20 psi",
        "-40\u2013\u221220 psi",
        "2026-01-02 psi",
        "wear to 5 psi",
    ],
)
def test_text_without_one_clear_number_is_refused(typed: str) -> None:
    with pytest.raises(NotANumber) as refusal:
        parse_amount(typed, Dimension.PRESSURE)

    assert typed.strip() == refusal.value.text
    assert refusal.value.reason
    assert refusal.value.fix
    assert refusal.value.reason in str(refusal.value)


@pytest.mark.parametrize(
    "typed",
    [
        "13 ft 12 in",
        "13 ft 6",
        "13' 6",
        "13.5 ft 6 in ft",
        "13 ft 06 in",
        "01 ft 6 in",
        "13' 6 1/2\"",
    ],
)
def test_feet_and_inches_that_do_not_add_up_are_refused(typed: str) -> None:
    with pytest.raises(NotANumber):
        parse_amount(typed, Dimension.LENGTH)


def test_feet_and_inches_with_too_many_digits_are_refused() -> None:
    with pytest.raises(NotANumber, match="more than 15 digits"):
        parse_amount("12345678901234 ft 0.5 in", Dimension.LENGTH)


def test_number_without_measure_says_what_to_type() -> None:
    with pytest.raises(MissingMeasure) as refusal:
        parse_amount("54,000", Dimension.MASS)

    assert refusal.value.number == "54,000"
    assert refusal.value.examples == ("54,000 lb", "54,000 kg")
    assert str(refusal.value) == "`54,000` has no unit of measure"


@pytest.mark.parametrize(
    ("typed", "number"),
    [("15 to 20", "15 to 20"), ("15-20", "15-20"), ("15 min-20", "20"), ("6-8 ft 2 in", "6")],
)
def test_range_without_measure_names_the_number_that_lacks_it(typed: str, number: str) -> None:
    dimension = Dimension.LENGTH if "ft" in typed else Dimension.TIME

    with pytest.raises(MissingMeasure) as refusal:
        parse_amount(typed, dimension)

    assert number == refusal.value.number


@pytest.mark.parametrize(
    ("typed", "dimension", "symbol", "suggestion"),
    [
        ("5 pis", Dimension.PRESSURE, "pis", "psi"),
        ("5 galons", Dimension.VOLUME, "galons", "gal"),
        ("100 ft/lbs", Dimension.TORQUE, "ft/lbs", "lb-ft"),
        ("100 furlongs", Dimension.TIME, "furlongs", None),
        # Near, and a different size: nothing is suggested.
        ("36 ton", Dimension.MASS, "ton", None),
        ("1 MPa", Dimension.PRESSURE, "MPa", None),
        ("900 mbar", Dimension.PRESSURE, "mbar", None),
        ("20 inHg", Dimension.PRESSURE, "inHg", None),
        ("12 mV", Dimension.VOLTAGE, "mV", None),
        ("162 ft in", Dimension.LENGTH, "ft in", None),
    ],
)
def test_unknown_measure_suggests_only_what_is_no_guess(
    typed: str, dimension: Dimension, symbol: str, suggestion: str | None
) -> None:
    with pytest.raises(UnknownMeasure) as refusal:
        parse_amount(typed, dimension)

    assert symbol == refusal.value.symbol
    assert suggestion == refusal.value.suggestion
    assert f"`{symbol}`" in str(refusal.value)


@pytest.mark.parametrize(
    ("typed", "symbol", "expected"),
    [
        ("100 lb", "lb", Dimension.PRESSURE),
        ("5 m", "m", Dimension.TIME),
        ("13 ft 6 in", "ft in", Dimension.TORQUE),
        ("15-20 psi", "psi", Dimension.TIME),
    ],
)
def test_measure_of_something_else_is_refused(typed: str, symbol: str, expected: Dimension) -> None:
    with pytest.raises(WrongDimension) as refusal:
        parse_amount(typed, expected)

    assert MEASURES[symbol] == refusal.value.measure
    assert expected is refusal.value.expected
    assert refusal.value.examples
    assert f"not {expected.value}" in str(refusal.value)


@pytest.mark.parametrize("typed", ["20-15 min", "20 to 15 min", "15-15 min", "15-15.0 min"])
def test_range_that_does_not_rise_is_refused(typed: str) -> None:
    with pytest.raises(BackwardRange) as refusal:
        parse_amount(typed, Dimension.TIME)

    assert refusal.value.low.amount >= refusal.value.high.amount
    assert typed in str(refusal.value)


@pytest.mark.parametrize("typed", ["90 s-2 min", "13 ft to 14 ft 6 in"])
def test_range_in_two_measures_is_refused(typed: str) -> None:
    dimension = Dimension.LENGTH if "ft" in typed else Dimension.TIME

    with pytest.raises(MixedMeasures) as refusal:
        parse_amount(typed, dimension)

    assert refusal.value.low.measure != refusal.value.high.measure
    assert typed in str(refusal.value)


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("x", NotANumber),
        ("5", MissingMeasure),
        ("5 pis", UnknownMeasure),
        ("5 lb", WrongDimension),
        ("6-5 psi", BackwardRange),
        ("5 kPa-5 psi", MixedMeasures),
    ],
)
def test_refusals_travel_between_processes(typed: str, kind: type[UnreadableAmount]) -> None:
    with pytest.raises(UnreadableAmount) as refusal:
        parse_amount(typed, Dimension.PRESSURE)
    assert isinstance(refusal.value, kind)

    arrived = pickle.loads(pickle.dumps(refusal.value))  # noqa: S301 -- made on the line itself

    assert isinstance(arrived, kind)
    assert str(refusal.value) == str(arrived)
    assert vars(refusal.value) == vars(arrived)


def test_reading_does_not_depend_on_the_decimal_context_of_the_caller() -> None:
    with localcontext() as context:
        context.prec = 3
        read = parse_amount("1,234 ft 5.678 in", Dimension.LENGTH)

    assert quantity("14813.678", "ft in") == read
