"""What can be wrong with the record of printed cards.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

PRINTINGS_DAMAGED = Rule(
    "printings-damaged", "nobody can tell any more which cards hang in which cab"
)
PRINTINGS_CUT = Rule(
    "printings-cut-off", "a card whose line is gone stays in its cab when it is out of date"
)
PRINTINGS_WITHOUT_HEAD = Rule(
    "printings-without-head",
    "printings that were cut off at the end of the record would not be missed",
    Severity.WARNING,
)
DECK_DAMAGED = Rule(
    "printed-words-damaged", "what is wrong on a card in a cab can no longer be told"
)
PRINTING_BEFORE_THE_LAST = Rule(
    "printing-before-the-last",
    "of two printings of a card, the one with the later date is taken for the one in the cab",
)
PRINTING_NOT_RECORDED = Rule(
    "printing-not-recorded", "cards that nobody has on record are never asked back"
)
