"""What can be wrong with how a procedure is written.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

STEP_NOT_AN_INSTRUCTION = Rule(
    "step-not-an-instruction",
    "a driver who reads what is, and not what to do, stands there and does nothing",
)
SIGNAL_WORD_UNFIT = Rule(
    "signal-word-unfit",
    "a signal word that says more or less than the hazard teaches drivers to skip all of them",
)
HARD_TO_READ = Rule(
    "hard-to-read",
    "a tired driver in the rain gives up on long words and long sentences, and guesses",
    Severity.WARNING,
)
SECOND_NAME = Rule(
    "second-name-for-one-thing",
    "two names for one thing are looked for at two places, and one of them is not there",
)
REFERENCE_WITHOUT_SOURCE = Rule(
    "reference-without-source",
    "nobody in the office can tell whether the step is the law's, the maker's or a habit of ours",
)

GLOSSARY_UNREADABLE = Rule(
    "glossary-unreadable",
    "names that cannot be read are not compared, and the driver meets two for one thing",
)
GLOSSARY_CONTRADICTS = Rule(
    "glossary-contradicts",
    "a name that is wanted at one place and banned at another leaves whoever writes to choose",
)
