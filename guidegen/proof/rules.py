"""What can be wrong with published files: each a fault of a template, a stylesheet or of guidegen.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses warnings: a guide that is not proved is not published.
"""

from guidegen.finding import Rule

VALUE_NOT_READ_BACK = Rule(
    "value-not-read-back", "the driver sets or checks the truck by a number that is not its own"
)
VALUE_CONVERTED_WRONGLY = Rule(
    "value-converted-wrongly",
    "the second number allows more than the first, and half of the drivers go by the second",
)
VALUE_MISSING = Rule(
    "value-missing", "the driver looks for a number that is on record and finds none"
)
VALUE_HIDDEN = Rule("value-hidden", "a number that cannot be seen is guessed")
CAUTION_MISSING = Rule(
    "caution-missing", "the driver meets the hazard without having been told of it"
)
CAUTION_AFTER_ITS_STEP = Rule(
    "caution-after-its-step", "the driver reads of the hazard when the step is already done"
)
CAUTION_HIDDEN = Rule("caution-hidden", "a caution that cannot be seen warns nobody")
SIGNAL_WORD_DIFFERS = Rule(
    "signal-word-differs", "a grave hazard that is announced as a slight one is not taken seriously"
)
ALERT_SYMBOL_DIFFERS = Rule(
    "alert-symbol-differs",
    "the safety alert symbol stands for injury: without it a driver reads on, beside damage to "
    "things it cries wolf",
)
STEP_MISSING = Rule("step-missing", "the driver leaves out a step that this truck needs")
STEP_HIDDEN = Rule("step-hidden", "a step that cannot be seen is left out")
STEP_OUT_OF_ORDER = Rule(
    "step-out-of-order", "steps in another order can move, start or drain the truck too early"
)
STEP_NUMBER_DIFFERS = Rule(
    "step-number-differs", "two people who speak of step 4 over the phone mean two steps"
)
STEP_THAT_DOES_NOT_APPLY = Rule(
    "step-that-does-not-apply", "the driver works at something that this truck does not have"
)
TEXT_MISSING = Rule("text-missing", "the driver does not learn what to expect or how to stand")
TEXT_NOT_READ_BACK = Rule(
    "text-not-read-back", "the driver reads other words than those that were approved"
)
TEXT_HIDDEN = Rule("text-hidden", "words that cannot be seen help nobody")
TEXT_OUT_OF_ORDER = Rule(
    "text-out-of-order", "words in another place are taken to speak of another thing"
)
TEXT_REPEATED = Rule("text-repeated", "a text in a second place is taken to hold there too")
LABEL_NOT_READ_BACK = Rule(
    "label-not-read-back", "a heading that says something else turns the sense of what follows"
)
LABEL_MISPLACED = Rule(
    "label-misplaced", "what to do if it fails, under the heading of what should be seen, misleads"
)
DIFFERENCE_MISSING = Rule(
    "difference-missing", "the driver works this truck as the one that he knows"
)
DIFFERENCE_THAT_IS_NONE = Rule(
    "difference-that-is-none",
    "a driver who is told of differences that there are not no longer heeds those that there are",
)
DIFFERENCE_OUT_OF_ORDER = Rule(
    "difference-out-of-order", "what can hurt first is read last, or not any more"
)
SIDE_NOT_TOLD = Rule(
    "side-not-told",
    "a value of the truck that the driver knows, without its number, is taken for this truck's",
)
UNCLAIMED_TEXT = Rule(
    "unclaimed-text", "words that no spec and no procedure states were approved by nobody"
)
UNCLAIMED_MARK = Rule(
    "unclaimed-mark", "a text under a mark that this truck's guide does not know is not its own"
)
ATTRIBUTE_NOT_CLAIMED = Rule(
    "attribute-not-claimed",
    "what is read aloud or shown on touch is read by drivers too, and nobody has approved it",
)
ELEMENT_NOT_READABLE = Rule(
    "element-not-readable", "what stands in such an element is not seen, or not by everyone"
)
FOREIGN_IDENTITY = Rule(
    "foreign-identity", "a driver who meets another truck's number takes the page for that truck's"
)
IDENTITY_DIFFERS = Rule(
    "identity-differs", "a page that names another truck sends the driver to the wrong guide"
)
SOURCE_DIFFERS = Rule(
    "source-differs",
    "a value that is said to come from elsewhere is checked against the wrong paper",
)
FITTING_DIFFERS = Rule(
    "fitting-differs",
    "a driver who is told that a device is not fitted does not use it, and the other way round",
)
PAGE_MISSING = Rule("page-missing", "a part of the work that is not there is not done")
PAGE_TOO_MANY = Rule(
    "page-too-many", "a page that does not belong to the guide is an old one or another truck's"
)
PAGE_NOT_READABLE = Rule("page-not-readable", "a broken page shows nothing, or half of it")
TITLE_DIFFERS = Rule(
    "title-differs",
    "a driver with several guides open goes by their titles, and picks the wrong one",
)
FRAME_DIFFERS = Rule(
    "frame-differs", "words around the guide of one truck that others lack belong to another truck"
)
CONTENTS_DIFFER = Rule(
    "contents-differ",
    "what the contents do not name is not found, what they name and is not, missed",
)
SEARCH_TEXT_DIFFERS = Rule(
    "search-text-differs", "a driver who searches reads the result and not always the page"
)
SEARCH_ENTRY_MISSING = Rule(
    "search-entry-missing", "what a search does not find is taken to be not there"
)
SEARCH_ENTRY_TOO_MANY = Rule(
    "search-entry-too-many", "a search that finds another truck's procedure leads the driver to it"
)
STOP_MISSING = Rule("stop-missing", "a check that the round leaves out is not done that day")
STOP_TOO_MANY = Rule(
    "stop-too-many",
    "a check that is there twice, or another truck's, sends the driver to work that is not asked",
)
STOP_OUT_OF_ORDER = Rule(
    "stop-out-of-order", "the driver comes to a check before the truck is in the state for it"
)
STOP_DIFFERS = Rule(
    "stop-differs",
    "the driver stands in the wrong place, or brings the truck into a state that hurts somebody",
)
TIMER_DIFFERS = Rule(
    "timer-differs",
    "the tablet holds the driver's time or reading to another limit than the page says, and calls"
    " brakes good that are not",
)
SCRIPT_WORDS_DIFFER = Rule(
    "script-words-differ",
    "what a script says of a check is not what was checked, and a driver acts on it",
)
QUESTION_MISSING = Rule("question-missing", "what the quiz leaves out, nobody finds out about")
QUESTION_TOO_MANY = Rule(
    "question-too-many",
    "a question that is there twice, or is another truck's, teaches wrong things",
)
QUESTION_OUT_OF_ORDER = Rule(
    "question-out-of-order", "the key is read beside another question, and a wrong answer passes"
)
QUESTION_DIFFERS = Rule(
    "question-differs", "a driver who answers rightly is told that it is wrong, and learns that"
)
QUESTION_UNSOUND = Rule(
    "question-unsound",
    "the guide calls another answer right than the quiz, or two, and drivers argue",
)
KEY_DIFFERS = Rule(
    "key-differs", "a wrong answer is called right, and the driver does it on the truck"
)
LAMP_MISSING = Rule("lamp-missing", "the driver sees the lamp, does not find it and drives on")
LAMP_TOO_MANY = Rule(
    "lamp-too-many", "a lamp that this truck does not have is taken for one that looks like it"
)
LAMP_OUT_OF_ORDER = Rule(
    "lamp-out-of-order", "the lamps that ask for a stop are looked for first, and found last"
)
LAMP_DIFFERS = Rule(
    "lamp-differs", "a lamp under another color, or with another act, is not taken for what it is"
)
FIGURE_DIFFERS = Rule(
    "figure-differs", "a mark in another place sends needle, fluid or air to the wrong value"
)
FIGURE_MISSING = Rule("figure-missing", "the driver looks for a mark that nobody has shown")
FIGURE_HIDDEN = Rule("figure-hidden", "half a drawing shows another gauge than the truck has")
PICTURE_MISSING = Rule(
    "picture-missing", "the driver looks for the thing that the office took a picture of"
)
PICTURE_DIFFERS = Rule(
    "picture-differs", "a picture of another truck or thing sends the driver to the wrong place"
)
PICTURE_HIDDEN = Rule("picture-hidden", "a picture that cannot be seen shows the driver nothing")
REQUEST_TO_OTHER_ORIGIN = Rule(
    "request-to-other-origin", "in a yard without signal the page hangs or shows without its styles"
)
INLINE_CODE = Rule(
    "inline-script-or-style",
    "a tablet that runs only files of the site leaves it out, and the page shows half of itself",
)
LINK_BROKEN = Rule("link-broken", "a driver who follows it gets an error instead of the procedure")
LINK_TO_OTHER_PLACE = Rule(
    "link-to-other-place", "a driver who follows it does another procedure than the one it names"
)
TRUCK_NOT_LISTED = Rule("truck-not-listed", "the driver of that truck finds no guide")
TRUCK_LISTED_TWICE = Rule(
    "truck-listed-twice", "two entries for one truck look like two trucks, and one may be outdated"
)
UNKNOWN_TRUCK = Rule("unknown-truck", "a guide of a truck that is not in the fleet is an old one")
REVISION_DIFFERS = Rule(
    "page-revision-differs",
    "the driver holds a card for up to date that is not, or does not learn what changed since",
)
PACK_INCOMPLETE = Rule(
    "pack-incomplete", "where there is no signal, the page that the tablet does not keep is missing"
)
PACK_TOO_MANY = Rule(
    "pack-too-many", "a tablet that keeps a file of another truck shows it as this truck's"
)
PACK_DIFFERS = Rule(
    "pack-differs", "a tablet refuses to save the truck, or keeps other bytes than were proved"
)
APP_FILE_DIFFERS = Rule(
    "app-file-differs",
    "the app does not open without signal, or a script that nobody knows answers in its place",
)
