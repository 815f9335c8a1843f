"""A page for the office, as a person sees it.

Takes in the bytes of a page and the styles of its folder; gives out its blocks, its addresses and
what nothing accounts for. Refuses tags, classes and attributes that are not on the closed lists,
words outside of blocks, and words that cannot be seen.
"""

from dataclasses import dataclass, field

from selectolax.lexbor import LexborHTMLParser, LexborNode

from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.hiding import Effect
from guidegen.proof.office.model import Block
from guidegen.proof.read_html import Stray
from guidegen.proof.styles import Styles
from guidegen.proof.visibility import Sight, look_at

_BLOCKS = frozenset({"h1", "h2", "p", "li", "th", "td", "tr"})
_AROUND = frozenset({"div", "ul", "table", "thead", "tbody"})
_INLINE = frozenset({"a", "b", "br", "code", "span", "strong"})
_HEAD = frozenset({"meta", "title", "link"})

_SAYS = ("proved", "failed", "given-up")
"""Classes that change what a block says."""

_LOOKS = frozenset(
    {
        *("verdict", "units", "count", "gaps", "what", "wide", "matrix", "row", "gap", "topic"),
        *("first", "sum", "mark", "holds", "may", "leaves"),
    }
)
_PLAIN = frozenset(
    {
        *(("scope", "row"), ("scope", "col"), ("scope", "colgroup"), ("tabindex", "0")),
        *(("role", "region"), ("aria-label", "Trucks and gaps"), ("lang", "en")),
    }
)
"""Attributes that may stand beside what is read."""

_OF_HEAD = frozenset(
    {
        *(("charset", "utf-8"), ("name", "viewport"), ("rel", "icon"), ("rel", "stylesheet")),
        ("content", "width=device-width, initial-scale=1"),
    }
)
_DEEPEST = 20


@dataclass(slots=True)
class OfficePage:
    """What was read of one page."""

    title: str = ""
    blocks: list[Block] = field(default_factory=list)
    addresses: list[str] = field(default_factory=list)
    """All of them, those of stylesheets and the icon too."""

    sheets: list[str] = field(default_factory=list)
    """Addresses of its stylesheets."""

    strays: list[Stray] = field(default_factory=list)


@dataclass(slots=True)
class _Open:
    """A block that is being read."""

    kind: str
    words: list[str] = field(default_factory=list)
    links: list[str] = field(default_factory=list)
    hidden: str = ""

    def closed(self) -> Block:
        """Return it with folded blanks."""
        parts = "".join(self.words).split("\n")
        text = " / ".join(" ".join(part.split()) for part in parts).strip()
        return Block(self.kind, text, tuple(self.links))


def read_office_page(raw: bytes, styles: Styles) -> OfficePage:
    """Read all of the page *raw*, which goes by *styles*."""
    found = OfficePage()
    page = LexborHTMLParser(raw.decode("utf-8", "replace"))
    if page.body is None or page.head is None:
        _stray(found, rules.ELEMENT_NOT_READABLE, "the page has no body")
        return found
    sight = look_at(page, page.body, styles)
    for reason in sight.of_page:
        _stray(found, rules.TEXT_HIDDEN, f"the whole page is not seen: {reason}")
    _read_head(page.head, found)
    for around in (page.root, page.body):
        for name, value in (around.attributes if around is not None else {}).items():
            _judge(around.tag or "" if around is not None else "", name, value or "", found)
    _Reader(found, sight).read(page.body, None, 0)
    return found


