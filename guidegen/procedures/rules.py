"""What can be wrong with a procedure template.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

# Of the file as a whole.
PART_MISSING = Rule(
    "part-missing",
    "a driver who is not told where to stand, in what state the truck must be or what to look for"
    " fills the gap by guessing",
)
PART_OF_WRONG_KIND = Rule(
    "part-of-wrong-kind",
    "what does not stand where it is looked for is not printed, and the driver works without it",
)
UNKNOWN_PART = Rule(
    "unknown-part",
    "what stands under a name that nobody reads is never printed, and it may be the caution",
)
ID_OF_WRONG_FORM = Rule(
    "id-of-wrong-form",
    "cards and links find a text by its id, and a broken link leaves the driver at the wrong page",
)
ID_TWICE = Rule(
    "id-twice",
    "of two with one id only one is printed, and the driver goes without the other",
)
PROCEDURE_TWICE = Rule(
    "procedure-twice",
    "two files for one procedure: the driver gets whichever was read last",
)
FILE_NAME_NOT_ID = Rule(
    "file-name-not-id",
    "whoever mends a procedure opens the file of that name, and would mend another one",
)
UNKNOWN_CHAPTER = Rule(
    "unknown-chapter",
    "a procedure outside the chapters is in no contents list, so no driver finds it",
)
UNKNOWN_STATION = Rule(
    "unknown-station",
    "a driver who stands in the wrong place cannot see the gauge, or stands where the truck rolls",
)
UNKNOWN_STATE = Rule(
    "unknown-state",
    "work begun on a truck in the wrong state burns, crushes or gives a false reading",
)
UNKNOWN_SIGNAL = Rule(
    "unknown-signal",
    "drivers judge a hazard by its signal word, and a word of our own says nothing to them",
)

NAMES_NO_MODEL = Rule(
    "condition-names-no-model",
    "what the office wrote for the trucks of a model reaches none of them, or all trucks",
)
NAMES_NO_YARD = Rule(
    "condition-names-no-yard",
    "what the office wrote for the trucks of a yard reaches none of them, or all trucks",
)

# Of cautions, steps and texts.
GUARDS_NO_STEP = Rule(
    "guards-no-step",
    "a caution that stands before no step is never printed, and nobody else warns the driver",
)
CAUTION_INCOMPLETE = Rule(
    "caution-incomplete",
    "a driver who is not told the hazard, what it can do and how to avoid it cannot stay clear",
)
EMPTY_TEXT = Rule(
    "empty-text",
    "an empty line on a card is read as a line that failed to print, and nobody trusts the rest",
)
TEXT_TOO_LONG = Rule(
    "text-too-long",
    "nobody reads a page of text beside a running truck, and what matters is in it",
)
STEP_TOO_LONG = Rule(
    "step-too-long",
    "a driver looks at the guide, then at the truck, and forgets the end of a long step between",
)
TWO_INSTRUCTIONS = Rule(
    "two-instructions",
    "of two instructions under one number the second is skipped",
)
STATION_UNDECIDED = Rule(
    "station-undecided",
    "the driver would be sent to the place where another truck has it, or to none",
)

# Of timers.
UNKNOWN_TIMER = Rule(
    "unknown-timer",
    "a timer that nobody can read is not drawn, and the driver counts the seconds in his head",
)
TIMER_CONTRADICTS_ITSELF = Rule(
    "timer-contradicts-itself",
    "the tablet would hold a time to a pressure, or judge what nobody has read off",
)
TIMER_FACT_OF_WRONG_KIND = Rule(
    "timer-fact-of-wrong-kind",
    "a check that is timed against a value of another kind passes brakes that fail",
)

# Of the inspection round.
UNKNOWN_ROUND_PART = Rule(
    "unknown-round-part",
    "a check whose place in the round nobody can read is left out of the round, and is not done",
)
MEANS_WITHOUT_EFFECT = Rule(
    "means-without-effect",
    "what is done only for the state that it leaves, and leaves none, is never in a round, so the"
    " hood stays shut",
)
LATER_NO_STEP = Rule(
    "later-no-step",
    "the driver is sent back to a step that is not there, and leaves with the hood open",
)

# Of placeholders.
PLACEHOLDER_NOT_A_FACT = Rule(
    "placeholder-not-a-fact",
    "what is computed inside a text is no value that anybody stated for the truck or can trace",
)
NUMBER_IN_TEMPLATE = Rule(
    "number-in-template",
    "a number typed into a procedure is printed for every truck, and is right for one of them",
)
MEASURE_AFTER_PLACEHOLDER = Rule(
    "measure-after-placeholder",
    "the value brings its own measure, so the driver reads it twice, or reads two that differ",
)

# Of names and conditions.
UNKNOWN_FACT = Rule(
    "unknown-fact",
    "no truck can state a fact that is not in the catalog, so its value or step is on no guide",
)
UNKNOWN_SECTION = Rule(
    "unknown-section",
    "no truck can have a section that is not in the catalog, so the step would be on no guide",
)
UNREADABLE_CONDITION = Rule(
    "unreadable-condition",
    "a condition that can be read two ways prints a step on trucks that must not have it",
)
LITERAL_OF_WRONG_KIND = Rule(
    "literal-of-wrong-kind",
    "a fact is never equal to a value of another kind, so the step is left out on every truck",
)
YES_OR_NO_EXPECTED = Rule(
    "yes-or-no-expected",
    "only a yes or no can decide alone whether a driver gets a step",
)
TEXT_COMPARED = Rule(
    "text-compared",
    "two clerks type one thing in two ways, and half of the trucks lose the step",
)
RANGE_COMPARED = Rule(
    "range-compared",
    "a range lies neither above nor below a value inside it, so the step would come and go by luck",
)
UNKNOWN_FIGURE = Rule(
    "unknown-figure", "the driver would be told of a gauge or control and not shown it"
)
DEAD_CONDITION = Rule(
    "dead-condition",
    "what stands under a condition that is never true is on no truck's guide, caution or not",
)
NEEDLESS_CONDITION = Rule(
    "needless-condition",
    "a condition that is always true was meant to hold something back, and does not",
    Severity.WARNING,
)
CONDITION_TOO_LARGE = Rule(
    "condition-too-large",
    "a condition with so many parts cannot be proved to hold on any truck, by people or by us",
)
