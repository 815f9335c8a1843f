"""Parts of an engine on a truck that has none.

Takes in the sections of a unit without an engine; gives out a doubt for each part that only an
engine has. Refuses such a truck: the sheet was filled in for another one.
"""

from collections.abc import Iterator

from guidegen.finding import Note, Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

PARTS = ("air_cleaner", "def_system", "aftertreatment", "engine_brake", "idle_adjustment")
"""Fuel tanks and block heaters are not among them: a heater in an electric truck may burn fuel or
take house current."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each part of an engine that *case* has without one."""
    if not case.lacks("engine"):
        return
    for part in PARTS:
        if case.has(part):
            yield Doubt(
                case.section_span(part),
                f"`{part}` is fitted, and `engine` is not",
                f"write `{part}: not fitted`, or state the engine",
                (Note("`engine` stands at", case.section_span("engine")),),
            )


RULE = Rule(
    "engine-part-without-engine",
    "a driver who looks for the DEF tank of an electric truck stops believing the card",
)
ENGINE_PARTS = Plausibility(
    RulePage(
        RULE,
        "An air cleaner, DEF system, exhaust aftertreatment, engine brake or idle adjustment on a "
        "truck whose engine is not fitted.",
        Example("engine: not fitted\ndef_system: {tank_capacity: 10 gal}\n"),
        Example("engine: not fitted\ndef_system: not fitted\n"),
        "These parts belong to an engine.",
        Standing.MEANING,
    ),
    check,
)
