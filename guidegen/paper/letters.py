"""The letters and words of what is to be printed.

Takes in groups of pieces; gives out their longest words, and findings for letters that the font
has no shape for. Refuses to guess how wide a word is: it says only how wide it is at most.
"""

from collections.abc import Iterable, Iterator
from typing import Any

from guidegen.finding import Findings
from guidegen.paper import rules
from guidegen.paper.glyphs import missing_letters, width_at_most
from guidegen.paper.matter import Group, Piece, Written
from guidegen.source import Span

NEAR = 0.9
"""Words at most so much shorter than the longest of a piece might be wider than it."""

_NOT_WORDS = ("kind", "drawing", "procedure", "anchor", "level")


def check_letters(
    groups: Iterable[Group], heads: Iterable[tuple[str, Span]], unit: str, findings: Findings
) -> bool:
    """Report letters that would leave a hole; return whether there are none.

    Args:
        groups: What is printed.
        heads: What stands at the head of every side or page, and where it was written.
        unit: Number of the truck.
        findings: Takes the faults.
    """
    texts = [(group.says, " ".join(texts_of(group.pieces)), group.span) for group in groups]
    texts += [("the head", head, span) for head, span in heads]
    is_clean = True
    for says, text, span in texts:
        missing = missing_letters(text)
        if missing:
            is_clean = False
            findings.add(
                rules.LETTER_WITHOUT_SHAPE,
                span,
                what=f"{says} holds `{missing}`, and the font has no shape for it",
                fix="write it in letters and digits",
                unit=unit,
            )
    return is_clean


def group_as_file(group: Group) -> dict[str, Any]:
    """Return *group* as the template is given it: each piece with its longest words.

    ``longest`` holds pairs: how wide the word is at most, in em, and the word.
    """
    pieces = [{**piece, "longest": _longest(piece)} for piece in group.pieces]
    return {**group.as_file(), "pieces": pieces}


def texts_of(pieces: Iterable[Piece]) -> Iterator[str]:
    """Yield each text of *pieces*, its values in words."""
    for piece in pieces:
        for name, value in piece.items():
            if name not in _NOT_WORDS:
                yield from _texts(value)


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Written):
        yield "".join(part[0] for part in value)
    elif isinstance(value, list | tuple):
        for each in value:
            yield from _texts(each)


def _longest(piece: Piece) -> list[tuple[float, str]]:
    words = {word for text in texts_of([piece]) for word in text.replace("\n", " ").split(" ")}
    widths = sorted(((width_at_most(word), word) for word in words), reverse=True)
    most = widths[0][0] if widths else 0.0
    return [(width, word) for width, word in widths if width >= NEAR * most]
