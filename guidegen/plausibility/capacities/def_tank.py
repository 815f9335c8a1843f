"""A DEF tank that is out of scale with the fuel tanks.

Takes in the capacities of a unit; gives out a doubt if the DEF would run dry before the fuel, or
outlast it many times over. Refuses no truck: consumption differs with the work.
"""

from collections.abc import Iterator
from fractions import Fraction

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

DEF, FUEL, COUNT = "def_system.tank_capacity", "fuel_tanks.capacity_each", "fuel_tanks.count"
LEAST_SHARE = Fraction(3, 100)
"""Of the fuel: what engines use of DEF is 2 to 6 percent of it, by sellers of DEF and trade pages;
a tank for less than the 3 percent that most name runs dry before the fuel."""

MOST_SHARE = Fraction(40, 100)
"""Of the fuel. Common practice, no source."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the DEF tank of *case* does not fit its fuel tanks."""
    def_tank, each, count = case.low(DEF), case.low(FUEL), case.count(COUNT)
    if def_tank is None or each is None or count is None:
        return
    share = def_tank / (each * count)
    if not LEAST_SHARE <= share <= MOST_SHARE:
        yield Doubt(
            case.span(DEF),
            f"{case.said(DEF)} is {float(share * 100):.0f} percent of what {count} fuel tanks of "
            f"{case.said(FUEL)} hold",
            "read the capacities and their measures again, and count the fuel tanks",
        )


RULE = Rule(
    "def-tank-out-of-scale",
    "a driver who trusts the wrong size runs out of DEF on the road, and the engine loses power",
    Severity.WARNING,
)
DEF_TANK = Plausibility(
    RulePage(
        RULE,
        "A DEF tank that holds less than 3 or more than 40 percent of what the fuel tanks hold.",
        Example(
            "fuel_tanks: {count: 2, capacity_each: 120 gal}\ndef_system: {tank_capacity: 5 gal}\n"
        ),
        Example(
            "fuel_tanks: {count: 2, capacity_each: 120 gal}\ndef_system: {tank_capacity: 21 gal}\n"
        ),
        "Consumption is 2 to 6 percent of the fuel, by five pages of the trade; the upper bound of "
        "the share is common practice. Planning figures, so this only warns.",
        Standing.PRACTICE,
    ),
    check,
)
