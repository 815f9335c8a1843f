"""Fuel without the tanks that hold it.

Takes in the fuel and the tanks of a unit; gives out a doubt if the tanks of its fuel are not
fitted. Refuses such a truck: checks for leaks hang on the tanks.
"""

from collections.abc import Iterator
from types import MappingProxyType

from guidegen.finding import Note, Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

FUEL = "engine.fuel"
TANKS = MappingProxyType(
    {
        "diesel": "fuel_tanks",
        "gasoline": "fuel_tanks",
        "cng": "gas_fuel",
        "lng": "gas_fuel",
        "propane": "gas_fuel",
    }
)


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if *case* burns what none of its tanks holds."""
    tanks = TANKS.get(case.word(FUEL), "")
    if tanks and case.lacks(tanks):
        yield Doubt(
            case.span(FUEL),
            f"{case.said(FUEL)}, and `{tanks}` is not fitted",
            f"read the fuel at the filler, and state it or `{tanks}`",
            (Note(f"`{tanks}` stands at", case.section_span(tanks)),),
        )


RULE = Rule(
    "fuel-without-its-tanks",
    "the driver of a gas truck gets no leak check, and fills a diesel with whatever is at the pump",
)
FUEL_TANKS = Plausibility(
    RulePage(
        RULE,
        "A liquid fuel without fuel tanks, or a gas fuel without gas tanks.",
        Example("engine: {fuel: cng}\ngas_fuel: not fitted\n"),
        Example("engine: {fuel: cng}\ngas_fuel: {tank_count: 5}\n"),
        "Whatever an engine burns is on board.",
        Standing.MEANING,
    ),
    check,
)
