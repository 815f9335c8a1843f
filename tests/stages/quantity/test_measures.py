"""The table of measures against published factors and against two other libraries."""

import itertools
from decimal import Decimal
from fractions import Fraction

import pint
import pytest
import scipy.constants  # type: ignore[import-untyped]  # scipy ships no types

from guidegen.quantity.convert import convert, show_pair
from guidegen.quantity.measures import COUNTERPARTS, MEASURES, MEASURES_BY_DIMENSION
from guidegen.quantity.model import Dimension, Measure, Quantity, Sense, System
from guidegen.quantity.spellings import easiest_spelling, find_measure, usual_spellings

# Exact by definition: NIST SP 811 (2008) appendix B.8, where bold figures are exact, and NIST
# Handbook 44 appendix C (gallons, quart, fluid ounce). In the base measure of the dimension.
EXACT_BY_DEFINITION = {
    "in": "0.0254",
    "ft": "0.3048",
    "mi": "1609.344",
    "mph": "0.44704",
    "lb": "0.45359237",
    "gal": "0.003785411784",
    "qt": "0.000946352946",
    "fl oz": "0.0000295735295625",
    "imp gal": "0.00454609",
    "bar": "100000",
    "kPa": "1000",
}

# Rounded in print, in Pa and N·m: psi and lb·ft as in NIST SP 811 (2008) appendix B.9, lb·in as
# scipy 1.17.1 and pint 0.25.3 both have it.
PRINTED_ROUNDED = {"psi": "6894.757", "lb·ft": "1.355818", "lb·in": "0.112984829"}

PINT_NAMES = {
    "psi": "psi",
    "inH2O": "inch_H2O",
    "kPa": "kilopascal",
    "bar": "bar",
    "qt": "quart",
    "gal": "gallon",
    "imp gal": "imperial_gallon",
    "pt": "pint",
    "fl oz": "fluid_ounce",
    "L": "liter",
    "mL": "milliliter",
    "in": "inch",
    "ft": "foot",
    "ft in": "inch",
    "/32 in": "thirty_second_of_an_inch",
    "mi": "mile",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "km": "kilometer",
    "mph": "mile_per_hour",
    "km/h": "kilometer_per_hour",
    "lb": "pound",
    "kg": "kilogram",
    "t": "metric_ton",
    "lb·ft": "pound_force * foot",
    "lb·in": "pound_force * inch",
    "N·m": "newton * meter",
    "°F": "degree_Fahrenheit",
    "°C": "degree_Celsius",
    "°F difference": "delta_degree_Fahrenheit",
    "°C difference": "delta_degree_Celsius",
    "hp": "horsepower",
    "kW": "kilowatt",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "V": "volt",
    "A": "ampere",
    "W": "watt",
    "kWh": "kilowatt_hour",
    "Wh": "watt_hour",
    "rpm": "revolutions_per_minute",
    "%": "percent",
}

SCIPY_VALUES: dict[str, float] = {
    "psi": scipy.constants.psi,
    "bar": scipy.constants.bar,
    "kPa": scipy.constants.kilo,
    "inH2O": scipy.constants.inch * 1000 * scipy.constants.g,
    "gal": scipy.constants.gallon,
    "qt": scipy.constants.gallon / 4,
    "pt": scipy.constants.gallon / 8,
    "imp gal": scipy.constants.gallon_imp,
    "fl oz": scipy.constants.fluid_ounce,
    "L": scipy.constants.liter,
    "mL": scipy.constants.liter * scipy.constants.milli,
    "in": scipy.constants.inch,
    "ft": scipy.constants.foot,
    "ft in": scipy.constants.inch,
    "/32 in": scipy.constants.inch / 32,
    "mi": scipy.constants.mile,
    "mm": scipy.constants.milli,
    "cm": scipy.constants.centi,
    "m": 1.0,
    "km": scipy.constants.kilo,
    "mph": scipy.constants.mph,
    "km/h": scipy.constants.kmh,
    "lb": scipy.constants.lb,
    "kg": 1.0,
    "t": scipy.constants.metric_ton,
    "lb·ft": scipy.constants.lbf * scipy.constants.foot,
    "lb·in": scipy.constants.lbf * scipy.constants.inch,
    "N·m": 1.0,
    "°F difference": scipy.constants.degree_Fahrenheit,
    "°C difference": 1.0,
    "hp": scipy.constants.hp,
    "kW": scipy.constants.kilo,
    "s": 1.0,
    "min": scipy.constants.minute,
    "h": scipy.constants.hour,
    "V": 1.0,
    "A": 1.0,
    "W": 1.0,
    "kWh": scipy.constants.kilo * scipy.constants.hour,
    "Wh": scipy.constants.hour,
    "rpm": 1 / scipy.constants.minute,
    "%": 0.01,
}

