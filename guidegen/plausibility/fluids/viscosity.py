"""Engine oil of a viscosity grade that does not exist.

Takes in the oil grade of a unit; gives out a doubt for each grade that SAE J300 does not have.
Refuses such a grade: no can carries it, so the driver pours in something else.
"""

from collections.abc import Iterator

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.fluids.standards import (
    SUMMER_GRADES,
    WINTER_GRADES,
    viscosity_grades,
)
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

OIL = "engine.oil_grade"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each viscosity grade in the engine oil of *case* that J300 lacks."""
    for typed, winter, summer in viscosity_grades(case.word(OIL)):
        if winter not in WINTER_GRADES or (summer is not None and summer not in SUMMER_GRADES):
            yield Doubt(
                case.span(OIL),
                f"`{typed}` in {case.said(OIL)} is no viscosity grade of engine oil",
                "copy the grade from the filler cap or the handbook; engine oils are "
                f"{_listed(WINTER_GRADES)} before the W, and {_listed(SUMMER_GRADES)} after it",
            )


def _listed(numbers: tuple[int, ...]) -> str:
    return ", ".join(str(number) for number in numbers)


RULE = Rule(
    "viscosity-grade-not-in-sae-j300",
    "a driver who finds no can of that grade pours in what is there, and gear oil is among it",
)
VISCOSITY = Plausibility(
    RulePage(
        RULE,
        "An engine oil grade with numbers that SAE J300 does not have: 0, 5, 10, 15, 20 or 25 "
        "before the W; 8, 12, 16, 20, 30, 40, 50 or 60 after it. Grades of gear oil, such as "
        "75W-90, are among what it finds.",
        Example("engine: {oil_grade: 'SAE 15W-45, API CK-4'}\n"),
        Example("engine: {oil_grade: 'SAE 15W-40, API CK-4'}\n"),
        "SAE J300, editions of 1999 to 2021, as four tables of the trade agree.",
        Standing.SECONDARY,
    ),
    check,
)
