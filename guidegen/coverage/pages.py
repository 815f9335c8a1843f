"""The page of the rule on gaps.

Takes in nothing; gives out the page, with a piece of a unit file that leaves a gap.
Refuses nothing: a test runs the examples.
"""

from guidegen.coverage.rules import COVERAGE_GAP
from guidegen.rule_page import Example, RulePage, Standing

PAGES = (
    RulePage(
        COVERAGE_GAP,
        "An item that the law of the fleet's place lists for the driver to look at, and that no "
        "procedure in a truck's guide meets, though the truck may have the thing. "
        "`guidegen coverage` shows the whole list for each truck.",
        Example("horn: not fitted\n"),
        Example("horn: {electric: yes, air: no}\n"),
        "49 CFR 396.11(a)(1) and 392.7(a) in the United States, National Safety Code Standard 13, "
        "Schedule 1, in Canada, and the daily walkaround check of the DVSA in the United Kingdom; "
        "the lists stand in the folder `coverage` of the templates, each with source and edition. "
        "For the European Union no list was found, and none is made up.",
        Standing.RULE,
    ),
)