@dataclass(frozen=True, slots=True)
class _Reader:
    found: OfficePage
    sight: Sight

    def read(self, parent: LexborNode, block: _Open | None, depth: int, hidden: str = "") -> None:
        node = parent.first_child
        while node is not None:
            if node.is_text_node:
                self.read_words(_text_of(node), block, hidden)
            elif node.is_element_node:
                self.read_element(node, block, depth, hidden)
            else:
                _stray(self.found, rules.UNCLAIMED_TEXT, "a comment stands there")
            node = node.next

    def read_words(self, words: str, block: _Open | None, hidden: str) -> None:
        if not words.strip():
            if block is not None:
                block.words.append(" ")
            return
        if hidden:
            what = f"`{_short(words)}` cannot be seen: {hidden}"
            _stray(self.found, rules.TEXT_HIDDEN, what)
        if block is None or block.kind.partition(".")[0] == "tr":
            what = f"nothing states the words `{_short(words)}`"
            _stray(self.found, rules.UNCLAIMED_TEXT, what)
        else:
            # A line that was broken in the file is none on the page.
            block.words.append(words.replace("\n", " "))

    def read_element(self, node: LexborNode, block: _Open | None, depth: int, hidden: str) -> None:
        tag = node.tag or ""
        if tag not in _BLOCKS | _AROUND | _INLINE or depth > _DEEPEST:
            _stray(self.found, rules.ELEMENT_NOT_READABLE, f"`<{tag}>` stands there")
            return
        effects = self.sight.effects_on(node)
        hidden = hidden or next((why for _, why in effects), "")
        for effect, why in effects:
            if effect is Effect.ADDS:
                _stray(self.found, rules.UNCLAIMED_TEXT, f"a style adds words: {why}")
        if tag in _BLOCKS:
            self.read_block(node, depth, hidden)
            return
        classes = self.look_at_attributes(node)
        if tag == "br" and block is not None:
            block.words.append("\n")
        elif tag in _INLINE and block is not None:
            self.read_inline(node, block, classes, depth, hidden)
        else:
            self.read(node, None if tag in _AROUND else block, depth + 1, hidden)

    def read_block(self, node: LexborNode, depth: int, hidden: str) -> None:
        classes = self.look_at_attributes(node)
        kind = ".".join((node.tag or "", *(each for each in _SAYS if each in classes)))
        opened = _Open(kind)
        if node.tag == "tr":
            self.found.blocks.append(Block(kind))
            self.read(node, opened, depth + 1, hidden)
            return
        place = len(self.found.blocks)
        self.read(node, opened, depth + 1, hidden)
        self.found.blocks.insert(place, opened.closed())

    def read_inline(
        self, node: LexborNode, block: _Open, classes: str, depth: int, hidden: str
    ) -> None:
        before, after = "", ""
        title = node.attributes.get("title")
        if node.tag == "code":
            before = after = "`"
        elif "mark" in classes.split() or title is not None:
            before, after = f"[[{classes}: {title or ''}: ", "]]"
        elif node.tag == "a":
            address = node.attributes.get("href") or ""
            block.links.append(address)
        block.words.append(before)
        self.read(node, block, depth + 1, hidden)
        block.words.append(after)

    def look_at_attributes(self, node: LexborNode) -> str:
        """Judge the attributes of *node*; return its classes."""
        for name, value in node.attributes.items():
            _judge(node.tag or "", name, value or "", self.found)
        return node.attributes.get("class") or ""


def _read_head(head: LexborNode, found: OfficePage) -> None:
    for node in head.iter():
        tag = node.tag or ""
        if tag not in _HEAD:
            _stray(found, rules.ELEMENT_NOT_READABLE, f"`<{tag}>` stands in the head")
        if tag == "title":
            found.title = " ".join((node.text() or "").split())
        for name, value in node.attributes.items():
            if tag == "link" and name == "href":
                found.addresses.append(value or "")
                _judge_linked(node.attributes.get("rel") or "", value or "", found)
            elif (name, value) not in _OF_HEAD:
                what = f'nothing states `{name}="{_short(value or "")}"` in the head'
                _stray(found, rules.ATTRIBUTE_NOT_CLAIMED, what)


def _judge_linked(rel: str, address: str, found: OfficePage) -> None:
    if rel == "stylesheet":
        found.sheets.append(address)
    if not address.endswith(".css" if rel == "stylesheet" else ".svg"):
        what = f"`{_short(address)}` stands where the page's {rel} is named"
        _stray(found, rules.LINK_TO_OTHER_PLACE, what)


def _judge(tag: str, name: str, value: str, found: OfficePage) -> None:
    if name == "class":
        fits = set(value.split()) <= _LOOKS | set(_SAYS)
    elif name == "href":
        found.addresses.append(value)
        fits = tag == "a"
    elif name == "title":
        fits = tag == "span"
    elif name == "colspan":
        fits = tag in {"th", "td"} and value.isdecimal() and value != "0"
    else:
        fits = (name, value) in _PLAIN
    if not fits:
        _stray(found, rules.ATTRIBUTE_NOT_CLAIMED, f'nothing states `{name}="{_short(value)}"`')


def _stray(found: OfficePage, rule: Rule, what: str) -> None:
    found.strays.append(Stray(rule, what))


def _text_of(node: LexborNode) -> str:
    return node.text_content or ""


def _short(text: str, longest: int = 60) -> str:
    folded = " ".join(text.split())
    return folded if len(folded) <= longest else f"{folded[: longest - 1]}…"
