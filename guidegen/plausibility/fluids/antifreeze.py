"""A share of antifreeze that protects less than it should.

Takes in the share of a unit; gives out a doubt outside 40 to 60 percent by volume.
Refuses no truck: the label of the antifreeze comes first.
"""

from collections.abc import Iterator

from guidegen.finding import Rule, Severity
from guidegen.plausibility.case import Case, plain
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.plausibility.yardstick import yardstick
from guidegen.quantity.model import Dimension
from guidegen.rule_page import Example, RulePage, Standing

SHARE = "cooling.antifreeze_share"
LEAST, MOST = (yardstick(text, Dimension.SHARE) for text in ("40 %", "60 %"))


def check(case: Case) -> Iterator[Doubt]:
    """Yield a doubt if the coolant of *case* has too little or too much antifreeze."""
    low, high = case.low(SHARE), case.high(SHARE)
    if low is None or high is None:
        return
    if low < LEAST.exact or high > MOST.exact:
        yield Doubt(
            case.span(SHARE),
            f"{case.said(SHARE)} is not between {plain(LEAST)} and {plain(MOST)}",
            "read the share on the label of the antifreeze again, by volume",
        )


RULE = Rule(
    "antifreeze-share-unusual",
    "too little antifreeze freezes and cracks the block, and beyond some 60 percent more of it "
    "protects less",
    Severity.WARNING,
)
ANTIFREEZE = Plausibility(
    RulePage(
        RULE,
        "A share of antifreeze below 40 or above 60 percent by volume.",
        Example("cooling: {antifreeze_share: 70 %}\n"),
        Example("cooling: {antifreeze_share: 50 %}\n"),
        "Pure ethylene glycol freezes near -13 °C, and protection worsens above some 60 to 70 "
        "percent, as two sellers of coolants say alike; by tables of its freezing point, 40 "
        "percent by volume holds to -25 °C and 60 percent to -52 °C. The label of the antifreeze "
        "comes first, so this only warns.",
        Standing.SECONDARY,
    ),
    check,
)
