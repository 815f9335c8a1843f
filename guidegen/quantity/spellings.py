"""How people type the symbols of measures.

Takes in a symbol as typed and the dimension that is wanted; gives out the measure.
Refuses spellings that mean more than one thing, and never turns one measure into another.
"""

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType

from guidegen.finding import nearest
from guidegen.quantity.measures import FEET_AND_INCHES, MEASURES, MEASURES_BY_DIMENSION
from guidegen.quantity.model import Dimension, Measure, System

_DEGREES_FAHRENHEIT = ("F", "deg F", "degF", "degrees F", "° F", "ºF", "fahrenheit")
_DEGREES_CELSIUS = ("C", "deg C", "degC", "degrees C", "° C", "ºC", "celsius")

# By key of `MEASURES`; the first is the easiest one to type where the symbol itself is not.
_SPELLINGS: Mapping[str, tuple[str, ...]] = {
    "psi": ("psig", "lb/in2", "lb/in²", "lbf/in²", "pounds per square inch"),
    "inH2O": ("in H2O", "inH₂O", "in H₂O", "in WC", "inches of water"),
    "kPa": ("kilopascal", "kilopascals"),
    "bar": ("bars",),
    "qt": ("qts", "quart", "quarts", "US qt"),
    "gal": ("gals", "gallon", "gallons", "US gal", "gal US", "US gallon", "US gallons"),
    "imp gal": ("imp. gal", "imperial gallon", "imperial gallons", "UK gal"),
    "pt": ("pts", "pint", "pints", "US pt"),
    "fl oz": ("fl. oz", "floz", "fluid ounce", "fluid ounces", "US fl oz"),
    "L": ("l", "liter", "liters", "litre", "litres"),
    "mL": ("ml", "milliliter", "milliliters", "millilitre", "millilitres"),
    "in": ("inch", "inches", '"', "″", "”"),
    "ft": ("foot", "feet", "'", "′", "’"),  # noqa: RUF001 -- what word processors type
    "/32 in": ("/32 inch", "/32 inches", '/32"', "/32″", "/32”"),
    "mi": ("mile", "miles"),
    "mm": ("millimeter", "millimeters", "millimetre", "millimetres"),
    "cm": ("centimeter", "centimeters", "centimetre", "centimetres"),
    "m": ("meter", "meters", "metre", "metres"),
    "km": ("kilometer", "kilometers", "kilometre", "kilometres"),
    "mph": ("mi/h", "miles per hour"),
    "km/h": ("kph", "kmh", "kilometers per hour", "kilometres per hour"),
    "lb": ("lbs", "pound", "pounds"),
    "kg": ("kgs", "kilogram", "kilograms"),
    "t": ("tonne", "tonnes", "metric ton", "metric tons"),
    "lb·ft": (
        *("lb-ft", "lb ft", "lbs-ft", "lbs ft", "lbf·ft", "lbf-ft", "lbf ft", "pound-feet"),
        *("ft-lb", "ft lb", "ft-lbs", "ft lbs", "ft·lb", "ft-lbf", "ft·lbf", "foot-pounds"),
    ),
    "lb·in": (
        *("lb-in", "lb in", "lbs-in", "lbf·in", "lbf-in", "pound-inches"),
        *("in-lb", "in lb", "in-lbs", "in lbs", "in·lb", "in·lbf", "inch-pounds"),
    ),
    "N·m": ("N-m", "Nm", "N m", "N.m", "N*m", "newton meters", "newton metres"),
    "°F": _DEGREES_FAHRENHEIT,
    "°C": _DEGREES_CELSIUS,
    "°F difference": _DEGREES_FAHRENHEIT,
    "°C difference": _DEGREES_CELSIUS,
    "s": ("sec", "secs", "second", "seconds"),
    "min": ("mins", "minute", "minutes"),
    "h": ("hr", "hrs", "hour", "hours"),
    "V": ("volt", "volts", "VDC", "V DC"),
    "A": ("amp", "amps", "ampere", "amperes"),
    "W": ("watt", "watts"),
    "kW": ("kilowatt", "kilowatts"),
    "hp": ("bhp", "horsepower"),
    "kWh": ("kilowatt-hour", "kilowatt-hours", "kilowatt hours", "kW·h", "kW h"),
    "Wh": ("watt-hour", "watt-hours", "watt hours", "W·h", "W h"),
    "rpm": ("r/min", "rev/min", "revolutions per minute"),
    "%": ("percent", "per cent", "pct"),
}

