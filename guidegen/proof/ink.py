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


class Definition(NamedTuple):
    """A value of a custom property."""

    name: str
    text: str
    dark: bool
    """Whether it holds in the dark scheme only."""


@dataclass(frozen=True, slots=True)
class Palette:
    """Custom properties with all values that each may have on a page."""

    light: Mapping[str, Sequence[str]] = field(default_factory=dict)
    dark: Mapping[str, Sequence[str]] = field(default_factory=dict)

    @classmethod
    def of(cls, definitions: Iterable[Definition]) -> "Palette":
        """Return the palette of *definitions*."""
        found: tuple[dict[str, list[str]], dict[str, list[str]]] = ({}, {})
        for each in definitions:
            found[each.dark].setdefault(each.name, []).append(each.text)
        return cls(*found)

    @property
    def has_dark_scheme(self) -> bool:
        """Whether any custom property has another value in the dark scheme."""
        return any(self.light.get(name) != values for name, values in self.dark.items())

    def readings(self, text: str, *, dark: bool) -> Sequence[str]:
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
                    for value in self._values(variable, dark=dark)
                )
        return found

    def _values(self, variable: re.Match[str], *, dark: bool) -> Sequence[str]:
        name = variable[1]
        values = (self.dark.get(name) if dark else None) or self.light.get(name)
        return values or ([variable[2]] if variable[2] else [])


def is_dark(rule: CssRule) -> bool:
    """Whether *rule* holds for the dark scheme only."""
    selectors = "".join(token.serialize() for token in rule.prelude)
    return any(word in f"{selectors} {rule.conditions}" for word in ("slate", "dark"))


def find_lost_ink(
    declarations: Sequence[Declaration], palette: Palette, *, dark_only: bool = False
) -> Iterator[Hiding]:
    """Yield the declarations that give text or ground a color in which the text is lost.

    Args:
        declarations: Of one rule.
        palette: Custom properties of the page.
        dark_only: Whether the rule holds in the dark scheme only; other rules hold in both, if
            there is a dark one.
    """
    if not dark_only:
        yield from _find_in_scheme(declarations, palette, dark=False)
    if dark_only or palette.has_dark_scheme:
        yield from _find_in_scheme(declarations, palette, dark=True)


def _find_in_scheme(
    declarations: Sequence[Declaration], palette: Palette, *, dark: bool
) -> Iterator[Hiding]:
    inks = [declared for declared in declarations if declared.name in _INKS]
    grounds = [declared for declared in declarations if declared.name in _GROUNDS]
    under = [color for each in grounds for color in _colors(each, palette, dark=dark) if color[3]]
    usual = _DARK_GROUND if dark else WHITE
    for declared in inks:
        colors = _colors(declared, palette, dark=dark)
        if any(_is_lost(color, under or [usual]) for color in colors):
            yield Hiding(Effect.HIDES, "; ".join(map(str, (declared, *grounds))))
    text = WHITE if dark else BLACK
    if not inks and any(contrast(text, color) < _LEAST_CONTRAST for color in under):
        yield Hiding(Effect.HIDES, "; ".join(map(str, grounds)))


def _is_lost(ink: Rgba, grounds: Iterable[Rgba]) -> bool:
    return ink[3] < _LEAST_OPACITY or any(
        contrast(ink, ground) < _LEAST_CONTRAST for ground in grounds
    )


def _colors(declared: Declaration, palette: Palette, *, dark: bool) -> list[Rgba]:
    colors = []
    for text in palette.readings(declared.text, dark=dark):
        for token in tinycss2.parse_component_value_list(text):
            color = read_color(token.serialize())
            if color is not None:
                colors.append(color)
    return colors
