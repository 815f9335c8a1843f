"""Which elements of a page a person cannot read.

Takes in a parsed page, its container and the site's styles; gives out, by element, what hides,
reorders or changes the text in it. Refuses to weigh one rule against another: any rule that can
match an element of the container, or one around it, counts.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from functools import lru_cache

from selectolax.lexbor import LexborHTMLParser, LexborNode

from guidegen.proof.css import read_declarations
from guidegen.proof.hiding import Effect, Hiding, find_hiding
from guidegen.proof.ink import THEMES, Definition, Palette, find_lost_ink
from guidegen.proof.marks import DRAWING_TAGS, TAGS
from guidegen.proof.styles import HidingRule, Styles

_SHUT_TAGS = frozenset(
    {
        *("template", "noscript", "script", "style", "head", "title", "dialog", "datalist"),
        *("iframe", "object", "audio", "video", "canvas", "noembed", "noframes", "select"),
        *("textarea", "math", "marquee", "blink", "map", "option", "button", "input"),
    }
)
_INHERITED = (Effect.HIDES, Effect.CHANGES)
"""Effects that an element has on all that stands in it."""

_SHUT_ATTRIBUTES = frozenset({"hidden", "inert", "popover"})
_MAY_HIDE = frozenset({"aria-hidden", "dir", "width", "height"})
_DRAWN = frozenset({"svg", "img"})
_TELLING = _SHUT_ATTRIBUTES | _MAY_HIDE | {"style"}
"""Attributes that can have an effect of their own."""

_PLAIN_TAGS = (TAGS | DRAWING_TAGS) - {"details"}
"""Tags that have none."""


@dataclass(slots=True)
class Sight:
    """What is known of the elements of one page."""

    of_elements: dict[int, list[tuple[Effect, str]]] = field(default_factory=dict)
    """By address of the element in the container: each effect, and what does it."""

    of_page: list[str] = field(default_factory=list)
    """What hides an element around the container, and so all of it."""

    def effects_on(self, node: LexborNode) -> Sequence[tuple[Effect, str]]:
        """Return each effect on *node*, and what does it."""
        return self.of_elements.get(node.mem_id, ())


def look_at(page: LexborHTMLParser, container: LexborNode, styles: Styles) -> Sight:
    """Say what hides elements of *container* or all of it."""
    sight = Sight()
    inner, around = _Known(), _Known()
    for node in container.traverse():
        if node.is_element_node:
            effects = inner.meet(node)
            if effects:
                sight.of_elements[node.mem_id] = effects
    outer = list(_around(container))
    for node in outer:
        effects = around.meet(node)
        sight.of_page.extend(reason for effect, reason in effects if effect in _INHERITED)
    names, names_around = inner.names() & styles.keys, around.names() & styles.keys
    definitions = _defined(page, outer, names - names_around, styles)
    for rule in styles.that_could_match(names | names_around, definitions):
        _match(page, rule, (inner.addresses, around.addresses), sight)
    return sight


@dataclass(slots=True)
class _Known:
    """What selectors know some elements by."""

    addresses: set[int] = field(default_factory=set)
    tags: set[str] = field(default_factory=set)
    attributes: set[str] = field(default_factory=set)
    classes: set[str | None] = field(default_factory=set)
    """As they stand: several with blanks between them."""

    ids: set[str | None] = field(default_factory=set)

    def meet(self, node: LexborNode) -> list[tuple[Effect, str]]:
        """Note one element, and return what it does to its own text."""
        tag, attributes = node.tag or "", node.attributes
        self.addresses.add(node.mem_id)
        self.tags.add(tag)
        self.attributes.update(attributes)
        if "class" in attributes:
            self.classes.add(attributes["class"])
        if "id" in attributes:
            self.ids.add(attributes["id"])
        if tag in _PLAIN_TAGS and _TELLING.isdisjoint(attributes):
            return []
        return list(_own_effects(tag, attributes))

    def names(self) -> frozenset[str]:
        """Return tags, attributes, classes and ids in the form of `Selector.keys`."""
        classes = (each for several in self.classes if several for each in several.split())
        return frozenset(
            {
                *self.tags,
                *(f"[{name}" for name in self.attributes),
                *(f".{each}" for each in classes),
                *(f"#{each}" for each in self.ids if each),
            }
        )


def _defined(
    page: LexborHTMLParser, outer: Sequence[LexborNode], inside: frozenset[str], styles: Styles
) -> tuple[Definition, ...]:
    """Return the custom properties that may hold on the page.

    Around the body those that win there; in the body any that could match an element of it.
    """
    shape = tuple((node.tag, tuple(node.attributes.items())) for node in outer)
    around = styles.defined.get(shape)
    if around is None:
        around = (*_winners(page, outer, styles), *_defined_in_styles(outer))
        styles.defined[shape] = around
    inner = [rule.definition for rule in styles.defining if rule.selector.keys & inside]
    return (*around, *dict.fromkeys(inner)) if inner else around


def _winners(
    page: LexborHTMLParser, outer: Sequence[LexborNode], styles: Styles
) -> Iterator[Definition]:
    nearness = {node.mem_id: -distance for distance, node in enumerate(outer)}
    best: dict[tuple[str, str], tuple[tuple[object, ...], Definition]] = {}
    for selector, definition, order in styles.defining:
        near = [nearness[e.mem_id] for e in page.css(selector.text) if e.mem_id in nearness]
        if not near:
            continue
        rank = (max(near), selector.specificity, order)
        # What holds in all themes competes in each.
        for theme in (definition.theme,) if definition.theme else THEMES:
            found = best.get((definition.name, theme))
            if found is None or found[0] <= rank:
                best[definition.name, theme] = rank, definition._replace(theme=theme)
    yield from (definition for _, definition in best.values())


def _defined_in_styles(nodes: Iterable[LexborNode]) -> Iterator[Definition]:
    for node in nodes:
        for declared in read_declarations(node.attributes.get("style") or ""):
            if declared.name.startswith("--"):
                yield from (Definition(declared.name, declared.text, each) for each in THEMES)


def hidden_by_attributes(tag: str, attributes: Mapping[str, str | None]) -> str:
    """Return what about an element's own tag and attributes hides its text, or empty text."""
    if tag in _SHUT_TAGS:
        return f"`<{tag}>`"
    if tag == "details" and "open" not in attributes:
        return "`<details>` that is shut"
    for name, value in attributes.items():
        if name in _SHUT_ATTRIBUTES or (name in _MAY_HIDE and _hides(tag, name, value or "")):
            return f"`{name}`"
    return ""


