"""A block heater that asks too much of its circuit.

Takes in the current of a unit's heater and the circuit of its outlet; gives out a doubt if the
current is more than four fifths of what the circuit gives. Refuses no truck: that share is the
electric code's for loads of hours, stated from memory.
"""

from collections.abc import Iterator
from fractions import Fraction

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case, plain
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.plausibility.yardstick import yardstick
from guidegen.quantity.model import Dimension
from guidegen.rule_page import Example, RulePage, Standing

CURRENT, CIRCUIT = "block_heater.current", "block_heater.circuit"
ORDINARY = yardstick("15 A", Dimension.CURRENT)
"""What an outlet of a house or shop gives in North America if nobody says otherwise."""

CONTINUOUS_SHARE = Fraction(4, 5)
"""Of the circuit, for loads that last hours."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the block heater of *case* trips its breaker in the night."""
    current, stated = case.high(CURRENT), case.low(CIRCUIT)
    if current is None:
        return
    if current > (ORDINARY.exact if stated is None else stated) * CONTINUOUS_SHARE:
        circuit = f"the {plain(ORDINARY)} of an ordinary outlet"
        if stated is not None:
            circuit = case.said(CIRCUIT)
        yield Doubt(
            case.span(CURRENT),
            f"{case.said(CURRENT)} for hours is more than four fifths of {circuit}",
            "plug it in where the circuit gives more, and state that as `circuit: 20 A`",
        )


RULE = Rule(
    "heater-above-circuit",
    "the breaker trips in the night, and the engine is cold when the driver comes",
    Severity.WARNING,
)
HEATER_CIRCUIT = Plausibility(
    RulePage(
        RULE,
        "A block heater whose current is more than four fifths of its circuit; 15 A is taken if no "
        "circuit is stated. At 120 V that is more than 1,440 W.",
        Example("block_heater: {voltage: 120 V, power: '1,500 W'}\n"),
        Example("block_heater: {voltage: 120 V, power: '1,500 W', circuit: 20 A}\n"),
        "The share for continuous loads is that of the National Electrical Code, stated from "
        "memory; house current of other places may allow more.",
        Standing.MEMORY,
    ),
    check,
)
