"""What can be wrong with the pages that people write around the trucks' own.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule

FRAME_WITHOUT_SLOT = Rule(
    "frame-without-slot", "without its slot a page has no place for the trucks, and shows none"
)