def _hides(tag: str, name: str, value: str) -> bool:
    value = value.strip().lower()
    if name == "aria-hidden":
        # Drawings carry no words; that they carry none is checked where they are read.
        return value != "false" and tag not in _DRAWN
    if name == "dir":
        return value == "rtl"
    return value.startswith("0")


def _around(container: LexborNode) -> Iterator[LexborNode]:
    node = container.parent
    while node is not None and node.is_element_node:
        yield node
        node = node.parent


def _own_effects(tag: str, attributes: Mapping[str, str | None]) -> Iterator[tuple[Effect, str]]:
    hidden = hidden_by_attributes(tag, attributes)
    if hidden:
        yield Effect.HIDES, hidden
    if "style" in attributes:
        for each in _in_style(attributes["style"] or ""):
            yield each.effect, f'`style="{each.declaration}"`'


@lru_cache(maxsize=4096)
def _in_style(style: str) -> tuple[Hiding, ...]:
    declarations = read_declarations(style)
    lost = find_lost_ink(declarations, Palette())
    return (*find_hiding(declarations), *lost)


def _match(
    page: LexborHTMLParser,
    rule: HidingRule,
    where: tuple[AbstractSet[int], AbstractSet[int]],
    sight: Sight,
) -> None:
    inner, outer = where
    effect = rule.hiding.effect
    for node in page.css(rule.selector.text):
        if rule.hiding.only_tints and node.tag == "img":
            continue
        if node.mem_id in inner:
            sight.of_elements.setdefault(node.mem_id, []).append((effect, str(rule)))
        elif effect in _INHERITED and node.mem_id in outer:
            sight.of_page.append(str(rule))
