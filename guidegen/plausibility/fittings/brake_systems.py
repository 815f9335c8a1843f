"""A truck with two brake systems, or with none.

Takes in the brake sections of a unit; gives out a doubt if both or neither are fitted.
Refuses such a truck: its guide would hold two brake checks that contradict, or no brake check.
"""

from collections.abc import Iterator

from guidegen.finding import Note, Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

AIR, HYDRAULIC = "brakes.air", "brakes.hydraulic"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if *case* has both kinds of service brakes, or neither."""
    if case.has(AIR) and case.has(HYDRAULIC):
        yield Doubt(
            case.section_span(HYDRAULIC),
            f"`{AIR}` and `{HYDRAULIC}` are both fitted",
            "look for the brake fluid reservoir and the air gauges, and write `not fitted` for the "
            "one that the truck does not have",
            (Note(f"`{AIR}` stands at", case.section_span(AIR)),),
        )
    if case.lacks(AIR) and case.lacks(HYDRAULIC):
        yield Doubt(
            case.section_span(AIR),
            f"neither `{AIR}` nor `{HYDRAULIC}` is fitted",
            "look for the brake fluid reservoir and the air gauges, and state the one that it has",
            (Note(f"`{HYDRAULIC}` stands at", case.section_span(HYDRAULIC)),),
        )


RULE = Rule(
    "two-brake-systems-or-none",
    "with two brake checks the driver does the wrong one, and without one nobody checks the brakes",
)
BRAKE_SYSTEMS = Plausibility(
    RulePage(
        RULE,
        "Air brakes and hydraulic brakes that are both fitted, or both not fitted.",
        Example("brakes:\n  air: not fitted\n  hydraulic: not fitted\n"),
        Example("brakes:\n  air: not fitted\n  hydraulic: {fluid: DOT 3}\n"),
        "A truck whose air works a hydraulic system is stated by what its driver checks.",
        Standing.MEANING,
    ),
    check,
)
