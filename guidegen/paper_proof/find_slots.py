"""Which side of which card lies where on the face of a sheet.

Takes in a face as it was read and the sides that were proved; gives out the slots, and records what
lies there and is no proved side, or is one that was scaled, turned askew or changed.
Refuses to trust the plan: a side is known by all of its words.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.face_model import FaceRead, Slot, Turn
from guidegen.paper_proof.imposed_claims import ImposedOrder, Sides, folded, words_of
from guidegen.paper_proof.sheet_model import Box, DrawnRead, Object, TextRead
from guidegen.proof.faults import Faults

_SAME = 0.02
"""Points that an object may lie off on its own page: what rounding makes of it."""

_STRAIGHT = 0.0005
"""That scale and turn may be off: a tenth of a millimeter on the longest side of any card."""

_SHOWN = 60
"""Letters of what nobody knows."""

_FIX = "repair what lays cards on sheets"


@dataclass(frozen=True, slots=True)
class FaceSlots:
    """The slots of one face."""

    slots: tuple[Slot, ...]
    loose: tuple[Object, ...]
    """What is drawn beside them."""

    paper: Box
    """The face as it is seen, from its lower left corner."""


def find_slots(
    face: FaceRead, sides: Sides, order: ImposedOrder, mark: str, faults: Faults
) -> FaceSlots:
    """Return the slots of *face*; a face without forms may be one side that fills it."""
    seen = _seen(face)
    paper = seen.box(face.paper)
    laid = [(form.turn.then(seen), form.objects) for form in face.forms]
    loose = face.loose
    if not laid and _place(loose, sides) is not None:
        laid, loose = [(seen, loose)], ()
    found = list[Slot]()
    for turn, objects in laid:
        place = _place(objects, sides)
        if place is None:
            said = " ".join(words_of(objects))[:_SHOWN]
            what = f"holds what is no side of these cards: `{said}`"
            faults.add(rules.SHEET_SIDE_DIFFERS, what, fix=_FIX, mark=mark)
            continue
        slot = Slot(*place, turn, turn.box(sides.trim(*place)))
        for rule, what in _faults_of(slot, objects, sides):
            says = f"side {place[1] + 1} of {order.cards[place[0]].name} {what}"
            faults.add(rule, says, fix=_FIX, mark=mark)
        found.append(slot)
    return FaceSlots(tuple(found), loose, paper)


def _seen(face: FaceRead) -> Turn:
    """Return what leads from points of the file to the face as it is seen."""
    left, bottom, right, top = face.paper
    return {
        0: Turn(1, 0, 0, 1, -left, -bottom),
        90: Turn(0, -1, 1, 0, -bottom, right),
        180: Turn(-1, 0, 0, -1, right, top),
        270: Turn(0, 1, -1, 0, top, -left),
    }[face.turned]


def _place(objects: Sequence[Object], sides: Sides) -> tuple[int, int] | None:
    return sides.by_words.get(words_of(objects))


def _faults_of(slot: Slot, objects: Sequence[Object], sides: Sides) -> Iterator[tuple[Rule, str]]:
    if not _is_straight(slot.turn):
        yield rules.SHEET_SCALE_DIFFERS, "is scaled, mirrored or turned askew"
    proved = sides.by_place[slot.card, slot.side].objects
    if len(proved) != len(objects):
        what = f"has {len(objects)} texts and drawings and not {len(proved)}"
        yield rules.SHEET_SIDE_DIFFERS, what
        return
    changed = next(
        (one for one, two in zip(proved, objects, strict=True) if not _same(one, two)), None
    )
    if changed is not None:
        said = f"`{changed.text.strip()}`" if isinstance(changed, TextRead) else "a drawing"
        yield rules.SHEET_SIDE_DIFFERS, f"has {said} in another place or of another look"


def _is_straight(turn: Turn) -> bool:
    quarters = ((1, 0, 0, 1), (0, 1, -1, 0), (-1, 0, 0, -1), (0, -1, 1, 0))
    return any(
        all(abs(one - two) <= _STRAIGHT for one, two in zip(turn, quarter, strict=False))
        for quarter in quarters
    )


def _same(proved: Object, laid: Object) -> bool:
    near = all(abs(one - two) <= _SAME for one, two in zip(proved.box, laid.box, strict=True))
    if not near or proved.color != laid.color:
        return False
    if isinstance(proved, TextRead) and isinstance(laid, TextRead):
        size = abs(proved.points - laid.points) <= _SAME
        letters = folded(proved.text) == folded(laid.text)
        return size and letters and (proved.font, proved.hidden) == (laid.font, laid.hidden)
    if isinstance(proved, DrawnRead) and isinstance(laid, DrawnRead):
        return (proved.is_path, proved.fills, proved.strokes, proved.ends) == (
            laid.is_path,
            laid.fills,
            laid.strokes,
            laid.ends,
        )
    return False
