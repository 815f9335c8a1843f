"""The pages of the rules of style.

Takes in nothing; gives out one page a rule, with a wrong and a right piece of a procedure file.
Refuses nothing: a test runs the examples.
"""

from guidegen.procedures.style import rules
from guidegen.rule_page import Example, RulePage, Standing

PAGES = (
    RulePage(
        rules.STEP_NOT_AN_INSTRUCTION,
        "A step that does not begin with a verb of the glossary. A condition, a time or a place "
        "may stand before the verb, parted from it by a comma: `If the level is low, add oil.`",
        Example("steps:\n  - id: start\n    text: The engine is started.\n"),
        Example("steps:\n  - id: start\n    text: In the cab, start the engine.\n"),
        "ASD-STE100: active voice and imperative in the steps of a procedure, one instruction "
        "each, as two pages on technical writing give it. The list of verbs is the library's own, "
        "in glossary.yml.",
        Standing.SECONDARY,
    ),
    RulePage(
        rules.SIGNAL_WORD_UNFIT,
        "A caution whose text says more or less than its signal word means: injury under NOTICE, "
        "death or serious injury under CAUTION, no injury under CAUTION, neither death nor serious "
        "injury under WARNING or DANGER, `will` under WARNING, and no `will` under DANGER.",
        Example(
            "cautions:\n"
            "  - id: roll\n"
            "    signal: CAUTION\n"
            "    guards: start\n"
            "    hazard: The truck can roll.\n"
            "    consequence: It can crush a person.\n"
            "    avoid: Chock the wheels first.\n"
        ),
        Example(
            "cautions:\n"
            "  - id: roll\n"
            "    signal: WARNING\n"
            "    guards: start\n"
            "    hazard: The truck can roll.\n"
            "    consequence: It can crush a person.\n"
            "    avoid: Chock the wheels first.\n"
        ),
        "ANSI Z535.4 and Z535.6 (2007 and later), definitions of the four signal words, as two "
        "makers of safety signs print them. Which words speak of serious and of lesser injury is a "
        "list of ours.",
        Standing.SECONDARY,
    ),
    RulePage(
        rules.HARD_TO_READ,
        "A procedure whose texts together ask for more than 8 years of school by the formula of "
        "Flesch and Kincaid.",
        Example(
            "steps:\n"
            "  - id: start\n"
            "    text: Check the functionality of the automatic temperature regulation "
            "installation.\n"
            "if_not:\n"
            "  - Immediately communicate the malfunctioning installation to the organization's "
            "maintenance department.\n"
        ),
        Example(
            "steps:\n"
            "  - id: start\n"
            "    text: Check that the heater works.\n"
            "if_not:\n"
            "  - Report it to the shop.\n"
        ),
        "The formula is that of the US Navy (1975); the bound of 8 is common practice.",
        Standing.PRACTICE,
    ),
    RulePage(
        rules.SECOND_NAME,
        "A word that the glossary bans because it is a second name for a thing. The glossary of "
        "the library stands in glossary.yml, and the fleet may keep its own.",
        Example("steps:\n  - id: start\n    text: Set the hand brake.\n"),
        Example("steps:\n  - id: start\n    text: Set the parking brake.\n"),
        "ASD-STE100: one name for each thing, as two pages on technical writing give it. Which "
        "name it is, is the library's own choice.",
        Standing.SECONDARY,
    ),
    RulePage(
        rules.REFERENCE_WITHOUT_SOURCE,
        "A reference that names neither a rule, standard, handbook or file that can be looked up, "
        "nor says `common practice, no source` or `stated from memory`.",
        Example("references:\n  - Everybody does it like this\n"),
        Example("references:\n  - Order of the steps; common practice, no source\n"),
        "House rule for the library: a step of the law, a step of the maker and a habit are told "
        "apart.",
        Standing.HOUSE,
    ),
)
