"""Whether the fleet page, or the pages that it leads to, list every truck once, as what it is.

Takes in a reader of files and records of all trucks; gives out failures: trucks not listed,
listed twice, cannot be seen or go by another truck's name. Refuses words in a truck's entry
that its guide does not state.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from selectolax.lexbor import LexborHTMLParser, LexborNode

from guidegen.proof import rules
from guidegen.proof.fleet_claims import FleetClaims, Read
from guidegen.proof.hiding import Effect
from guidegen.proof.known_pages import KnownPages
from guidegen.proof.links import resolve_address
from guidegen.proof.model import Failure
from guidegen.proof.read_text import fold
from guidegen.proof.unit_record import UnitRecord
from guidegen.proof.visibility import Sight, look_at

FLEET_PAGE = "index.html"
_START = "index.html"
_YARD_PAGE = re.compile(r"(yard-[a-z0-9-]+|no-yard)(\.[0-9]+)?\.html")

_FIX = "repair the template of the fleet page"
_ENTRY_TAGS = ("li", "tr", "article")
_SILENT = ("class", "href", "role", "tabindex", "aria-hidden", "id", "scope")


@dataclass(frozen=True, slots=True)
class _Listing:
    """One page that lists trucks, or leads to those that do."""

    path: str
    body: LexborNode | None
    sight: Sight
    links: Mapping[str, Sequence[LexborNode]] = field(default_factory=dict)
    """By the path from the root of the site that they lead to."""

    listed: tuple[str, ...] = ()
    """Numbers of the trucks whose start pages it leads to, once for each link."""

    is_known: bool = False
    """Whether it was proved before, and is not read now."""


@dataclass(frozen=True, slots=True)
class _Entry:
    """A link to a truck's start page."""

    link: LexborNode | None
    """None on a page that was proved before."""

    page: _Listing


def compare_fleet_page(
    units: Sequence[UnitRecord], read: Read, fleet: FleetClaims, known: KnownPages
) -> Iterator[Failure]:
    """Yield what is wrong with the fleet page and the pages of yards.

    Args:
        units: Every truck whose guide is published.
        read: Reads a file of the site.
        fleet: What is known of the site.
        known: What was proved before; is told which trucks each page lists.
    """
    raw = read(FLEET_PAGE)
    if raw is None:
        yield Failure(rules.PAGE_MISSING, "", FLEET_PAGE, "there is no fleet page", _FIX)
        return
    first = _listing(FLEET_PAGE, raw, fleet)
    others = _of_yards(read, fleet, known)
    known.listed |= {page.path: page.listed for page in (first, *others)}
    for page in (first, *others):
        for reason in dict.fromkeys(page.sight.of_page):
            what = f"nothing of the list can be seen, by {reason}"
            yield Failure(rules.TRUCK_NOT_LISTED, "", page.path, what, _FIX)
    for page in others:
        yield from _compare_way_to(page, first)
    entries = _entries((first, *others))
    for unit in units:
        yield from _compare_entries(unit, entries.get(unit.number, []))
    shown = fold(first.body.text(separator=" ")).split() if first.body is not None else []
    for number in fleet.held_back:
        if number not in shown:
            what = f"the fleet page does not say that {number} has no guide"
            yield Failure(rules.TRUCK_NOT_LISTED, number, FLEET_PAGE, what, _FIX)


def _listing(path: str, raw: bytes, fleet: FleetClaims) -> _Listing:
    page = LexborHTMLParser(raw.decode("utf-8", "replace"))
    inline = tuple(node.text() for node in page.css("style"))
    body = page.css_first("main") or page.body
    sight = look_at(page, body, fleet.styles_with(inline)) if body is not None else Sight()
    links: dict[str, list[LexborNode]] = {}
    for link in page.css("a[href]"):
        target, _ = resolve_address(path, link.attributes.get("href") or "")
        links.setdefault(target, []).append(link)
    starts = ((target.partition("/"), len(ways)) for target, ways in links.items())
    listed = (number for (number, _, name), count in starts if name == _START for _ in range(count))
    return _Listing(path, body, sight, links, tuple(listed))


