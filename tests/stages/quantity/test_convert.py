"""Conversion against published pairs and worked examples, and how it rounds."""

import pickle
from decimal import Decimal, localcontext
from fractions import Fraction

import pytest

from guidegen.quantity.convert import (
    convert,
    counterpart_of,
    default_step,
    round_to_step,
    show_pair,
)
from guidegen.quantity.express import express
from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import (
    Amount,
    Dimension,
    Measure,
    Quantity,
    QuantityRange,
    Sense,
    System,
)
from guidegen.quantity.parse import parse_amount

# Ontario Air Brake Handbook and Trucks Handbook, and British Columbia's commercial driving
# manual p. 218: psi and kPa as the agencies print them. They disagree with one another by 1 kPa.
OFFICIAL_PSI_KPA = [
    *[(80, 552), (85, 587), (100, 690), (55, 380), (60, 414), (90, 621), (145, 1000), (3, 21)],
    *[(4, 28), (50, 345), (90, 620), (105, 724), (135, 931), (20, 138), (45, 310), (85, 586)],
    (95, 655),
]

# Computed with scipy 1.17.1 and pint 0.25.3 alike, to the digits given.
WORKED = [
    *[("60 psi", "kPa", "413.7"), ("85 psi", "kPa", "586.1"), ("100 psi", "kPa", "689.5")],
    *[("110 psi", "kPa", "758.4"), ("120 psi", "kPa", "827.4"), ("125 psi", "kPa", "861.8")],
    *[("130 psi", "kPa", "896.3"), ("150 psi", "kPa", "1034.2")],
    *[("10 qt", "L", "9.464"), ("38 qt", "L", "35.961"), ("44 qt", "L", "41.640")],
    *[("50 gal", "L", "189.27"), ("100 gal", "L", "378.54"), ("150 gal", "L", "567.81")],
    *[("100 lb-ft", "N·m", "135.58"), ("450 lb-ft", "N·m", "610.12")],
    *[("475 lb-ft", "N·m", "644.01"), ("500 lb-ft", "N·m", "677.91")],
    *[("55 mph", "km/h", "88.51"), ("62 mph", "km/h", "99.78"), ("65 mph", "km/h", "104.61")],
    *[("68 mph", "km/h", "109.44"), ("90 km/h", "mph", "55.92"), ("56 km/h", "mph", "34.80")],
    *[("10,000 lb", "kg", "4535.9"), ("26,000 lb", "kg", "11793.4")],
    *[("26,001 lb", "kg", "11793.9"), ("33,000 lb", "kg", "14968.5")],
    *[("80,000 lb", "kg", "36287.4"), ("12 F", "°C", "-11.11"), ("0 F", "°C", "-17.78")],
    # 49 CFR 565.15 prints 10,000 lb as 4,536 kg.
    ("10,000 lb", "kg", "4536"),
]

# With the step that the digits allow: 36 ft is the worked example of NIST SP 811 (2008) B.7.2.
# The others follow from its rule and from rounding limits inward as in ASME A112.18.1/CSA
# B125.1 annex A.2(e), worked out by hand.
BY_DIGITS = [
    ("36 ft", "m", Sense.NOMINAL, "11.0"),
    ("36.0 ft", "m", Sense.NOMINAL, "10.98"),
    ("135 psi", "kPa", Sense.NOMINAL, "930"),
    ("100 psi", "kPa", Sense.NOMINAL, "690"),
    ("60 psi", "kPa", Sense.AT_LEAST, "415"),
    ("3 psi", "kPa", Sense.AT_MOST, "20"),
    ("38 qt", "L", Sense.NOMINAL, "36.0"),
    ("25 mph", "km/h", Sense.AT_MOST, "40"),
    ("54,000 lb", "kg", Sense.AT_MOST, "24490"),
    ("26,001 lb", "kg", Sense.AT_LEAST, "11794"),
    ("13 ft 6 in", "m", Sense.AT_LEAST, "4.12"),
    ("-12 °F", "°C", Sense.NOMINAL, "-24.5"),
    ("-12 °F", "°C", Sense.AT_LEAST, "-24.0"),
    ("0 F", "°C", Sense.NOMINAL, "-18.0"),
    # Near to the freezing point is not near to nothing: half degrees all the same.
    ("33.0 F", "°C", Sense.NOMINAL, "0.5"),
    ("0 psi", "kPa", Sense.AT_LEAST, "0"),
    ("0 gal", "L", Sense.NOMINAL, "0"),
    ("0.00 ft", "m", Sense.NOMINAL, "0.00"),
    ("690 kPa", "psi", Sense.NOMINAL, "100"),
    ("1,000 kPa", "psi", Sense.AT_MOST, "145"),
    ("9 bar", "psi", Sense.NOMINAL, "131"),
    ("36 t", "lb", Sense.AT_MOST, "79360"),
    ("4.12 m", "ft in", Sense.AT_LEAST, "163"),
    ("25 inH2O", "kPa", Sense.AT_MOST, "6.2"),
    # A few of a thing typed in whole numbers: not coarser than a twentieth.
    ("2 in", "mm", Sense.NOMINAL, "50"),
    ("1 gal", "L", Sense.NOMINAL, "3.8"),
    ("20 lb", "kg", Sense.NOMINAL, "9.0"),
    # A little of a large measure: the finest step gives way.
    ("6 kPa", "psi", Sense.AT_MOST, "0.8"),
    ("0.25 in", "mm", Sense.NOMINAL, "6.4"),
]


