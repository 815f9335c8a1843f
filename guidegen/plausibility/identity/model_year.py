"""Model year and VIN that disagree, across files.

Takes in year and VIN of a unit when they stand in different files; gives out a doubt if position
10 of the VIN means other years. Refuses to repeat what the reader of one file has found.
"""

from collections.abc import Iterator

from guidegen.finding import Note
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing
from guidegen.specs.rules import VIN_YEAR
from guidegen.specs.vin import is_placeholder, model_years

VIN, YEAR = "identity.vin", "identity.year"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if *case* inherits a year that its VIN does not mean."""
    number, year = case.word(VIN), case.count(YEAR)
    if not number or year is None or case.span(VIN).file == case.span(YEAR).file:
        return
    years = model_years(number)
    if year not in years and not is_placeholder(number):
        listed = " or ".join(str(each) for each in years) or "no model year"
        yield Doubt(
            case.span(YEAR),
            f"{case.said(YEAR)}, and position 10 of the VIN means {listed}",
            "state the year of each truck in its own file, as on its unit plate",
            (Note("the VIN stands at", case.span(VIN)),),
        )


MODEL_YEAR = Plausibility(
    RulePage(
        VIN_YEAR,
        "A model year that is none of the two that position 10 of the VIN can mean, whether both "
        "stand in one file or the year is inherited from the model.",
        Example("identity: {vin: 1M8GDM9AXKP042788, year: 2018}\n"),
        Example("identity: {vin: 1M8GDM9AXKP042788, year: 2019}\n"),
        "49 CFR 565.15(d)(1) Table VII, revision of 2008, as reprints give it.",
        Standing.SECONDARY,
    ),
    check,
)
