"""A truck that is higher than the roads of its jurisdiction allow.

Takes in the overall height of a unit and the usual limit; gives out a doubt above it.
Refuses no truck: limits differ from state to state, and permits exist.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

HEIGHT = "identity.overall_height"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if *case* is higher than trucks may be where it drives."""
    height, bound = case.high(HEIGHT), case.bound("height_most")
    if height is not None and bound is not None and height > bound.high:
        yield Doubt(
            case.span(HEIGHT),
            f"{case.said(HEIGHT)} is above the {bound.words}",
            "measure the highest point at the truck again; if it is right, the truck needs routes "
            "or permits of its own",
            (bound.note,),
        )


RULE = Rule(
    "height-above-roads",
    "bridges on ordinary roads are posted for lower trucks, and the driver learns it at the bridge",
    Severity.WARNING,
)
HEIGHT_ABOVE_ROADS = Plausibility(
    RulePage(
        RULE,
        "An overall height above what the roads of the fleet's jurisdiction commonly allow.",
        Example("identity: {overall_height: 14 ft 2 in}\n"),
        Example("identity: {overall_height: 13 ft 6 in}\n"),
        "13 ft 6 in is common in the United States, and states differ; the figures for California "
        "(14 ft) and Canada (4.15 m) are from memory. The jurisdiction profile states them.",
        Standing.PRACTICE,
    ),
    check,
)
