"""What can be wrong when a procedure meets a truck.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule

NOT_ON_RECORD = Rule(
    "not-on-record",
    "nobody has said whether the truck has it, so the guide could show a step that cannot be done "
    "or leave out one that must be",
)
FACT_NOT_ON_RECORD = Rule(
    "fact-not-on-record",
    "the guide would tell the driver to look for a value and leave the value blank",
)
FACT_OF_THING_NOT_FITTED = Rule(
    "fact-of-thing-not-fitted",
    "the driver would look for a control or gauge that this truck does not have",
)
FIGURE_NOT_DRAWABLE = Rule(
    "figure-not-drawable",
    "a drawing that does not fit the truck would show wheels or marks that it does not have",
)
PROCEDURE_WITHOUT_STEPS = Rule(
    "procedure-without-steps",
    "a heading without a step looks like work that is done",
)
