"""Oil categories named together that cannot stand in for each other.

Takes in the oil grade of a unit; gives out a doubt if FA-4 and another diesel category are named
as if either would do. Refuses such a text: the driver takes whichever can is there.
"""

from collections.abc import Iterator
from itertools import combinations

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.standards import OIL_CATEGORIES, OilCategory, oil_categories
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

OIL = "engine.oil_grade"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each two categories in the oil of *case* that may not be swapped."""
    named = [OIL_CATEGORIES[n] for n in oil_categories(case.word(OIL)) if n in OIL_CATEGORIES]
    for one, other in combinations(named, 2):
        if one.burns is other.burns and _differ(one, other):
            yield Doubt(
                case.span(OIL),
                f"{case.said(OIL)} names `{one.name}` and `{other.name}`, and neither may stand in "
                "for the other",
                "name the one category that the handbook asks for",
            )


def _differ(one: OilCategory, other: OilCategory) -> bool:
    """Whether one of the two is thinner by its category, and so not to be swapped."""
    return bool(one.only_grade) != bool(other.only_grade)


RULE = Rule(
    "oil-categories-not-interchangeable",
    "thin oil in an engine that was built for thick oil lets its bearings run dry under load",
)
OIL_TOGETHER = Plausibility(
    RulePage(
        RULE,
        "API FA-4 named beside CK-4 or an older diesel category, as if either would do. FA-4 is "
        "thinner when hot and not interchangeable with them; CK-4 takes the place of CJ-4, CI-4 "
        "PLUS, CI-4 and CH-4, so these may stand together.",
        Example("engine: {oil_grade: 'SAE 10W-30, API CK-4 or FA-4'}\n"),
        Example("engine: {oil_grade: 'SAE 10W-30, API CK-4, not FA-4'}\n"),
        "Announcements of the American Petroleum Institute on CK-4 and FA-4, licensed from 1 "
        "December 2016, as the trade press prints them.",
        Standing.SECONDARY,
    ),
    check,
)