TEMPERATURES = ["°F", "°C"]
PAIRS = [
    (own, other)
    for own, other in itertools.permutations(PINT_NAMES, 2)
    if MEASURES[own].dimension is MEASURES[other].dimension
]


@pytest.fixture(scope="module")
def registry() -> "pint.UnitRegistry[Fraction]":
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
    registry.define("thirty_second_of_an_inch = inch / 32")
    return registry


def test_both_judges_are_asked_about_every_measure() -> None:
    assert set(MEASURES) == set(PINT_NAMES)
    assert set(MEASURES) == set(SCIPY_VALUES) | set(TEMPERATURES)


@pytest.mark.parametrize(("key", "factor"), EXACT_BY_DEFINITION.items())
def test_factor_is_the_exact_definition(key: str, factor: str) -> None:
    assert Fraction(factor) == MEASURES[key].factor


@pytest.mark.parametrize(("key", "printed"), PRINTED_ROUNDED.items())
def test_factor_rounds_to_the_printed_one(key: str, printed: str) -> None:
    decimals = len(printed.partition(".")[2])

    assert Fraction(printed) == round(MEASURES[key].factor, decimals)


@pytest.mark.parametrize(("key", "value"), SCIPY_VALUES.items())
def test_scipy_has_the_same_factor(key: str, value: float) -> None:
    assert pytest.approx(value, rel=1e-15, abs=0) == float(MEASURES[key].factor)


@pytest.mark.parametrize(("own", "other"), PAIRS)
def test_pint_converts_alike_to_the_last_digit(
    registry: "pint.UnitRegistry[Fraction]", own: str, other: str
) -> None:
    amount = Fraction(137, 4)

    judged = registry.Quantity(amount, PINT_NAMES[own]).to(PINT_NAMES[other])

    exact = Quantity(Decimal("34.25"), MEASURES[own]).exact
    ours = (exact - MEASURES[other].offset) / MEASURES[other].factor
    assert judged.magnitude == ours


@pytest.mark.parametrize("fahrenheit", ["-40", "-12", "0", "12", "32", "212", "98.6"])
def test_scipy_converts_temperatures_alike_both_ways(fahrenheit: str) -> None:
    there = Quantity(Decimal(fahrenheit), MEASURES["°F"])
    judged = float(scipy.constants.convert_temperature(float(fahrenheit), "Fahrenheit", "Celsius"))

    celsius = there.exact - MEASURES["°C"].offset

    assert pytest.approx(judged, abs=1e-12) == float(celsius)
    back = float(scipy.constants.convert_temperature(float(celsius), "Celsius", "Fahrenheit"))
    assert pytest.approx(back, abs=1e-12) == float(fahrenheit)


def test_40_below_is_the_same_in_fahrenheit_and_celsius() -> None:
    fahrenheit = Quantity(Decimal(-40), MEASURES["°F"])

    assert fahrenheit.same_as(Quantity(Decimal(-40), MEASURES["°C"]))


def test_difference_of_10_fahrenheit_is_5_and_5_ninths_celsius() -> None:
    # SP 811: C = (F - 32)/1.8, so a difference is 1/1.8 and never 12.2 below zero.
    difference = Quantity(Decimal(10), MEASURES["°F difference"])

    assert Fraction(50, 9) == difference.exact / MEASURES["°C difference"].factor


def test_difference_is_never_the_same_as_a_temperature() -> None:
    difference = Quantity(Decimal(0), MEASURES["°C difference"])

    assert not difference.same_as(Quantity(Decimal(0), MEASURES["°C"]))


@pytest.mark.parametrize("dimension", Dimension)
def test_every_dimension_has_measures(dimension: Dimension) -> None:
    assert MEASURES_BY_DIMENSION[dimension]
    assert all(m.dimension is dimension for m in MEASURES_BY_DIMENSION[dimension])


def test_every_measure_of_one_system_has_a_counterpart_of_the_other() -> None:
    one_sided = {m for m in MEASURES.values() if m.system is not System.BOTH}

    assert one_sided == set(COUNTERPARTS)
    for own, other in COUNTERPARTS.items():
        assert own.dimension is other.dimension
        assert {own.system, other.system} == {System.US, System.METRIC}


