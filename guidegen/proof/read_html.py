"""Marked texts of one element, as a person sees them.

Takes in an element of a parsed page; gives out its readings in order, the elements that hold
them, the links, and everything that no mark accounts for. Refuses tags and attributes that are
not on the closed lists: what is not read could say anything.
"""

from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from selectolax.lexbor import LexborNode

from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.hiding import Effect
from guidegen.proof.marks import (
    ADDRESS_ATTRIBUTES,
    ALTERNATIVES,
    BREAKS,
    DRAWING_TAGS,
    HOLDERS,
    LETTERING,
    MARKS,
    TAGS,
    Holder,
    Mark,
)
from guidegen.proof.model import (
    Claim,
    Drawing,
    Drawn,
    PictureRead,
    Reading,
    ValueRead,
    Within,
)

_READ_APART = frozenset({"svg", "template"})
_DEEPEST = 100
"""Elements within one another; a template nests ten or so."""

_SHORT = 60
_RULE_FOR_EFFECT = {
    Effect.ADDS: rules.UNCLAIMED_TEXT,
    Effect.REORDERS: rules.TEXT_OUT_OF_ORDER,
}
_HOLD_VALUES = {
    Mark.TEXT: Mark.FACT,
    Mark.PROCEDURE_LINK: Mark.FACT,
    Mark.KNOWN_TEXT: Mark.KNOWN_FACT,
}
_VALUES = frozenset(_HOLD_VALUES.values())
_LEADING = frozenset({Mark.CHAPTER, Mark.PROCEDURE_LINK, Mark.LABEL, Mark.RANK, Mark.LAMP})
"""Marks whose texts may be links to what they name."""


class Opening(NamedTuple):
    """An element that holds other marks."""

    holder: Holder
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
    symbols: list[Within] = field(default_factory=list)
    """Where each drawing stands that is seen; nowhere for one that is not."""

    drawings: list[Drawing] = field(default_factory=list)
    """Those that stand in figures."""

    pictures: list[PictureRead] = field(default_factory=list)
    """Those that the office took."""

    signals: list[str] = field(default_factory=list)
    """Signals of the elements that are drawn as one outside of any caution."""

    script_words: list[str] = field(default_factory=list)
    """Each ``<template>`` as it stands: a page shows nothing of it until a script does."""

    strays: list[Stray] = field(default_factory=list)
    links: list[str] = field(default_factory=list)


Effects = Mapping[int, Sequence[tuple[Effect, str]]]
"""By address of an element in memory: each effect of styles and attributes on it, and what has
it."""


@dataclass(frozen=True, slots=True)
class AttributeJudge:
    """Says which attributes may stand beside marks and addresses."""

    judge: Callable[[Attribute], Stray | None]
    """Returns what is wrong with an attribute; nothing if it may stand."""

    accepted: Container[tuple[str, str, str | None]]
    """Attributes that were judged before, and may stand."""


@dataclass(slots=True)
class _Gathered:
    """What is gathered for one mark."""

    mark: Mark
    pieces: list[str | ValueRead] = field(default_factory=list)
    hidden: str = ""
    """What hides any of it."""


class _Here(NamedTuple):
    """Where in the page the reading stands."""

    within: Within
    step: str
    link: str
    hidden: str
    changed: str
    """What shows other letters than the file holds."""

    gathered: _Gathered | None
    """For the mark around; none outside of any."""


def read_body(element: LexborNode, effects: Effects, attributes: AttributeJudge) -> Body:
    """Read everything in *element*.

    Args:
        element: What to read; its own tag and attributes are not looked at.
        effects: What hides, reorders or changes its elements.
        attributes: What attributes may stand beside the marks.
    """
    reader = _Reader(effects, attributes, Body())
    reader.read_children(element, _Here(Within(), "", "", "", "", None), 0)
    return reader.body


