"""A fluid check in a state that no procedure of the library covers.

Takes in how and in which state the maker wants fluids read; gives out a doubt if the guide then
has no check of that fluid. Refuses no truck: the shop may do the check.
"""

from collections.abc import Iterator
from itertools import product

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

KIND, CHECK, STATE = "transmission.kind", "transmission.check", "transmission.check_state"
STEERING = "power_steering.check_state"

COVERED = frozenset(
    {*product(("dipstick", "sight_glass"), ("cold", "warm", "idling")), ("display", "idling")}
)
"""How and in which state the fluid of an automatic transmission can be read by a driver."""


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each fluid of *case* whose check is in no guide."""
    how, state = case.word(CHECK), case.word(STATE)
    if how and how != "shop":
        if case.word(KIND) not in ("", "automatic"):
            yield _no_check(case, CHECK, f"{case.said(KIND)} and {case.said(CHECK)}")
        elif state and (how, state) not in COVERED:
            yield _no_check(case, STATE, f"{case.said(CHECK)} and {case.said(STATE)}")
    if case.lacks("engine") and case.word(STEERING) == "hot":
        yield _no_check(case, STEERING, f"{case.said(STEERING)} and `engine: not fitted`")


def _no_check(case: Case, fact: str, stated: str) -> Doubt:
    return Doubt(
        case.span(fact),
        f"{stated} do not go together in any procedure, so the guide has no such check",
        "read in the handbook how and when the fluid is checked; if only the shop can do it, state "
        "that",
    )


RULE = Rule(
    "check-state-without-procedure",
    "the driver gets no check of that fluid at all, and runs the transmission or the steering dry",
    Severity.WARNING,
)
CHECK_STATES = Plausibility(
    RulePage(
        RULE,
        "A transmission fluid that a driver checks in a way and state that no procedure has, such "
        "as on the display with the engine cold, or by a dipstick in a transmission that is not "
        "automatic; a hot check of the power steering without an engine.",
        Example("transmission: {kind: automatic, check: display, check_state: cold}\n"),
        Example("transmission: {kind: automatic, check: display, check_state: idling}\n"),
        "The conditions of the library's own procedures; a test compares.",
        Standing.MEANING,
    ),
    check,
)
