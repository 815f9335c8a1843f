"""What sheets with cards on them must hold.

Takes in the cards, each proved, with stock and duplex; gives out the sides as they were proved, and
what is written beside them. Refuses to know where a side was planned to lie.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.decks.sizes import Side
from guidegen.paper_proof.face_model import Slot
from guidegen.paper_proof.read_pdf import PdfRead
from guidegen.paper_proof.sheet_model import Box, Object, SideRead, TextRead

FACES = ("front", "back")
_HOW = {
    "simplex": "Print at 100 %, on one side.",
    "long": "Print at 100 %, on both sides, flip on the long edge.",
    "short": "Print at 100 %, on both sides, flip on the short edge.",
}
_THEN = "Measure the two lines before you cut."
RULERS = ("50 mm", "2 in")
"""What is written beside the measuring lines."""


@dataclass(frozen=True, slots=True)
class ProvedCard:
    """A card whose own proof has passed."""

    name: str
    """Truck and card, as sheets name them: ``T-17 round``."""

    link: str
    """What the code on each of its sides says; empty if there is none."""

    pdf: bytes


@dataclass(frozen=True, slots=True)
class ImposedOrder:
    """What was to be laid on sheets."""

    file: str
    """For failures."""

    cards: tuple[ProvedCard, ...]
    stock: Side
    flips: str
    """``long``, ``short`` or ``simplex``."""

    caption: str

    @property
    def faces(self) -> int:
        """How many sides of a sheet are printed."""
        return 1 if self.flips == "simplex" else 2


@dataclass(frozen=True, slots=True)
class Sides:
    """All sides of all cards, as they were proved."""

    by_place: dict[tuple[int, int], SideRead]
    """By number of the card and of the side, from 0."""

    by_words: dict[tuple[str, ...], tuple[int, int]]
    """The same, by all that is written on a side."""

    @classmethod
    def of(cls, cards: Iterable[ProvedCard]) -> "Sides":
        """Return the sides of *cards*, each read once."""
        by_place = dict[tuple[int, int], SideRead]()
        for card, each in enumerate(cards):
            with PdfRead(each.pdf) as read:
                by_place |= {(card, side): read.side(side) for side in range(len(read))}
        return cls(by_place, {words_of(side.objects): place for place, side in by_place.items()})

    def trim(self, card: int, side: int) -> Box:
        """Return the trimmed side, on its own page."""
        read = self.by_place[card, side]
        return read.trim or read.paper


def words_of(objects: Iterable[Object]) -> tuple[str, ...]:
    """Return all that is written among *objects*, in its order."""
    return tuple(folded(each.text) for each in objects if isinstance(each, TextRead))


def folded(text: str) -> str:
    """Return *text* without blanks at its ends: of turned lines PDFium does not give them out."""
    return " ".join(text.split())


def note_of(order: ImposedOrder, sheet: int, sheets: int, face: int) -> frozenset[str]:
    """Return the lines at the foot of one face; *sheet* and *face* are counted from 0."""
    which = f", {FACES[face]}" if order.faces > 1 else ""
    caption = f"{order.caption}: sheet {sheet + 1} of {sheets}{which}"
    return frozenset({caption, f"{_HOW[order.flips]} {_THEN}", *RULERS})


def names_of(order: ImposedOrder, slots: Iterable[Slot]) -> frozenset[str]:
    """Return what must be named at the head of a face that *slots* lie on, in any order."""
    by_card: dict[int, list[int]] = {}
    for slot in slots:
        by_card.setdefault(slot.card, []).append(slot.side + 1)
    return frozenset(
        f"{order.cards[card].name}, side{'s' if len(sides) > 1 else ''} "
        f"{', '.join(map(str, sorted(sides)))}"
        for card, sides in by_card.items()
    )
