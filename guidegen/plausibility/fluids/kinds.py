"""Kinds of fluid, and which kind goes where.

Takes in the text of a fluid as the office types it; gives out the kinds that it names.
Refuses to recognize a fluid by its color: makers share colors and not recipes.
"""

import enum
import re
from types import MappingProxyType

from guidegen.plausibility.fluids.standards import affirmed


class Kind(enum.Enum):
    """What a fluid is."""

    ENGINE_OIL = "engine oil"
    GEAR_OIL = "gear oil"
    TRANSMISSION_FLUID = "transmission fluid"
    STEERING_FLUID = "power steering fluid"
    HYDRAULIC_OIL = "hydraulic oil"
    BRAKE_FLUID = "brake fluid"
    COOLANT = "coolant"
    DEF = "diesel exhaust fluid"
    FUEL = "fuel"
    WATER = "water"


_WORDS = MappingProxyType(
    {
        Kind.ENGINE_OIL: r"(?:engine|motor) oil|API (?:C[A-Z]-|FA-|S[A-Z]\b)|oil for .*engines",
        Kind.GEAR_OIL: r"(?:gear|axle) (?:oil|lubricant)|GL-[1-6]",
        Kind.TRANSMISSION_FLUID: r"transmission (?:fluid|oil)|\bATF\b|drive unit (?:oil|lubricant)",
        Kind.STEERING_FLUID: r"steering fluid",
        Kind.HYDRAULIC_OIL: r"hydraulic (?:oil|fluid)|mineral oil|ISO VG",
        Kind.BRAKE_FLUID: r"brake fluid|\bDOT[ -]?\d",
        Kind.COOLANT: r"coolant|antifreeze|glycol",
        Kind.DEF: r"\bDEF\b|urea|AUS 32|exhaust fluid|ISO 22241",
        Kind.FUEL: r"\bfuel\b|gasoline|kerosene",
        Kind.WATER: r"\bwater\b",
    }
)
_PATTERNS = MappingProxyType(
    {kind: re.compile(words, re.IGNORECASE) for kind, words in _WORDS.items()}
)

BELONGS = MappingProxyType(
    {
        "engine.oil_grade": (Kind.ENGINE_OIL,),
        "cooling.coolant": (Kind.COOLANT,),
        "transmission.fluid": (
            Kind.TRANSMISSION_FLUID,
            Kind.GEAR_OIL,
            Kind.ENGINE_OIL,
            Kind.HYDRAULIC_OIL,
        ),
        "axles.lubricant": (Kind.GEAR_OIL, Kind.TRANSMISSION_FLUID),
        "power_steering.fluid": (
            Kind.STEERING_FLUID,
            Kind.TRANSMISSION_FLUID,
            Kind.ENGINE_OIL,
            Kind.HYDRAULIC_OIL,
        ),
        "clutch.fluid": (Kind.BRAKE_FLUID, Kind.HYDRAULIC_OIL),
    }
)
"""Which kinds a fact may name. Common practice, no source; a maker may ask for another."""


def kinds_of(text: str) -> tuple[Kind, ...]:
    """Return the kinds that *text* names; none if its words are of no kind that is known.

    >>> [kind.value for kind in kinds_of("automatic transmission fluid, red")]
    ['transmission fluid']
    """
    wanted = affirmed(text)
    return tuple(kind for kind, pattern in _PATTERNS.items() if pattern.search(wanted))
