"""Something that the truck has, without the lamp that warns of it.

Takes in the lamps and the sections of a unit; gives out a doubt for each thing whose usual lamp is
not on the list. Refuses no truck: older trucks were built with fewer lamps.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.lamps.needs import NEEDED_BY_THING
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

LAMPS = "lamps.fitted"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each thing of *case* whose lamp is not on its list of lamps."""
    fitted = case.chosen(LAMPS)
    if not fitted:
        return
    for thing, lamp in NEEDED_BY_THING:
        if lamp not in fitted and thing.is_on(case):
            yield Doubt(
                case.span(LAMPS),
                f"the truck has {thing.words}, and `{LAMPS}` does not name `{lamp}`",
                f"watch the lamps at key-on: add `{lamp}` if the truck has it; a unit's own list "
                "replaces the model's",
            )


RULE = Rule(
    "thing-without-lamp",
    "a lamp that the guide does not name is a lamp that the driver does not miss when it is dead",
    Severity.WARNING,
)
THING_WITHOUT_LAMP = Plausibility(
    RulePage(
        RULE,
        "A thing that trucks have a lamp for, without the lamp on the list: air brakes (low air), "
        "anti-lock brakes, hydraulic brakes, locks, power take-off, DEF, particulate filter, tilt "
        "cab, air suspension dump valve, gas detector and high voltage.",
        Example("brakes: {abs: yes}\nlamps: {fitted: [high_beam]}\n"),
        Example("brakes: {abs: yes}\nlamps: {fitted: [abs, high_beam]}\n"),
        "FMVSS 121 S5.1.5 asks for a low-air signal besides the gauge and S5.1.6 for a lamp of "
        "anti-lock brakes; 49 CFR 393.51(b) for a lamp of hydraulic brakes. The others are common "
        "practice. Older trucks may lack any of them, so this only warns.",
        Standing.PRACTICE,
    ),
    check,
)
