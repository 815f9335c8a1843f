"""A control that is named in one place and not fitted in another.

Takes in choices of a unit that name a pedal or a device; gives out a doubt if the truck does not
have it. Refuses such a truck: a step would tell the driver to press a pedal that is not there.
"""

from collections.abc import Iterator

from guidegen.finding import Note, Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

DROPS_OUT, ENGAGED = "engine_brake.drops_out", "pto.engagement"


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each thing that *case* names and does not have."""
    for fact, choice, section in _named(case):
        if case.lacks(section):
            yield Doubt(
                case.span(fact),
                f"`{fact}` names `{choice}`, and `{section}` is not fitted",
                f"look at the truck: delete `{choice}`, or state `{section}`",
                (Note(f"`{section}` stands at", case.section_span(section)),),
            )
    if "abs" in case.chosen(DROPS_OUT) and case.value("brakes.abs") is False:
        yield Doubt(
            case.span(DROPS_OUT),
            f"`{DROPS_OUT}` names `abs`, and {case.said('brakes.abs')}",
            "look at the truck: delete `abs`, or write `abs: yes` below `brakes`",
        )


def _named(case: Case) -> Iterator[tuple[str, str, str]]:
    """Yield fact, choice and the section that the choice needs."""
    for choice in ("clutch", "cruise"):
        if choice in case.chosen(DROPS_OUT):
            yield DROPS_OUT, choice, choice
    if case.word(ENGAGED) == "clutch":
        yield ENGAGED, "clutch", "clutch"
    if case.word("transmission.kind") == "manual":
        yield "transmission.kind", "manual", "clutch"


RULE = Rule(
    "control-of-thing-not-fitted",
    "a driver who is told to press a pedal that is not there presses the one beside it",
)
NAMED_THINGS = Plausibility(
    RulePage(
        RULE,
        "An engine brake that drops out with a clutch pedal, cruise control or anti-lock brakes, a "
        "power take-off that is engaged with the clutch pedal, or a manual transmission, on a "
        "truck that does not have the thing.",
        Example("clutch: not fitted\npto: {engagement: clutch, control: dash switch}\n"),
        Example("clutch: not fitted\npto: {engagement: idle, control: dash switch}\n"),
        "`clutch` is a clutch with a pedal; a transmission that shifts by itself is an automated "
        "one.",
        Standing.MEANING,
    ),
    check,
)
