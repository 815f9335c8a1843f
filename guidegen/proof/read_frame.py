"""What stands around the body of a page.

Takes in a parsed page and its container; gives out its title, the places where the unit's
number stands, its navigation, and all the rest as one text that must be alike on the pages of
all trucks. Refuses marks of the guide anywhere but in their places.
"""

import hashlib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from selectolax.lexbor import LexborHTMLParser, LexborNode

from guidegen.proof import rules
from guidegen.proof.links import find_outside, split_addresses
from guidegen.proof.marks import ADDRESS_ATTRIBUTES, HOLDERS, MARKS, Holder, Mark
from guidegen.proof.read_html import AttributeJudge, Body, Stray, read_body

_NUMBER = '[data-fact="identity.number"]'
_NAVIGATION = f"nav[{Holder.NAVIGATION.value}]"
_TOOLS = f"nav[{Holder.TOOLS.value}]"
_REVISION = f"[{Mark.ISSUE.value}]"
_ANY_MARK = ",".join(f"[{name}]" for name in (*MARKS, *HOLDERS))
_SPACE = re.compile(r"\s+")


@dataclass(frozen=True, slots=True)
class Surround:
    """What the frame of a page holds, whatever the truck."""

    digest: str
    addresses: tuple[str, ...]
    strays: tuple[Stray, ...]


@dataclass(frozen=True, slots=True)
class FrameParts:
    """What the frame of one page holds."""

    title: str
    numbers: tuple[str, ...]
    """Texts where the unit's number must stand."""

    revisions: tuple[str, ...]
    """Texts where the revision must stand."""

    navigations: tuple[Body, ...]
    tools: tuple[Body, ...]
    rest: str
    """The page without all of these."""


def read_frame(
    page: LexborHTMLParser, container: LexborNode, attributes: AttributeJudge
) -> FrameParts:
    """Read what stands around *container*, which is taken out of *page* then."""
    found: list[tuple[str, str]] = []
    ways: dict[str, list[Body]] = {_NAVIGATION: [], _TOOLS: []}
    for kind, bodies in ways.items():
        for node in page.css(kind):
            bodies.append(read_body(node, {}, attributes))
            if inner := node.inner_html:
                found.append((f">{inner}</nav>", ">\0nav\0</nav>"))
    texts: dict[str, list[str]] = {_NUMBER: [], _REVISION: []}
    for kind, words_found in texts.items():
        inside = {node.mem_id for node in container.css(kind)}
        for node in page.css(kind):
            if node.mem_id not in inside:
                words_found.append(_fold(node.text()))
                slot, inner = node.html or "", node.inner_html or ""
                found.append((slot, slot.replace(f">{inner}<", ">\0slot\0<", 1)))
    title = page.css_first("title")
    words = title.text() if title is not None else ""
    if title is not None:
        found.append((title.html or "", "\0title\0"))
    return FrameParts(
        _fold(words),
        tuple(texts[_NUMBER]),
        tuple(texts[_REVISION]),
        tuple(ways[_NAVIGATION]),
        tuple(ways[_TOOLS]),
        _rest_of(page, container, found),
    )


def _rest_of(
    page: LexborHTMLParser, container: LexborNode, parts: Iterable[tuple[str, str]]
) -> str:
    """Return *page* with a mark for *container* and for each of *parts*, which stand with it."""
    # Most of a page is its body, and to write it out only to cut it off takes the most time.
    container.replace_with("\0body\0")
    rest = page.html or ""
    for part, mark in parts:
        rest = rest.replace(part, mark, 1)
    return rest


@lru_cache(maxsize=256)
def read_surround(rest: str, title: str) -> Surround:
    """Read what the frame holds besides the truck's own parts.

    Args:
        rest: The page without body, navigation, number and title.
        title: The title without the truck's own words.
    """
    page = LexborHTMLParser(rest)
    addresses: list[str] = []
    for node in page.root.traverse() if page.root is not None else ():
        for name, value in node.attributes.items():
            if name in ADDRESS_ATTRIBUTES and node.tag != "meta":
                addresses.extend(split_addresses(name, value or ""))
    strays = [
        Stray(rules.UNCLAIMED_MARK, f"a mark stands outside the body: `{_opening(node)}`")
        for node in page.css(_ANY_MARK)
        if not _may_stand(node)
    ]
    for node in page.css("script, meta, base"):
        strays.extend(_asks(node))
    for node in page.root.traverse() if page.root is not None else ():
        strays.extend(_written_in(node))
    digest = hashlib.sha256(f"{_SPACE.sub(' ', rest)}\0{title}".encode()).hexdigest()
    return Surround(digest, tuple(addresses), tuple(strays))


_MAY_STAND = ({Holder.NAVIGATION.value}, {Holder.TOOLS.value}, {Mark.ISSUE.value})


def _may_stand(node: LexborNode) -> bool:
    names = {name for name in node.attributes if name in MARKS or name in HOLDERS}
    fact = node.attributes.get("data-fact")
    return names in _MAY_STAND or (names == {"data-fact"} and fact == "identity.number")


def _asks(node: LexborNode) -> list[Stray]:
    rule = rules.REQUEST_TO_OTHER_ORIGIN
    if node.tag == "base":
        return [Stray(rule, "`<base>` turns every address of the page elsewhere")]
    if node.tag == "meta":
        refreshes = (node.attributes.get("http-equiv") or "").lower() == "refresh"
        return [Stray(rule, "`<meta http-equiv=refresh>` leaves the page")] if refreshes else []
    return [Stray(rule, f"a script holds `{each}`") for each in find_outside(node.text())]


def _written_in(node: LexborNode) -> list[Stray]:
    """Return what of *node* a page that may run and wear only files of its site must not hold."""
    rule, found = rules.INLINE_CODE, list[str]()
    if node.tag == "style" or (node.tag == "script" and "src" not in node.attributes):
        found.append(f"`{_opening(node)}` stands in the page and in no file")
    for name in node.attributes:
        if name == "style" or name.startswith("on") or name == "srcdoc":
            found.append(f"`{_opening(node)}` has the attribute `{name}`")
    return [Stray(rule, each) for each in found]


def _opening(node: LexborNode) -> str:
    return (node.html or "").partition(">")[0] + ">"


def _fold(text: str) -> str:
    return " ".join(text.split())
