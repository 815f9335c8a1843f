"""What a card is, before anyone prints it.

Takes in nothing; gives out kinds of cards and the cards of one truck, with parts of its guide.
Refuses any measure of type or paper but the size of a side.
"""

from dataclasses import dataclass

from guidegen.decks.sizes import Side
from guidegen.guide.model import Procedure
from guidegen.photos.model import Photo
from guidegen.round.model import Round
from guidegen.source import Span


@dataclass(frozen=True, slots=True)
class CardKind:
    """One card of every truck that has something to say on it."""

    id: str
    """Name of its file: ``air-brakes``."""

    title: str
    """As printed."""

    side: Side
    has_round: bool
    procedures: tuple[str, ...]
    """Ids, in the order of the card."""

    chapters: tuple[str, ...]
    """Ids; all their procedures stand after `procedures`, in the order of the guide."""

    facts: tuple[str, ...]
    """Dotted names of values, in the order of the card."""

    has_lamps: bool
    is_large: bool
    """Whether values are printed large, to be read from afar."""

    span: Span
    """Of its id."""


@dataclass(frozen=True, slots=True)
class ShownPhoto:
    """A photo that has room on a card."""

    photo: Photo
    edge: int
    """Millimeters of its longer edge, where the column is as wide."""


@dataclass(frozen=True, slots=True)
class Card:
    """One card of one truck. What is printed follows the order of the fields."""

    kind: CardKind
    tour: Round | None
    procedures: tuple[Procedure, ...]
    """Those that apply to the truck."""

    facts: tuple[str, ...]
    """Those that the truck has on record."""

    lamps: tuple[Procedure, ...]
    """What its lamps mean and ask for, the gravest first."""

    photos: tuple[ShownPhoto, ...] = ()
    """Those of `offered` that have room, each at its procedure; none before anyone has tried."""

    @property
    def offered(self) -> tuple[Photo, ...]:
        """The photos of its procedures, in the order of the card."""
        return tuple(photo for each in self.procedures for photo in each.photos)

    @property
    def left_out(self) -> tuple[Photo, ...]:
        """Those of `offered` that have no room."""
        shown = {each.photo.id for each in self.photos}
        return tuple(photo for photo in self.offered if photo.id not in shown)


@dataclass(frozen=True, slots=True)
class Issue:
    """What every printed side says of where it comes from."""

    revision: str
    """Number of the revision, as ``2``; where no record is kept, the first digits of the edition
    of the guide that it was printed from, in hexadecimal; ``draft`` and these for a guide that
    is no revision."""

    date: str
    """As ``2026-11-20``; words for a guide that was not released."""

    link: str
    """Address of the truck's page, with the first digits of the edition: what the code on the
    card says."""

    made: str = ""
    """Date of the document where `date` is none, as ``2026-11-20``."""

    @property
    def document_date(self) -> str:
        """Date that the file carries, as ``2026-11-20``."""
        return self.made or self.date
