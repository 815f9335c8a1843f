"""What can be wrong between a list of the law and the guides.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

COVERAGE_GAP = Rule(
    "coverage-gap",
    "the law wants the driver to look at it before the truck moves, and nobody has shown how",
)
COVERAGE_WITHOUT_STOP = Rule(
    "coverage-without-stop",
    "a driver who finds a fault that takes the truck off the road is not told so, and drives",
    Severity.WARNING,
)
COVERAGE_UNKNOWN_PROCEDURE = Rule(
    "coverage-unknown-procedure",
    "a list that names a procedure that is not there holds every truck for uncovered, or hides a "
    "gap",
)
COVERAGE_LIST_UNREADABLE = Rule(
    "coverage-list-unreadable",
    "a list that cannot be read is not compared, and what the guides lack is not seen",
)
COVERAGE_LIST_TWICE = Rule(
    "coverage-list-twice",
    "two lists for one jurisdiction: the guides are compared with whichever was read last",
)
