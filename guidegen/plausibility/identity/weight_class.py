"""A weight class that does not fit the rest of the truck.

Takes in GVWR, axles, body and brakes of a unit; gives out a doubt where trucks of the class are
not built so. Refuses no truck: the limits of the classes are stated from memory.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.plausibility.yardstick import yardstick
from guidegen.quantity.model import Dimension
from guidegen.rule_page import Example, RulePage, Standing

GVWR, CONFIGURATION, BODY = "identity.gvwr", "axles.configuration", "identity.body"
CLASS_TOPS = tuple(
    yardstick(f"{pounds} lb", Dimension.MASS).exact
    for pounds in (6_000, 10_000, 14_000, 16_000, 19_500, 26_000, 33_000)
)
"""Highest GVWR of classes 1 to 7; above it is class 8. 49 CFR 565.15 Table II, from memory."""

WHEELS_OF_TWO_AXLES = 4
CLASS_OF_THREE_AXLES = 7
CLASS_OF_TRACTORS = 6
LIGHTEST_WITH_AIR = 5
"""Common practice, no source, as the two before it."""

HEAVIEST_WITH_HYDRAULICS = 7


def weight_class(case: Case) -> int | None:
    """Return the class of *case*, 1 to 8, by its GVWR; none if that is not on record."""
    gvwr = case.low(GVWR)
    return None if gvwr is None else 1 + sum(gvwr > top for top in CLASS_TOPS)


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each thing about *case* that its class does not have."""
    number = weight_class(case)
    if number is None:
        return
    for unlike in _unlike(case, number):
        yield Doubt(
            case.span(GVWR),
            f"{case.said(GVWR)} is class {number}, and {unlike}",
            "read the rating and its measure off the certification label again",
        )


def _unlike(case: Case, number: int) -> Iterator[str]:
    configuration = case.word(CONFIGURATION)
    wheels = int(configuration.partition("x")[0]) if configuration else 0
    if wheels > WHEELS_OF_TWO_AXLES and number < CLASS_OF_THREE_AXLES:
        yield f"{case.said(CONFIGURATION)} is built for more"
    if case.word(BODY) in ("tractor", "sleeper_tractor") and number < CLASS_OF_TRACTORS:
        yield f"{case.said(BODY)} is built for more"
    if case.has("brakes.air") and number < LIGHTEST_WITH_AIR:
        yield "trucks with air brakes are heavier"
    if case.has("brakes.hydraulic") and number > HEAVIEST_WITH_HYDRAULICS:
        yield "trucks that heavy have air brakes"


RULE = Rule(
    "weight-class-unusual",
    "a rating in the wrong measure lets the driver load twice what the truck carries, or half",
    Severity.WARNING,
)
WEIGHT_CLASS = Plausibility(
    RulePage(
        RULE,
        "A gross vehicle weight rating whose class does not fit the axles, the body or the brakes. "
        "Often pounds and kilograms were swapped.",
        Example("identity: {gvwr: '23,700 lb'}\naxles: {configuration: 6x4}\n"),
        Example("identity: {gvwr: '23,700 kg'}\naxles: {configuration: 6x4}\n"),
        "The limits of the classes (6,000, 10,000, 14,000, 16,000, 19,500, 26,000 and 33,000 lb) "
        "are those of 49 CFR 565.15 Table II, stated from memory. What trucks of a class have is "
        "common practice.",
        Standing.MEMORY,
    ),
    check,
)
