"""A block heater whose current does not follow from its power and voltage.

Takes in power, voltage and stated current of a unit's heater; gives out a doubt if they differ by
more than a hundredth. Refuses such a heater: the cord is chosen by the current.
"""

from collections.abc import Iterator
from fractions import Fraction

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

POWER, VOLTAGE, CURRENT = "block_heater.power", "block_heater.voltage", "block_heater.current"
TOLERANCE = Fraction(1, 100)


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the three figures on the heater label of *case* do not go together."""
    power, voltage, current = case.low(POWER), case.low(VOLTAGE), case.low(CURRENT)
    # A current that was worked out follows from the others, and is rounded up for the cord.
    if power is None or voltage is None or current is None or case.is_worked_out(CURRENT):
        return
    expected = power / voltage
    if abs(current - expected) > expected * TOLERANCE:
        yield Doubt(
            case.span(CURRENT),
            f"{case.said(CURRENT)}, and {case.said(POWER)} at {case.said(VOLTAGE)} makes "
            f"{float(expected):.1f} A",
            "read all three off the heater's label again, or delete `current`: it is worked out",
        )


RULE = Rule(
    "heater-current-off",
    "a cord chosen for the wrong current gets hot under the snow and starts a fire",
)
HEATER_CURRENT = Plausibility(
    RulePage(
        RULE,
        "A stated block heater current that is more than 1 percent off power over voltage.",
        Example("block_heater: {voltage: 120 V, power: 600 W, current: 2.5 A}\n"),
        Example("block_heater: {voltage: 120 V, power: 600 W, current: 5 A}\n"),
        "Current is power over voltage.",
        Standing.COMPUTED,
    ),
    check,
)
