"""What can be wrong with releases and with what they leave behind.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

RECORD_DAMAGED = Rule(
    "record-damaged", "nobody can tell any more which guide a card in a cab was printed from"
)
RECORD_CUT = Rule(
    "record-cut-off", "a card of a revision that is gone would be called unknown, and not outdated"
)
RECORD_WITHOUT_HEAD = Rule(
    "record-without-head",
    "revisions that were cut off at the end of the record would not be missed",
    Severity.WARNING,
)
OUTPUTS_DAMAGED = Rule(
    "list-of-pages-damaged", "nobody can show any more which pages a driver was given"
)
PAGES_NOT_DRAWN = Rule(
    "pages-not-as-published",
    "pages that are drawn now need not look like those that a driver was given",
    Severity.WARNING,
)
EDITION_DAMAGED = Rule(
    "edition-damaged", "what changed since a card was printed can no longer be told to its driver"
)
RELEASE_BEFORE_THE_LAST = Rule(
    "release-before-the-last",
    "of two cards in a cab, the driver takes the one with the later date for the newer one",
)
UNIT_NOT_RELEASED = Rule(
    "unit-not-released",
    "the truck's cards stay as they are, and the faults of its guide are not mended by waiting",
    Severity.WARNING,
)
GUIDE_NOT_RELEASED = Rule(
    "guide-not-released",
    "a card printed now carries no revision, and nobody has approved what it says",
    Severity.WARNING,
)
