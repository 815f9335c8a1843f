"""Two controls of one kind in one place.

Takes in where a unit's controls are; gives out a doubt for each two that the same words find.
Refuses no truck: a place is told in free words, and two switches may share a row.
"""

import re
from collections.abc import Iterator
from functools import cache
from itertools import combinations

from guidegen.finding import Note, Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

CONTROLS = (
    "parking_brake.location",
    "brakes.traction_switch",
    "engine_brake.control",
    "differential_lock.control",
    "inter_axle_lock.control",
    "pto.control",
    "suspension.dump_control",
    "fifth_wheel.slide_control",
    "cruise.control",
    "idle_adjustment.control",
    "aftertreatment.inhibit_location",
    "aftertreatment.parked_regeneration.control_location",
    "lights.hazard_control",
    "wipers.control",
    "wipers.washer_control",
    "mirrors.power_control",
    "mirrors.heat_control",
    "horn.air_control",
)
"""Facts that say where a driver finds a control with his hand."""

KINDS = frozenset({"button", "knob", "lever", "switch"})
MADE_AS = frozenset({"guarded", "push", "red", "rocker", "rotary", "slide", "toggle"})
"""How a switch is made; a driver who feels for it in the dark does not see that."""

FILLING = frozenset({"a", "at", "in", "marked", "of", "on", "the", "with"})
FEWEST = 3
"""Words that a place must have to be one: `dash` alone is none."""


_SINGULAR = {plural: kind for kind in KINDS for plural in (f"{kind}s", f"{kind}es")}


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each two controls of *case* that the same words find."""
    named = [fact for fact in CONTROLS if case.word(fact)]
    for one, other in combinations(named, 2):
        mine, its = _words(case.word(one)), _words(case.word(other))
        place = mine - KINDS
        if mine & its & KINDS and place == its - KINDS and len(place) >= FEWEST:
            yield Doubt(
                case.span(other),
                f"`{other}` and `{one}` are in one place: `{' '.join(sorted(place))}`",
                "look at the truck: say what tells the two apart, such as `second from the left`",
                (Note(f"`{one}` stands at", case.span(one)),),
            )


@cache
def _words(text: str) -> frozenset[str]:
    words = re.findall(r"[a-z0-9'-]+", text.lower())
    return frozenset(_SINGULAR.get(word, word) for word in words) - MADE_AS - FILLING


RULE = Rule(
    "two-controls-in-one-place",
    "a driver who reaches for one switch in the dark works the other",
    Severity.WARNING,
)
ONE_PLACE = Plausibility(
    RulePage(
        RULE,
        "Two buttons, knobs, levers or switches whose places are told in the same words, however "
        "they are made.",
        Example(
            "cruise:\n  control: toggle switch on the dash, top row, left\n"
            "idle_adjustment:\n  control: dash switch, top row, left\n"
        ),
        Example(
            "cruise:\n  control: toggle switch on the dash, top row, left\n"
            "idle_adjustment:\n  control: dash switch, top row, second from the left\n"
        ),
        "Places are free words, so two that are told alike may still be two places; then the words "
        "are too few to find either.",
        Standing.PRACTICE,
    ),
    check,
)
