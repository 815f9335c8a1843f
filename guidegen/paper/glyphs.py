"""Whether the font has a shape for each letter, and how wide its shapes are.

Takes in texts; gives out the letters that would leave a hole, and widths that none exceeds.
Refuses to fall back on another font: which one there is differs by machine.
"""

import unicodedata
from collections.abc import Mapping
from functools import cache, lru_cache

from guidegen.paper.typeset import FONT_FOLDER

_FILES = ("AtkinsonHyperlegible-Regular.ttf", "AtkinsonHyperlegible-Bold.ttf")


SPARE = 1.1
"""Kerning sets some pairs of letters farther apart: by much less than a tenth of a word."""


def missing_letters(text: str) -> str:
    """Return the letters of *text* that the font has no shape for, each once, in order.

    Blanks and format characters need none.
    """
    without = set(text) - _shapes()
    if not without:
        return ""
    return "".join(
        dict.fromkeys(
            letter
            for letter in text
            if letter in without and unicodedata.category(letter) not in ("Zs", "Cf")
        )
    )


@lru_cache(maxsize=20_000)
def width_at_most(word: str) -> float:
    """Return a width in em that *word* does not exceed, in either weight."""
    widths = _widths()
    return SPARE * sum(widths.get(letter, 1.0) for letter in word)


@cache
def _shapes() -> frozenset[str]:
    regular, bold = (frozenset(_widths_in(name)) for name in _FILES)
    return regular & bold


@cache
def _widths() -> Mapping[str, float]:
    """Return the wider of both weights of each letter, in em."""
    regular, bold = map(_widths_in, _FILES)
    return {letter: max(width, bold.get(letter, width)) for letter, width in regular.items()}


def _widths_in(file: str) -> Mapping[str, float]:
    # Takes a while, and most runs print nothing.
    from fontTools.ttLib import (  # type: ignore[import-untyped]  # noqa: PLC0415 -- it has no hints
        TTFont,
    )

    with TTFont(FONT_FOLDER / file, lazy=True) as font:
        advances, em = font["hmtx"], font["head"].unitsPerEm
        return {chr(code): advances[shape][0] / em for code, shape in font.getBestCmap().items()}
