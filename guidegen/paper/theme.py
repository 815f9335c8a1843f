"""How printed matter looks.

Takes in what the theme file states; gives out colors and sizes.
Refuses type that is too small or too pale to be read in a cab.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from guidegen.finding import Findings
from guidegen.paper import rules
from guidegen.paper.logo import Logo
from guidegen.paper.typeset import FONT
from guidegen.procedures.words import LABELS
from guidegen.specs.fields import Stated
from guidegen.specs.theme import ThemeFile

SMALLEST = MappingProxyType(
    {
        "text": Decimal(8),
        "signal": Decimal(8),
        "title": Decimal(9),
        "unit": Decimal(18),
        "large": Decimal(12),
        "small": Decimal(6),
    }
)
"""Points. Text held in the hand: capitals of 0.08 inch at 24 inches, 1 to 300 of the distance, as
ANSI Z535.2 asks of safety messages in good light, are 8 points; the others are common practice,
no source."""

LEAST_CONTRAST = 4.5
"""WCAG 2.2, 1.4.3; paper in a dark cab is no easier to read than a screen."""

_PAIRS = (
    ("ink", "paper"),
    ("quiet", "paper"),
    ("danger_text", "danger_back"),
    ("warning_text", "warning_back"),
    ("caution_text", "caution_back"),
    ("notice_text", "notice_back"),
)
_PAPER = "#ffffff"

LANGUAGE = "en"
"""Of all that is printed."""


@dataclass(frozen=True, slots=True)
class Theme:
    """Colors and sizes by the names of the theme file."""

    colors: Mapping[str, str]
    sizes: Mapping[str, Decimal]
    """Points."""

    logo: Logo | None = None

    def as_file(self) -> dict[str, Any]:
        """Return how things look, font and language included, in types that JSON has."""
        return {
            "language": LANGUAGE,
            "font": FONT,
            "page": LABELS["page"],
            "colors": dict(self.colors),
            "sizes": {name: float(points) for name, points in self.sizes.items()},
            **({"logo": self.logo.as_file()} if self.logo else {}),
        }


def theme_from(file: ThemeFile, findings: Findings) -> Theme | None:
    """Return the theme of *file*, or nothing if what it asks for cannot be read in a cab."""
    own = Findings()
    colors = dict(_words(file.colors))
    sizes = {
        name: (stated, Decimal(str(stated.value).removesuffix(" pt")))
        for name, stated in _words(file.sizes)
    }
    for name, (stated, points) in sizes.items():
        if points < SMALLEST.get(name, Decimal(0)):
            own.add(
                rules.TYPE_TOO_SMALL,
                stated.span,
                what=f"`{name}: {stated.value}` is smaller than {SMALLEST[name]} pt",
                fix=f"write `{name}: {SMALLEST[name]} pt` or more; "
                "what does not fit goes on another side",
            )
    _check_contrast(colors, own)
    findings.extend(own)
    if own.has_errors:
        return None
    return Theme(
        MappingProxyType({name: str(stated.value) for name, stated in colors.items()}),
        MappingProxyType({name: points for name, (_, points) in sizes.items()}),
    )


def contrast(first: str, second: str) -> float:
    """Return how far two colors such as ``#d05d29`` stand apart, from 1 to 21 (WCAG 2.2)."""
    lighter, darker = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(color: str) -> float:
    channels = [int(color[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4  # noqa: PLR2004 -- the formula's own
        for each in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _check_contrast(colors: Mapping[str, Stated], findings: Findings) -> None:
    for front, back in _PAIRS:
        ground = str(colors[back].value) if back in colors else _PAPER
        stated = colors[front]
        apart = contrast(str(stated.value), ground)
        if apart < LEAST_CONTRAST:
            findings.add(
                rules.TYPE_TOO_PALE,
                stated.span,
                what=f"`{front}: {stated.value}` on `{ground}` has a contrast of {apart:.1f}",
                fix=f"choose colors with a contrast of {LEAST_CONTRAST} or more",
            )


def _words(section: object) -> Iterator[tuple[str, Stated]]:
    for name in type(section).model_fields:  # type: ignore[attr-defined]  # a pydantic section
        yield name, getattr(section, name)
