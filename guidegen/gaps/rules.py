"""What can be wrong with the age of what is recorded.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

VALUE_TO_CHECK_AGAIN = Rule(
    "value-to-check-again",
    "tires, fluids and settings are changed in the shop, and a guide that nobody compares with "
    "the truck drifts away from it",
    Severity.WARNING,
)
RECORDED_ON_DAY_TO_COME = Rule(
    "recorded-on-day-to-come",
    "a slipped digit in the day keeps an old value from ever being checked again",
    Severity.WARNING,
)