_NEVER_GUESSED = frozenset(
    {"ton", "tons", "psia", "bara", "inhg", "in hg", "rps", "oz-in", "oz in"}
)
"""Near to a spelling we know, and another thing: a US ton is 2,000 lb and no tonne."""

_SPACES = re.compile(r"\s+")


def _exact_spellings() -> dict[tuple[Dimension, str], Measure]:
    found: dict[tuple[Dimension, str], Measure] = {}
    for key, measure in MEASURES.items():
        if measure is FEET_AND_INCHES:
            continue  # typed as two numbers; `162 ft in` says nothing
        for spelling in (measure.symbol, *_SPELLINGS[key]):
            found[measure.dimension, spelling] = measure
    return found


def _caseless_spellings(
    exact: Mapping[tuple[Dimension, str], Measure],
) -> dict[tuple[Dimension, str], Measure]:
    meanings: dict[tuple[Dimension, str], set[Measure]] = {}
    for (dimension, spelling), measure in exact.items():
        meanings.setdefault((dimension, spelling.casefold()), set()).add(measure)
    return {key: next(iter(found)) for key, found in meanings.items() if len(found) == 1}


_EXACT = MappingProxyType(_exact_spellings())
_CASELESS = MappingProxyType(_caseless_spellings(_EXACT))


def find_measure(spelling: str, dimension: Dimension) -> Measure | None:
    """Return the measure of *dimension* that *spelling* means, or nothing.

    The exact case comes first, then any case if only one measure is spelled so; a full stop at
    the end and the number of spaces do not count.

    >>> find_measure("Gallons", Dimension.VOLUME).symbol
    'gal'
    """
    found = _EXACT.get((dimension, spelling))
    if found is not None:
        return found
    typed = _SPACES.sub(" ", spelling.strip()).removesuffix(".")
    return _EXACT.get((dimension, typed)) or _CASELESS.get((dimension, typed.casefold()))


def find_in_any_dimension(spelling: str) -> Measure | None:
    """Return the first measure of any dimension that *spelling* means, or nothing."""
    found = (find_measure(spelling, dimension) for dimension in Dimension)
    return next((measure for measure in found if measure), None)


def easiest_spelling(measure: Measure) -> str:
    """Return what to tell people to type: the symbol if it is on every keyboard.

    >>> easiest_spelling(MEASURES["lb·ft"])
    'lb-ft'
    """
    if measure.symbol.isascii():
        return measure.symbol
    return _SPELLINGS[measure.symbol][0]


def suggest_spelling(spelling: str, dimension: Dimension) -> str | None:
    """Return what to type instead of *spelling*, or nothing if that would be a guess."""
    typed = spelling.casefold()
    near = nearest(typed, [known for of, known in _CASELESS if of is dimension])
    if near is None or typed in _NEVER_GUESSED or _may_differ_by_prefix(typed, near):
        return None
    return easiest_spelling(_CASELESS[dimension, near])


def _may_differ_by_prefix(typed: str, near: str) -> bool:
    # MPa is near to kPa, and mbar to bar, and a thousand times as much or as little.
    return not {typed, typed[1:]}.isdisjoint({near, near[1:]})


def usual_spellings(dimension: Dimension) -> tuple[str, ...]:
    """Return one or two spellings to show as examples: of either system, the first measure."""
    measures = MEASURES_BY_DIMENSION[dimension]
    firsts = (_first_of(system, measures) for system in (System.US, System.METRIC))
    usual = [measure for measure in firsts if measure] or measures[:2]
    return tuple(easiest_spelling(measure) for measure in usual)


def _first_of(system: System, measures: Iterable[Measure]) -> Measure | None:
    return next((measure for measure in measures if measure.system is system), None)
