"""A warning lamp for something that the truck does not have.

Takes in the lamps and the sections of a unit; gives out a doubt for each lamp with nothing to warn
of. Refuses both at once: either the lamp was copied from another truck, or the thing was missed.
"""

from collections.abc import Iterator

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.lamps.needs import NEEDED_BY_LAMP
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

LAMPS = "lamps.fitted"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each lamp of *case* whose thing it does not have."""
    for lamp in case.chosen(LAMPS):
        thing = NEEDED_BY_LAMP.get(lamp)
        if thing is not None and thing.is_on(case) is False:
            yield Doubt(
                case.span(LAMPS),
                f"`{LAMPS}` names `{lamp}`, and the truck does not have {thing.words}",
                f"look at the truck: delete `{lamp}`, or state that it has {thing.words}",
            )


RULE = Rule(
    "lamp-of-thing-not-fitted",
    "a driver who waits for a lamp that never comes on learns not to look at lamps",
)
LAMP_WITHOUT_THING = Plausibility(
    RulePage(
        RULE,
        "A lamp in the list of lamps whose thing is stated as not fitted, such as a DEF lamp on a "
        "truck without DEF.",
        Example("def_system: not fitted\nlamps: {fitted: [def_level, high_beam]}\n"),
        Example("def_system: not fitted\nlamps: {fitted: [high_beam]}\n"),
        "Lamps that may have another reason, such as the trailer's anti-lock lamp, are let pass.",
        Standing.MEANING,
    ),
    check,
)