def read(text: str, key: str) -> Amount:
    return parse_amount(text, MEASURES[key].dimension)


def amounts_of(amount: Amount) -> list[str]:
    if isinstance(amount, QuantityRange):
        return [str(amount.low.amount), str(amount.high.amount)]
    return [str(amount.amount)]


@pytest.mark.parametrize(("psi", "kilopascals"), OFFICIAL_PSI_KPA)
def test_official_pair_is_met_within_1_kpa(psi: int, kilopascals: int) -> None:
    exact = Quantity(Decimal(psi), MEASURES["psi"]).exact / 1000

    assert abs(exact - kilopascals) <= 1


@pytest.mark.parametrize(("typed", "key", "expected"), WORKED)
def test_worked_pair_is_met_to_its_last_digit(typed: str, key: str, expected: str) -> None:
    step = Decimal(1).scaleb(-len(expected.partition(".")[2]))

    converted = convert(read(typed, key), MEASURES[key], Sense.NOMINAL, step=step)

    assert [expected] == amounts_of(converted)


@pytest.mark.parametrize(("typed", "key", "sense", "expected"), BY_DIGITS)
def test_default_step_is_as_coarse_as_the_typed_digits(
    typed: str, key: str, sense: Sense, expected: str
) -> None:
    assert [expected] == amounts_of(convert(read(typed, key), MEASURES[key], sense))


@pytest.mark.parametrize(
    ("typed", "key", "expected"),
    [
        ("36 ft", "m", "0.2"),
        ("135 psi", "kPa", "5"),
        ("54,000 lb", "kg", "10"),
        ("15.4 t", "kg", "100"),
        ("0.154 km", "m", "1"),
        ("33 F", "°C", "0.5"),
        ("0 bar", "kPa", "10"),
        ("0.0 in", "mm", "2"),
        ("0.00 in", "mm", "1"),
    ],
)
def test_default_step_is_the_largest_that_is_not_coarser(
    typed: str, key: str, expected: str
) -> None:
    amount = read(typed, key)

    assert isinstance(amount, Quantity)
    assert expected == str(default_step(amount, MEASURES[key]))


@pytest.mark.parametrize(
    ("typed", "sense", "expected"),
    # Limits rounded inward, ASME A112.18.1/CSA B125.1 annex A.2(e), at a step of 10 kPa.
    [
        ("60 psi", Sense.AT_LEAST, "420"),
        ("150 psi", Sense.AT_MOST, "1030"),
        ("3 psi", Sense.AT_MOST, "20"),
        ("100 psi", Sense.NOMINAL, "690"),
    ],
)
@pytest.mark.parametrize("step", [Decimal(10), Decimal("1E+1")])
def test_limit_is_rounded_inward(typed: str, sense: Sense, expected: str, step: Decimal) -> None:
    converted = convert(read(typed, "kPa"), MEASURES["kPa"], sense, step=step)

    assert [expected] == amounts_of(converted)


