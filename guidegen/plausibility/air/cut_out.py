"""A governor that stops the compressor outside what the jurisdiction lets it.

Takes in the cut-out pressure of a unit, the rule's bounds and the safety valve's; gives out a
doubt outside them. Refuses a truck whose compressor would pump against its safety valve.
"""

from collections.abc import Iterator
from fractions import Fraction

from guidegen.finding import Rule
from guidegen.plausibility.case import Bound, Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

CUT_OUT = "brakes.air.cut_out"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each bound that the cut-out of *case* breaks."""
    cut_out = case.low(CUT_OUT)
    if cut_out is None:
        return
    for bound, relation in _broken(case, cut_out):
        yield Doubt(
            case.span(CUT_OUT),
            f"{case.said(CUT_OUT)} is {relation} the {bound.words}",
            "read the cut-out pressure in the handbook again, or ask the shop to set the governor",
            (bound.note,),
        )


def _broken(case: Case, cut_out: Fraction) -> Iterator[tuple[Bound, str]]:
    lowest, highest = case.bound("cut_out_least"), case.bound("cut_out_most")
    valve = case.bound("safety_valve")
    if lowest and cut_out < lowest.low:
        yield lowest, "below"
    if highest and cut_out > highest.high:
        yield highest, "above"
    if valve and cut_out >= valve.low:
        yield valve, "not below the safety valve at"


RULE = Rule(
    "cut-out-outside-rule",
    "too much pressure blows the safety valve or bursts a hose, and too little runs out on a long "
    "hill",
)
CUT_OUT_OUTSIDE_RULE = Plausibility(
    RulePage(
        RULE,
        "A cut-out pressure outside the range of the fleet's jurisdiction, or not below the "
        "pressure at which the safety valve opens.",
        Example("brakes:\n  air: {cut_out: 140 psi}\n", "british-columbia"),
        Example("brakes:\n  air: {cut_out: 130 psi}\n", "british-columbia"),
        "The jurisdiction profile states the bounds with their sources: the CDL manual section 5.1 "
        "and California Vehicle Code 26503 (safety valve at 150 psi), the Ontario Air Brake "
        "Handbook (145 psi at most) and the British Columbia commercial driver manual, page 218 "
        "(105 to 135 psi). The United Kingdom has none on record.",
        Standing.SECONDARY,
    ),
    check,
)