@dataclass(frozen=True, slots=True)
class _Reader:
    effects: Effects
    attributes: AttributeJudge
    body: Body

    def read_children(self, parent: LexborNode, here: _Here, depth: int) -> None:
        node = parent.first_child
        while node is not None:
            if node.is_text_node:
                self.read_words(node.text_content or "", here)
            elif node.is_element_node:
                self.read_element(node, here, depth)
            else:
                self.stray(rules.UNCLAIMED_TEXT, f"a comment stands there: `{_short(node)}`")
            node = node.next

    def read_words(self, words: str, here: _Here) -> None:
        gathered = here.gathered
        if gathered is not None:
            gathered.pieces.append(words)
            if here.hidden and words.strip():
                gathered.hidden = here.hidden
        elif words.strip():
            self.stray(rules.UNCLAIMED_TEXT, f"nothing states the words `{_cut(words)}`")

    def read_element(self, node: LexborNode, here: _Here, depth: int) -> None:
        tag = node.tag or ""
        if tag in _READ_APART or (tag == "img" and here.within.photo):
            self.read_apart(node, here)
            return
        if tag not in TAGS or depth > _DEEPEST:
            self.stray(rules.ELEMENT_NOT_READABLE, f"`<{tag}>` stands there: `{_short(node)}`")
            return
        parting = here.gathered if tag in BREAKS else None
        if parting is not None:
            parting.pieces.append("\n")
        attributes = node.attributes
        marks = []
        if attributes:
            marks = [name for name in attributes if name in MARKS]
            here = self.enter(tag, attributes, here)
        if self.effects and node.mem_id in self.effects:
            here = self.be_affected(node, here)
        if marks:
            self.read_marked(node, (marks, attributes[marks[0]] or ""), here, depth)
        else:
            self.read_children(node, here, depth + 1)
        if parting is not None:
            parting.pieces.append("\n")

    def read_apart(self, node: LexborNode, here: _Here) -> None:
        if node.tag == "svg":
            self.read_drawing(node, here)
        elif node.tag == "img":
            self.read_picture(node, here)
        else:
            self.body.script_words.append(node.html or "")

    def enter(self, tag: str, attributes: Mapping[str, str | None], here: _Here) -> _Here:
        for name, value in attributes.items():
            if name in MARKS or (tag, name, value) in self.attributes.accepted:
                continue
            text = value or ""
            if name in HOLDERS:
                holder = HOLDERS[name]
                here = _enter_holder(here, holder, text)
                self.open(Opening(holder, text, here.within, attributes.get("data-signal") or ""))
            elif name in ADDRESS_ATTRIBUTES:
                self.body.links.append(text)
                here = here._replace(link=text) if tag == "a" and name == "href" else here
            else:
                self.look_at(Attribute(tag, name, value))
        return here

    def be_affected(self, node: LexborNode, here: _Here) -> _Here:
        hidden, changed = here.hidden, here.changed
        for effect, reason in self.effects[node.mem_id]:
            if effect is Effect.HIDES:
                hidden = hidden or reason
            elif effect is Effect.CHANGES:
                changed = changed or reason
            else:
                self.stray(_RULE_FOR_EFFECT[effect], f"a style {effect.value} text: {reason}")
        return here._replace(hidden=hidden, changed=changed)

    def open(self, opening: Opening) -> None:
        if opening.holder is not Holder.SIGNAL:
            self.body.openings.append(opening)
        elif not opening.within.caution:
            self.body.signals.append(opening.key)

    def look_at(self, attribute: Attribute) -> None:
        stray = self.attributes.judge(attribute)
        if stray is not None:
            self.body.strays.append(stray)

    def read_marked(
        self, node: LexborNode, marked: tuple[Sequence[str], str], here: _Here, depth: int
    ) -> None:
        names, key = marked
        mark, around = MARKS[names[0]], here.gathered
        if len(names) > 1:
            self.stray(rules.UNCLAIMED_MARK, f"`{names[0]}` and `{names[1]}` on one element")
        elif around is None:
            gathered = self.gather(node, mark, here, depth)
            link = here.link or (_link_in(node) if mark in _LEADING else "")
            claim = Claim(mark, key, here.within)
            reading = Reading(claim, tuple(gathered.pieces), here.step, gathered.hidden, link)
            self.body.readings.append(reading)
        elif mark is _HOLD_VALUES.get(around.mark):
            gathered = self.gather(node, mark, here, depth)
            text = " ".join("".join(map(_words_of, gathered.pieces)).split())
            around.pieces.append(ValueRead(key, text, gathered.hidden))
        else:
            self.stray(rules.UNCLAIMED_MARK, f"`{names[0]}` stands inside another mark")

    def gather(self, node: LexborNode, mark: Mark, here: _Here, depth: int) -> _Gathered:
        gathered = _Gathered(mark)
        inner = _Here(here.within, here.step, here.link, here.hidden, here.changed, gathered)
        self.read_children(node, inner, depth + 1)
        if mark in _VALUES and here.changed:
            gathered.hidden = gathered.hidden or here.changed
        return gathered

    def read_drawing(self, node: LexborNode, here: _Here) -> None:
        effects = self.effects.get(node.mem_id, ())
        hidden = here.hidden or any(effect is Effect.HIDES for effect, _ in effects)
        self.body.symbols.append(Within() if hidden else here.within)
        if here.within.figure and here.gathered is None:
            self.read_figure(node, here)
            return
        for part in node.traverse(include_text=True):
            if part.is_element_node:
                self.read_shape(part)
            elif (part.text_content or part.comment_content or "").strip():
                self.stray(rules.UNCLAIMED_TEXT, f"a drawing holds words: `{_short(part)}`")

    def read_figure(self, node: LexborNode, here: _Here) -> None:
        parts, hidden = [_drawn(node)], ""
        here = self.be_affected(node, here) if node.mem_id in self.effects else here
        self.read_shape(node)
        part = node.first_child
        while part is not None:
            if part.is_element_node:
                inner = here
                # Words for those who do not see the drawing are nowhere to be seen.
                if part.mem_id in self.effects and part.tag not in ALTERNATIVES:
                    inner = self.be_affected(part, here)
                hidden = hidden or inner.hidden or inner.changed
                parts.append(_drawn(part))
                self.read_part(part, inner)
            elif (part.text_content or part.comment_content or "").strip():
                self.stray(rules.UNCLAIMED_TEXT, f"a drawing holds words: `{_short(part)}`")
            part = part.next
        self.body.drawings.append(Drawing(here.within, tuple(parts), hidden))

    def read_part(self, part: LexborNode, here: _Here) -> None:
        """Read a shape, or writing: one mark and its words, with no element in it."""
        marks = [name for name in part.attributes if name in MARKS]
        if (part.tag == LETTERING or part.tag in ALTERNATIVES) and marks:
            self.read_marked(part, (marks, part.attributes[marks[0]] or ""), here, _DEEPEST)
            return
        self.read_shape(part)
        if part.first_child is not None:
            self.stray(rules.UNCLAIMED_TEXT, f"a shape holds something: `{_short(part)}`")

    def read_picture(self, node: LexborNode, here: _Here) -> None:
        """Read a picture: all of its attributes are held against what it must be."""
        here = self.be_affected(node, here) if node.mem_id in self.effects else here
        if here.gathered is not None:
            self.stray(rules.UNCLAIMED_MARK, "a photo stands inside another mark")
        self.body.links.append(node.attributes.get("src") or "")
        drawn = _drawn(node)
        self.body.pictures.append(PictureRead(here.within, here.step, drawn, here.hidden))

    def read_shape(self, part: LexborNode) -> None:
        if part.tag not in DRAWING_TAGS:
            self.stray(rules.ELEMENT_NOT_READABLE, f"a drawing holds `<{part.tag}>`")
        for name, value in part.attributes.items():
            if name in ADDRESS_ATTRIBUTES:
                self.body.links.append(value or "")
            elif ("svg", name, value) not in self.attributes.accepted:
                self.look_at(Attribute("svg", name, value))

    def stray(self, rule: Rule, what: str) -> None:
        self.body.strays.append(Stray(rule, what))


