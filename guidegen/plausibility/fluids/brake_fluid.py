"""Brake fluids that must not be mixed, named in one text.

Takes in the fluids of a unit; gives out a doubt where silicone and glycol are named together.
Refuses such a text: whoever tops up takes one of the two, and half of the time the wrong one.
"""

from collections.abc import Iterator

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.kinds import BELONGS
from guidegen.plausibility.fluids.standards import SILICONE, dot_numbers
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each fluid of *case* that names DOT 5 beside another number."""
    for fact in BELONGS:
        named = dot_numbers(case.word(fact))
        if SILICONE in named and len(named) > 1:
            yield Doubt(
                case.span(fact),
                f"{case.said(fact)} names silicone and glycol brake fluid, which do not mix",
                "name the one DOT number that stands on the reservoir cap",
            )


RULE = Rule(
    "brake-fluids-mixed",
    "silicone and glycol fluid in one system let in air and water, and the pedal goes to the floor",
)
BRAKE_FLUID = Plausibility(
    RulePage(
        RULE,
        "A fluid that names DOT 5 (silicone) together with DOT 3, DOT 4 or DOT 5.1 (glycol).",
        Example("clutch: {actuation: hydraulic, fluid: brake fluid DOT 4 or DOT 5}\n"),
        Example("clutch: {actuation: hydraulic, fluid: brake fluid DOT 4 or DOT 5.1}\n"),
        "That silicone does not mix with the others is said alike by sellers and handbooks of the "
        "trade; the DOT numbers are those of FMVSS 116 S5.1.",
        Standing.SECONDARY,
    ),
    check,
)