@pytest.mark.parametrize("measure", COUNTERPARTS)
def test_pair_there_and_back_stays_within_what_was_printed(measure: Measure) -> None:
    typed = Quantity(Decimal(100), measure)

    _, shown = show_pair(typed, Sense.NOMINAL, measure.system, COUNTERPARTS[measure].system)

    assert isinstance(shown, Quantity)
    back = convert(shown, measure, Sense.NOMINAL, step=Decimal("0.001"))
    assert isinstance(back, Quantity)
    assert pytest.approx(100, rel=0.025) == float(back.amount)


@pytest.mark.parametrize("key", MEASURES)
def test_steps_and_symbols_are_sound(key: str) -> None:
    measure = MEASURES[key]

    assert measure.finest > 0
    assert measure.coarsest > 0
    assert measure.factor > 0
    assert not set(measure.symbol) & set("0123456789") or measure.symbol in ("inH2O", "/32 in")


@pytest.mark.parametrize(
    ("typed", "dimension", "symbol"),
    [
        ("PSI", Dimension.PRESSURE, "psi"),
        ("KPA", Dimension.PRESSURE, "kPa"),
        ("Kpa", Dimension.PRESSURE, "kPa"),
        ("in H2O", Dimension.PRESSURE, "inH2O"),
        ("deg F", Dimension.TEMPERATURE, "°F"),
        ("F", Dimension.TEMPERATURE, "°F"),
        ("c", Dimension.TEMPERATURE_DIFFERENCE, "°C"),
        ("lb-ft", Dimension.TORQUE, "lb·ft"),
        ("lb ft", Dimension.TORQUE, "lb·ft"),
        ("ft-lb", Dimension.TORQUE, "lb·ft"),
        ("FT-LBS", Dimension.TORQUE, "lb·ft"),
        ("in-lb", Dimension.TORQUE, "lb·in"),
        ("Nm", Dimension.TORQUE, "N·m"),
        ("l", Dimension.VOLUME, "L"),
        ("liter", Dimension.VOLUME, "L"),
        ("Litre", Dimension.VOLUME, "L"),
        ("ML", Dimension.VOLUME, "mL"),
        ("quarts", Dimension.VOLUME, "qt"),
        ("gallons", Dimension.VOLUME, "gal"),
        ("US gal", Dimension.VOLUME, "gal"),
        ("Imperial Gallons", Dimension.VOLUME, "imp gal"),
        ("kph", Dimension.SPEED, "km/h"),
        ("KPH", Dimension.SPEED, "km/h"),
        ("feet", Dimension.LENGTH, "ft"),
        ("'", Dimension.LENGTH, "ft"),
        ('"', Dimension.LENGTH, "in"),
        ("inches", Dimension.LENGTH, "in"),
        ("in.", Dimension.LENGTH, "in"),
        ("M", Dimension.LENGTH, "m"),
        ("percent", Dimension.SHARE, "%"),
        ("minutes", Dimension.TIME, "min"),
        ("min.", Dimension.TIME, "min"),
        ("sec", Dimension.TIME, "s"),
        ("hours", Dimension.TIME, "h"),
        ("pounds", Dimension.MASS, "lb"),
        ("lbs", Dimension.MASS, "lb"),
        ("LBS.", Dimension.MASS, "lb"),
        ("T", Dimension.MASS, "t"),
        ("r/min", Dimension.ROTATION, "rpm"),
        ("RPM", Dimension.ROTATION, "rpm"),
        ("kw", Dimension.POWER, "kW"),
        ("kwh", Dimension.ENERGY, "kWh"),
    ],
)
def test_spelling_that_people_type_is_known(typed: str, dimension: Dimension, symbol: str) -> None:
    found = find_measure(typed, dimension)

    assert found is not None
    assert symbol == found.symbol
    assert dimension is found.dimension


@pytest.mark.parametrize("typed", ["ton", "tons", "ft/lbs", "ft in", "difference", ""])
def test_spelling_with_more_than_one_meaning_is_not_known(typed: str) -> None:
    assert not [d for d in Dimension if find_measure(typed, d)]


@pytest.mark.parametrize("key", [key for key in MEASURES if key != "ft in"])
def test_easiest_spelling_is_found_again(key: str) -> None:
    measure = MEASURES[key]

    spelling = easiest_spelling(measure)

    assert spelling.isascii()
    assert measure is find_measure(spelling, measure.dimension)


@pytest.mark.parametrize("dimension", Dimension)
def test_usual_spellings_are_one_or_two_that_are_known(dimension: Dimension) -> None:
    spellings = usual_spellings(dimension)

    assert len(spellings) in {1, 2}
    assert all(find_measure(spelling, dimension) for spelling in spellings)
