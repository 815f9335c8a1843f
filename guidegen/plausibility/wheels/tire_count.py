"""Tires that do not add up to the axle configuration.

Takes in the configuration, such as 6x4, and the tires of each position; gives out a doubt if no
way of single and dual tires adds up. Refuses no truck: wheel positions are counted by custom.
"""

from collections.abc import Iterator
from itertools import product

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

CONFIGURATION = "axles.configuration"
TIRES_AT_A_WHEEL = (1, 2)
"""Single or dual."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the tires of *case* cannot stand on as many wheels as it has."""
    configuration = case.word(CONFIGURATION)
    steer, drive = case.count("tires.steer.count"), case.count("tires.drive.count")
    tag = 0 if case.lacks("tires.tag") else case.count("tires.tag.count")
    if not configuration or steer is None or drive is None or tag is None:
        return
    wheels, _, driven = configuration.partition("x")
    if (int(wheels), int(driven)) not in set(_configurations(steer, drive, tag)):
        counted = f"{steer} steer, {drive} drive and {tag} tag tires"
        yield Doubt(
            case.span(CONFIGURATION),
            f"{case.said(CONFIGURATION)} has {wheels} wheels, {driven} of them driven, and "
            f"{counted} do not make that many",
            "count the tires at the truck; a dual pair is one wheel of the configuration",
        )


def _configurations(steer: int, drive: int, tag: int) -> Iterator[tuple[int, int]]:
    """Yield wheels and driven wheels for every way in which the tires can be single or dual."""
    for at_drive, at_tag in product(TIRES_AT_A_WHEEL, TIRES_AT_A_WHEEL):
        if drive % at_drive == 0 and tag % at_tag == 0:
            rear = drive // at_drive
            wheels = steer + rear + tag // at_tag
            yield wheels, rear
            # All-wheel drive: the steer axle is driven too.
            yield wheels, steer + rear


RULE = Rule(
    "tire-count-unlike-axles",
    "a driver who is told of too few tires leaves one unchecked, and it may be the flat one",
    Severity.WARNING,
)
TIRE_COUNT = Plausibility(
    RulePage(
        RULE,
        "Counts of steer, drive and tag tires that do not add up to the wheels of the axle "
        "configuration, whether the tires are single or dual.",
        Example(
            "axles: {configuration: 6x4}\n"
            "tires:\n"
            "  steer: {count: 2}\n"
            "  drive: {count: 8}\n"
            "  tag: {count: 2}\n"
        ),
        Example(
            "axles: {configuration: 6x4}\n"
            "tires:\n"
            "  steer: {count: 2}\n"
            "  drive: {count: 8}\n"
            "  tag: not fitted\n"
        ),
        "The first number of a configuration counts wheels, a dual pair as one.",
        Standing.PRACTICE,
    ),
    check,
)
