"""What can be wrong with the cards that a fleet asks for.

Takes in nothing; gives out the rules. Refuses rules without a reason.
"""

from guidegen.finding import Rule

CARD_TWICE = Rule("card-twice", "one of the two would be printed over the other")
CARD_EMPTY = Rule("card-empty", "an empty card hangs in the cab where the driver looks for help")
CARD_NAMES_UNKNOWN = Rule(
    "card-names-unknown", "what was meant to stand on the card would be missing from it"
)
CARD_WITHOUT_ADDRESS = Rule("card-without-address", "the code on the card leads a driver nowhere")
CARD_WITHOUT_DATE = Rule(
    "card-without-date", "nobody can tell which of two cards in a cab is the newer one"
)
