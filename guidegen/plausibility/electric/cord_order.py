"""Cords of the block heater that are not in the order of their names.

Takes in the lengths of a unit's cords; gives out a doubt where a longer one is not longer.
Refuses such a table: a cord between two lengths is looked up in the row of the longer one.
"""

import itertools
from collections.abc import Iterator

from guidegen.finding import Rule
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.rule_page import Example, RulePage, Standing
from guidegen.units.cords import CORDS
from guidegen.units.model import Layer, StatedIn


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt for each two neighbors among the cords of *case* that do not rise."""
    names = [f"block_heater.{cord}" for cord in CORDS]
    for shorter, longer in itertools.pairwise(names):
        low, high = case.low(shorter), case.low(longer)
        if low is None or high is None or low < high:
            continue
        stated = shorter if _is_usual(case, longer) else longer
        yield Doubt(
            case.span(stated),
            f"{case.said(longer)} is not longer than {case.said(shorter)}",
            "state the four lengths from the shortest to the longest, or delete the one that is "
            "out of order",
        )


def _is_usual(case: Case, cord: str) -> bool:
    """Whether nobody stated the length, so that the usual one holds."""
    provenance = case.unit.facts[cord].provenance
    return isinstance(provenance, StatedIn) and provenance.layer is Layer.LIBRARY


RULE = Rule(
    "cords-out-of-order",
    "a driver who reads the wrong row of the table takes a cord that is too thin for its length",
)
CORD_ORDER = Plausibility(
    RulePage(
        RULE,
        "Lengths of the short, medium, long and longest cord of the block heater that do not rise; "
        "a usual length stands for each that is not stated.",
        Example("block_heater: {voltage: 120 V, power: 900 W, medium_cord: 80 ft}\n"),
        Example(
            "block_heater: {voltage: 120 V, power: 900 W, medium_cord: 80 ft, long_cord: 90 ft}\n"
        ),
        "The table is read from the shortest cord to the longest.",
        Standing.MEANING,
    ),
    check,
)
