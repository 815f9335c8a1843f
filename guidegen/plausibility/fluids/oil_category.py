"""Engine oil of a category that is not known.

Takes in the oil grade of a unit; gives out a doubt for each API category that is not on the list.
Refuses no truck: the list is open at its new end.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity, nearest
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.standards import OIL_CATEGORIES, oil_categories
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

OIL = "engine.oil_grade"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each category in the engine oil of *case* that nobody has heard of."""
    for name in oil_categories(case.word(OIL)):
        if name not in OIL_CATEGORIES:
            near = nearest(name, OIL_CATEGORIES)
            look = "read the category on the filler cap or in the handbook again"
            yield Doubt(
                case.span(OIL),
                f"`{name}` in {case.said(OIL)} is no API category that is known",
                f"{look}; did you mean `{near}`?" if near else look,
            )


RULE = Rule(
    "oil-category-unknown",
    "a category that no can carries leaves the driver to choose an oil by its price",
    Severity.WARNING,
)
OIL_CATEGORY = Plausibility(
    RulePage(
        RULE,
        "An API service category that is not on the list. A category that is new since the list "
        "was made is found too; keep it if the handbook names it.",
        Example("engine: {oil_grade: 'SAE 15W-40, API CX-4'}\n"),
        Example("engine: {oil_grade: 'SAE 15W-40, API CK-4'}\n"),
        "CK-4, FA-4 and what CK-4 takes the place of: announcements of the American Petroleum "
        "Institute, as the trade press prints them. Older categories and those for gasoline: from "
        "memory. A successor is being worked on, so the list stays open.",
        Standing.MEMORY,
    ),
    check,
)
