"""Brake fluid of a DOT number that does not exist.

Takes in the fluids of a unit; gives out a doubt for each number that FMVSS 116 does not have.
Refuses such a number: no can carries it.
"""

from collections.abc import Iterator

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.kinds import BELONGS
from guidegen.plausibility.fluids.standards import DOT_NUMBERS, dot_numbers
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each DOT number of *case* that FMVSS 116 lacks."""
    for fact in BELONGS:
        for number in dot_numbers(case.word(fact)):
            if number not in DOT_NUMBERS:
                known = ", ".join(f"`DOT {each}`" for each in DOT_NUMBERS)
                yield Doubt(
                    case.span(fact),
                    f"`DOT {number}` in {case.said(fact)} is no brake fluid",
                    f"copy the number from the reservoir cap; there are {known}",
                )


RULE = Rule(
    "dot-number-unknown",
    "a number that no can carries lets the driver guess, and one guess in four is the wrong fluid",
)
DOT_NUMBER = Plausibility(
    RulePage(
        RULE,
        "A DOT number other than 3, 4, 5 and 5.1.",
        Example("clutch: {actuation: hydraulic, fluid: DOT 2 brake fluid}\n"),
        Example("clutch: {actuation: hydraulic, fluid: DOT 3 brake fluid}\n"),
        "FMVSS 116 S5.1, as tables of the trade print it.",
        Standing.SECONDARY,
    ),
    check,
)