@pytest.mark.parametrize(
    ("value", "expected"),
    # NIST SP 811 (2008) B.7.1; both numbers are also in ASME A112.18.1/CSA B125.1 annex A.2(d).
    [("1.655000", "1.66"), ("1.625000", "1.62"), ("-1.625", "-1.62"), ("-1.655", "-1.66")],
)
def test_exact_halves_go_to_even(value: str, expected: str) -> None:
    rounded = round_to_step(Fraction(value), Decimal("0.01"), Sense.NOMINAL)

    assert expected == str(rounded)


@pytest.mark.parametrize(
    ("sense", "expected"),
    [(Sense.AT_MOST, "-1.7"), (Sense.AT_LEAST, "-1.6"), (Sense.NOMINAL, "-1.6")],
)
def test_below_zero_down_is_still_down(sense: Sense, expected: str) -> None:
    assert expected == str(round_to_step(Fraction("-1.64"), Decimal("0.1"), sense))


@pytest.mark.parametrize("step", ["0", "-1"])
def test_step_that_is_not_positive_is_refused(step: str) -> None:
    with pytest.raises(ValueError, match="a step must be positive"):
        round_to_step(Fraction(1), Decimal(step), Sense.NOMINAL)


def test_conversion_to_another_dimension_is_refused() -> None:
    with pytest.raises(ValueError, match="pressure cannot be given in °C"):
        convert(read("5 psi", "psi"), MEASURES["°C"], Sense.NOMINAL)


def test_temperature_is_never_taken_for_a_difference() -> None:
    with pytest.raises(ValueError, match="temperature cannot be given"):
        convert(read("5 °F", "°F"), MEASURES["°C difference"], Sense.NOMINAL)


@pytest.mark.parametrize(
    ("typed", "key", "sense", "expected"),
    [
        ("90-100 psi", "kPa", Sense.RANGE, ["625", "685"]),
        ("450-500 lb-ft", "N·m", Sense.RANGE, ["611", "677"]),
        ("-40 to 20 F", "°C", Sense.RANGE, ["-40.0", "-7.0"]),
        ("90-100 psi", "kPa", Sense.NOMINAL, ["620", "690"]),
        ("90-100 psi", "kPa", Sense.AT_MOST, ["620", "685"]),
        ("90-100 psi", "kPa", Sense.AT_LEAST, ["625", "690"]),
        # 23.5 and 24.0 °C at the usual step would cross: 74 F is 23.33, 75 F is 23.89.
        ("74-75 F", "°C", Sense.RANGE, ["23.4", "23.8"]),
        # To the nearest both would be 37 mph.
        ("59.5-59.9 km/h", "mph", Sense.NOMINAL, ["37.0", "37.2"]),
    ],
)
def test_range_rounds_inward_and_stays_a_range(
    typed: str, key: str, sense: Sense, expected: list[str]
) -> None:
    assert expected == amounts_of(convert(read(typed, key), MEASURES[key], sense))


def test_given_step_that_makes_a_range_cross_becomes_finer() -> None:
    converted = convert(read("90-100 psi", "kPa"), MEASURES["kPa"], Sense.RANGE, step=Decimal(250))

    # 620.5 to 689.5: no two multiples of 250, 200, 100 or 50 lie within, but of 20 they do.
    assert amounts_of(converted) == ["640", "680"]


def test_single_amount_of_a_range_rounds_to_the_nearest() -> None:
    assert amounts_of(convert(read("100 psi", "kPa"), MEASURES["kPa"], Sense.RANGE)) == ["690"]


def test_range_that_goes_backward_is_refused() -> None:
    ends = [Quantity(Decimal(amount), MEASURES["psi"]) for amount in (100, 90)]

    with pytest.raises(ValueError, match="from less to more"):
        convert(QuantityRange(*ends), MEASURES["kPa"], Sense.RANGE)


def test_amount_in_its_own_measure_is_left_as_typed() -> None:
    typed = read("3.70 qt", "qt")

    assert typed is convert(typed, MEASURES["qt"], Sense.AT_MOST)
    assert amounts_of(convert(typed, MEASURES["qt"], Sense.AT_MOST, step=Decimal("0.5"))) == ["3.5"]


