"""Engine oil that is older than the particulate filter.

Takes in oil grade and aftertreatment of a unit; gives out a doubt if no category that the oil has
was made for engines with a filter. Refuses no truck: that is known from memory.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.standards import OIL_CATEGORIES, Burns, oil_categories
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

OIL = "engine.oil_grade"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if *case* has a particulate filter and its oil is from before filters."""
    named = [OIL_CATEGORIES[n] for n in oil_categories(case.word(OIL)) if n in OIL_CATEGORIES]
    diesel = [category for category in named if category.burns is Burns.DIESEL]
    if not case.has("aftertreatment") or not diesel:
        return
    if not any(category.for_filters for category in diesel):
        yield Doubt(
            case.span(OIL),
            f"{case.said(OIL)} is oil from before particulate filters, and the truck has one",
            "read the category on the filler cap or in the handbook again; CJ-4 and CK-4 were made "
            "for engines with a filter",
        )


RULE = Rule(
    "oil-older-than-filter",
    "ash of an old kind of oil clogs the filter, and the truck stops for regeneration again and "
    "again",
    Severity.WARNING,
)
OIL_AND_FILTER = Plausibility(
    RulePage(
        RULE,
        "A truck with a particulate filter whose oil has only categories older than CJ-4.",
        Example("engine: {oil_grade: 'SAE 15W-40, API CI-4'}\naftertreatment: {outlet: stack}\n"),
        Example("engine: {oil_grade: 'SAE 15W-40, API CJ-4'}\naftertreatment: {outlet: stack}\n"),
        "That CJ-4 was the first category for engines with a filter is stated from memory.",
        Standing.MEMORY,
    ),
    check,
)
