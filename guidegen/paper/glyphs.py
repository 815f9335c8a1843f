"""Whether the font has a shape for each letter.

Takes in texts; gives out the letters that would leave a hole.
Refuses to fall back on another font: which one there is differs by machine.
"""

import unicodedata
from functools import cache
from pathlib import Path

from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # it has no hints

from guidegen.paper.typeset import FONT_FOLDER

_FILES = ("AtkinsonHyperlegible-Regular.ttf", "AtkinsonHyperlegible-Bold.ttf")


def missing_letters(text: str) -> str:
    """Return the letters of *text* that the font has no shape for, each once, in order.

    Blanks and format characters need none.
    """
    shapes = _shapes()
    return "".join(
        dict.fromkeys(
            letter
            for letter in text
            if ord(letter) not in shapes and unicodedata.category(letter) not in ("Zs", "Cf")
        )
    )


@cache
def _shapes() -> frozenset[int]:
    regular, bold = (_shapes_in(FONT_FOLDER / name) for name in _FILES)
    return regular & bold


def _shapes_in(file: Path) -> frozenset[int]:
    with TTFont(file, lazy=True) as font:
        return frozenset(font.getBestCmap())
