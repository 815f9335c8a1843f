"""Selectors that match at least what the real ones match.

Takes in the tokens before a rule's braces; gives out, for each selector, one without states
such as ``:hover`` that the parser's matching can run, with the names that its last part needs.
Refuses to match less than a browser could: what it cannot run, it widens.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from selectolax.lexbor import LexborHTMLParser, SelectolaxError
from tinycss2.ast import (
    FunctionBlock,
    HashToken,
    IdentToken,
    LiteralToken,
    Node,
    SquareBracketsBlock,
    WhitespaceToken,
)

_STRUCTURAL = frozenset(
    {
        *("first-child", "last-child", "only-child", "empty", "root"),
        *("first-of-type", "last-of-type", "only-of-type"),
    }
)
_STRUCTURAL_CALLS = frozenset(
    {"nth-child", "nth-last-child", "nth-of-type", "nth-last-of-type", "is", "where", "not"}
)
_OLD_PSEUDO_ELEMENTS = frozenset({"before", "after", "first-line", "first-letter"})
PARTS_OF_TEXT = frozenset({"first-line", "first-letter"})
"""Pseudo-elements that are the text itself, so that hiding them hides text."""

_SWITCHED = frozenset({"data-theme"})
"""Attributes whose values a driver switches: whatever value a selector asks for may come."""

_PROBE = LexborHTMLParser("<p></p>")


@dataclass(frozen=True, slots=True)
class Selector:
    """One selector, widened."""

    text: str
    keys: frozenset[str]
    """What an element must have to match: ``p``, ``.warning``, ``#top``, ``[hidden``."""

    pseudo_element: str
    """Empty for the element itself."""

    specificity: tuple[int, int, int]
    """Ids; classes, attributes and pseudo-classes; element names."""


def widen_selectors(prelude: Sequence[Node]) -> Iterator[Selector]:
    """Yield each of the selectors in *prelude*, widened."""
    for tokens in _split(prelude):
        yield _widen(tokens)


def _split(tokens: Iterable[Node]) -> Iterator[list[Node]]:
    current: list[Node] = []
    for token in tokens:
        if isinstance(token, LiteralToken) and token.value == ",":
            yield _stripped(current)
            current = []
        else:
            current.append(token)
    yield _stripped(current)


def _stripped(tokens: Sequence[Node]) -> list[Node]:
    # A blank before the brace is no combinator: `.caution {` holds for the caution itself.
    inked = [place for place, each in enumerate(tokens) if not isinstance(each, WhitespaceToken)]
    return list(tokens[inked[0] : inked[-1] + 1]) if inked else []


@dataclass(slots=True)
class _Compound:
    """Simple selectors that hold for one element, after the combinator before them."""

    combinator: str
    simples: list[str]
    keys: set[str]

    @property
    def text(self) -> str:
        return f"{self.combinator}{''.join(self.simples) or '*'}"


def _widen(tokens: Sequence[Node]) -> Selector:
    compounds = [_Compound("", [], set())]
    pseudo_element = ""
    position = 0
    while position < len(tokens):
        token = tokens[position]
        colons = _colons(tokens, position)
        if colons:
            named = tokens[position + colons] if position + colons < len(tokens) else None
            pseudo_element = _add_pseudo(compounds[-1], named, colons) or pseudo_element
            position += colons + 1
            continue
        _add(compounds, token)
        position += 1
    last = compounds[-1]
    text = "".join(compound.text for compound in compounds).strip()
    return Selector(
        _runnable(text, last), frozenset(last.keys), pseudo_element, _specificity(compounds)
    )


def _specificity(compounds: Iterable[_Compound]) -> tuple[int, int, int]:
    simples = [simple for compound in compounds for simple in compound.simples]
    ids = sum(simple.startswith("#") for simple in simples)
    classes = sum(simple.startswith((".", "[", ":")) for simple in simples)
    names = len(simples) - ids - classes - sum(simple == "." for simple in simples)
    return ids, classes, max(names, 0)


def _colons(tokens: Sequence[Node], position: int) -> int:
    count = 0
    while position + count < len(tokens) and _is_colon(tokens[position + count]):
        count += 1
    return count


def _add(compounds: list[_Compound], token: Node) -> None:
    current = compounds[-1]
    match token:
        case WhitespaceToken():
            if current.simples or current.keys:
                compounds.append(_Compound(" ", [], set()))
        case LiteralToken() if token.value in (">", "+", "~", "|"):
            if not current.simples and len(compounds) > 1:
                compounds.pop()
            compounds.append(_Compound(f" {token.value} ", [], set()))
        case LiteralToken() if token.value == "&":
            # A parent that is nested into stands for anything.
            current.simples.append("*")
        case _:
            _add_simple(current, token)


def _add_simple(current: _Compound, token: Node) -> None:
    text = _widen_state(token)
    before = current.simples[-1] if current.simples else ""
    current.simples.append(text)
    match token:
        case IdentToken() if before == ".":
            current.keys.add(f".{token.value}")
        case IdentToken():
            current.keys.add(token.lower_value)
        case HashToken():
            current.keys.add(f"#{token.value}")
        case SquareBracketsBlock():
            names = [each for each in token.content if isinstance(each, IdentToken)]
            current.keys.update(f"[{each.lower_value}" for each in names[:1])
        case _:
            pass


def _widen_state(token: Node) -> str:
    if isinstance(token, SquareBracketsBlock):
        names = [each.lower_value for each in token.content if isinstance(each, IdentToken)]
        if names and names[0] in _SWITCHED:
            return f"[{names[0]}]"
    return token.serialize()


def _add_pseudo(current: _Compound, named: Node | None, colons: int) -> str:
    """Add a pseudo-class if it can be kept; return the name of a pseudo-element."""
    match named:
        case IdentToken() if colons > 1 or named.lower_value in _OLD_PSEUDO_ELEMENTS:
            return named.lower_value
        case FunctionBlock() if colons > 1:
            return named.lower_name
        case IdentToken() if named.lower_value in _STRUCTURAL:
            current.simples.append(f":{named.lower_value}")
        case FunctionBlock() if named.lower_name in _STRUCTURAL_CALLS and _is_plain(named):
            current.simples.append(f":{named.serialize()}")
        case _:
            pass
    return ""


def _is_plain(call: FunctionBlock) -> bool:
    # A state inside `:not(…)` or `:is(…)` cannot be taken away without turning its sense round.
    return not any(_is_colon(each) or isinstance(each, FunctionBlock) for each in call.arguments)


def _is_colon(node: Node) -> bool:
    return isinstance(node, LiteralToken) and node.value == ":"


def _runnable(text: str, last: _Compound) -> str:
    for candidate in (text, "".join(last.simples), "*"):
        try:
            _PROBE.css(candidate)
        except (SelectolaxError, ValueError):
            continue
        return candidate
    return "*"
