"""What can be wrong with a project as a whole.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule

FILE_MISSING = Rule("file-missing", "without it no driver gets a guide")
FILE_NOT_READABLE = Rule(
    "file-not-readable", "a file that cannot be read holds values that no driver gets"
)
FOLDER_NOT_EMPTY = Rule(
    "folder-not-empty", "a new fleet written over an old one would lose the old one's values"
)
PROOF_FAILED = Rule(
    "proof-failed", "a page that does not say what the guide says can send a driver the wrong way"
)
NO_UNITS = Rule("no-units", "without a unit file there is no truck to make a guide for")
SITE_IN_USE = Rule("site-in-use", "half of an old guide and half of a new one is worse than either")
