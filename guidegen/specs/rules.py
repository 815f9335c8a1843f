"""What can be wrong with a spec file.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

UNKNOWN_FIELD = Rule(
    "unknown-field",
    "a field that the schema does not know is never printed, so the driver never sees the value",
)
QUANTITY_WITHOUT_MEASURE = Rule(
    "quantity-without-measure",
    "pounds and kilograms, psi and bar differ many times over, and a bare number says neither",
)
UNKNOWN_MEASURE = Rule(
    "unknown-measure",
    "an amount in a measure that nobody can convert cannot be checked or set at the truck",
)
WRONG_DIMENSION = Rule(
    "wrong-dimension",
    "a pressure where a volume belongs means that two values were swapped, and both are then wrong",
)
UNREADABLE_AMOUNT = Rule(
    "unreadable-amount",
    "an amount that can be read two ways is set the wrong way by half of the drivers",
)
BACKWARD_RANGE = Rule(
    "backward-range",
    "a range that runs backward is a typing error in one of its ends, and nobody knows which",
)
RANGE_WHERE_ONE_VALUE = Rule(
    "range-where-one-value",
    "a driver cannot check a gauge against a limit that is a range",
)
VALUE_OUT_OF_RANGE = Rule(
    "value-out-of-range",
    "a slipped digit on a card becomes a burst tire, an overfilled sump or a struck bridge",
)
TEXT_OF_WRONG_FORM = Rule(
    "text-of-wrong-form",
    "text that is empty or in another form tells a driver nothing, and matches no plate or tag",
)
NOT_A_DATE = Rule(
    "not-a-date",
    "nobody can tell which of two cards in a cab is the newer one",
)
RECORDED_WITHOUT_DAY = Rule(
    "recorded-without-day",
    "nobody can tell how old the value is, and whether the truck was changed since",
)
NOT_A_COUNT = Rule(
    "not-a-count",
    "a driver who is told of too few tanks or batteries leaves one unchecked",
)
NOT_YES_OR_NO = Rule(
    "not-yes-or-no",
    "steps for a device are printed or left out by this answer, so it may not be guessed",
)
UNKNOWN_CHOICE = Rule(
    "unknown-choice",
    "steps are chosen by this word, and an unknown one leaves the driver without the right ones",
)
CHOICE_TWICE = Rule("choice-twice", "one of the two was meant to be something else", Severity.ERROR)
TABLE_WHERE_VALUE = Rule(
    "table-where-value", "a value that is not where it is looked for is never printed"
)
LIST_WHERE_VALUE = Rule("list-where-value", "the driver can work to one value, not to several")
VALUE_WHERE_TABLE = Rule(
    "value-where-table", "fields that are not where they are looked for are never printed"
)
FIELD_MISSING = Rule(
    "field-missing", "a truck that cannot be told apart from the next gets the next one's guide"
)
VIN_CHECK_DIGIT = Rule(
    "vin-check-digit",
    "a mistyped VIN sends parts, recalls and this guide to another truck",
)
VIN_PLACEHOLDER = Rule(
    "vin-placeholder",
    "a made-up VIN passes the check digit and still belongs to no truck",
    Severity.WARNING,
)
VIN_YEAR = Rule(
    "vin-year",
    "year and VIN disagree, so one of them was copied from another truck",
    Severity.WARNING,
)
NOT_A_NAME_LIST = Rule(
    "not-a-name-list",
    "what was meant to stand on the card would be missing from it",
)
NOT_A_UNIT_LIST = Rule(
    "not-a-unit-list", "a driver who knows such a truck is not told what is other about this one"
)
TRAINED_ON_UNKNOWN_UNIT = Rule(
    "trained-on-unknown-unit",
    "a driver who is signed off on that truck looks for it in the list and does not find it",
)
UNIT_TWICE = Rule("unit-twice", "two files for one truck: drivers get whichever was read last")
MODEL_TWICE = Rule("model-twice", "two files for one model: units inherit whichever was read last")
UNKNOWN_MODEL = Rule(
    "unknown-model", "a unit without its model lacks every value that the model states"
)
UNKNOWN_YARD = Rule("unknown-yard", "a driver cannot find the truck at a yard that is not listed")
FILE_NAME_DIFFERS = Rule(
    "file-name-differs",
    "a file named for one truck that describes another is edited by mistake",
)
PRESSURES_OUT_OF_ORDER = Rule(
    "pressures-out-of-order",
    "a warning that comes after the spring brakes apply, or a cut-in above the cut-out, hides "
    "a failing air system",
)
VALUE_WITHOUT_SOURCE = Rule(
    "value-without-source",
    "drivers are held to a rule's own number, and one that nobody can look up is hearsay",
)
QUOTED_PAIR_DIFFERS = Rule(
    "quoted-pair-differs",
    "a limit that says one thing in feet and another in meters leaves the driver to choose",
)
RESERVED_UNIT_NUMBER = Rule(
    "reserved-unit-number",
    "the truck's folder would lie where the site keeps something else, or where Windows keeps a "
    "device, and the driver could not open the guide",
)
