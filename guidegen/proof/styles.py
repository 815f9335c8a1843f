"""What the stylesheets of a site hide.

Takes in stylesheets by path; gives out the selectors under which a text would not be read, and
everything that the stylesheets ask for. Refuses to weigh one rule against another: a rule that
could hide counts, whatever comes after it.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import NamedTuple

from guidegen.proof.css import CssRule, Declaration, Sheet, read_sheet
from guidegen.proof.hiding import Effect, Hiding, find_added_words, find_hiding
from guidegen.proof.ink import COLORS, Definition, Palette, find_lost_ink, theme_of
from guidegen.proof.selectors import PARTS_OF_TEXT, Selector, widen_selectors


class HidingRule(NamedTuple):
    """A selector under which text is not read."""

    selector: Selector
    hiding: Hiding
    place: str
    """Path of the stylesheet and line in it."""

    def __str__(self) -> str:
        return f"`{self.selector.text} {{ {self.hiding.declaration} }}` in {self.place}"


class ColorRule(NamedTuple):
    """A selector that gives text or its ground a color."""

    selector: Selector
    declarations: tuple[Declaration, ...]
    theme: str
    place: str


class DefiningRule(NamedTuple):
    """A selector that gives a custom property a value."""

    selector: Selector
    definition: Definition
    order: int
    """Place among all such rules; of two equal ones the later wins."""


@dataclass(frozen=True, slots=True)
class Styles:
    """All that stylesheets do to texts."""

    hiding: tuple[HidingRule, ...]
    colors: tuple[ColorRule, ...]
    defining: tuple[DefiningRule, ...]
    addresses: tuple[tuple[str, str], ...]
    """Path of the stylesheet, and what it asks for."""

    keys: frozenset[str]
    """Everything that the last part of any of these selectors needs."""

    defined: dict[object, tuple[Definition, ...]] = field(
        default_factory=dict, compare=False, repr=False
    )
    """What was found to be defined around the body of pages, by the elements around it."""

    _could_match: dict[tuple[frozenset[str], tuple[Definition, ...]], tuple[HidingRule, ...]] = (
        field(default_factory=dict, compare=False, repr=False)
    )
    _lose_ink: dict[tuple[Definition, ...], tuple[HidingRule, ...]] = field(
        default_factory=dict, compare=False, repr=False
    )

    def that_could_match(
        self, names: frozenset[str], definitions: tuple[Definition, ...]
    ) -> tuple[HidingRule, ...]:
        """Return the rules under which text is lost, if their selectors match.

        Args:
            names: What the elements of a page are known by, as `Selector.keys`.
            definitions: Custom properties of the page.
        """
        found = self._could_match.get((names, definitions))
        if found is None:
            rules = (*self.hiding, *self._that_lose_ink(definitions))
            found = tuple(rule for rule in rules if rule.selector.keys <= names)
            self._could_match[names, definitions] = found
        return found

    def _that_lose_ink(self, definitions: tuple[Definition, ...]) -> tuple[HidingRule, ...]:
        found = self._lose_ink.get(definitions)
        if found is None:
            palette = Palette.of(definitions)
            found = tuple(
                HidingRule(rule.selector, lost, rule.place)
                for rule in self.colors
                for lost in find_lost_ink(rule.declarations, palette, rule.theme)
            )
            self._lose_ink[definitions] = found
        return found


def read_styles(sheets: Mapping[str, str]) -> Styles:
    """Return what the stylesheets, by path and in the order of their links, do to texts."""
    parsed = {path: _read_once(text) for path, text in sheets.items()}
    fading = _fading_animations(parsed.values())
    placed = [(rule, path) for path, sheet in parsed.items() for rule in sheet.rules]
    hiding = tuple(found for rule, path in placed for found in _hiding_rules(rule, path, fading))
    colors = tuple(found for rule, path in placed for found in _color_rules(rule, path))
    defining = tuple(
        DefiningRule(selector, definition, order)
        for order, (rule, _) in enumerate(placed)
        for selector, definition in _definitions(rule)
    )
    return Styles(
        hiding,
        colors,
        defining,
        tuple((path, each) for path, sheet in parsed.items() for each in sheet.addresses),
        frozenset().union(
            *(rule.selector.keys for rule in hiding),
            *(rule.selector.keys for rule in colors),
            *(rule.selector.keys for rule in defining),
        ),
    )


@lru_cache(maxsize=64)
def _read_once(text: str) -> Sheet:
    return read_sheet(text)


def _hiding_rules(rule: CssRule, path: str, fading: frozenset[str]) -> Iterator[HidingRule]:
    place = f"{path}:{rule.line}"
    on_text = (*find_hiding(rule.declarations), *_fades(rule, fading))
    added = tuple(find_added_words(rule.declarations))
    if not (on_text or added):
        return
    for selector in widen_selectors(rule.prelude):
        found = on_text if _is_text(selector) else added
        yield from (HidingRule(selector, hiding, place) for hiding in found)


def _fades(rule: CssRule, fading: frozenset[str]) -> Iterator[Hiding]:
    for declared in rule.declarations:
        if declared.name in ("animation", "animation-name") and declared.words & fading:
            yield Hiding(Effect.HIDES, str(declared))


def _color_rules(rule: CssRule, path: str) -> Iterator[ColorRule]:
    declarations = tuple(each for each in rule.declarations if each.name in COLORS)
    if declarations:
        for selector in widen_selectors(rule.prelude):
            if _is_text(selector):
                yield ColorRule(selector, declarations, theme_of(rule), f"{path}:{rule.line}")


def _definitions(rule: CssRule) -> Iterator[tuple[Selector, Definition]]:
    declared = [each for each in rule.declarations if each.name.startswith("--")]
    for selector in widen_selectors(rule.prelude) if declared else ():
        for each in declared:
            yield selector, Definition(each.name, each.text, theme_of(rule))


def _is_text(selector: Selector) -> bool:
    return not selector.pseudo_element or selector.pseudo_element in PARTS_OF_TEXT


def _fading_animations(sheets: Iterable[Sheet]) -> frozenset[str]:
    return frozenset(
        name for sheet in sheets for name, declarations in sheet.keyframes if _hides(declarations)
    )


def _hides(declarations: tuple[Declaration, ...]) -> bool:
    hiding = [*find_hiding(declarations), *find_lost_ink(declarations, Palette())]
    return any(each.effect is Effect.HIDES for each in hiding)
