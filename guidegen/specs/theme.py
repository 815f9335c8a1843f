"""What the theme of printed matter states.

Takes in the fields of the theme file as typed; gives out stated colors and sizes.
Refuses colors in other notations and sizes without their measure.
"""

from typing import Annotated

from guidegen.specs.fields import Stated, TextField
from guidegen.specs.section import Section

_COLOR = r"#[0-9a-fA-F]{6}"
_SAYS_COLOR = "a color such as #d05d29"
_POINTS = r"[0-9]{1,2}(\.[0-9])? pt"
_SAYS_POINTS = "a size in points such as 9.5 pt"


def _color(label: str) -> TextField:
    return TextField(label, _COLOR, _SAYS_COLOR)


def _points(label: str) -> TextField:
    return TextField(label, _POINTS, _SAYS_POINTS)


class ThemeColors(Section):
    """Colors; paper itself is white."""

    ink: Annotated[Stated, _color("Letters")]
    """Of all text."""

    quiet: Annotated[Stated, _color("State and place")]
    """Of the state that the truck must be in, and the place where the driver stands."""

    danger_back: Annotated[Stated, _color("DANGER, ground")]
    """Behind the signal word."""

    danger_text: Annotated[Stated, _color("DANGER, letters")]
    """Of the signal word."""

    warning_back: Annotated[Stated, _color("WARNING, ground")]
    """Behind the signal word."""

    warning_text: Annotated[Stated, _color("WARNING, letters")]
    """Of the signal word."""

    caution_back: Annotated[Stated, _color("CAUTION, ground")]
    """Behind the signal word."""

    caution_text: Annotated[Stated, _color("CAUTION, letters")]
    """Of the signal word."""

    notice_back: Annotated[Stated, _color("NOTICE, ground")]
    """Behind the signal word."""

    notice_text: Annotated[Stated, _color("NOTICE, letters")]
    """Of the signal word."""


class ThemeSizes(Section):
    """Sizes of type and of gaps, in points of 1/72 inch."""

    text: Annotated[Stated, _points("Text")]
    """Steps and cautions."""

    title: Annotated[Stated, _points("Titles")]
    """Titles of cards and of procedures."""

    signal: Annotated[Stated, _points("Signal words")]
    """DANGER, WARNING, CAUTION, NOTICE."""

    unit: Annotated[Stated, _points("Unit number")]
    """On each side."""

    large: Annotated[Stated, _points("Large values")]
    """Values of a card that is read from afar, such as the one for the visor."""

    small: Annotated[Stated, _points("Small print")]
    """Revision, date, page."""

    gap: Annotated[Stated, _points("Gap")]
    """Between head and text."""

    lamp: Annotated[Stated, _points("Lamp symbols")]
    """Width and height."""


class ThemeLogo(Section):
    """The fleet's mark, on cards, covers and sheets."""

    file: Annotated[Stated, TextField("Logo, file")]
    """Name of an SVG or PNG file beside the theme."""

    alt: Annotated[Stated, TextField("Logo, in words")]
    """Read aloud in place of the picture."""


class ThemeFile(Section):
    """How cards, booklets and sheets look."""

    colors: ThemeColors
    """Of ink."""

    sizes: ThemeSizes
    """Of type."""

    logo: ThemeLogo | None = None
    """The fleet's mark; nothing is drawn without it."""
