"""Marked texts of one element, as a person sees them.

Takes in an element of a parsed page; gives out its readings in order, the elements that hold
them, the links, and everything that no mark accounts for. Refuses tags and attributes that are
not on the closed lists: what is not read could say anything.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from selectolax.lexbor import LexborNode

from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.hiding import Effect
from guidegen.proof.marks import (
    ADDRESS_ATTRIBUTES,
    BREAKS,
    DRAWING_TAGS,
    FRAMES,
    MARKS,
    TAGS,
    Frame,
    Mark,
)
from guidegen.proof.model import Claim, Reading, ValueRead, Within

_DEEPEST = 100
"""Elements within one another; a template nests ten or so."""

_SHORT = 60
_RULE_FOR_EFFECT = {
    Effect.ADDS: rules.UNCLAIMED_TEXT,
    Effect.REORDERS: rules.TEXT_OUT_OF_ORDER,
}
_LEADING = frozenset({Mark.CHAPTER, Mark.PROCEDURE_LINK, Mark.LABEL})
"""Marks whose texts may be links to what they name."""


class Opening(NamedTuple):
    """An element that holds other marks."""

    frame: Frame
    key: str
    within: Within
    signal: str
    """Of a caution."""


class Stray(NamedTuple):
    """Something on the page that no mark accounts for."""

    rule: Rule
    what: str


class Attribute(NamedTuple):
    """One attribute as it stands."""

    tag: str
    name: str
    value: str | None


@dataclass(slots=True)
class Body:
    """All that was read of one element."""

    readings: list[Reading] = field(default_factory=list)
    openings: list[Opening] = field(default_factory=list)
    symbols: list[str] = field(default_factory=list)
    """Ids of the cautions that the drawings stand in; empty for a drawing elsewhere."""

    strays: list[Stray] = field(default_factory=list)
    links: list[str] = field(default_factory=list)


class _Here(NamedTuple):
    """Where in the page the reading stands."""

    within: Within
    step: str
    hidden: str
    changed: str
    """What shows other letters than the file holds."""

    link: str
    pieces: list[str | ValueRead] | None
    """What is gathered for the mark around; none outside of any."""

    values_of: Mark | None
    """The mark around."""

    depth: int


EffectsOn = Callable[[LexborNode], Sequence[tuple[Effect, str]]]
"""Returns each effect of styles and attributes on an element, and what has it."""

Accepts = Callable[[Attribute], Stray | None]
"""Says what is wrong with an attribute that is no mark and no address; nothing if it may stand."""


def read_body(
    element: LexborNode, effects_on: EffectsOn, accepts: Accepts, hidden: str = ""
) -> Body:
    """Read everything in *element*.

    Args:
        element: What to read; its own tag and attributes are not looked at.
        effects_on: What hides, reorders or changes an element.
        accepts: What attributes may stand beside the marks.
        hidden: What hides all of it, if anything.
    """
    reader = _Reader(effects_on, accepts, Body())
    reader.read_children(element, _Here(Within(), "", hidden, "", "", None, None, 0))
    return reader.body


@dataclass(frozen=True, slots=True)
class _Reader:
    effects_on: EffectsOn
    accepts: Accepts
    body: Body

    def read_children(self, parent: LexborNode, here: _Here) -> None:
        for node in _children(parent):
            if node.is_text_node:
                self.read_words(node.text_content or "", here)
            elif node.is_element_node:
                self.read_element(node, here)
            else:
                self.stray(rules.UNCLAIMED_TEXT, f"a comment stands there: `{_short(node)}`")

    def read_words(self, words: str, here: _Here) -> None:
        if here.pieces is not None:
            here.pieces.append(words)
        elif words.strip():
            self.stray(rules.UNCLAIMED_TEXT, f"nothing states the words `{_cut(words)}`")

    def read_element(self, node: LexborNode, here: _Here) -> None:
        tag = node.tag or ""
        attributes = node.attributes
        if tag == "svg":
            self.read_drawing(node, here)
            return
        if tag not in TAGS or here.depth > _DEEPEST:
            self.stray(rules.ELEMENT_NOT_READABLE, f"`<{tag}>` stands there: `{_short(node)}`")
            return
        here = self.enter(node, tag, attributes, here)
        marks = [MARKS[name] for name in attributes if name in MARKS]
        if tag in BREAKS and here.pieces is not None:
            here.pieces.append("\n")
        if marks:
            self.read_marked(node, marks, attributes, here)
        else:
            self.read_children(node, here)
        if tag in BREAKS and here.pieces is not None:
            here.pieces.append("\n")

    def enter(
        self, node: LexborNode, tag: str, attributes: Mapping[str, str | None], here: _Here
    ) -> _Here:
        within, step, link = here.within, here.step, here.link
        for name, value in attributes.items():
            text = value or ""
            if name in FRAMES:
                frame = FRAMES[name]
                self.open(Opening(frame, text, within, attributes.get("data-signal") or ""))
                within = _within(within, frame, text)
                step = text if frame is Frame.STEP else step
            elif name in ADDRESS_ATTRIBUTES:
                self.body.links.append(text)
                link = text if tag == "a" and name == "href" else link
            elif name not in MARKS:
                self.look_at(Attribute(tag, name, value))
        hidden, changed, depth = here.hidden, here.changed, here.depth + 1
        for effect, reason in self.effects_on(node):
            if effect is Effect.HIDES:
                hidden = hidden or reason
            elif effect is Effect.CHANGES:
                changed = changed or reason
            else:
                self.stray(_RULE_FOR_EFFECT[effect], f"a style {effect.value} text: {reason}")
        return _Here(within, step, hidden, changed, link, here.pieces, here.values_of, depth)

    def open(self, opening: Opening) -> None:
        if opening.frame is not Frame.SIGNAL:
            self.body.openings.append(opening)

    def look_at(self, attribute: Attribute) -> None:
        stray = self.accepts(attribute)
        if stray is not None:
            self.body.strays.append(stray)

    def read_marked(
        self,
        node: LexborNode,
        marks: list[Mark],
        attributes: Mapping[str, str | None],
        here: _Here,
    ) -> None:
        mark = marks[0]
        key = attributes.get(mark.value) or ""
        changed = here.changed if mark is Mark.FACT else ""
        if len(marks) > 1:
            self.stray(
                rules.UNCLAIMED_MARK, f"`{mark.value}` and `{marks[1].value}` on one element"
            )
        elif here.pieces is None:
            pieces: list[str | ValueRead] = []
            link = here.link or (_link_in(node) if mark in _LEADING else "")
            inner = here._replace(pieces=pieces, values_of=mark, link=link)
            self.read_children(node, inner)
            claim = Claim(mark, key, here.within)
            self.body.readings.append(
                Reading(claim, tuple(pieces), here.step, here.hidden or changed, inner.link)
            )
        elif mark is Mark.FACT and here.values_of in (Mark.TEXT, Mark.PROCEDURE_LINK):
            words: list[str | ValueRead] = []
            self.read_children(node, here._replace(pieces=words, values_of=mark))
            text = " ".join("".join(map(_words_of, words)).split())
            here.pieces.append(ValueRead(key, text, here.hidden or changed))
        else:
            self.stray(rules.UNCLAIMED_MARK, f"`{mark.value}` stands inside another mark")

    def read_drawing(self, node: LexborNode, here: _Here) -> None:
        self.body.symbols.append("" if here.hidden else here.within.caution)
        if any(effect is Effect.HIDES for effect, _ in self.effects_on(node)):
            self.body.symbols[-1] = ""
        for part in node.traverse(include_text=True):
            if part.is_element_node:
                if part.tag not in DRAWING_TAGS:
                    self.stray(rules.ELEMENT_NOT_READABLE, f"a drawing holds `<{part.tag}>`")
                for name, value in part.attributes.items():
                    if name in ADDRESS_ATTRIBUTES:
                        self.body.links.append(value or "")
                    else:
                        self.look_at(Attribute("svg", name, value))
            elif (part.text_content or part.comment_content or "").strip():
                self.stray(rules.UNCLAIMED_TEXT, f"a drawing holds words: `{_short(part)}`")

    def stray(self, rule: Rule, what: str) -> None:
        self.body.strays.append(Stray(rule, what))


def _children(parent: LexborNode) -> Iterator[LexborNode]:
    node = parent.first_child
    while node is not None:
        yield node
        node = node.next


def _within(within: Within, frame: Frame, key: str) -> Within:
    match frame:
        case Frame.PROCEDURE:
            return Within(key)
        case Frame.CAUTION:
            return within._replace(caution=key)
        case Frame.ROW:
            return within._replace(row=key)
        case _:
            return within


def _words_of(piece: str | ValueRead) -> str:
    return piece if isinstance(piece, str) else piece.text


def _link_in(node: LexborNode) -> str:
    link = node.css_first("a[href]")
    return (link.attributes.get("href") or "") if link is not None else ""


def _short(node: LexborNode) -> str:
    return _cut(node.html or "")


def _cut(text: str) -> str:
    folded = " ".join(text.split())
    return folded if len(folded) <= _SHORT else f"{folded[: _SHORT - 1]}…"
