"""Spring brakes that come on outside the range of the jurisdiction.

Takes in the range of a unit and that of the rule; gives out a doubt if one end lies outside.
Refuses a truck whose spring brakes would come on without a warning, or hardly at all.
"""

from collections.abc import Iterator

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

SPRING = "brakes.air.spring_apply"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the spring brakes of *case* come on outside the rule's range."""
    low, high, bound = case.low(SPRING), case.high(SPRING), case.bound("spring_apply")
    if low is None or high is None or bound is None:
        return
    if low < bound.low or high > bound.high:
        yield Doubt(
            case.span(SPRING),
            f"{case.said(SPRING)} is not within the {bound.words}",
            "read the range in the handbook again; if the maker gives no range, delete the field, "
            "and the guide leaves this test out",
            (bound.note,),
        )


RULE = Rule(
    "spring-apply-outside-rule",
    "spring brakes that come on too high lock the wheels in traffic, and too low they come on when "
    "the truck has no brakes left",
)
SPRING_BRAKES = Plausibility(
    RulePage(
        RULE,
        "A range of pressures for the spring brakes that reaches outside 20 to 45 psi.",
        Example("brakes:\n  air: {spring_apply: 20 to 50 psi}\n"),
        Example("brakes:\n  air: {spring_apply: 20 to 45 psi}\n"),
        "CDL manual sections 5.3 and 11, and the British Columbia commercial driver manual, page "
        "218 (supply valve). Older editions print 20 to 40 psi for combinations; editions of 2023 "
        "and later name the maker's level instead, and say that some valves do not pop out.",
        Standing.SECONDARY,
    ),
    check,
)
