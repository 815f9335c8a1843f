"""House rules as an office types them: plain Markdown. The only door to markdown-it.

Takes in the text of one file; gives out its headings and rules with their places. Refuses whatever
is no plain text: HTML, scripts, pictures, links, tables, lists within lists.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from markdown_it import MarkdownIt
from markdown_it.token import Token

from guidegen.finding import Findings
from guidegen.procedures.own import rules
from guidegen.source import SourceFile, Span

DEEPEST_HEADING = 2

_TEXT = frozenset({"text", "code_inline"})
_BREAKS = frozenset({"softbreak", "hardbreak"})
_LISTS = frozenset({"bullet_list_open", "ordered_list_open"})
_LIST_ENDS = frozenset({"bullet_list_close", "ordered_list_close"})
_PASSED = _LIST_ENDS | {
    *("paragraph_open", "paragraph_close", "heading_open", "heading_close"),
    *("list_item_open", "list_item_close"),
}
_NAMES = {
    "html_block": "HTML",
    "html_inline": "HTML",
    "fence": "a block of code",
    "code_block": "text that is set in by four blanks, which is a block of code,",
    "hr": "a line across",
    "blockquote_open": "a quotation",
    "table_open": "a table",
    "image": "a picture",
    "s_open": "text that is struck out",
}
_LINK_FIX = "take the link out, and write what the driver needs of it as a rule"
_MARKUP_FIX = "write it as plain text: headings, paragraphs and lists"
_BLANKS = re.compile(r"\s*")
_BEFORE_RULE = re.compile(r"\s*(?:[-*+]|[0-9]{1,9}[.)])?\s*")
_DEFINITION = re.compile(r"^ {0,3}\[[^\]]+\]:", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Block:
    """One heading or rule."""

    level: int
    """Of the heading; 0 for a rule."""

    text: str
    """In plain words, white space folded."""

    span: Span


def read_blocks(file: SourceFile, body: str, findings: Findings) -> tuple[Block, ...]:
    """Return the headings and rules of a file in order.

    Args:
        file: As it was read.
        body: Its text, with as many lines, in which what is no Markdown is left blank.
        findings: Takes what is no plain text.
    """
    reader = _Reader(file, body.split("\n"), findings)
    return tuple(reader.read(body))


@dataclass(slots=True)
class _Reader:
    file: SourceFile
    lines: Sequence[str]
    findings: Findings
    _depth: int = 0
    _skipped_to: int = -1
    """Level at which something refused ends; -1 if nothing is skipped."""

    _searched: dict[int, int] = field(default_factory=dict)
    """How far each block was searched for marks, by its first line."""

    def read(self, body: str) -> Iterator[Block]:
        # HTML is read as such so that it can be told of, and is never given out.
        parser = MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"])
        # A link that the library would not draw is a link all the same, and no rule.
        parser.validateLink = lambda _: True  # type: ignore[method-assign, assignment]
        heading = 0
        for token in parser.parse(body):
            if self._is_skipped(token):
                continue
            if token.type == "inline":
                text = " ".join("".join(self._words(token)).split())
                yield Block(heading, text, self._span(token))
            else:
                self._enter(token)
            heading = int(token.tag[1:]) if token.type == "heading_open" else 0
        for found in _DEFINITION.finditer(body):
            line = body.count("\n", 0, found.start()) + 1
            self._report_link(self._at(line, 1))

    def _is_skipped(self, token: Token) -> bool:
        if self._skipped_to < 0:
            return False
        if token.level == self._skipped_to and token.nesting == -1:
            self._skipped_to = -1
        return True

    def _enter(self, token: Token) -> None:
        """Go into or out of what holds text, or refuse it."""
        if token.type not in (_PASSED | _LISTS):
            self._refuse(token)
        if token.type in _LISTS | _LIST_ENDS:
            self._depth += token.nesting
        if token.type in _LISTS and self._depth > 1:
            what = "a list stands within a list"
            fix = "begin a section of its own, `## …`, or make one list of both"
            self.findings.add(rules.HOUSE_RULE_MARKUP, self._head(token), what=what, fix=fix)

    def _refuse(self, token: Token) -> None:
        if token.nesting == 1:
            self._skipped_to = token.level
        what = f"{_NAMES.get(token.type, token.type)} stands among the house rules"
        self.findings.add(rules.HOUSE_RULE_MARKUP, self._head(token), what=what, fix=_MARKUP_FIX)

    def _words(self, inline: Token) -> Iterator[str]:
        for token in inline.children or ():
            if token.type in _TEXT:
                yield token.content
            elif token.type in _BREAKS:
                yield " "
            # What only stresses a word is passed over: the word is kept.
            elif token.type == "link_open":
                self._report_link(self._mark(inline, "<" if token.markup == "autolink" else "["))
            elif token.type in _NAMES:
                mark = {"image": "![", "s_open": "~~"}.get(token.type, token.content)
                what = f"{_NAMES[token.type]} stands in a house rule"
                span = self._mark(inline, mark)
                self.findings.add(rules.HOUSE_RULE_MARKUP, span, what=what, fix=_MARKUP_FIX)

    def _report_link(self, span: Span) -> None:
        what = "a link stands in a house rule"
        self.findings.add(rules.HOUSE_RULE_LINK, span, what=what, fix=_LINK_FIX)

    def _mark(self, inline: Token, mark: str) -> Span:
        """Return where *mark* stands in a block, after those that were looked for before."""
        first, end = inline.map or (0, 1)
        text = "\n".join(self.lines[first:end])
        at = max(text.find(mark, self._searched.get(first, 0)), 0)
        self._searched[first] = at + len(mark)
        return self._at(
            first + text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at), len(mark)
        )

    def _head(self, token: Token) -> Span:
        line = (token.map or (0, 1))[0]
        typed = self.lines[line]
        return self._at(line + 1, len(typed) - len(typed.lstrip()) + 1)

    def _span(self, token: Token) -> Span:
        first, end = token.map or (0, 1)
        # Lines behind a block are part of its place where nothing follows.
        while end > first + 1 and not self.lines[end - 1].strip():
            end -= 1
        begin = _BEFORE_RULE if self._depth else _BLANKS
        found = begin.match(self.lines[first])
        column = found.end() + 1 if found else 1
        last = self.lines[end - 1].rstrip()
        return Span(self.file, first + 1, column, end, len(last) + 1)

    def _at(self, line: int, column: int, width: int = 1) -> Span:
        return Span(self.file, line, column, line, column + width)
