"""An oil category with a viscosity grade that it does not have.

Takes in the oil grade of a unit; gives out a doubt if FA-4 is named with another grade than
xW-30. Refuses such a pair: no can carries both, so one of the two was copied wrong.
"""

from collections.abc import Iterator

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.standards import (
    OIL_CATEGORIES,
    oil_categories,
    viscosity_grades,
)
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

OIL = "engine.oil_grade"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each grade in the oil of *case* that its only category lacks."""
    named = oil_categories(case.word(OIL))
    category = OIL_CATEGORIES.get(named[0]) if len(named) == 1 else None
    if category is None or not category.only_grade:
        return
    for typed, _, summer in viscosity_grades(case.word(OIL)):
        if str(summer) != category.only_grade:
            yield Doubt(
                case.span(OIL),
                f"`{typed}` in {case.said(OIL)} is not a grade of `{category.name}`, which is only "
                f"xW-{category.only_grade}",
                "read grade and category on the filler cap or in the handbook again",
            )


RULE = Rule(
    "viscosity-outside-category",
    "grade and category that no can carries together send the driver home with the wrong oil",
)
OIL_THICKNESS = Plausibility(
    RulePage(
        RULE,
        "API FA-4 with another viscosity grade than xW-30.",
        Example("engine: {oil_grade: 'SAE 15W-40, API FA-4'}\n"),
        Example("engine: {oil_grade: 'SAE 10W-30, API FA-4'}\n"),
        "Announcements of the American Petroleum Institute on FA-4 (xW-30, thinner when hot than "
        "CK-4), as the trade press prints them.",
        Standing.SECONDARY,
    ),
    check,
)
