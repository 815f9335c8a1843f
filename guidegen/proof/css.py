"""Stylesheets, taken apart.

Takes in the text of a stylesheet or of a style attribute; gives out its rules with all that
surrounds them, each declaration with its words, numbers and calls, and every address in it.
Refuses to leave a rule out for its conditions: a rule for print or for a small screen counts.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import tinycss2
from tinycss2.ast import (
    AtRule,
    CurlyBracketsBlock,
    DimensionToken,
    FunctionBlock,
    HashToken,
    IdentToken,
    Node,
    NumberToken,
    ParenthesesBlock,
    PercentageToken,
    QualifiedRule,
    SquareBracketsBlock,
    StringToken,
    URLToken,
)
from tinycss2.ast import Declaration as DeclarationNode

Parsed = Sequence[Node]

_HOLD_RULES = frozenset(
    {"media", "supports", "layer", "container", "scope", "starting-style", "document"}
)
_KEYFRAMES = frozenset({"keyframes", "-webkit-keyframes", "-moz-keyframes"})


@dataclass(frozen=True, slots=True)
class Number:
    """A number with what it counts: ``px``, ``em``, ``%``, or nothing."""

    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Call:
    """A function in a value, such as ``scale(0)``; calls inside it stand beside it."""

    name: str
    words: tuple[str, ...]
    numbers: tuple[Number, ...]


@dataclass(frozen=True, slots=True)
class Declaration:
    """One property with its value."""

    name: str
    """In small letters, without the prefix of a browser maker."""

    text: str
    words: frozenset[str]
    """Bare words of the value in small letters."""

    numbers: tuple[Number, ...]
    """Numbers of the value that stand in no call."""

    calls: tuple[Call, ...]
    strings: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.name}: {self.text}"


@dataclass(frozen=True, slots=True)
class CssRule:
    """Declarations, and what they hold for."""

    prelude: tuple[Node, ...]
    """The selectors, as tokens."""

    declarations: tuple[Declaration, ...]
    conditions: str
    """Words of the rules around it, such as ``(prefers-color-scheme: dark)``."""

    line: int


@dataclass(frozen=True, slots=True)
class Sheet:
    """One stylesheet."""

    rules: tuple[CssRule, ...]
    keyframes: tuple[tuple[str, tuple[Declaration, ...]], ...]
    """Animations by name, with all that any of their frames declares."""

    addresses: tuple[str, ...]
    """Everything that it asks for: ``url(…)`` and ``@import``."""


def read_sheet(text: str) -> Sheet:
    """Take the stylesheet *text* apart."""
    rules: list[CssRule] = []
    keyframes: list[tuple[str, tuple[Declaration, ...]]] = []
    nodes = tinycss2.parse_stylesheet(text, skip_comments=True, skip_whitespace=True)
    for node in nodes:
        _gather(node, _Around((), ""), rules, keyframes)
    return Sheet(tuple(rules), tuple(keyframes), tuple(_addresses(nodes)))


def read_declarations(text: str) -> tuple[Declaration, ...]:
    """Take the value of a style attribute apart."""
    nodes = tinycss2.parse_blocks_contents(text, skip_comments=True, skip_whitespace=True)
    return tuple(_declaration(node) for node in nodes if isinstance(node, DeclarationNode))


@dataclass(frozen=True, slots=True)
class _Around:
    prelude: tuple[Node, ...]
    conditions: str


def _gather(
    node: Node,
    around: _Around,
    rules: list[CssRule],
    keyframes: list[tuple[str, tuple[Declaration, ...]]],
) -> None:
    match node:
        case QualifiedRule():
            # A nested rule is taken to hold wherever it stands: its own selector, unbound.
            inner = _Around(tuple(node.prelude), around.conditions)
            _gather_block(node.content, inner, node.source_line, (rules, keyframes))
        case AtRule() if node.lower_at_keyword in _KEYFRAMES and node.content is not None:
            keyframes.append((_words_of(node.prelude), tuple(_frames(node.content))))
        case AtRule() if node.content is not None and _holds_rules(node.lower_at_keyword):
            prelude = "".join(token.serialize() for token in node.prelude)
            inner = _Around(around.prelude, f"{around.conditions} {prelude}".strip())
            _gather_block(node.content, inner, node.source_line, (rules, keyframes))
        case _:
            pass


def _holds_rules(keyword: str) -> bool:
    return keyword.removeprefix("-moz-") in _HOLD_RULES


def _gather_block(
    content: Iterable[Node],
    around: _Around,
    line: int,
    found: tuple[list[CssRule], list[tuple[str, tuple[Declaration, ...]]]],
) -> None:
    inner = tinycss2.parse_blocks_contents(content, skip_comments=True, skip_whitespace=True)
    declared = tuple(_declaration(node) for node in inner if isinstance(node, DeclarationNode))
    if declared and around.prelude:
        found[0].append(CssRule(around.prelude, declared, around.conditions, line))
    for node in inner:
        if not isinstance(node, DeclarationNode):
            _gather(node, around, *found)


def _frames(content: Iterable[Node]) -> Iterator[Declaration]:
    for node in tinycss2.parse_rule_list(content, skip_comments=True, skip_whitespace=True):
        if isinstance(node, QualifiedRule):
            inner = tinycss2.parse_blocks_contents(node.content, skip_comments=True)
            yield from (_declaration(each) for each in inner if isinstance(each, DeclarationNode))


def _declaration(node: DeclarationNode) -> Declaration:
    name = node.lower_name
    if name.startswith("-") and not name.startswith("--"):
        name = name.split("-", 2)[2]
    calls: list[Call] = []
    _gather_calls(node.value, calls)
    return Declaration(
        name,
        "".join(token.serialize() for token in node.value).strip(),
        frozenset(_words(node.value)),
        tuple(_numbers(node.value)),
        tuple(calls),
        tuple(token.value for token in node.value if isinstance(token, StringToken)),
    )


def _words(tokens: Parsed) -> Iterator[str]:
    for token in tokens:
        if isinstance(token, IdentToken):
            yield token.lower_value
        elif isinstance(token, HashToken):
            yield f"#{token.value.lower()}"


def _words_of(tokens: Parsed) -> str:
    return " ".join(_words(tokens)) or "".join(
        token.value for token in tokens if isinstance(token, StringToken)
    )


def _numbers(tokens: Parsed) -> Iterator[Number]:
    for token in tokens:
        match token:
            case DimensionToken():
                yield Number(token.value, token.lower_unit)
            case PercentageToken():
                yield Number(token.value, "%")
            case NumberToken():
                yield Number(token.value, "")
            case _:
                pass


def _gather_calls(tokens: Parsed, calls: list[Call]) -> None:
    for token in tokens:
        if isinstance(token, URLToken):
            calls.append(Call("url", (), ()))
        elif isinstance(token, FunctionBlock):
            inner = token.arguments
            calls.append(Call(token.lower_name, tuple(_words(inner)), tuple(_numbers(inner))))
            _gather_calls(inner, calls)


def _addresses(nodes: Iterable[Node]) -> Iterator[str]:
    pending = list(nodes)
    while pending:
        node = pending.pop()
        match node:
            case URLToken():
                yield node.value
            case FunctionBlock() if node.lower_name in ("url", "src", "image", "image-set"):
                yield from (part.value for part in node.arguments if isinstance(part, StringToken))
            case AtRule() if node.lower_at_keyword == "import":
                yield from (part.value for part in node.prelude if isinstance(part, StringToken))
            case _:
                pass
        pending.extend(_inside(node))


def _inside(node: Node) -> Iterator[Node]:
    match node:
        case FunctionBlock():
            yield from node.arguments
        case QualifiedRule() | AtRule():
            yield from node.prelude
            yield from node.content or ()
        case DeclarationNode():
            yield from node.value
        case ParenthesesBlock() | SquareBracketsBlock() | CurlyBracketsBlock():
            yield from node.content
        case _:
            pass
