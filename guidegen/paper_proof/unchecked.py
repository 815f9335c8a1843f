"""What the proof of paper does not look at.

Takes in nothing; gives out the statements that every verdict shows.
Refuses to be shorter than the truth.
"""

_STATEMENTS = """
Whether the letters of the fonts look like the letters that they stand for: what is read back is
 what the file says that they are.
Whether a line may end in a word where it does: after a hyphen, a dash or a slash it may.
Lines, borders and grounds but for their place: the kinds of cautions are told apart by their words.
What a printer makes of the file: colors, scale, cut and laminate.
Whether a code still reads when the card is scratched or bent: it is read as drawn, and blurred.
Factors of the measures: the proof reckons on its own, and with the same table of factors.
Names of author and program in the file.
Whether the logo in the file is the fleet's: it is held against the same file drawn alone. It may be
 left out where there is no room.
Whether a photo that was left out of a card could have room if text moved on: it is refused where
 the white below its side's last line would take it.
Sheets of several cards: that a printer turns and scales them as it is told.
Under which of its words an index lists a thing: it must be listed under one of them at least.
Squares to tick and lines to write on, on sheets for trainers.
"""

UNCHECKED = tuple(_STATEMENTS.strip().replace("\n ", " ").splitlines())
"""In the words of the report, the same for all printed matter."""
