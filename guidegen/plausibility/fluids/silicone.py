"""Silicone brake fluid in brakes with anti-lock.

Takes in brake fluid and anti-lock of a unit; gives out a doubt if DOT 5 and ABS go together.
Refuses no truck: that they do not go together is known from memory.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.standards import SILICONE
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

FLUID, ABS = "brakes.hydraulic.fluid", "brakes.abs"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if *case* has anti-lock brakes that run on silicone fluid."""
    if case.word(FLUID) == f"DOT {SILICONE}" and case.value(ABS) is True:
        yield Doubt(
            case.span(FLUID),
            f"{case.said(FLUID)} is silicone, and {case.said(ABS)}",
            "read the DOT number on the reservoir cap again; `DOT 5` and `DOT 5.1` differ",
        )


RULE = Rule(
    "silicone-fluid-with-abs",
    "silicone fluid foams in the valves of anti-lock brakes, and the pedal turns soft",
    Severity.WARNING,
)
SILICONE_WITH_ABS = Plausibility(
    RulePage(
        RULE,
        "DOT 5 in a truck with anti-lock brakes. Often DOT 5.1 was meant.",
        Example("brakes:\n  hydraulic: {fluid: DOT 5}\n  abs: yes\n"),
        Example("brakes:\n  hydraulic: {fluid: DOT 5.1}\n  abs: yes\n"),
        "That makers of anti-lock brakes rule silicone fluid out is stated from memory.",
        Standing.MEMORY,
    ),
    check,
)
