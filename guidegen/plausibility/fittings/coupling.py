"""Body, fifth wheel and trailer air that do not go together.

Takes in what a unit couples with; gives out a doubt for each contradiction.
Refuses no truck: what a body couples with is common practice, and pintle hitches exist.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

BODY, SUPPLY = "identity.body", "parking_brake.trailer_supply"
FIFTH_WHEEL = "fifth_wheel"
TRACTORS = ("tractor", "sleeper_tractor", "yard_tractor")


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each two things of *case* that do not couple to one trailer."""
    body = case.word(BODY)
    if body in TRACTORS and case.lacks(FIFTH_WHEEL):
        yield Doubt(
            case.section_span(FIFTH_WHEEL),
            f"{case.said(BODY)}, and `{FIFTH_WHEEL}` is not fitted",
            "look behind the cab: state the fifth wheel, or the body that is there",
        )
    if body and body not in TRACTORS and case.has(FIFTH_WHEEL):
        yield Doubt(
            case.section_span(FIFTH_WHEEL),
            f"{case.said(BODY)}, and `{FIFTH_WHEEL}` is fitted",
            "look behind the cab: write `fifth_wheel: not fitted`, or state the body as a tractor",
        )
    if case.has("brakes.air") and case.has(FIFTH_WHEEL) and case.value(SUPPLY) is False:
        yield Doubt(
            case.span(SUPPLY),
            f"{case.said(SUPPLY)}, and `{FIFTH_WHEEL}` is fitted",
            "look for the red eight-sided knob on the dash",
        )


RULE = Rule(
    "coupling-disagrees",
    "a guide without the coupling check sends a trailer out that nobody has looked at",
    Severity.WARNING,
)
COUPLING = Plausibility(
    RulePage(
        RULE,
        "A tractor without a fifth wheel, a fifth wheel on another body, or a fifth wheel and air "
        "brakes without a trailer air supply knob.",
        Example("identity: {body: tractor}\nfifth_wheel: not fitted\n"),
        Example("identity: {body: tractor}\nfifth_wheel: {slider: no}\n"),
        "What a tractor is for: common practice.",
        Standing.PRACTICE,
    ),
    check,
)
