"""Whether sides lie whole on their sheets, each once, and backs behind their fronts.

Takes in the slots of all faces; records sides that are missing, doubled, cut or overlapped, and
backs that are not behind their fronts. Refuses more than a tenth of a millimeter.
"""

import itertools
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.compare_ink import MILLIMETER
from guidegen.paper_proof.face_model import Slot
from guidegen.paper_proof.find_slots import FaceSlots
from guidegen.paper_proof.imposed_claims import FACES, ImposedOrder, Sides
from guidegen.paper_proof.sheet_model import Box
from guidegen.proof.faults import Faults

NEAR = 0.1 * MILLIMETER
"""Points: as exactly as backs must be planned; printers add up to a millimeter of their own."""

_FIX = "repair what lays cards on sheets"


@dataclass(frozen=True, slots=True)
class Slots:
    """All faces held against the order."""

    faces: Sequence[FaceSlots]
    sides: Sides
    order: ImposedOrder
    faults: Faults

    def compare(self) -> None:
        """Look at every side of every card, and at every face."""
        self._compare_counts()
        for number, face in enumerate(self.faces):
            self._compare_face(number, face)
        if self.order.faces > 1:
            for number in range(0, len(self.faces), 2):
                self._compare_backs(number)

    def mark(self, number: int) -> str:
        """Return how people find face *number*, from 0."""
        return mark_of(self.order, number)

    def _compare_counts(self) -> None:
        laid = Counter((slot.card, slot.side) for face in self.faces for slot in face.slots)
        for place in self.sides.by_place:
            if laid[place] != 1:
                rule = rules.SHEET_SIDE_TWICE if laid[place] else rules.SHEET_SIDE_MISSING
                times = f"{laid[place]} times" if laid[place] else "nowhere"
                self._add(rule, f"{self._name(*place)} lies on these sheets {times}")

    def _compare_face(self, number: int, face: FaceSlots) -> None:
        mark = self.mark(number)
        for slot in face.slots:
            if not face.paper.holds(slot.trim, NEAR):
                what = f"{self._name(slot.card, slot.side)} reaches over the edge of the sheet"
                self._add(rules.SHEET_SIDE_CUT, what, mark)
        for one, two in itertools.combinations(face.slots, 2):
            if one.trim.touches(two.trim, NEAR):
                names = f"{self._name(one.card, one.side)} and {self._name(two.card, two.side)}"
                self._add(rules.SHEET_SIDE_CUT, f"{names} lie on each other", mark)

    def _compare_backs(self, number: int) -> None:
        fronts = {(slot.card, slot.side): slot for slot in self.faces[number].slots}
        back = self.faces[number + 1] if number + 1 < len(self.faces) else None
        behind = {(slot.card, slot.side): slot for slot in back.slots} if back else {}
        mark = self.mark(number + 1)
        for (card, side), front in fronts.items():
            if side % 2:
                self._add(
                    rules.SHEET_BACK_DIFFERS, f"{self._name(card, side)} lies on a front", mark
                )
            found = behind.pop((card, side + 1), None)
            if found is None:
                if (card, side + 1) in self.sides.by_place:
                    what = f"{self._name(card, side + 1)} is not behind its front"
                    self._add(rules.SHEET_BACK_DIFFERS, what, mark)
                continue
            if not self._is_behind(front, found, self.faces[number].paper):
                what = f"{self._name(card, side + 1)} lies beside its front or upside down to it"
                self._add(rules.SHEET_BACK_DIFFERS, what, mark)
        for card, side in behind:
            what = f"{self._name(card, side)} lies on a back and its front is not before it"
            self._add(rules.SHEET_BACK_DIFFERS, what, mark)

    def _is_behind(self, front: Slot, back: Slot, paper: Box) -> bool:
        wanted = mirrored(front.trim, paper, self.order.flips)
        across, up = front.up
        turned = (-across, up) if self.order.flips == "long" else (across, -up)
        near = all(abs(one - two) <= NEAR for one, two in zip(wanted, back.trim, strict=True))
        return near and back.up == turned

    def _name(self, card: int, side: int) -> str:
        return f"side {side + 1} of {self.order.cards[card].name}"

    def _add(self, rule: Rule, what: str, mark: str = "") -> None:
        self.faults.add(rule, what, fix=_FIX, mark=mark)


def mark_of(order: ImposedOrder, number: int) -> str:
    """Return how people find page *number* of the sheets, from 0."""
    sheet, face = divmod(number, order.faces)
    return f"sheet {sheet + 1}, {FACES[face]}" if order.faces > 1 else f"sheet {sheet + 1}"


def mirrored(box: Box, paper: Box, flips: str) -> Box:
    """Return where *box* of a front lies on the back as it is looked at."""
    left, bottom, right, top = box
    if flips == "long":
        return Box(paper.width - right, bottom, paper.width - left, top)
    return Box(left, paper.height - top, right, paper.height - bottom)
