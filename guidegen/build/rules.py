"""What can be wrong with a project as a whole.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule

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
