"""A cord that the office states and that cannot carry the heater.

Takes in the current of a unit's heater and the gauges that are stated for its cords; gives out a
doubt for each gauge whose ampacity is less. Refuses such a gauge: the cord burns.
"""

from collections.abc import Iterator

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing
from guidegen.units.cords import AMPACITIES, CORDS, gauge_of

CURRENT = "block_heater.current"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each stated cord of *case* that is made for less than the heater takes."""
    current = case.high(CURRENT)
    if current is None:
        return
    for cord in CORDS:
        stated = f"block_heater.{cord}_gauge"
        gauge = gauge_of(case.word(stated))
        if gauge is None or case.is_worked_out(stated) or current <= AMPACITIES[gauge]:
            continue
        yield Doubt(
            case.span(stated),
            f"{case.said(stated)} carries {AMPACITIES[gauge]} A, and {case.said(CURRENT)}",
            f"state a thicker gauge or `none`, or delete `{cord}_gauge`: it is worked out",
        )


RULE = Rule(
    "cord-below-heater-current",
    "a cord that carries more than it is made for gets hot and starts a fire",
)
CORD_GAUGE = Plausibility(
    RulePage(
        RULE,
        "A gauge that is stated for a cord of the block heater, and whose ampacity is less than "
        "the heater's current: 10 A for 18 AWG, 13 A for 16, 18 A for 14 and 25 A for 12.",
        Example(
            "block_heater: {voltage: 120 V, power: '1,500 W', circuit: 20 A, "
            "short_cord_gauge: awg_18}\n"
        ),
        Example(
            "block_heater: {voltage: 120 V, power: '1,500 W', circuit: 20 A, "
            "short_cord_gauge: awg_14}\n"
        ),
        "National Electrical Code, Table 400.5(A), as an appliance standard quotes it.",
        Standing.SECONDARY,
    ),
    check,
)
