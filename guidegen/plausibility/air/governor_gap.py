"""Governor cut-in and cut-out too near to each other, or too far apart.

Takes in both pressures of a unit; gives out a doubt if the gap is unusual.
Refuses no truck: the usual gap is common practice, no source.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case, plain
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.plausibility.yardstick import yardstick
from guidegen.quantity.model import Dimension
from guidegen.rule_page import Example, RulePage, Standing

CUT_IN, CUT_OUT = "brakes.air.cut_in", "brakes.air.cut_out"

LEAST, MOST = (yardstick(text, Dimension.PRESSURE) for text in ("10 psi", "40 psi"))
"""Of the gap. Common practice, no source; about 20 to 25 psi is usual."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the governor of *case* works in a narrow or a wide band."""
    cut_in, cut_out = case.low(CUT_IN), case.low(CUT_OUT)
    if cut_in is None or cut_out is None or cut_in >= cut_out:
        return
    if not LEAST.exact <= cut_out - cut_in <= MOST.exact:
        yield Doubt(
            case.span(CUT_OUT),
            f"{case.said(CUT_IN)} and {case.said(CUT_OUT)} are not {plain(LEAST)} to "
            f"{plain(MOST)} apart",
            "read both in the handbook again; on most trucks they are 20 to 25 psi apart",
        )


RULE = Rule(
    "governor-gap-unusual",
    "a driver who watches the gauges for the wrong pressure takes a good governor for a bad one, "
    "or a bad one for a good one",
    Severity.WARNING,
)
GOVERNOR_GAP = Plausibility(
    RulePage(
        RULE,
        "Cut-in and cut-out pressure of the governor that are less than 10 psi or more than 40 psi "
        "apart.",
        Example("brakes:\n  air: {cut_in: 120 psi, cut_out: 125 psi}\n"),
        Example("brakes:\n  air: {cut_in: 103 psi, cut_out: 125 psi}\n"),
        "No rule says how far they are apart; about 20 to 25 psi is usual.",
        Standing.PRACTICE,
    ),
    check,
)
