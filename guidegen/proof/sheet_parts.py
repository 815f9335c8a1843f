"""What a difference sheet must say of a procedure that both trucks have.

Takes in the procedure of the known truck and of the given one; gives out, in order, the claims
of every part that was added, removed or reworded. Refuses a caution of the known truck drawn as
one of the given truck: it warns of what is not there.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from guidegen.guide.model import Block, Caution, Procedure, Text
from guidegen.proof.differ import block_reads
from guidegen.proof.marks import Mark
from guidegen.proof.model import Claim, Within
from guidegen.proof.sheet_model import GIVEN, KNOWN, Row, Side


class _Piece(NamedTuple):
    """A step, caution or line of a procedure."""

    id: str
    role: str
    """Key of the label before a line; empty for blocks and titles."""

    block: Block | None
    text: Text | None
    meaning: object


@dataclass(frozen=True, slots=True)
class Parts:
    """What is other in a procedure that both trucks have."""

    row: Row
    known: Procedure
    given: Procedure

    def claims(self) -> Iterator[Claim]:
        """Yield what the sheet must say of it, in order."""
        old, new = _pieces(self.known), _pieces(self.given)
        both = [id_ for id_ in old if id_ in new]
        if both != [id_ for id_ in new if id_ in old]:
            yield self.row.claim(Mark.LABEL, "other_order")
        if (self.known.station, self.known.state) != (self.given.station, self.given.state):
            for side, procedure in ((KNOWN, self.known), (GIVEN, self.given)):
                yield from self.row.side(side)
                yield from self._stance(procedure)
        yield from self._alone(GIVEN, [piece for id_, piece in new.items() if id_ not in old])
        yield from self._alone(KNOWN, [piece for id_, piece in old.items() if id_ not in new])
        for id_ in _by_earlier_place(both, old, new):
            if old[id_].meaning != new[id_].meaning:
                for side, piece in ((KNOWN, old[id_]), (GIVEN, new[id_])):
                    yield from self.row.side(side)
                    yield from self._piece(side, piece)

    def cautions(self) -> tuple[Caution, ...]:
        """Return those of the given truck that stand on the sheet."""
        old = _pieces(self.known)
        found = []
        reworded = []
        for id_, piece in _pieces(self.given).items():
            if isinstance(piece.block, Caution):
                if id_ not in old:
                    found.append(piece.block)
                elif old[id_].meaning != piece.meaning:
                    reworded.append(piece.block)
        return (*found, *reworded)

    def _stance(self, procedure: Procedure) -> Iterator[Claim]:
        yield self.row.claim(Mark.STATION, procedure.station)
        for aspect, state in procedure.state:
            yield self.row.claim(Mark.STATE, f"{aspect}.{state}")

    def _alone(self, side: Side, pieces: Iterable[_Piece]) -> Iterator[Claim]:
        for place, piece in enumerate(pieces):
            if place == 0:
                yield from self.row.side(side, "only_on")
            yield from self._piece(side, piece)

    def _piece(self, side: Side, piece: _Piece) -> Iterator[Claim]:
        row, block = self.row, piece.block
        if isinstance(block, Caution):
            inner = Within(caution=block.id if side is GIVEN else "", difference=row.id)
            yield Claim(Mark.SIGNAL_WORD, block.signal.value, inner)
            for text in (block.hazard, block.consequence, block.avoid):
                yield Claim(side.text, text.id, inner)
            return
        if block is not None:
            yield row.claim(Mark.NUMBER, str(block.number))
        if piece.role:
            yield row.claim(Mark.LABEL, piece.role)
        if piece.text is not None:
            yield row.claim(side.text, piece.text.id)


def _pieces(procedure: Procedure) -> dict[str, _Piece]:
    shown = "meaning" if procedure.lamp else "expect"
    title = procedure.title
    pieces = [_Piece(title.id, "", None, title, title.parts)]
    for block in procedure.blocks:
        text = None if isinstance(block, Caution) else block.text
        pieces.append(_Piece(block.id, "", block, text, block_reads(block)))
    for role, texts in ((shown, procedure.expect), ("if_not", procedure.if_not)):
        pieces += [_Piece(text.id, role, None, text, text.parts) for text in texts]
    return {piece.id: piece for piece in pieces}


def _by_earlier_place(ids: Iterable[str], old: Iterable[str], new: Iterable[str]) -> Iterable[str]:
    before, after = list(old), list(new)
    return sorted(ids, key=lambda id_: (min(before.index(id_), after.index(id_)), id_))
