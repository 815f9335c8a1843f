"""What can be wrong with printed matter.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses warnings: what is not proved is not handed out.
"""

from guidegen.finding import Rule

SIZE_DIFFERS = Rule(
    "paper-size-differs", "cut to the size that was asked for, the card loses what stands outside"
)
NOT_READABLE = Rule("paper-not-readable", "a broken file prints nothing, or half of it")
MORE_THAN_PAGES = Rule(
    "paper-more-than-pages", "what lies over or beside the pages is not there on paper"
)
TITLE_DIFFERS = Rule(
    "paper-title-differs", "the office prints the file that is called like another truck's"
)
SPOKEN_DIFFERS = Rule(
    "paper-spoken-differs", "what is read aloud for a picture is heard by whoever does not see it"
)
FONT_NOT_EMBEDDED = Rule(
    "paper-font-not-embedded", "another printer draws other letters, or none, in place of these"
)
TEXT_HIDDEN = Rule("paper-text-hidden", "words that cannot be seen on paper help nobody")
TEXT_PALE = Rule(
    "paper-text-pale", "a driver cannot read it in a dark cab, or after a gray printer has had it"
)
TEXT_SMALL = Rule("paper-text-small", "a driver cannot read it at arm's length")
OUTSIDE_SAFE_AREA = Rule(
    "paper-outside-safe-area", "it is cut off with the edge, or lies under the seal of the laminate"
)
READING_ORDER_DIFFERS = Rule(
    "paper-reading-order-differs", "the eye reads from the top: a step further up is done earlier"
)
UNIT_DIFFERS = Rule("paper-unit-differs", "the card is hung in another truck's cab")
HEAD_DIFFERS = Rule(
    "paper-head-differs", "the driver does not see which card it is, or that the handbook is first"
)
PAGE_NUMBER_DIFFERS = Rule(
    "paper-page-number-differs", "nobody sees that a side is missing, or which comes first"
)
REVISION_DIFFERS = Rule(
    "paper-revision-differs", "an outdated card cannot be told from the one that holds"
)
CONTINUED_DIFFERS = Rule(
    "paper-continued-differs", "steps under the name of another procedure are done in its place"
)
CAUTION_MISSING = Rule(
    "paper-caution-missing", "the driver meets the hazard without having been told of it"
)
CAUTION_AFTER_ITS_STEP = Rule(
    "paper-caution-after-its-step", "the driver reads of the hazard when the step is already done"
)
CAUTION_PARTED = Rule(
    "paper-caution-parted", "the caution stands on the side that the driver has already turned over"
)
SIGNAL_WORD_DIFFERS = Rule(
    "paper-signal-word-differs",
    "a grave hazard that is announced as a slight one is not taken seriously",
)
ALERT_SYMBOL_DIFFERS = Rule(
    "paper-alert-symbol-differs",
    "the safety alert symbol stands for injury: without it a driver reads on, beside damage to "
    "things it cries wolf",
)
STEP_MISSING = Rule("paper-step-missing", "the driver leaves out a step that this truck needs")
TEXT_MISSING = Rule(
    "paper-text-missing", "the driver does not learn what to expect or how to stand"
)
VALUE_MISSING = Rule(
    "paper-value-missing", "the driver looks for a number that is on record and finds none"
)
FIGURE_DIFFERS = Rule(
    "paper-figure-differs", "a driver who looks for the wrong lamp or mark finds it, and goes by it"
)
PHOTO_DIFFERS = Rule(
    "paper-photo-differs", "a picture of another thing sends the driver to the wrong place"
)
PHOTO_LEFT_OUT = Rule(
    "paper-photo-left-out",
    "the driver looks for the thing without its picture, and there was room for it on the card",
)
OUT_OF_ORDER = Rule(
    "paper-out-of-order", "in another order a step can move, start or drain the truck too early"
)
TEXT_DIFFERS = Rule(
    "paper-text-differs", "the driver reads other words than those that were approved"
)
VALUE_DIFFERS = Rule(
    "paper-value-differs", "the driver sets or checks the truck by a number that is not its own"
)
VALUE_CONVERTED_WRONGLY = Rule(
    "paper-value-converted-wrongly",
    "the second number allows more than the first, and half of the drivers go by the second",
)
DIFFERENCE_MISSING = Rule(
    "paper-difference-missing", "the driver works this truck as the one that he knows"
)
DIFFERENCE_OUT_OF_ORDER = Rule(
    "paper-difference-out-of-order", "what can hurt first is trained last, or not any more"
)
SIDE_NOT_TOLD = Rule(
    "paper-side-not-told",
    "a value of the truck that the driver knows, without its number, is taken for this truck's",
)
UNCLAIMED_TEXT = Rule(
    "paper-unclaimed-text",
    "the driver works at something that this truck does not have, or that nobody has approved",
)
GROUP_PARTED = Rule(
    "paper-group-parted", "what belongs together is looked for on one side, and half of it found"
)
PAGE_NAMED_WRONGLY = Rule(
    "paper-page-named-wrongly", "the driver opens another page, and does what is asked for there"
)
INDEX_DIFFERS = Rule(
    "paper-index-differs", "the driver looks a word up and does not find what the guide says of it"
)
KEY_NOT_APART = Rule("paper-key-not-apart", "drivers read the right answers beside the questions")
QUESTION_UNSOUND = Rule(
    "paper-question-unsound",
    "the guide calls another answer right than the quiz, or two, and drivers argue",
)
CODE_MISSING = Rule("paper-code-missing", "the camera finds no way from the card to the guide")
CODE_DIFFERS = Rule("paper-code-differs", "the camera leads the driver to another truck's guide")
CODE_TOO_SMALL = Rule(
    "paper-code-too-small", "the camera of a cheap tablet does not read it at arm's length"
)
CODE_WITHOUT_QUIET_ZONE = Rule(
    "paper-code-without-quiet-zone", "many cameras do not find a code that touches other print"
)
CODE_LEVEL_DIFFERS = Rule(
    "paper-code-level-differs", "after the first scratches nobody can read the code any more"
)
SHEET_SIDE_MISSING = Rule(
    "paper-sheet-side-missing", "the card is laminated without a side that its driver needs"
)
SHEET_SIDE_TWICE = Rule(
    "paper-sheet-side-twice", "one of the two is laminated in the place of another side"
)
SHEET_SIDE_DIFFERS = Rule(
    "paper-sheet-side-differs", "what is laminated is not what was proved, or is another truck's"
)
SHEET_SCALE_DIFFERS = Rule(
    "paper-sheet-scale-differs", "type and code come out smaller than a driver or camera can read"
)
SHEET_SIDE_CUT = Rule(
    "paper-sheet-side-cut", "the card loses words at the guillotine, or other print lies over them"
)
SHEET_BACK_DIFFERS = Rule(
    "paper-sheet-back-differs",
    "the back of the card is another card's, or is cut through where its front is not",
)
SHEET_NOTE_DIFFERS = Rule(
    "paper-sheet-note-differs",
    "whoever cuts cannot tell whose cards these are, or finds the note on a card",
)
SHEET_MARK_DIFFERS = Rule(
    "paper-sheet-mark-differs", "whoever cuts by the marks cuts through the text of a card"
)
SHEET_DIALOG_DIFFERS = Rule(
    "paper-sheet-dialog-differs",
    "the printer shrinks the cards, or turns the sheet on another edge",
)
