"""What two cards of trucks of one edition must both say.

Takes in what a card must say; gives out all of it that is not the truck's own, to be compared.
Refuses to go by the fingerprint of an edition: pieces and values themselves are compared.
"""

from dataclasses import replace

from guidegen.guide.model import STAMPED
from guidegen.paper_proof.model import Expected, Part, Piece
from guidegen.proof.read_text import facts_in


def says_the_same(expected: Expected, known: Expected, known_common: object) -> bool:
    """Return whether two cards must say the same but for number, code and name of the file.

    Args:
        expected: Of the one card.
        known: Of the other.
        known_common: Of the other, made by `common_of`.
    """
    return common_of(expected) == known_common and all(
        name in expected.guide.facts
        and name in known.guide.facts
        and _shown(expected, name) == _shown(known, name)
        for name in _facts_of(expected)
    )


def common_of(expected: Expected) -> object:
    """Return all that a card must say, but for number, code and name of the file."""
    groups = [
        (
            *(group.opens, group.running, group.figure, group.turns, group.chapter),
            *(group.photos, group.photos_after, group.left_out),
            *(
                (
                    each.part,
                    each.pattern,
                    each.of,
                    each.points,
                    each.signal,
                    each.anchor,
                    each.is_opening,
                    each.is_heading,
                    each.is_caption,
                )
                for each in group.pieces
            ),
        )
        for group in expected.groups
    ]
    head = tuple(piece for piece in expected.head if piece.part is not Part.UNIT)
    unit = _without_number(unit_of(expected))
    return (
        *(expected.side, head, unit, groups, expected.continued, expected.bleed, expected.safe),
        *(expected.spoken - {expected.link}, expected.counts, expected.bookmarks),
        *(expected.index, expected.is_bound, expected.code, len(expected.link)),
        expected.are_photos_resized,
    )


def unit_of(expected: Expected) -> Piece:
    """Return what says the number of the truck on each side."""
    return next(piece for piece in expected.head if piece.part is Part.UNIT)


def has_own_values(expected: Expected) -> bool:
    """Return whether the card prints a value that is the truck's own: then it is like no other."""
    return bool(_facts_of(expected) & set(STAMPED)) or bool(expected.others or expected.unsound)


def _facts_of(expected: Expected) -> set[str]:
    patterns = [
        *expected.spoken,
        *(piece.pattern for piece in expected.head),
        *(piece.pattern for group in expected.groups for piece in group.pieces),
        *(group.running for group in expected.groups),
        *(group.chapter for group in expected.groups),
    ]
    return {name for pattern in patterns for name in facts_in(pattern)}


def _shown(expected: Expected, name: str) -> object:
    fact = expected.guide.facts[name]
    return fact.field, fact.value, fact.shown, fact.is_quoted


def _without_number(unit: Piece) -> Piece:
    return replace(unit, pattern="")
