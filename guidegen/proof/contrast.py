"""How far two colors stand apart.

Takes in color values as a stylesheet writes them; gives out their contrast, from 1 to 21.
Refuses to guess: a color that it cannot read has no contrast.
"""

from functools import lru_cache

from tinycss2.color4 import Color, parse_color

Rgba = tuple[float, float, float, float]
"""Red, green, blue and opacity, each from 0 to 1."""

WHITE: Rgba = (1.0, 1.0, 1.0, 1.0)
BLACK: Rgba = (0.0, 0.0, 0.0, 1.0)

_WHOLE_LIGHTNESS = 100.0
"""Lightness of white in CIE L*a*b*."""


@lru_cache(maxsize=4096)
def read_color(text: str) -> Rgba | None:
    """Return the color that *text* names in any notation of CSS Color 4, or nothing.

    Of the notations by lightness (``lab``, ``oklch``) only the lightness is kept.
    """
    color = parse_color(text)
    if not isinstance(color, Color):
        return None
    try:
        red, green, blue, alpha = color.to("srgb")
    except NotImplementedError:
        return _gray(color)
    return (red or 0.0, green or 0.0, blue or 0.0, 1.0 if alpha is None else alpha)


def _gray(color: Color) -> Rgba | None:
    try:
        lightness, _, _, alpha = color.to("lab")
    except NotImplementedError:
        return None
    light = (lightness or 0.0) / _WHOLE_LIGHTNESS
    return (light, light, light, 1.0 if alpha is None else alpha)


def contrast(ink: Rgba, ground: Rgba) -> float:
    """Return the contrast of *ink* on *ground* as WCAG 2.2 defines it.

    A ground that lets light through is taken to lie on white.

    >>> round(contrast(BLACK, WHITE), 2)
    21.0
    """
    solid = laid_over(ground, WHITE)
    lights = sorted((_luminance(laid_over(ink, solid)), _luminance(solid)))
    return (lights[1] + 0.05) / (lights[0] + 0.05)


def laid_over(top: Rgba, bottom: Rgba) -> Rgba:
    """Return what is seen of *top* lying on a solid *bottom*."""
    share = min(max(top[3], 0.0), 1.0)
    mixed = [over * share + under * (1 - share) for over, under in zip(top, bottom, strict=True)]
    return (mixed[0], mixed[1], mixed[2], 1.0)


def _luminance(color: Rgba) -> float:
    # Relative luminance and its threshold as in WCAG 2.2, section "relative luminance".
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4  # noqa: PLR2004
        for part in (min(max(part, 0.0), 1.0) for part in color[:3])
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
