"""What can be wrong with a fleet's own procedures.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

OWN_ID_TAKEN = Rule(
    "own-id-taken",
    "two procedures under one id: the driver would get one of them by luck",
)
REPLACES_NOTHING = Rule(
    "replaces-nothing",
    "what was meant to be replaced is still what the driver reads",
)
REPLACED_TWICE = Rule(
    "replaced-twice",
    "of two replacements the driver would get one by luck",
)
CAUTION_LOST = Rule(
    "caution-lost",
    "the driver is no longer warned of a hazard that is still there",
)
CAUTION_WEAKENED = Rule(
    "caution-weakened",
    "the driver is warned less gravely, later or on fewer trucks of a hazard that is still there",
)
STATE_LOST = Rule(
    "state-lost",
    "work that begins with the truck in another state can crush, burn or give a false reading",
)
APPLIES_CHANGED = Rule(
    "applies-changed",
    "trucks that need the procedure would have neither the library's nor the fleet's",
)
ORIGINAL_CHANGED = Rule(
    "original-changed",
    "the library may have learned of a hazard that the replacement says nothing of",
    Severity.WARNING,
)
STATEMENT_NEEDLESS = Rule(
    "statement-needless",
    "the office believes that a caution was given up, and drivers still read it",
    Severity.WARNING,
)
PLACE_UNKNOWN = Rule(
    "place-unknown",
    "a driver who works from top to bottom meets it at the wrong time",
)
DATE_UNREADABLE = Rule(
    "date-unreadable",
    "nobody can tell when a caution was given up, or whether that still holds",
)
OWN_FILE_UNREAD = Rule(
    "own-file-unread",
    "what stands in it reaches no driver, and the office believes that it does",
    Severity.WARNING,
)
HOUSE_RULE_MARKUP = Rule(
    "house-rule-markup",
    "what is no plain text can hide a rule, run a script on the tablet, or be lost on paper",
)
HOUSE_RULE_LINK = Rule(
    "house-rule-link",
    "a cab has no signal, so the driver taps on a page that does not open",
)
HOUSE_RULE_TOO_LONG = Rule(
    "house-rule-too-long",
    "nobody reads a handbook in a cab, and the rule that counts is in it",
)
HOUSE_RULE_TWICE = Rule(
    "house-rule-twice",
    "of two that are alike one is mended one day, and the driver reads both",
)
HOUSE_RULES_INCOMPLETE = Rule(
    "house-rules-incomplete",
    "a driver who does not see what the rules are of, or finds none, does not keep them",
)

GIVEN_UP = frozenset({CAUTION_LOST, CAUTION_WEAKENED, STATE_LOST, APPLIES_CHANGED})
"""A procedure with these alone can be read, and the report shows what it gives up."""
