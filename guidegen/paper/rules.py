"""What can be wrong with what goes on paper.

Takes in nothing; gives out the rules. Refuses rules without a reason.
"""

from guidegen.finding import Rule

TYPE_TOO_SMALL = Rule(
    "type-too-small", "a driver in a dark cab cannot read it at arm's length, and works from memory"
)
TYPE_TOO_PALE = Rule(
    "type-too-pale", "a driver cannot read it in a dark cab, or after a gray printer has had it"
)
TEXT_TALLER_THAN_SIDE = Rule(
    "text-taller-than-side",
    "it would run over the edge of the card, or part a caution from the step that it guards",
)
WORD_WIDER_THAN_SIDE = Rule(
    "word-wider-than-side", "its end would be cut off with the edge of the card"
)
HEAD_TALLER_THAN_BAND = Rule(
    "head-taller-than-band", "the driver could not see at a glance which truck the card is for"
)
LETTER_WITHOUT_SHAPE = Rule(
    "letter-without-shape", "a hole would stand in the text where the letter belongs"
)
LOGO_MISSING = Rule(
    "logo-missing", "cards would come out without the mark by which drivers know their fleet's own"
)
LOGO_NOT_PLAIN = Rule(
    "logo-not-plain",
    "what it brings along prints differently by machine, or as letters that nobody has proved",
)
LOGO_TOO_COARSE = Rule(
    "logo-too-coarse", "a blurred mark makes a sound card look like a copy of an outdated one"
)
