"""What can be wrong with a project as a whole.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

FILE_MISSING = Rule("file-missing", "without it no driver gets a guide")
FOLDER_NOT_EMPTY = Rule(
    "folder-not-empty", "a new fleet written over an old one would lose the old one's values"
)
NO_UNITS = Rule("no-units", "without a unit file there is no truck to make a guide for")
APP_FILE_FAULTY = Rule(
    "app-file-faulty", "without it the guide does not open where there is no signal"
)
UNIT_BROKEN = Rule(
    "unit-broken", "the truck has no guide until the program is mended; its driver must be told"
)
SITE_NOT_PROVED = Rule(
    "site-not-proved", "a copy on a stick is read for months, and nobody can call it back"
)
NAME_NOT_FOR_STICKS = Rule(
    "name-not-for-sticks", "a tablet or a computer in the office cannot open the copy"
)
SITE_WITHOUT_PROOF = Rule(
    "site-without-proof", "nobody has compared its cautions and values with the guides"
)
SITE_CHANGED = Rule(
    "site-changed-since-proof",
    "a value that was changed by hand is read at the truck as if it were proved",
)
SITE_BEHIND = Rule(
    "site-behind",
    "drivers go on reading what the specs no longer say",
    Severity.WARNING,
)
TARGET_IN_THE_WAY = Rule(
    "target-not-its-own", "what others put there would be lost to whoever reads it now"
)
OTHER_RUN = Rule(
    "other-run-under-way", "of two runs at once, drivers could get what neither of them meant"
)
TARGET_NOT_WRITTEN = Rule(
    "target-not-written", "drivers go on reading the version before, with all that is wrong in it"
)
VERSION_DAMAGED = Rule(
    "version-damaged", "drivers would read pages that nobody has proved, or find some gone"
)
NO_VERSION_BEFORE = Rule(
    "no-version-before", "drivers go on reading the version that was to be taken back"
)
VERSION_LEFT = Rule(
    "version-left-over", "the disk fills up, and the next version may not fit", Severity.WARNING
)
