"""A fluid of a kind that does not belong where it is stated.

Takes in the fluids of a unit; gives out a doubt where a fluid is of known kinds, and none of them
belongs there. Refuses no truck: what belongs where is common practice.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.kinds import BELONGS, Kind, kinds_of
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each fluid of *case* that is known and belongs elsewhere."""
    for fact, belonging in BELONGS.items():
        kinds = kinds_of(case.word(fact))
        if kinds and not set(kinds) & set(belonging):
            yield Doubt(
                case.span(fact),
                f"{case.said(fact)} is {_listed(kinds)}, where {_listed(belonging)} belongs",
                "read the fluid on the filler cap or in the handbook again",
            )


def _listed(kinds: tuple[Kind, ...]) -> str:
    return " or ".join(kind.value for kind in kinds)


RULE = Rule(
    "fluid-of-wrong-kind",
    "the wrong fluid eats the seals, and brakes, steering or engine fail on the road",
    Severity.WARNING,
)
WRONG_KIND = Plausibility(
    RulePage(
        RULE,
        "A fluid whose words name a kind that does not belong where it stands, such as brake fluid "
        "in the power steering or DEF in the engine. A text whose words name no kind is let pass.",
        Example("power_steering: {fluid: brake fluid DOT 3}\n"),
        Example("power_steering: {fluid: 'power steering fluid, amber'}\n"),
        "Which kinds go where is common practice. That DEF belongs in its own tank alone is said "
        "by the API Diesel Exhaust Fluid program; that mineral oil and brake fluid do not mix, by "
        "handbooks of the trade.",
        Standing.PRACTICE,
    ),
    check,
)
