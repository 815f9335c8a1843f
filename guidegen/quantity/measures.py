"""The closed table of measures.

Takes in nothing; gives out every measure that a spec may use, with its exact factor, and the
measure of the other system that the trade uses beside it.
Refuses measures that are not in the table: a ton is three different masses.
"""

import copyreg
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType

from guidegen.quantity.model import Dimension, Measure, System

# The exact definitions that all factors are built from. They are as in NIST SP 811 (2008),
# appendix B.8, where bold figures are exact, and in NIST Handbook 44, appendix C, for gallons.
_INCH = Fraction("0.0254")
_FOOT = 12 * _INCH
_MILE = 5280 * _FOOT
_POUND = Fraction("0.45359237")
_STANDARD_GRAVITY = Fraction("9.80665")
_POUND_FORCE = _POUND * _STANDARD_GRAVITY
_LITER = Fraction(1, 1000)
_GALLON = 231 * _INCH**3
_IMPERIAL_GALLON = Fraction("4.54609") * _LITER
_WATER = 1000
"""Density of water in kg/m³ that the conventional inch of water is defined with."""

_MINUTE = 60
_HOUR = 3600
_FAHRENHEIT = Fraction(5, 9)

_HUNDREDTH = Decimal("0.01")
_TENTH = Decimal("0.1")
_HALF = Decimal("0.5")
_ONE = Decimal(1)
_TEN = Decimal(10)
_HUNDRED = Decimal(100)

# `finest` and `coarsest` are common practice, no source, unless a comment says more.
# `coarsest` stays at 1 where people mean the last zero, as in 100 psi on a gauge, and is below
# 1 where they mean zeros that they did not write: 36 t on a plate is not 36 t to the ton.
_PRESSURES = (
    Measure("psi", Dimension.PRESSURE, _POUND_FORCE / _INCH**2, System.US, finest=_ONE),
    Measure(
        "inH2O",
        Dimension.PRESSURE,
        _INCH * _WATER * _STANDARD_GRAVITY,
        System.US,
        finest=_ONE,
    ),
    # A whole psi is 6.9 kPa, so this limit is met only by inches of water, as of an air filter.
    Measure("kPa", Dimension.PRESSURE, Fraction(1000), System.METRIC, finest=_TENTH, coarsest=_TEN),
    Measure(
        "bar", Dimension.PRESSURE, Fraction(100_000), System.METRIC, finest=_TENTH, coarsest=_TENTH
    ),
)
_VOLUMES = (
    Measure("qt", Dimension.VOLUME, _GALLON / 4, System.US, finest=_HALF),
    Measure("gal", Dimension.VOLUME, _GALLON, System.US, finest=_ONE),
    Measure("imp gal", Dimension.VOLUME, _IMPERIAL_GALLON, System.US, finest=_ONE),
    Measure("pt", Dimension.VOLUME, _GALLON / 8, System.US, finest=_HALF),
    Measure("fl oz", Dimension.VOLUME, _GALLON / 128, System.US, finest=_HALF),
    Measure("L", Dimension.VOLUME, _LITER, System.METRIC, finest=_TENTH),
    Measure("mL", Dimension.VOLUME, _LITER / 1000, System.METRIC, finest=_ONE, coarsest=_TEN),
)
_LENGTHS = (
    Measure("in", Dimension.LENGTH, _INCH, System.US, finest=_TENTH),
    Measure("ft", Dimension.LENGTH, _FOOT, System.US, finest=_ONE),
    # Compound: the amount is in inches and is printed as feet and inches, `13 ft 6 in`.
    Measure("ft in", Dimension.LENGTH, _INCH, System.US, finest=_ONE),
    # Distances in round hundreds are service intervals, and nobody meant them to the mile.
    Measure("mi", Dimension.LENGTH, _MILE, System.US, finest=_ONE, coarsest=_HUNDRED),
    # Tread gauges are read in these, `4/32 in`. Rules state them exactly, so a fifth of one counts.
    Measure(
        "/32 in", Dimension.LENGTH, _INCH / 32, System.US, finest=_ONE, coarsest=Decimal("0.2")
    ),
    Measure("mm", Dimension.LENGTH, Fraction(1, 1000), System.METRIC, finest=_ONE),
    Measure("cm", Dimension.LENGTH, Fraction(1, 100), System.METRIC, finest=_TENTH),
    Measure("m", Dimension.LENGTH, Fraction(1), System.METRIC, finest=_HUNDREDTH, coarsest=_TENTH),
    Measure("km", Dimension.LENGTH, Fraction(1000), System.METRIC, finest=_ONE, coarsest=_HUNDRED),
)
_SPEEDS = (
    Measure("mph", Dimension.SPEED, _MILE / _HOUR, System.US, finest=_ONE),
    Measure("km/h", Dimension.SPEED, Fraction(1000, _HOUR), System.METRIC, finest=_ONE),
)
_MASSES = (
    Measure("lb", Dimension.MASS, _POUND, System.US, finest=_ONE, coarsest=Decimal(25)),
    Measure("kg", Dimension.MASS, Fraction(1), System.METRIC, finest=_ONE, coarsest=_TEN),
    Measure(
        "t", Dimension.MASS, Fraction(1000), System.METRIC, finest=_HUNDREDTH, coarsest=_HUNDREDTH
    ),
)
_TORQUES = (
    Measure("lb·ft", Dimension.TORQUE, _POUND_FORCE * _FOOT, System.US, finest=_ONE),
    Measure("lb·in", Dimension.TORQUE, _POUND_FORCE * _INCH, System.US, finest=_ONE),
    Measure("N·m", Dimension.TORQUE, Fraction(1), System.METRIC, finest=_ONE),
)
_TEMPERATURES = (
    Measure(
        "°F",
        Dimension.TEMPERATURE,
        _FAHRENHEIT,
        System.US,
        offset=Fraction("459.67") * _FAHRENHEIT,
        finest=_ONE,
    ),
    Measure(
        "°C",
        Dimension.TEMPERATURE,
        Fraction(1),
        System.METRIC,
        offset=Fraction("273.15"),
        finest=_HALF,
    ),
)
# A difference of 10 °F is 5.56 °C, and never 12.2 °C below zero: the
# same symbols, without the offset.
_DIFFERENCES = (
    Measure("°F", Dimension.TEMPERATURE_DIFFERENCE, _FAHRENHEIT, System.US, finest=_ONE),
    Measure("°C", Dimension.TEMPERATURE_DIFFERENCE, Fraction(1), System.METRIC, finest=_HALF),
)
_FOR_BOTH_SYSTEMS = (
    Measure("s", Dimension.TIME, Fraction(1), finest=_ONE),
    Measure("min", Dimension.TIME, Fraction(_MINUTE), finest=_HALF),
    Measure("h", Dimension.TIME, Fraction(_HOUR), finest=_TENTH),
    Measure("V", Dimension.VOLTAGE, Fraction(1), finest=_TENTH),
    Measure("A", Dimension.CURRENT, Fraction(1), finest=_TENTH),
    Measure("W", Dimension.POWER, Fraction(1), finest=_ONE),
    Measure("kWh", Dimension.ENERGY, Fraction(1000 * _HOUR), finest=_TENTH),
    Measure("Wh", Dimension.ENERGY, Fraction(_HOUR), finest=_ONE),
    Measure("rpm", Dimension.ROTATION, Fraction(1, _MINUTE), finest=_ONE),
    Measure("%", Dimension.SHARE, Fraction(1, 100), finest=_ONE),
)
_POWERS = (
    # The mechanical horsepower: 550 foot-pounds of force a second.
    Measure("hp", Dimension.POWER, 550 * _FOOT * _POUND_FORCE, System.US, finest=_ONE),
    Measure("kW", Dimension.POWER, Fraction(1000), System.METRIC, finest=_ONE),
)

MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        measure.symbol: measure
        for measures in (
            _PRESSURES,
            _VOLUMES,
            _LENGTHS,
            _SPEEDS,
            _MASSES,
            _TORQUES,
            _TEMPERATURES,
            _POWERS,
            _FOR_BOTH_SYSTEMS,
        )
        for measure in measures
    }
    | {f"{measure.symbol} difference": measure for measure in _DIFFERENCES}
)
"""Every measure by its symbol.

The two differences of temperature are printed with the symbols of the two temperatures, so
they alone stand under other keys: ``°F difference`` and ``°C difference``.
"""

MEASURES_BY_DIMENSION: Mapping[Dimension, tuple[Measure, ...]] = MappingProxyType(
    {
        dimension: tuple(m for m in MEASURES.values() if m.dimension is dimension)
        for dimension in Dimension
    }
)
"""The measures of each dimension, the most usual ones of either system first."""

FEET_AND_INCHES = MEASURES["ft in"]
"""The one compound measure; its amount is in inches."""

_US_TO_METRIC = {
    "psi": "kPa",
    "inH2O": "kPa",
    "qt": "L",
    "gal": "L",
    "imp gal": "L",
    "pt": "L",
    "fl oz": "mL",
    "in": "mm",
    "ft": "m",
    "ft in": "m",
    "/32 in": "mm",
    "mi": "km",
    "mph": "km/h",
    "lb": "kg",
    "lb·ft": "N·m",
    "lb·in": "N·m",
    "°F": "°C",
    "°F difference": "°C difference",
    "hp": "kW",
}
_METRIC_TO_US = {
    "kPa": "psi",
    "bar": "psi",
    "L": "qt",
    "mL": "fl oz",
    "mm": "in",
    "cm": "in",
    "m": "ft in",
    "km": "mi",
    "km/h": "mph",
    "kg": "lb",
    "t": "lb",
    "N·m": "lb·ft",
    "°C": "°F",
    "°C difference": "°F difference",
    "kW": "hp",
}

COUNTERPARTS: Mapping[Measure, Measure] = MappingProxyType(
    {MEASURES[own]: MEASURES[other] for own, other in (_US_TO_METRIC | _METRIC_TO_US).items()}
)
"""For each measure of one system, the measure of the other that the trade prints beside it.

Common practice, no source. What also depends on the amount or on the fleet's choice (quarts
or gallons, feet and inches or feet, kPa or bar) is settled by ``convert.counterpart_of``.
"""


def measure_called(symbol: str) -> Measure:
    """Return the measure of *symbol*, as printed.

    Raises:
        KeyError: There is none.
    """
    return MEASURES[symbol]


def _by_symbol(measure: Measure) -> tuple[object, ...]:
    """Tell pickle that a measure of the table is the same in every process."""
    if MEASURES.get(measure.symbol) is measure:
        return measure_called, (measure.symbol,)
    whole = (measure.symbol, measure.dimension, measure.factor, measure.system)
    return Measure, (*whole, measure.offset, measure.finest, measure.coarsest)


copyreg.pickle(Measure, _by_symbol)  # type: ignore[arg-type]  # typed for other makers
