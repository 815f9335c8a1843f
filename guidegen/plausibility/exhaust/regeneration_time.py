"""A parked regeneration that is unusually short or long.

Takes in the duration of a unit; gives out a doubt outside 15 to 60 minutes.
Refuses no truck: no published figure was found, and the maker's comes first.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case, plain
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.plausibility.yardstick import yardstick
from guidegen.quantity.model import Dimension
from guidegen.rule_page import Example, RulePage, Standing

DURATION = "aftertreatment.parked_regeneration.duration"
SHORTEST, LONGEST = (yardstick(text, Dimension.TIME) for text in ("15 min", "60 min"))
"""Common practice, no source."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the parked regeneration of *case* takes an unusual time."""
    low, high = case.low(DURATION), case.high(DURATION)
    if low is None or high is None:
        return
    if low < SHORTEST.exact or high > LONGEST.exact:
        yield Doubt(
            case.span(DURATION),
            f"{case.said(DURATION)} is not within {plain(SHORTEST)} to {plain(LONGEST)}",
            "read the duration of a regeneration that the driver starts in the handbook again",
        )


RULE = Rule(
    "regeneration-time-unusual",
    "a driver who is told too short a time breaks the regeneration off, and the filter clogs",
    Severity.WARNING,
)
REGENERATION_TIME = Plausibility(
    RulePage(
        RULE,
        "A parked regeneration that takes less than 15 or more than 60 minutes.",
        Example("aftertreatment:\n  parked_regeneration: {duration: 5 to 10 min}\n"),
        Example("aftertreatment:\n  parked_regeneration: {duration: 20 to 35 min}\n"),
        "No authoritative figure was found.",
        Standing.PRACTICE,
    ),
    check,
)
