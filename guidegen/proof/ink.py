"""Text in the color of its ground.

Takes in the declarations of one rule and the custom properties of all stylesheets; gives out
the declarations that leave text without contrast. Refuses a light text whose dark ground is
declared elsewhere: the two belong into one rule, where they cannot part.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import tinycss2

from guidegen.proof.contrast import BLACK, WHITE, Rgba, contrast, read_color
from guidegen.proof.css import CssRule, Declaration
from guidegen.proof.hiding import Effect, Hiding

_LEAST_CONTRAST = 2.0
"""Below it a text is not seen in daylight. Good contrast is 4.5 (WCAG 2.2, 1.4.3) and is held
where the stylesheet is made; here only what is hidden counts."""

_LEAST_OPACITY = 0.3
_DARK_GROUND: Rgba = (0.12, 0.13, 0.16, 1.0)
_MOST_READINGS = 16
_DEEPEST = 8

_VARIABLE = re.compile(r"var\(\s*(--[^\s,()]+)\s*(?:,([^()]*))?\)")
_INKS = frozenset({"color", "text-fill-color"})
_GROUNDS = frozenset({"background", "background-color"})


@dataclass(frozen=True, slots=True)
class Palette:
    """Every custom property with all values that it is given anywhere."""

    light: Mapping[str, Sequence[str]] = field(default_factory=dict)
    dark: Mapping[str, Sequence[str]] = field(default_factory=dict)

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


def gather_palette(rules: Iterable[CssRule]) -> Palette:
    """Collect the custom properties of *rules*, light and dark apart."""
    found: tuple[dict[str, list[str]], dict[str, list[str]]] = ({}, {})
    for rule in rules:
        values = found[is_dark(rule)]
        for declared in rule.declarations:
            if declared.name.startswith("--"):
                values.setdefault(declared.name, []).append(declared.text)
    return Palette(*found)


def find_lost_ink(
    declarations: Sequence[Declaration], palette: Palette, *, dark: bool
) -> Iterator[Hiding]:
    """Yield the declarations that give text or ground a color in which the text is lost."""
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
