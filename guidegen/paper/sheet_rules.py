"""What can be wrong with cards that are to be printed on sheets.

Takes in nothing; gives out the rules. Refuses rules without a reason.
"""

from guidegen.finding import Rule

CARD_TOO_BIG_FOR_SHEET = Rule(
    "card-too-big-for-sheet",
    "a card that is shrunk or cut to go on the sheet loses words, or is too small to read in a cab",
)
SHEET_NOTE_UNPRINTABLE = Rule(
    "sheet-note-unprintable",
    "cut cards of two trucks look alike, and a sheet that does not say whose it is gets mixed up",
)
