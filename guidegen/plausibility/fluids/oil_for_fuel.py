"""Engine oil whose categories are all for the other kind of engine.

Takes in fuel and oil grade of a unit; gives out a doubt if a diesel has gasoline oil, or a
gasoline engine diesel oil. Refuses no truck: which letter is for which engine is from memory.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.standards import OIL_CATEGORIES, oil_categories
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

OIL, FUEL = "engine.oil_grade", "engine.fuel"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if no category in the oil of *case* is for what its engine burns."""
    fuel = case.word(FUEL)
    named = [OIL_CATEGORIES[n] for n in oil_categories(case.word(OIL)) if n in OIL_CATEGORIES]
    if fuel not in ("diesel", "gasoline") or not named:
        return
    if all(category.burns.value != fuel for category in named):
        yield Doubt(
            case.span(OIL),
            f"{case.said(OIL)} is oil for {named[0].burns.value} engines, and {case.said(FUEL)}",
            "read the category on the filler cap or in the handbook again; API categories with C "
            "or F are for diesel engines, those with S for gasoline engines",
        )


RULE = Rule(
    "oil-category-for-another-fuel",
    "oil that was made for another engine wears this one out long before anybody sees why",
    Severity.WARNING,
)
OIL_FOR_FUEL = Plausibility(
    RulePage(
        RULE,
        "A diesel engine whose oil has only gasoline categories (API S…), or a gasoline engine "
        "whose oil has only diesel categories (API C… and FA-4).",
        Example("engine: {fuel: diesel, oil_grade: 'SAE 5W-30, API SP'}\n"),
        Example("engine: {fuel: diesel, oil_grade: 'SAE 5W-30, API CK-4'}\n"),
        "That the letters tell the engines apart is stated from memory; some makers of gasoline "
        "engines ask for a diesel oil, and then theirs is the word that counts.",
        Standing.MEMORY,
    ),
    check,
)
