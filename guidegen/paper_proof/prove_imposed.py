"""The proof of sheets that cards are laid on.

Takes in the bytes of the sheets and the cards, each proved; gives out a verdict.
Refuses a sheet on which a side is not as it was proved, whole, once and in its own size.
"""

from dataclasses import dataclass

from guidegen.paper_proof import rules
from guidegen.paper_proof.compare_ink import MILLIMETER
from guidegen.paper_proof.compare_margin import Margin
from guidegen.paper_proof.compare_sight import compare_sight, picture_of
from guidegen.paper_proof.compare_slots import Slots, mark_of, mirrored
from guidegen.paper_proof.face_model import Turn
from guidegen.paper_proof.find_slots import FaceSlots, find_slots
from guidegen.paper_proof.imposed_claims import ImposedOrder, Sides, names_of, note_of
from guidegen.paper_proof.model import PaperCounts, PaperVerdict
from guidegen.paper_proof.read_pdf import PdfRead, UnreadablePdf
from guidegen.paper_proof.sheet_model import Box
from guidegen.paper_proof.unchecked import UNCHECKED
from guidegen.proof.faults import Faults

_FIX = "repair what lays cards on sheets"
_SLACK = 0.05
"""Points."""


def prove_imposed(pdf: bytes, order: ImposedOrder) -> PaperVerdict:
    """Return what the proof finds of the sheets *pdf* that hold the cards of *order*."""
    faults = Faults("", order.file)
    try:
        with PdfRead(pdf) as read:
            _Proof(order, read, Sides.of(order.cards), faults).prove()
    except UnreadablePdf as error:
        what = f"cannot be opened: {error}"
        faults.add(rules.NOT_READABLE, what, fix="lay the cards out again")
    return PaperVerdict(PaperCounts(), tuple(faults.found), UNCHECKED)


@dataclass(frozen=True, slots=True)
class _Proof:
    order: ImposedOrder
    pdf: PdfRead
    sides: Sides
    faults: Faults

    def prove(self) -> None:
        self._compare_file()
        faces = [self._face(number) for number in range(len(self.pdf))]
        Slots(faces, self.sides, self.order, self.faults).compare()
        for number in range(len(faces)):
            self._compare_margin(number, faces)
        self._compare_sight(faces)

    def _compare_file(self) -> None:
        dialog = self.pdf.dialog()
        if not dialog.is_full_size or dialog.flips != self.order.flips:
            size = "in full size" if dialog.is_full_size else "scaled"
            self.faults.add(
                rules.SHEET_DIALOG_DIFFERS,
                f"asks the printer for `{dialog.flips}`, {size}, and not for `{self.order.flips}`",
                fix=_FIX,
            )
        if self.pdf.extras:
            what = f"holds {', '.join(self.pdf.extras)}"
            self.faults.add(rules.MORE_THAN_PAGES, what, fix=_FIX)
        if len(self.pdf) % self.order.faces:
            what = f"has {len(self.pdf)} pages, and so no back to its last front"
            self.faults.add(rules.SHEET_BACK_DIFFERS, what, fix=_FIX)

    def _face(self, number: int) -> FaceSlots:
        face, mark = self.pdf.face(number), mark_of(self.order, number)
        stock = self.order.stock
        wanted = [float(each) * MILLIMETER for each in (stock.width, stock.height)]
        paper = face.paper
        differs = abs(paper.width - wanted[0]) > _SLACK or abs(paper.height - wanted[1]) > _SLACK
        if differs or not face.visible.holds(paper, _SLACK):
            what = f"is no whole page of the size `{stock.id}`"
            self.faults.add(rules.SIZE_DIFFERS, what, fix=_FIX, mark=mark)
        if face.annotations:
            what = f"has {face.annotations} notes or links over it"
            self.faults.add(rules.MORE_THAN_PAGES, what, fix=_FIX, mark=mark)
        return find_slots(face, self.sides, self.order, mark, self.faults)

    def _compare_margin(self, number: int, faces: list[FaceSlots]) -> None:
        face = faces[number]
        sheet, which = divmod(number, self.order.faces)
        front = faces[number - which]
        places = [slot.trim for slot in front.slots]
        trims = [self._behind(place, front.paper) for place in places] if which else places
        mark = mark_of(self.order, number)
        if any(trim.holds(face.paper, _SLACK) for trim in trims):
            # The side is the sheet: nothing is cut, and nothing stands beside it.
            if face.loose:
                what = "has more on it than the side that fills it"
                self.faults.add(rules.SHEET_NOTE_DIFFERS, what, fix=_FIX, mark=mark)
            return
        if not trims:
            what = "has no side of a card on its front"
            self.faults.add(rules.SHEET_SIDE_MISSING, what, fix=_FIX, mark=mark)
            return
        foot = note_of(self.order, sheet, len(faces) // self.order.faces, which)
        head = names_of(self.order, face.slots)
        Margin(face.loose, trims, face.paper, foot, head, mark, self.faults).compare()

    def _behind(self, place: Box, paper: Box) -> Box:
        return mirrored(place, paper, self.order.flips)

    def _compare_sight(self, faces: list[FaceSlots]) -> None:
        at = {
            (slot.card, slot.side): (number, slot)
            for number, face in enumerate(faces)
            for slot in face.slots
        }
        for card, each in enumerate(self.order.cards):
            with PdfRead(each.pdf) as read:
                for side in range(len(read)):
                    if (card, side) not in at:
                        continue
                    number, slot = at[card, side]
                    paper, trim = self.sides.by_place[card, side], self.sides.trim(card, side)
                    shown = paper.visible
                    own = Turn(1, 0, 0, 1, -shown.left, -shown.bottom)
                    alone = picture_of(read, side, own, shown.height, trim)
                    face = faces[number].paper
                    laid = picture_of(self.pdf, number, slot.turn, face.height, trim)
                    for rule, what in compare_sight(alone, laid, each.link):
                        says = f"side {side + 1} of {each.name} {what}"
                        mark = mark_of(self.order, number)
                        self.faults.add(rule, says, fix=_FIX, mark=mark)
