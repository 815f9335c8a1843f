"""A cut-out pressure that the driver's manual does not describe.

Takes in the cut-out pressure of a unit and the usual range; gives out a doubt outside it.
Refuses no truck: a manual describes most trucks, and the maker's value comes first.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

CUT_OUT = "brakes.air.cut_out"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the cut-out of *case* is not where drivers are taught to expect it."""
    cut_out, usual = case.low(CUT_OUT), case.bound("cut_out_usual")
    if cut_out is not None and usual is not None and not usual.low <= cut_out <= usual.high:
        yield Doubt(
            case.span(CUT_OUT),
            f"{case.said(CUT_OUT)} is outside the usual {usual.words}",
            "read the cut-out pressure in the handbook again; keep it if the handbook says so",
            (usual.note,),
        )


RULE = Rule(
    "cut-out-unusual",
    "a driver who was taught another pressure reports a governor that works, or trusts one that "
    "does not",
    Severity.WARNING,
)
USUAL_CUT_OUT = Plausibility(
    RulePage(
        RULE,
        "A cut-out pressure outside the range that the driver's manual of the jurisdiction gives "
        "for most trucks.",
        Example("brakes:\n  air: {cut_out: 110 psi}\n"),
        Example("brakes:\n  air: {cut_out: 125 psi}\n"),
        "CDL manual section 5.3: 120 to 140 psi, in older editions about 125 psi. It describes "
        "trucks and is no limit, so this only warns.",
        Standing.SECONDARY,
    ),
    check,
)
