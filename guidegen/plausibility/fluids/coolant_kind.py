"""Coolant that is named by its color alone.

Takes in the coolant of a unit; gives out a doubt if no word says what it is made of.
Refuses no truck: that colors do not tell kinds is common practice.
"""

import re
from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing

COOLANT = "cooling.coolant"
_BASE_OR_ADDITIVES = re.compile(
    r"ethylene|propylene|glycol|glycerin|organic|extended|long-life|hybrid|silicate|nitrite|"
    r"phosphate|additive|conventional|conductivity|\b[HPN]?OAT\b|\bASTM\b|\bSAE J",
    re.IGNORECASE,
)


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the coolant of *case* is known by nothing but its color."""
    text = case.word(COOLANT)
    if text and not _BASE_OR_ADDITIVES.search(text):
        yield Doubt(
            case.span(COOLANT),
            f"{case.said(COOLANT)} does not say what the coolant is made of",
            "copy the kind from the label, such as `extended-life ethylene glycol coolant, red`",
        )


RULE = Rule(
    "coolant-kind-not-named",
    "two coolants of one color can turn to jelly when they are mixed, and the engine boils over",
    Severity.WARNING,
)
COOLANT_KIND = Plausibility(
    RulePage(
        RULE,
        "A coolant whose text names neither its base (such as ethylene glycol) nor its additives "
        "(such as extended-life, organic-acid, nitrite-free).",
        Example("cooling: {coolant: red coolant}\n"),
        Example("cooling: {coolant: 'extended-life ethylene glycol coolant, red'}\n"),
        "No standard ties colors to kinds.",
        Standing.PRACTICE,
    ),
    check,
)
