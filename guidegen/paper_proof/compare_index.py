"""Whether an index lists all that it must, under words of its own and with its page.

Takes in what must be listed, and the words after the heading of the index; gives out the pages
that it names, and records the rest. Refuses a word that nothing is listed under.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.match import match
from guidegen.paper_proof.model import Listed, page_of
from guidegen.paper_proof.page_named import PageNamed
from guidegen.paper_proof.pieces import LEAST_TEXT
from guidegen.paper_proof.stream import BREAK, BREAKING, Stream
from guidegen.paper_proof.values import Values
from guidegen.proof.faults import Faults
from guidegen.proof.read_text import plain

_FIX = "repair what gathers the words of the index"
_NO_WORD = re.compile("[^A-Za-z0-9/-]+")


class _Line(NamedTuple):
    """One line of the index, as it is read."""

    keyword: str
    words: str
    number: str
    start: int
    end: int


@dataclass(slots=True)
class Index:
    """An index held against what it must list."""

    listed: Sequence[Listed]
    stream: Stream
    """Of what stands after its heading."""

    values: Values
    faults: Faults
    named: list[PageNamed] = field(default_factory=list)
    """The pages that it names."""

    def compare(self) -> None:
        """Read the whole index."""
        by_words: dict[str, list[Listed]] = {}
        for each in self.listed:
            by_words.setdefault(each.pattern, []).append(each)
        lines = list(self._lines(by_words))
        small = next((e for e in self.stream.reads if e.points < LEAST_TEXT - 0.01), None)
        if small is not None:
            what = f"`{small.text.strip()}` is set in {small.points:.1f} pt"
            self._add(rules.TEXT_SMALL, f"{what} and not in {LEAST_TEXT:g} pt or more")
        self._compare_order(lines)
        self._compare_keywords(lines, by_words)
        self._compare_pages(lines, by_words)
        missing = by_words.keys() - {line.words for line in lines}
        for words in sorted(missing):
            first = by_words[words][0]
            what = f"index does not list `{plain(words)}`"
            self.faults.add(rules.TEXT_MISSING, what, fix=_FIX, span=first.span, mark="index")

    def _lines(self, by_words: dict[str, list[Listed]]) -> Iterator[_Line]:
        """Yield each line, with the word before it; what is neither is recorded."""
        openings: dict[str, list[str]] = {}
        for words in by_words:
            openings.setdefault(_first(words), []).append(words)
        text, at, keyword, is_used = self.stream.text, 0, "", True
        while at < len(text):
            found = self._line_at(at, keyword, openings)
            if found is not None:
                yield found
                at, is_used = found.end, True
            else:
                if not is_used:
                    self._add(rules.UNCLAIMED_TEXT, f"index says `{keyword}`, and nothing of it")
                end = _end_of_word(text, at)
                keyword, is_used, at = text[at:end], False, end
            at += text[at : at + 1] in (" ", BREAK)
        if not is_used:
            self._add(rules.UNCLAIMED_TEXT, f"index says `{keyword}`, and nothing of it")

    def _line_at(self, at: int, keyword: str, openings: dict[str, list[str]]) -> _Line | None:
        text = self.stream.text
        candidates = [*openings.get(text[at : _end_of_word(text, at)], ()), *openings.get("", ())]
        for words in sorted(candidates, key=len, reverse=True):
            found = match(f"{words}, {page_of('')}", text, at, self.values)
            if found is not None:
                return _Line(keyword, words, found.values[-1].text, at, found.end)
        return None

    def _compare_order(self, lines: Sequence[_Line]) -> None:
        keywords = [line.keyword for line in lines]
        if keywords != sorted(keywords, key=lambda word: (word.casefold(), word)):
            self._add(rules.INDEX_DIFFERS, "index does not go from A to Z")

    def _compare_keywords(self, lines: Sequence[_Line], by_words: dict[str, list[Listed]]) -> None:
        for line in lines:
            keys = _NO_WORD.split(plain(by_words[line.words][0].keys))
            if not any(_is_word(line.keyword, word) for word in keys):
                what = f"index lists `{plain(line.words)}` under `{line.keyword}`"
                self._add(rules.INDEX_DIFFERS, what)

    def _compare_pages(self, lines: Sequence[_Line], by_words: dict[str, list[Listed]]) -> None:
        """Gather the pages; things of the same words stand below each other, as in the guide."""
        under: dict[tuple[str, str], list[_Line]] = {}
        for line in lines:
            under.setdefault((line.keyword, line.words), []).append(line)
        for (keyword, words), same in under.items():
            wanted = by_words[words]
            if len(same) != len(wanted):
                what = f"index lists `{plain(words)}` under `{keyword}` {len(same)} times"
                self._add(rules.INDEX_DIFFERS, f"{what} and not {len(wanted)}")
            for line, each in zip(same, wanted, strict=False):
                self.named.append(self._page(line, each))

    def _page(self, line: _Line, each: Listed) -> PageNamed:
        first, last = self.stream.place(line.start), self.stream.place(line.end - 1)
        return PageNamed(
            each.anchor,
            line.number,
            f"line `{plain(line.words)}` of the index",
            each.span,
            self.stream.side(line.end - 1),
            self.stream.reads[first : last + 1],
        )

    def _add(self, rule: Rule, what: str) -> None:
        self.faults.add(rule, what, fix=_FIX, mark="index")


def _first(words: str) -> str:
    """Return the first word as it is printed, or nothing if that is not known."""
    word = words.partition(" ")[0]
    is_whole = words != word and not any(letter in word for letter in ("\0", *BREAKING))
    return word if is_whole else ""


def _end_of_word(text: str, at: int) -> int:
    ends = [place for letter in (" ", BREAK) if (place := text.find(letter, at)) >= 0]
    return min(ends, default=len(text))


def _is_word(keyword: str, word: str) -> bool:
    """Whether *keyword* is *word*, in the singular or the plural."""
    one, two = sorted((keyword.casefold(), word.casefold()), key=len)
    return two in {one, f"{one}s"} or (one.endswith("y") and two == f"{one[:-1]}ies")