def _of_yards(read: Read, fleet: FleetClaims, known: KnownPages) -> tuple[_Listing, ...]:
    paths = [path for path in sorted(fleet.paths) if _YARD_PAGE.fullmatch(path)]
    files = ((path, read(path) or b"") for path in paths)
    return tuple(_known_listing(*file, known) or _listing(*file, fleet) for file in files)


def _known_listing(path: str, raw: bytes, known: KnownPages) -> _Listing | None:
    page = known.find(path, raw)
    if page is None:
        return None
    return _Listing(path, None, Sight(), listed=page.listed, is_known=True)


def _compare_way_to(page: _Listing, first: _Listing) -> Iterator[Failure]:
    """Yield a failure if no link that can be seen leads from the fleet page to *page*."""
    ways = first.links.get(page.path, ())
    if not any(not _hidden_by(way, first.sight) and fold(way.text()) for way in ways):
        what = f"no link that can be seen leads to `{page.path}`, which lists trucks"
        yield Failure(rules.TRUCK_NOT_LISTED, "", FLEET_PAGE, what, _FIX)


def _entries(pages: Sequence[_Listing]) -> Mapping[str, list[_Entry]]:
    found: dict[str, list[_Entry]] = {}
    for page in pages:
        if page.is_known:
            for number in page.listed:
                found.setdefault(number, []).append(_Entry(None, page))
        for target, links in page.links.items():
            folder, _, name = target.partition("/")
            if name == _START:
                found.setdefault(folder, []).extend(_Entry(link, page) for link in links)
    return found


def _compare_entries(unit: UnitRecord, entries: Sequence[_Entry]) -> Iterator[Failure]:
    number = unit.number
    if len(entries) > 1:
        what = f"{_pages_of(entries)} to {number} {len(entries)} times"
        yield Failure(rules.TRUCK_LISTED_TWICE, number, entries[-1].page.path, what, _FIX)
    if not entries:
        what = f"the fleet page does not lead to {number}"
        yield Failure(rules.TRUCK_NOT_LISTED, number, FLEET_PAGE, what, _FIX)
    for entry in entries:
        if entry.link is not None:
            yield from _compare_entry(unit, entry.link, entry.page)


def _pages_of(entries: Sequence[_Entry]) -> str:
    paths = dict.fromkeys(entry.page.path for entry in entries)
    return "the fleet page leads" if list(paths) == [FLEET_PAGE] else f"{', '.join(paths)} lead"


def _compare_entry(unit: UnitRecord, link: LexborNode, page: _Listing) -> Iterator[Failure]:
    number, path = unit.number, page.path
    hidden = _hidden_by(link, page.sight)
    if hidden:
        what = f"the entry of {number} cannot be seen, by {hidden}"
        yield Failure(rules.TRUCK_NOT_LISTED, number, path, what, _FIX)
    entry = next((node for node in _outward(link) if node.tag in _ENTRY_TAGS), link)
    text = fold(entry.text(separator=" "))
    if number not in text.split():
        what = f"the entry that leads to {number} says `{text}`"
        yield Failure(rules.IDENTITY_DIFFERS, number, path, what, _FIX)
    for words in (text, *_silent_words(entry)):
        left = unit.unstated(words)
        if left:
            what = f"the entry of {number} says `{left}`, which its guide does not state"
            yield Failure(rules.IDENTITY_DIFFERS, number, path, what, _FIX)


def _hidden_by(link: LexborNode, sight: Sight) -> str:
    """Return why *link* cannot be seen; empty if it can."""
    for node in _outward(link):
        for effect, reason in sight.effects_on(node):
            if effect is Effect.HIDES:
                return reason
    return ""


def _outward(node: LexborNode) -> Iterator[LexborNode]:
    current: LexborNode | None = node
    while current is not None and current.is_element_node:
        yield current
        current = current.parent


def _silent_words(entry: LexborNode) -> Iterator[str]:
    for node in entry.traverse():
        for name, value in node.attributes.items():
            if value and name not in _SILENT:
                yield fold(value)
