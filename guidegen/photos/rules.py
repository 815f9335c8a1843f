"""What can be wrong with a photo.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason. A photo with a fault is left out; its trucks keep their guides.
"""

from guidegen.finding import Rule, Severity

PHOTO_MISSING = Rule("photo-missing", "the driver looks for the thing without the picture of it")
PHOTO_NAME_DIFFERS = Rule(
    "photo-name-differs-in-case",
    "one computer of the office shows the picture and the next one does not",
)
PHOTO_NOT_A_PLAIN_FILE = Rule(
    "photo-not-a-plain-file",
    "what a link leads to changes or goes away, and could be a file that is nobody's business",
)
PHOTO_NOT_LISTED = Rule(
    "photo-not-listed",
    "somebody took the picture for the driver, and no driver sees it",
    Severity.WARNING,
)
PHOTO_NOT_AN_IMAGE = Rule(
    "photo-not-an-image", "the tablet shows a broken picture where the driver looks for help"
)
PHOTO_OF_UNREAD_KIND = Rule(
    "photo-of-unread-kind", "many tablets do not show pictures of this kind at all"
)
PHOTO_DAMAGED = Rule(
    "photo-damaged", "half a picture can lack the very part that the driver looks for"
)
PHOTO_TOO_LARGE = Rule(
    "photo-too-large", "a picture beyond all measure stops the making of every guide"
)
PHOTO_TOO_SMALL = Rule(
    "photo-too-small", "a driver at arm's length in the dark cannot tell what is on it"
)
PHOTO_MOVES = Rule(
    "photo-moves", "of a picture that moves only one moment is shown, and perhaps the wrong one"
)
PHOTO_WITHOUT_TRUCK = Rule(
    "photo-without-truck",
    "a picture of one truck that is shown at another sends the driver to the wrong place",
)
PHOTO_OF_UNKNOWN_TRUCK = Rule(
    "photo-of-unknown-truck",
    "the driver of the truck that is meant does not see the picture",
    Severity.WARNING,
)
PHOTO_OF_UNKNOWN_PROCEDURE = Rule(
    "photo-of-unknown-procedure", "the picture stands nowhere, and the driver does not see it"
)
PHOTO_TWICE = Rule(
    "photo-twice", "the same picture at two places of one procedure says that they are one place"
)
PHOTO_TEXT_SAYS_NOTHING = Rule(
    "photo-text-says-nothing",
    "a driver who has the guide read aloud, or whose tablet shows no picture, learns nothing",
)
PHOTO_NAMES_TRUCK = Rule(
    "photo-names-a-truck", "the name of another truck on a page makes the driver doubt all of it"
)
PHOTO_NOT_SHOWN = Rule(
    "photo-not-shown",
    "somebody took the picture for this truck, and its driver does not see it",
    Severity.WARNING,
)
PHOTO_NOT_ON_CARD = Rule(
    "photo-not-on-card",
    "a driver who has the card in hand and no tablet looks for the thing without its picture",
    Severity.WARNING,
)
