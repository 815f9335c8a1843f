"""What the stylesheets of a site hide.

Takes in stylesheets by path; gives out the selectors under which a text would not be read, and
everything that the stylesheets ask for. Refuses exceptions without a reason: the few selectors
that are let through stand in one list, each with its own.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from guidegen.proof.css import CssRule, Declaration, Sheet, read_sheet
from guidegen.proof.hiding import Effect, Hiding, find_added_words, find_hiding
from guidegen.proof.ink import Palette, find_lost_ink, gather_palette, is_dark
from guidegen.proof.selectors import PARTS_OF_TEXT, Selector, widen_selectors


@dataclass(frozen=True, slots=True)
class HidingRule:
    """A selector under which text is not read."""

    selector: Selector
    hiding: Hiding
    place: str
    """Path of the stylesheet and line in it."""

    def __str__(self) -> str:
        return f"`{self.selector.text} {{ {self.hiding.declaration} }}` in {self.place}"


@dataclass(frozen=True, slots=True)
class Styles:
    """All that stylesheets do to texts."""

    rules: tuple[HidingRule, ...]
    addresses: tuple[tuple[str, str], ...]
    """Path of the stylesheet, and what it asks for."""

    _of_names: dict[frozenset[str], tuple[HidingRule, ...]] = field(
        default_factory=dict, compare=False, repr=False
    )

    def that_could_match(self, names: frozenset[str]) -> tuple[HidingRule, ...]:
        """Return the rules whose last part needs no other names than *names*."""
        found = self._of_names.get(names)
        if found is None:
            found = tuple(rule for rule in self.rules if rule.selector.keys <= names)
            self._of_names[names] = found
        return found


LET_THROUGH: Mapping[tuple[str, str], str] = {}
"""Selectors and declarations that would count as hiding, with the reason why they do not."""


def read_styles(sheets: Mapping[str, str]) -> Styles:
    """Return what the stylesheets, by path, do to texts."""
    parsed = {path: _read_once(text) for path, text in sorted(sheets.items())}
    palette = gather_palette(rule for sheet in parsed.values() for rule in sheet.rules)
    fading = _fading_animations(parsed.values())
    rules = [
        found
        for path, sheet in parsed.items()
        for rule in sheet.rules
        for found in _find_rules(rule, path, palette, fading)
        if (found.selector.text, found.hiding.declaration) not in LET_THROUGH
    ]
    addresses = [(path, each) for path, sheet in parsed.items() for each in sheet.addresses]
    return Styles(tuple(rules), tuple(addresses))


@lru_cache(maxsize=64)
def _read_once(text: str) -> Sheet:
    return read_sheet(text)


def _find_rules(
    rule: CssRule, path: str, palette: Palette, fading: frozenset[str]
) -> Iterator[HidingRule]:
    place = f"{path}:{rule.line}"
    on_text = tuple(_on_text(rule, palette, fading))
    added = tuple(find_added_words(rule.declarations))
    if not (on_text or added):
        return
    for selector in widen_selectors(rule.prelude):
        if not selector.pseudo_element or selector.pseudo_element in PARTS_OF_TEXT:
            yield from (HidingRule(selector, hiding, place) for hiding in on_text)
        else:
            yield from (HidingRule(selector, hiding, place) for hiding in added)


def _on_text(rule: CssRule, palette: Palette, fading: frozenset[str]) -> Iterator[Hiding]:
    yield from find_hiding(rule.declarations)
    yield from find_lost_ink(rule.declarations, palette, dark=is_dark(rule))
    for declared in rule.declarations:
        if declared.name in ("animation", "animation-name") and declared.words & fading:
            yield Hiding(Effect.HIDES, str(declared))


def _fading_animations(sheets: Iterable[Sheet]) -> frozenset[str]:
    return frozenset(
        name for sheet in sheets for name, declarations in sheet.keyframes if _hides(declarations)
    )


def _hides(declarations: tuple[Declaration, ...]) -> bool:
    hiding = [*find_hiding(declarations), *find_lost_ink(declarations, Palette(), dark=False)]
    return any(each.effect is Effect.HIDES for each in hiding)