def test_conversion_does_not_depend_on_the_decimal_context_of_the_caller() -> None:
    with localcontext() as context:
        context.prec = 2
        converted = convert(read("54,000 lb", "kg"), MEASURES["kg"], Sense.AT_MOST)

    assert amounts_of(converted) == ["24490"]


def shown(
    typed: str,
    key: str,
    order: tuple[System, System | None],
    pressure: Measure = MEASURES["kPa"],
    sense: Sense = Sense.NOMINAL,
) -> list[str]:
    pair = show_pair(read(typed, key), sense, *order, pressure)
    return [express(amount).replace("\u00a0", " ") for amount in pair]


US_FIRST = (System.US, System.METRIC)
METRIC_FIRST = (System.METRIC, System.US)


def test_fleet_chooses_which_system_comes_first() -> None:
    assert shown("135 psi", "psi", US_FIRST) == ["135 psi", "930 kPa"]
    assert shown("135 psi", "psi", METRIC_FIRST) == ["930 kPa", "135 psi"]
    assert shown("930 kPa", "psi", US_FIRST) == ["135 psi", "930 kPa"]


def test_typed_amount_is_shown_exactly_as_typed() -> None:
    assert shown("3.70 qt", "qt", US_FIRST) == ["3.70 qt", "3.5 L"]
    assert shown("13' 6\"", "ft", US_FIRST, sense=Sense.AT_LEAST) == ["13 ft 6 in", "4.12 m"]


@pytest.mark.parametrize(
    ("typed", "millimeters"), [("4/32 in", "3.2 mm"), ("2/32 in", "1.6 mm"), ("3/32 in", "2.4 mm")]
)
def test_least_tread_depth_is_rounded_up_to_the_tenth_of_a_millimeter(
    typed: str, millimeters: str
) -> None:
    """49 CFR 393.75(b) and (c): 4/32 in = 3.175 mm and 2/32 in = 1.5875 mm at least."""
    assert shown(typed, "mm", US_FIRST, sense=Sense.AT_LEAST) == [typed, millimeters]


@pytest.mark.parametrize(
    ("order", "expected"),
    [
        ((System.US, None), ["135 psi"]),
        ((System.US, System.US), ["135 psi"]),
        ((System.METRIC, None), ["930 kPa", "135 psi"]),
        ((System.METRIC, System.METRIC), ["930 kPa", "135 psi"]),
    ],
)
def test_one_system_alone_still_shows_what_was_typed(
    order: tuple[System, System | None], expected: list[str]
) -> None:
    assert expected == shown("135 psi", "psi", order)


@pytest.mark.parametrize("order", [(System.BOTH, None), (System.US, System.BOTH)])
def test_both_is_no_order(order: tuple[System, System | None]) -> None:
    with pytest.raises(ValueError, match="us or metric"):
        shown("135 psi", "psi", order)


def test_fleet_chooses_its_metric_measure_of_pressure() -> None:
    assert shown("135 psi", "psi", US_FIRST, MEASURES["bar"]) == ["135 psi", "9.3 bar"]
    assert shown("60 psi", "psi", US_FIRST, MEASURES["bar"], sense=Sense.AT_LEAST) == [
        "60 psi",
        "4.2 bar",
    ]


@pytest.mark.parametrize("typed", ["15–20 min", "90 s", "2 h"])  # noqa: RUF001 -- as printed
def test_what_nobody_converts_is_shown_alone(typed: str) -> None:
    assert [typed] == shown(typed, "min", METRIC_FIRST)


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("36 L", "qt"),
        ("59.9 L", "qt"),
        ("60 L", "gal"),
        ("50-60 L", "gal"),
        ("500 mL", "fl oz"),
        ("4.12 m", "ft in"),
        ("30 m", "ft"),
        ("500 mm", "in"),
    ],
)
def test_counterpart_is_the_one_that_the_trade_uses(typed: str, key: str) -> None:
    assert MEASURES[key] == counterpart_of(read(typed, key))


def test_measures_that_travelled_between_processes_convert_alike() -> None:
    arrived = pickle.loads(pickle.dumps(read("200 L", "L")))  # noqa: S301 -- made on the line

    assert MEASURES["gal"] == counterpart_of(arrived)
    assert Dimension.VOLUME is arrived.dimension
    assert amounts_of(convert(arrived, MEASURES["gal"], Sense.NOMINAL)) == ["53"]