def _drawn(part: LexborNode) -> Drawn:
    attributes = part.attributes.items()
    kept = sorted((name.lower(), value or "") for name, value in attributes if name not in MARKS)
    return Drawn(part.tag or "", tuple(kept))


_SETS = {
    Holder.CAUTION: "caution",
    Holder.ROW: "row",
    Holder.FIGURE: "figure",
    Holder.DIFFERENCE: "difference",
    Holder.TRUCK: "truck",
    Holder.STOP: "stop",
    Holder.TIMER: "timer",
    Holder.TIMER_LINE: "line",
    Holder.WAITING: "waiting",
    Holder.QUESTION: "question",
    Holder.ANSWER: "answer",
    Holder.KEY: "key",
    Holder.REVISION: "revision",
    Holder.PICK: "pick",
    Holder.COLOR: "color",
    Holder.TILE: "tile",
    Holder.PHOTO: "photo",
}
"""Which part of `Within` an element sets."""

_NARROWS = {holder: Within._fields.index(name) for holder, name in _SETS.items()}
"""The same by place."""


def _enter_holder(here: _Here, holder: Holder, key: str) -> _Here:
    if holder is Holder.PROCEDURE:
        return here._replace(within=Within(key))
    if holder is Holder.STEP:
        return here._replace(step=key)
    if holder is Holder.STOP and here.within.stop:
        # A stop in a stop is neither.
        key = f"{here.within.stop} {key}"
    if holder in _NARROWS:
        parts = list(here.within)
        parts[_NARROWS[holder]] = key
        return here._replace(within=Within(*parts))
    return here


def _words_of(piece: str | ValueRead) -> str:
    return piece if isinstance(piece, str) else piece.text


def _link_in(node: LexborNode) -> str:
    """Return where the first link in *node* leads; most marks hold words and nothing else."""
    if node.tag == "a" and "href" in node.attributes:
        return node.attributes["href"] or ""
    part = node.first_child
    while part is not None:
        if part.is_element_node and (link := _link_in(part)):
            return link
        part = part.next
    return ""


def _short(node: LexborNode) -> str:
    return _cut(node.html or "")


def _cut(text: str) -> str:
    folded = " ".join(text.split())
    return folded if len(folded) <= _SHORT else f"{folded[: _SHORT - 1]}…"
