"""The page of a rule that is checked as soon as pressures are read.

Takes in nothing; gives out the page. Refuses to check again: `guidegen.specs.agree` has compared
the pressures of each file, and of each unit with its model.
"""

from guidegen.rule_page import Example, RulePage, Standing
from guidegen.specs.rules import PRESSURES_OUT_OF_ORDER

ORDER_PAGE = RulePage(
    PRESSURES_OUT_OF_ORDER,
    "Air pressures that do not rise in the order in which things happen: spring brakes, low-air "
    "warning, cut-in, cut-out.",
    Example("brakes:\n  air: {low_air_warning: 65 psi, cut_in: 130 psi, cut_out: 105 psi}\n"),
    Example("brakes:\n  air: {low_air_warning: 65 psi, cut_in: 105 psi, cut_out: 130 psi}\n"),
    "FMVSS 121 S5.1.1 and S5.1.5 (warning, cut-in) and the CDL manual, section 5 (spring brakes, "
    "governor).",
    Standing.RULE,
)
