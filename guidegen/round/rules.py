"""What can be wrong with the states of procedures when they are put into one round.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule

STATE_CONTRADICTS_ITSELF = Rule(
    "state-contradicts-itself",
    "no truck can be in this state, so the driver leaves out one half of it and guesses which",
)
STATE_OUT_OF_REACH = Rule(
    "state-out-of-reach",
    "the driver comes to a check that cannot be done, and skips it or improvises",
)
CHECKS_EXCLUDE_ONE_ANOTHER = Rule(
    "checks-exclude-one-another",
    "each of the checks can be done, and no round holds all of them, so one is left out every day",
)
LEFT_OPEN = Rule(
    "left-open",
    "nothing in the round shuts the hood or cab again, and it opens on the road",
)
