"""Engine oil between the marks that is out of scale with the whole.

Takes in the oil between ADD and FULL and the capacity of a unit; gives out a doubt if the share
is unusual. Refuses no truck: what is usual is common practice.
"""

from collections.abc import Iterator
from fractions import Fraction

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

BETWEEN, CAPACITY = "engine.oil_between_marks", "engine.oil_capacity"
LEAST_SHARE, MOST_SHARE = Fraction(3, 100), Fraction(30, 100)
"""Of the capacity. Common practice, no source."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the dipstick of *case* spans hardly any of its oil, or most of it."""
    between, capacity = case.low(BETWEEN), case.low(CAPACITY)
    if between is None or capacity is None:
        return
    share = between / capacity
    if not LEAST_SHARE <= share <= MOST_SHARE:
        yield Doubt(
            case.span(BETWEEN),
            f"{case.said(BETWEEN)} is {_percent(share)} percent of {case.said(CAPACITY)}",
            "read both in the handbook again, and their measures: quarts, liters, gallons; between "
            f"{_percent(LEAST_SHARE)} and {_percent(MOST_SHARE)} percent is usual",
        )


def _percent(share: Fraction) -> str:
    return f"{float(share * 100):.0f}"


RULE = Rule(
    "oil-between-marks-out-of-scale",
    "a driver who pours in what the guide says overfills the sump, and the crankshaft beats the "
    "oil to foam",
    Severity.WARNING,
)
OIL_MARKS = Plausibility(
    RulePage(
        RULE,
        "Oil between the ADD and FULL marks that is less than 3 or more than 30 percent of the "
        "engine's oil. Often one of the two was copied in another measure.",
        Example("engine: {oil_capacity: 12 qt, oil_between_marks: 4 qt}\n"),
        Example("engine: {oil_capacity: 42 qt, oil_between_marks: 4 qt}\n"),
        "What is usual is common practice.",
        Standing.PRACTICE,
    ),
    check,
)
