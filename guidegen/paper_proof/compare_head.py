"""Whether each side says which truck, card, side and revision it is.

Takes in what must stand on each side, and the texts around its body; records what is missing,
another, or more than that. Refuses to be content with a head that another side has.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.match import match, words_of
from guidegen.paper_proof.model import CHAPTER, SIDE_COUNT, SIDE_NUMBER, Part, Piece
from guidegen.paper_proof.pieces import LEAST_SMALL
from guidegen.paper_proof.sheet_model import TextRead
from guidegen.paper_proof.stream import stream_of
from guidegen.paper_proof.values import Values
from guidegen.proof.faults import Faults
from guidegen.proof.read_text import plain
from guidegen.source import Span

_RULES = {
    Part.UNIT: rules.UNIT_DIFFERS,
    Part.SIDE: rules.PAGE_NUMBER_DIFFERS,
    Part.REVISION: rules.REVISION_DIFFERS,
}
_CONTINUED = "what is continued"
_SEPARATORS = (" ", "\n", ", ")


@dataclass(frozen=True, slots=True)
class Head:
    """What must stand around the body of one side."""

    pieces: tuple[Piece, ...]
    side: int
    """From 0."""

    sides: int
    chapter: str
    """Pattern of the title of the chapter that the side is of."""

    continued: str
    """Pattern of the words that say what goes on here; empty if nothing does."""

    label: str
    """Word before what goes on; empty if no side says so."""

    span: Span | None


def head_pieces(head: Head) -> tuple[Piece, ...]:
    """Return the pieces of one side."""
    pieces = [
        Piece(
            each.part,
            each.pattern.replace(SIDE_NUMBER, str(head.side + 1))
            .replace(SIDE_COUNT, str(head.sides))
            .replace(CHAPTER, head.chapter),
            each.of,
            each.span,
            each.points,
        )
        for each in head.pieces
    ]
    if head.continued:
        pieces.append(Piece(Part.TEXT, head.continued, _CONTINUED, None, LEAST_SMALL))
    return tuple(pieces)


def compare_head(head: Head, texts: Sequence[TextRead], values: Values, faults: Faults) -> None:
    """Hold the *texts* around the body of one side against *head*.

    Args:
        head: Of the side.
        texts: In the order of the file.
        values: Of the truck.
        faults: Takes what differs.
    """
    pieces = head_pieces(head)
    stream = stream_of((head.side, read) for read in texts)
    places = _fit(pieces, stream.text, 0, values)
    if places is None:
        _report(head, pieces, stream.text, faults)
        return
    for piece, start in zip(pieces, places, strict=True):
        read = stream.reads[stream.place(start)]
        if read.points < piece.points - 0.01:
            faults.add(
                rules.TEXT_SMALL,
                f"{piece.of} is set in {read.points:.1f} pt and not in {piece.points:g} pt or more",
                fix="set it larger in the theme",
                span=head.span,
                mark=_mark(head),
            )


def _fit(
    pieces: Sequence[Piece], text: str, position: int, values: Values
) -> tuple[int, ...] | None:
    """Return where each of *pieces* begins if, in some order, they are all of *text*."""
    left = dict(enumerate(pieces))
    return _fit_left(left, text, position, values, {})


def _fit_left(
    left: dict[int, Piece], text: str, position: int, values: Values, found: dict[int, int]
) -> tuple[int, ...] | None:
    if not left:
        is_all = position >= len(text.rstrip())
        return tuple(found[place] for place in sorted(found)) if is_all else None
    for place, piece in left.items():
        end = _end_of(piece, text, position, values)
        if end is None:
            continue
        rest = {other: each for other, each in left.items() if other != place}
        fitted = _fit_left(rest, text, end + _gap_at(text, end), values, {**found, place: position})
        if fitted is not None:
            return fitted
    return None


def _gap_at(text: str, end: int) -> int:
    return next((len(gap) for gap in _SEPARATORS if text.startswith(gap, end)), 0)


def _end_of(piece: Piece, text: str, position: int, values: Values) -> int | None:
    found = match(piece.pattern, text, position, values)
    return found.end if found else _before_comma(piece, text, position)


def _before_comma(piece: Piece, text: str, position: int) -> int | None:
    end = position + len(piece.pattern)
    return end if text.startswith(f"{piece.pattern}, ", position) else None


def _report(head: Head, pieces: Sequence[Piece], text: str, faults: Faults) -> None:
    """Say which pieces are not there; if all are, that there is more."""
    rest = text
    missing = list[Piece]()
    for piece in sorted(pieces, key=lambda each: -len(each.pattern)):
        found = re.search(rf"(?<!\w){words_of(piece.pattern).pattern}(?!\w)", rest, re.DOTALL)
        if found is None:
            missing.append(piece)
        else:
            rest = f"{rest[: found.start()]} {rest[found.end() :]}"
    rest = " ".join(rest.replace(",", " ").split())
    for piece in missing:
        rule = _RULES.get(piece.part, rules.HEAD_DIFFERS)
        faults.add(
            rules.CONTINUED_DIFFERS if piece.of == _CONTINUED else rule,
            f"{piece.of} `{plain(piece.pattern)}` does not stand there; what does is `{rest}`",
            fix="draw the head of each side from the truck, the card and its issue",
            span=head.span,
            mark=_mark(head),
        )
    if not missing:
        faults.add(
            _rule_for_rest(rest, head),
            f"`{rest or text}` stands there as well",
            fix="draw in the head what belongs there and nothing else",
            span=head.span,
            mark=_mark(head),
        )


def _rule_for_rest(rest: str, head: Head) -> Rule:
    is_continued = bool(head.label) and rest.startswith(head.label)
    return rules.CONTINUED_DIFFERS if is_continued else rules.HEAD_DIFFERS


def _mark(head: Head) -> str:
    return f"side {head.side + 1}"
