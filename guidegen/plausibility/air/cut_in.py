"""A governor that starts the compressor later than the jurisdiction's rule lets it.

Takes in the cut-in pressure of a unit and the rule's bound; gives out a doubt below it.
Refuses no truck: which vehicles the bound holds for is in part stated from memory.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

CUT_IN = "brakes.air.cut_in"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the cut-in of *case* lies below what the rule asks."""
    cut_in, bound = case.low(CUT_IN), case.bound("cut_in_least")
    if cut_in is not None and bound is not None and cut_in < bound.low:
        yield Doubt(
            case.span(CUT_IN),
            f"{case.said(CUT_IN)} is below the {bound.words}",
            "read the cut-in pressure in the handbook again, or ask the shop to test the governor",
            (bound.note,),
        )


RULE = Rule(
    "cut-in-below-rule",
    "a compressor that starts late leaves less air for the next stop than the brakes need",
    Severity.WARNING,
)
CUT_IN_BELOW_RULE = Plausibility(
    RulePage(
        RULE,
        "A cut-in pressure below the least that the rule of the fleet's jurisdiction gives.",
        Example("brakes:\n  air: {cut_in: 90 psi, cut_out: 120 psi}\n"),
        Example("brakes:\n  air: {cut_in: 100 psi, cut_out: 120 psi}\n"),
        "The jurisdiction profile states the bound with its source: 61 FR 6173 to FMVSS 121 "
        "(100 psi for trucks; that buses may have less is stated from memory), the Ontario Air "
        "Brake Handbook and the British Columbia commercial driver manual (80 psi).",
        Standing.MEMORY,
    ),
    check,
)
