"""A gross weight rating that the axles cannot carry.

Takes in GVWR and axle ratings of a unit; gives out a doubt if the axles carry less together.
Refuses no truck: that the ratings must add up is stated from memory.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

GVWR, FRONT, REAR = "identity.gvwr", "axles.front_rating", "axles.rear_rating"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if *case* may weigh more than its axles may carry."""
    gvwr, front, rear = case.low(GVWR), case.low(FRONT), case.low(REAR)
    if gvwr is None or front is None or rear is None or gvwr <= front + rear:
        return
    yield Doubt(
        case.span(GVWR),
        f"{case.said(GVWR)} is more than {case.said(FRONT)} and {case.said(REAR)} together",
        "read the three ratings off the certification label again; the rear rating is that of all "
        "rear axles together",
    )


RULE = Rule(
    "gvwr-above-axle-ratings",
    "a driver who loads up to the rating on the card overloads an axle, and its tires run hot",
    Severity.WARNING,
)
AXLE_RATINGS = Plausibility(
    RulePage(
        RULE,
        "A gross vehicle weight rating above the sum of the axle ratings.",
        Example(
            "identity: {gvwr: '52,350 lb'}\n"
            "axles: {front_rating: '12,350 lb', rear_rating: '20,000 lb'}\n"
        ),
        Example(
            "identity: {gvwr: '52,350 lb'}\n"
            "axles: {front_rating: '12,350 lb', rear_rating: '40,000 lb'}\n"
        ),
        "49 CFR Part 567 (certification labels) is the likely home; its wording is stated from "
        "memory.",
        Standing.MEMORY,
    ),
    check,
)
