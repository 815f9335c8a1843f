"""What a proof of paper is made of.

Takes in nothing; gives out what a PDF must say, piece by piece, and verdicts, as frozen values.
Refuses to know cards: a booklet, a quiz or a sheet is proved by stating its pieces.
"""

import enum
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from decimal import Decimal

from guidegen.decks.sizes import Side
from guidegen.figures.model import Figure
from guidegen.guide.model import Guide
from guidegen.photos.model import Photo
from guidegen.proof.model import Failure
from guidegen.source import Span
from guidegen.units.model import Fact


class Part(enum.Enum):
    """What a piece is, by what is wrong if it is not there."""

    TEXT = "text"
    STEP = "step"
    CAUTION = "caution"
    TALLY = "tally"
    """How many cautions of each kind a work has; others have as many."""

    DIFFERENCE = "difference"
    """What is other than on the truck that the driver knows."""

    SIDE_OF_TWO = "side of two"
    """What is on record of one of two trucks, with that truck's number."""

    VALUE = "value"
    FIGURE = "figure"
    """A word or value in a drawing."""

    UNIT = "unit"
    """Number of the truck, in the head."""

    SIDE = "side"
    """Which side of how many, in the head."""

    REVISION = "revision"
    """With the date; in the head."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Words that stand together, to be read in one go."""

    part: Part
    pattern: str
    """Words with slots for values, as of `guidegen.proof.read_text.pattern_of`."""

    of: str
    """What it is, for people: ``step 3 of `air-build-up```."""

    span: Span | None = None
    """Where its template or its fact is stated."""

    points: float = 8
    """Smallest height of type."""

    signal: str = ""
    """Signal word that it begins with, if it is a caution."""

    trucks: tuple[str, ...] = ()
    """Numbers of the trucks that it tells of, if there are two; stand in `pattern`, in order."""

    after: str = ""
    """Pattern of what comes right after it, if others read as it does."""

    anchor: str = ""
    """Name of the place, if pages are named that it stands on; see `page_of`."""

    is_opening: bool = False
    """Whether it belongs to what a procedure begins with, before any step."""

    is_heading: bool = False
    """Whether the contents list it."""

    is_caption: bool = False
    """Whether it may stand beside the photo before it."""


@dataclass(frozen=True, slots=True)
class Group:
    """Pieces that must stand on one side, in order."""

    pieces: tuple[Piece, ...]
    opens: bool = True
    """Whether a procedure or section begins here. A side that begins with a group that opens
    nothing must say what is continued."""

    running: str = ""
    """Pattern of what is continued."""

    figure: Figure | None = None
    """The drawing that stands in it."""

    photos: tuple[Photo, ...] = ()
    """Pictures that stand in it, in order, each before its caption."""

    photos_after: tuple[int, ...] = ()
    """The place in `pieces` of what each of them stands right behind, on cards."""

    left_out: tuple[Photo, ...] = ()
    """Pictures that would stand in it if there were room."""

    turns: bool = False
    """Whether nothing that comes before it may stand on the side that it begins on."""

    chapter: str = ""
    """Pattern of the title of the chapter that begins with it, to be named in the head from this
    side on."""


@dataclass(frozen=True, slots=True)
class Listed:
    """What an index must list, under one of its own words at least."""

    pattern: str
    keys: str
    """The part of `pattern` that it is looked up by."""

    anchor: str
    """Of the piece whose page is named."""

    span: Span | None


class CodePlace(enum.Enum):
    """Where the code stands."""

    EACH_HEAD = "each-head"
    """Around the body of each side."""

    FIRST_BODY = "first-body"
    """In the body of the first side, and nowhere else."""


@dataclass(frozen=True, slots=True)
class PaperCounts:
    """How much was proved."""

    sides: int = 0
    procedures: int = 0
    steps: int = 0
    cautions: int = 0
    values: int = 0
    """Values read back, wherever they stand."""

    codes: int = 0
    """Codes read by a reader of codes, also after a blur."""

    def __add__(self, other: "PaperCounts") -> "PaperCounts":
        """Return both together."""
        return PaperCounts(
            *(getattr(self, each.name) + getattr(other, each.name) for each in fields(self))
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """All that one PDF must say."""

    file: str
    """Its path, for failures."""

    guide: Guide
    """Of the truck whose values stand in it."""

    document: str
    """Title of the file itself."""

    side: Side
    """Trimmed."""

    head: tuple[Piece, ...]
    """What stands on each side around the body, in any order. What a pattern says of sides stands
    between `SIDE_MARK`: the number of the side, and how many there are."""

    groups: tuple[Group, ...]
    """The body."""

    continued: str = ""
    """Word before what is continued; empty if what goes on is repeated without one."""

    link: str = ""
    """What the code on each side says; empty if there is none."""

    bleed: Decimal = Decimal(3)
    """Millimeters of paper around the trimmed side."""

    safe: Decimal = Decimal(3)
    """Millimeters from the trim that stay free."""

    spoken: frozenset[str] = frozenset()
    """What may be read aloud for pictures."""

    span: Span | None = None
    """Where it is asked for: of failures that concern no one piece."""

    counts: PaperCounts = PaperCounts()
    """What the body holds, if all of it is found."""

    bookmarks: tuple[Piece, ...] | None = None
    """The outline, in order, each with its anchor; without it, any piece may be a bookmark."""

    index: tuple[Listed, ...] = ()
    """What is listed from A to Z after the last of `groups`."""

    is_bound: bool = False
    """Whether it is a book: the first side is a cover without a head, lines of dots lead to page
    numbers, and links within the file are allowed where they lead to the page that is printed."""

    code: CodePlace = CodePlace.EACH_HEAD

    are_photos_resized: bool = False
    """Whether photos are made anew in the size in which they are printed: they are then compared
    by what they show, not by their bytes."""

    others: Mapping[str, Fact] = field(default_factory=dict)
    """Values that are not the truck's and must stand there all the same, by names of their own."""

    unsound: Mapping[str, str] = field(default_factory=dict)
    """What is wrong with questions that have not the one right answer, by their ids."""


SIDE_NUMBER = "\1"
SIDE_COUNT = "\2"
"""Stand in patterns of the head for the number of the side, and for how many there are."""

CHAPTER = "\3"
"""Stands in patterns of the head for the title of the chapter that the side is of."""

PAGE = "page:"


def page_of(anchor: str) -> str:
    """Return the pattern of the number of the side on which the piece of *anchor* stands."""
    return f"\0{PAGE}{anchor}\0"


@dataclass(frozen=True, slots=True)
class PaperVerdict:
    """What the proof found of one PDF, or of several."""

    counts: PaperCounts
    failures: tuple[Failure, ...]
    unchecked: tuple[str, ...]
    """Statements of what was not checked; every output shows them."""

    @property
    def is_proved(self) -> bool:
        """Whether it may be handed out."""
        return not self.failures

    def __add__(self, other: "PaperVerdict") -> "PaperVerdict":
        """Return both together."""
        unchecked = dict.fromkeys((*self.unchecked, *other.unchecked))
        return PaperVerdict(
            self.counts + other.counts, (*self.failures, *other.failures), tuple(unchecked)
        )
