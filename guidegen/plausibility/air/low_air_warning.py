"""A low-air warning that comes later, or sooner, than the jurisdiction's rule lets it.

Takes in the warning pressure of a unit and the rule's bounds; gives out a doubt outside them.
Refuses a truck whose warning comes too late: its driver learns of the leak when the brakes go.
"""

from collections.abc import Iterator
from fractions import Fraction

from guidegen.finding import Rule
from guidegen.plausibility.case import Bound, Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

WARNING = "brakes.air.low_air_warning"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the warning of *case* lies below or above what the rule asks."""
    warning = case.low(WARNING)
    if warning is None:
        return
    for bound, relation in _broken(case, warning):
        yield Doubt(
            case.span(WARNING),
            f"{case.said(WARNING)} is {relation} the {bound.words}",
            "read the warning pressure in the handbook again; if the truck really warns there, the "
            "shop mends it first",
            (bound.note,),
        )


def _broken(case: Case, warning: Fraction) -> Iterator[tuple[Bound, str]]:
    lowest, highest = case.bound("low_air_warning_least"), case.bound("low_air_warning_most")
    if lowest and warning < lowest.low:
        yield lowest, "below"
    if highest and warning > highest.high:
        yield highest, "above"


RULE = Rule(
    "low-air-warning-outside-rule",
    "a warning that comes late leaves the driver with too little air to stop, and one that comes "
    "early is soon ignored",
)
LOW_AIR_WARNING = Plausibility(
    RulePage(
        RULE,
        "A low-air warning pressure below the least, or above the most, that the rule of the "
        "fleet's jurisdiction gives.",
        Example("brakes:\n  air: {low_air_warning: 55 psi}\n"),
        Example("brakes:\n  air: {low_air_warning: 65 psi}\n"),
        "The jurisdiction profile states the bounds with their sources: FMVSS 121 S5.1.5 (60 psi) "
        "in the United States, California Vehicle Code 26506(b) (55 to 75 psi), the Ontario Air "
        "Brake Handbook (55 psi) and the British Columbia commercial driver manual, page 218 "
        "(60 psi). The United Kingdom has none on record. For trucks in use, 49 CFR 393.51(c) "
        "allows less (half of the cut-out pressure); a truck that was built to that is rare.",
        Standing.RULE,
    ),
    check,
)
