"""A truck that nothing drives.

Takes in engine and high voltage of a unit; gives out a doubt if both are not fitted.
Refuses such a truck: its guide would say neither how to start it nor how to stop it.
"""

from collections.abc import Iterator

from guidegen.finding import Note, Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if *case* has neither an engine nor a traction battery."""
    if case.lacks("engine") and case.lacks("high_voltage"):
        yield Doubt(
            case.section_span("engine"),
            "neither `engine` nor `high_voltage` is fitted",
            "state the one that drives the truck",
            (Note("`high_voltage` stands at", case.section_span("high_voltage")),),
        )


RULE = Rule(
    "nothing-drives-the-truck",
    "the guide would not say how to start the truck, nor how to shut it off when it burns",
)
POWER_SOURCE = Plausibility(
    RulePage(
        RULE,
        "An engine and a high-voltage system that are both not fitted.",
        Example("engine: not fitted\nhigh_voltage: not fitted\n"),
        Example("engine: {fuel: diesel}\nhigh_voltage: not fitted\n"),
        "One of the two drives a truck; a hybrid has both.",
        Standing.MEANING,
    ),
    check,
)
