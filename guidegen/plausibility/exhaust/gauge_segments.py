"""A DEF gauge with a number of bars that gauges seldom have.

Takes in the bars of a unit's DEF gauge; gives out a doubt if they are odd in number, or few or
many. Refuses no truck: what is usual is common practice.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

SEGMENTS = "def_system.gauge_segments"
USUAL = (4, 6, 8, 10, 12)
"""Common practice, no source: an odd number of bars has no half."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the DEF gauge of *case* has an unusual number of bars."""
    segments = case.count(SEGMENTS)
    if segments is not None and segments not in USUAL:
        yield Doubt(
            case.span(SEGMENTS),
            f"{case.said(SEGMENTS)} is unusual",
            "count the bars at key-on, when all are lit for the self-test; usual are "
            f"{', '.join(str(each) for each in USUAL)}",
        )


RULE = Rule(
    "def-gauge-odd",
    "a driver who waits for a bar that the gauge does not have fills until the tank runs over",
    Severity.WARNING,
)
GAUGE_SEGMENTS = Plausibility(
    RulePage(
        RULE,
        "A DEF gauge with other than 4, 6, 8, 10 or 12 bars: an odd number has no half.",
        Example("def_system: {gauge_segments: 7}\n"),
        Example("def_system: {gauge_segments: 8}\n"),
        "What is usual is common practice.",
        Standing.PRACTICE,
    ),
    check,
)
