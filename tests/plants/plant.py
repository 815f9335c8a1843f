"""Faults planted in the files of a published site.

Finds marked elements in a page's own text, with neither a parser of the proof nor a template, and
cuts, moves and changes them.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from hand_made_site import Site

_START_TAG = re.compile(r"<([a-z][a-z0-9]*)\b((?:[^>\"]|\"[^\"]*\")*)>")
_VOID = frozenset(
    {
        *("br", "hr", "img", "input", "link", "meta"),
        *("path", "line", "circle", "rect", "polyline", "polygon"),
    }
)


@dataclass(frozen=True, slots=True)
class Plant:
    """One site with one fault in it."""

    what: str
    path: str
    """Of the changed file."""

    raw: bytes | None
    """What it holds now; nothing if it is gone."""

    rules: frozenset[str]
    """Names of the rules of which one at least must be broken."""

    unit: str = ""
    """Number of the unit whose pages suffer; any if empty."""


@dataclass(frozen=True, slots=True)
class Element:
    """One element in the text of a page."""

    page: str
    start: int
    inner_start: int
    inner_end: int
    end: int
    key: str

    @property
    def inner(self) -> str:
        return self.page[self.inner_start : self.inner_end]

    @property
    def outer(self) -> str:
        return self.page[self.start : self.end]

    def with_inner(self, inner: str) -> str:
        """Return the page with other content in the element."""
        return self.page[: self.inner_start] + inner + self.page[self.inner_end :]

    def with_outer(self, outer: str) -> str:
        """Return the page with something else for the element."""
        return self.page[: self.start] + outer + self.page[self.end :]

    def with_attribute(self, attribute: str) -> str:
        """Return the page with one more attribute on the element."""
        end = self.page.index(">", self.start) if not self.inner_start else self.inner_start - 1
        return f"{self.page[:end]} {attribute}{self.page[end:]}"


def elements(page: str, attribute: str, key: str | None = None) -> list[Element]:
    """Return the elements of *page* that carry *attribute*, with the value *key* if given."""
    found = _find(page, attribute)
    return [each for each in found if key is None or each.key == key]


def elements_of(page: str, tag: str) -> list[Element]:
    """Return the elements of one name."""
    return [
        Element(page, m.start(), m.end(), *_ends(page, tag, m.end()), tag)
        for m in _START_TAG.finditer(page)
        if m[1] == tag and tag not in _VOID
    ]


@lru_cache(maxsize=256)
def _find(page: str, attribute: str) -> tuple[Element, ...]:
    mark = re.compile(rf'\s{attribute}="([^"]*)"')
    return tuple(
        Element(page, tag.start(), tag.end(), *_ends(page, tag[1], tag.end()), found[1])
        for tag in _START_TAG.finditer(page)
        if tag[1] not in _VOID and (found := mark.search(tag[2]))
    )


def _ends(page: str, tag: str, position: int) -> tuple[int, int]:
    depth = 1
    for found in re.compile(rf"<(/?){tag}\b[^>]*>").finditer(page, position):
        depth += -1 if found[1] else 1
        if depth == 0:
            return found.start(), found.end()
    raise AssertionError(f"no end of <{tag}>")


def exchanged(first: Element, second: Element) -> str:
    """Return the page with the content of two elements exchanged; *first* stands first."""
    assert first.end <= second.start
    page = first.page
    return (
        page[: first.inner_start]
        + second.inner
        + page[first.inner_end : second.inner_start]
        + first.inner
        + page[second.inner_end :]
    )


def moved(element: Element, position: int) -> str:
    """Return the page with *element* at *position*, counted before it is taken out."""
    page = element.page
    assert not element.start < position < element.end
    if position >= element.end:
        return (
            page[: element.start] + page[element.end : position] + element.outer + page[position:]
        )
    return page[:position] + element.outer + page[position : element.start] + page[element.end :]


def pages_of(site: Site, unit: str) -> dict[str, str]:
    """Return the pages of one unit by path."""
    return {
        path: raw.decode()
        for path, raw in sorted(site.of_unit(unit).items())
        if path.endswith(".html")
    }


def some(found: list[Element], count: int = 2) -> list[Element]:
    """Return *count* elements spread over all of *found*, the first and the last among them."""
    if len(found) <= count:
        return found
    last = len(found) - 1
    return [found[round(place * last / max(count - 1, 1))] for place in range(count)]


def letters(element: Element) -> tuple[int, int]:
    """Return where the first word stands in the text of *element*."""
    text = re.compile(r"(?:^|>)[^<]*?\b([A-Za-z]{2,})\b")
    found = text.search(element.inner)
    assert found is not None, element.outer
    return element.inner_start + found.start(1), element.inner_start + found.end(1)
