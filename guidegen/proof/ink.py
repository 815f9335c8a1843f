"""Text in the color of its ground.

Takes in the declarations of one rule and the custom properties that hold on a page; gives out
the declarations that leave text without contrast. Refuses a light text whose dark ground is
declared elsewhere: the two belong into one rule, where they cannot part.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import tinycss2

from guidegen.proof.contrast import BLACK, WHITE, Rgba, contrast, read_color
from guidegen.proof.css import CssRule, Declaration
from guidegen.proof.hiding import Effect, Hiding

_LEAST_CONTRAST = 2.0
"""Below it a text is not seen in daylight. Good contrast is 4.5 (WCAG 2.2, 1.4.3) and is held
where the stylesheet is made; here only what is hidden counts."""

_LEAST_OPACITY = 0.3
_DARK_GROUND: Rgba = (0.06, 0.07, 0.08, 1.0)
_MOST_READINGS = 16
_DEEPEST = 8

_VARIABLE = re.compile(r"var\(\s*(--[^\s,()]+)\s*(?:,([^()]*))?\)")
_INKS = frozenset({"color", "text-fill-color"})
_GROUNDS = frozenset({"background", "background-color"})
COLORS = _INKS | _GROUNDS
"""Properties that decide whether a text stands out."""


BASE = ""
"""What holds where no theme says otherwise."""

_WORDS_OF_THEMES = {
    "print": ("print",),
    "night-red": ("night-red",),
    "dark": ("slate", "dark"),
}
"""Words of selectors and conditions under which a theme holds; the first that fits counts."""

THEMES = (BASE, *_WORDS_OF_THEMES)
_DARK_THEMES = frozenset({"night-red", "dark"})


class Definition(NamedTuple):
    """A value of a custom property."""

    name: str
    text: str
    theme: str = BASE
    """The one of `THEMES` in which it holds; that of `BASE` holds in all that have no other."""


@dataclass(frozen=True, slots=True)
class Palette:
    """Custom properties with all values that each may have on a page."""

    by_theme: Mapping[str, Mapping[str, Sequence[str]]] = field(default_factory=dict)

    @classmethod
    def of(cls, definitions: Iterable[Definition]) -> "Palette":
        """Return the palette of *definitions*."""
        found: dict[str, dict[str, list[str]]] = {}
        for each in definitions:
            found.setdefault(each.theme, {}).setdefault(each.name, []).append(each.text)
        return cls(found)

    @property
    def themes(self) -> Sequence[str]:
        """`BASE`, and every theme in which any custom property has another value."""
        base = self.by_theme.get(BASE, {})
        return (
            BASE,
            *(
                theme
                for theme, values in self.by_theme.items()
                if theme != BASE and any(base.get(name) != each for name, each in values.items())
            ),
        )

    def readings(self, text: str, theme: str) -> Sequence[str]:
        """Return what *text* can mean once its custom properties are put in."""
        pending, found = [(text, 0)], list[str]()
        while pending and len(found) < _MOST_READINGS:
            current, depth = pending.pop()
            variable = _VARIABLE.search(current)
            if variable is None:
                found.append(current)
            elif depth < _DEEPEST:
                start, end = variable.span()
                pending.extend(
                    (f"{current[:start]}{value}{current[end:]}", depth + 1)
                    for value in self._values(variable, theme)
                )
        return found

    def _values(self, variable: re.Match[str], theme: str) -> Sequence[str]:
        name = variable[1]
        own, base = (self.by_theme.get(each, {}) for each in (theme, BASE))
        values = own.get(name) or base.get(name)
        return values or ([variable[2]] if variable[2] else [])


def theme_of(rule: CssRule) -> str:
    """Return the theme in which alone *rule* holds; `BASE` if it holds in all."""
    selectors = "".join(token.serialize() for token in rule.prelude)
    around = f"{selectors} {rule.conditions}"
    for theme, words in _WORDS_OF_THEMES.items():
        if any(word in around for word in words):
            return theme
    return BASE


def find_lost_ink(
    declarations: Sequence[Declaration], palette: Palette, theme: str = BASE
) -> Iterator[Hiding]:
    """Yield the declarations that give text or ground a color in which the text is lost.

    Args:
        declarations: Of one rule.
        palette: Custom properties of the page.
        theme: Of `theme_of`; a rule of `BASE` holds in all themes that the palette has.
    """
    for each in (theme,) if theme else palette.themes:
        yield from _find_in_theme(declarations, palette, each)


def _find_in_theme(
    declarations: Sequence[Declaration], palette: Palette, theme: str
) -> Iterator[Hiding]:
    inks = [declared for declared in declarations if declared.name in _INKS]
    grounds = [declared for declared in declarations if declared.name in _GROUNDS]
    under = [color for each in grounds for color in _colors(each, palette, theme) if color[3]]
    usual = _DARK_GROUND if theme in _DARK_THEMES else WHITE
    for declared in inks:
        colors = _colors(declared, palette, theme)
        if any(_is_lost(color, under or [usual]) for color in colors):
            yield Hiding(Effect.HIDES, "; ".join(map(str, (declared, *grounds))))
    text = WHITE if theme in _DARK_THEMES else BLACK
    if not inks and any(contrast(text, color) < _LEAST_CONTRAST for color in under):
        yield Hiding(Effect.HIDES, "; ".join(map(str, grounds)))


def _is_lost(ink: Rgba, grounds: Iterable[Rgba]) -> bool:
    return ink[3] < _LEAST_OPACITY or any(
        contrast(ink, ground) < _LEAST_CONTRAST for ground in grounds
    )


def _colors(declared: Declaration, palette: Palette, theme: str) -> list[Rgba]:
    colors = []
    for text in palette.readings(declared.text, theme):
        for token in tinycss2.parse_component_value_list(text):
            color = read_color(token.serialize())
            if color is not None:
                colors.append(color)
    return colors
