"""Tires that are asked to hold more air than their load range is made for.

Takes in load range and cold pressure of each position; gives out a doubt where the pressure is
too high. Refuses no truck: the highest pressures are stated from memory, and the sidewall decides.
"""

from collections.abc import Iterator
from types import MappingProxyType

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case, plain
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.plausibility.yardstick import yardstick
from guidegen.quantity.model import Dimension
from guidegen.rule_page import Example, RulePage, Standing

POSITIONS = ("steer", "drive", "tag")
HIGHEST = MappingProxyType(
    {
        load_range: yardstick(f"{psi} psi", Dimension.PRESSURE)
        for load_range, psi in (
            ("D", 65),
            ("E", 85),
            ("F", 100),
            ("G", 110),
            ("H", 125),
            ("J", 130),
            ("L", 135),
        )
    }
)
"""Highest cold pressure that sidewalls of truck tires commonly print, by load range. From memory:
tires of one load range differ by size and maker, and the greatest that is known stands here."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each position of *case* whose pressure its load range seldom takes."""
    for position in POSITIONS:
        pressure = f"tires.{position}.cold_pressure"
        load_range = f"tires.{position}.load_range"
        cold, highest = case.high(pressure), HIGHEST.get(case.word(load_range))
        if cold is not None and highest is not None and cold > highest.exact:
            yield Doubt(
                case.span(pressure),
                f"{case.said(pressure)} is more than the {plain(highest)} that load range "
                f"{case.word(load_range)} usually holds",
                "read the highest cold pressure and the load range off the sidewall",
            )


RULE = Rule(
    "tire-pressure-above-load-range",
    "a tire that is filled beyond its sidewall can burst while the driver holds the hose",
    Severity.WARNING,
)
LOAD_RANGE = Plausibility(
    RulePage(
        RULE,
        "A cold pressure above what tires of the load range commonly hold: D 65, E 85, F 100, "
        "G 110, H 125, J 130 and L 135 psi.",
        Example("tires:\n  steer: {size: 11R22.5, load_range: G, cold_pressure: 120 psi}\n"),
        Example("tires:\n  steer: {size: 11R22.5, load_range: H, cold_pressure: 120 psi}\n"),
        "The pressures are stated from memory, the highest for each load range; makers' load and "
        "inflation tables by size are not open, so size is not compared. The sidewall decides.",
        Standing.MEMORY,
    ),
    check,
)
