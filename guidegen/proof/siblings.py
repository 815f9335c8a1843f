"""Files that differ from a proved file in nothing but what is stamped into them.

Takes in the bytes of a unit's file; gives out the same with the unit's number, VIN, plate, yard,
edition and revision blanked, whether all of these stand in their own places and nowhere else, and
the pieces between them, against which the files of other units can be held.
Refuses to call two files alike on any other ground than equal bytes.
"""

import hashlib
import html
import json
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from selectolax.lexbor import LexborHTMLParser

from guidegen.guide.model import STAMPED, Guide
from guidegen.proof.claims_search import SearchClaim
from guidegen.proof.marks import Mark
from guidegen.proof.read_search import read_search
from guidegen.proof.read_text import facts_in

EDITION, REVISION = "edition", "revision"
IDENTITY = frozenset(STAMPED)
ALL_STAMPED = frozenset({*STAMPED, EDITION, REVISION})
_NUMBER = "identity.number"
OPEN, CLOSE = "\ue000", "\ue001"
"""Stand around the name of what was blanked; no file that is shared holds them itself."""

_BLANKS = {name: f"{OPEN}{name}{CLOSE}" for name in (*STAMPED, EDITION, REVISION)}
_KNOWN_BLANKS = {name: f"{OPEN}known.{name}{CLOSE}" for name in STAMPED}
_OPEN_BYTES = OPEN.encode()
_BLANKED = re.compile(f"{OPEN}[^{CLOSE}]*{CLOSE}")
_REVISION_DIGITS = 8
"""Of the fingerprint of an edition, where no revision is released."""

Stamp = Mapping[str, str]
"""What is stamped into the files of one unit, by what it is: facts, edition, revision."""


def stamp_of(guide: Guide) -> Stamp:
    """Return what is stamped into the files of the unit of *guide*."""
    facts = guide.facts
    stamp = {name: str(facts[name].value) for name in STAMPED if name in facts}
    return {**stamp, EDITION: guide.edition, REVISION: guide.edition[:_REVISION_DIGITS]}


def written(stamp: Stamp, path: str) -> dict[str, bytes] | None:
    """Return how each of *stamp* must be written in the file at *path*.

    Returns:
        By what it is; nothing if that cannot be told without reading the file.
    """
    if path.endswith(".html"):
        return {name: _escaped(value).encode() for name, value in stamp.items()}
    for value in stamp.values():
        # What JSON or markup would write otherwise is read in full.
        if _escaped(value) != value or json.dumps(value, ensure_ascii=False) != f'"{value}"':
            return None
    return {name: value.encode() for name, value in stamp.items()}


def _escaped(value: str) -> str:
    return html.escape(value).replace("&#x27;", "&#39;").replace("&quot;", "&#34;")


class Place(NamedTuple):
    """Where something of a stamp stands in a file."""

    start: int
    end: int
    name: str


_FACT = re.compile(rb'data-fact="(identity\.[a-z_]+)"[^<>]*>\s*([^<]*?)\s*<')
_TITLE = re.compile(rb"<title>\s*([^<]*)")
_BODY = re.compile(rb'data-(guide|edition)="([^"]*)"')
_ISSUE = re.compile(Mark.ISSUE.value.encode() + rb"[^<>]*>\s*([^<]*?)\s*<")
_BODY_NAMES = {b"guide": _NUMBER, b"edition": EDITION}


def places_on_page(raw: bytes, forms: Mapping[str, bytes]) -> tuple[Place, ...] | None:
    """Return the places of a stamp on the page *raw*, in order.

    Args:
        raw: A page.
        forms: As of `written`.

    Returns:
        The places; nothing if anything else stands in one of them.
    """
    found = tuple(sorted((*_in_marks(raw), *_in_head(raw, forms))))
    is_right = all(raw[place.start : place.end] == forms.get(place.name) for place in found)
    return found if is_right and _OPEN_BYTES not in raw else None


def _in_marks(raw: bytes) -> Iterator[Place]:
    for match in _FACT.finditer(raw):
        name = match[1].decode()
        if name in IDENTITY:
            yield Place(*match.span(2), name)
    for match in _BODY.finditer(raw):
        yield Place(*match.span(2), _BODY_NAMES[match[1]])


def _in_head(raw: bytes, forms: Mapping[str, bytes]) -> Iterator[Place]:
    title, digits = _TITLE.search(raw), forms[REVISION]
    if title is not None:
        yield Place(title.start(1), title.start(1) + len(title[1].partition(b" ")[0]), _NUMBER)
    for match in _ISSUE.finditer(raw):
        if match[1].endswith(digits):
            yield Place(match.end(1) - len(digits), match.end(1), REVISION)


def places_in_data(
    raw: bytes, forms: Mapping[str, bytes], search: Iterable[SearchClaim]
) -> tuple[Place, ...] | None:
    """Return the places of an identity in the data of a search; as `places_on_page`.

    Args:
        raw: The data.
        forms: As of `written`.
        search: What the data must say: what it does not show is not looked for.
    """
    if _OPEN_BYTES in raw:
        return None
    shown = {_NUMBER, *_shown_in(search)} & forms.keys()
    found: list[Place] = []
    # The longer first: one can be a part of the other.
    for name in sorted(shown, key=lambda each: -len(forms[each])):
        for match in _whole(forms[name]).finditer(raw):
            if not any(each.start < match.end() and match.start() < each.end for each in found):
                found.append(Place(*match.span(), name))
    return tuple(sorted(found))


@lru_cache(maxsize=64)
def _whole(form: bytes) -> re.Pattern[bytes]:
    # The form first, so that the search for it is fast; then that it does not begin within a word.
    literal = re.escape(form)
    return re.compile(literal + rb"(?<![0-9A-Za-z-]" + literal + rb")(?![0-9A-Za-z-])")


def blanked(raw: bytes, places: Iterable[Place]) -> bytes:
    """Return *raw* with what stands in *places* blanked."""
    parts, position = [], 0
    for place in places:
        parts += [raw[position : place.start], _BLANKS[place.name].encode()]
        position = place.end
    return b"".join((*parts, raw[position:]))


def blanked_pair(raw: bytes, given: Guide, known: Guide) -> bytes | None:
    """Return the sheet *raw* with the identities of both units blanked, wherever they stand.

    Returns:
        The sheet; nothing if it holds blanks itself.
    """
    if _OPEN_BYTES in raw:
        return None
    pairs = [
        (_escaped(str(guide.facts[name].value)).encode(), blanks[name].encode())
        for guide, blanks in ((given, _BLANKS), (known, _KNOWN_BLANKS))
        for name in STAMPED
        if name in guide.facts
    ]
    for form, blank in sorted(pairs, key=lambda pair: -len(pair[0])):
        if form and form in raw:
            raw = _whole(form).sub(blank, raw)
    return raw


def digest_of(blanked_file: bytes) -> bytes:
    """Return what two files share if they are equal but for what is blanked."""
    return hashlib.sha256(blanked_file).digest()


@dataclass(frozen=True, slots=True)
class Pieces:
    """A proved file, taken apart where a unit's identity stands in it."""

    parts: tuple[bytes, ...]
    """What stands before, between and after."""

    names: tuple[str, ...]
    """What stands between."""

    def fit(self, raw: bytes, forms: Mapping[str, bytes]) -> bool:
        """Whether *raw* is the same file with the identity *forms* in its places.

        Args:
            raw: A file of another unit.
            forms: Of that unit, as of `written`.
        """
        whole = [b""] * (2 * len(self.names) + 1)
        whole[::2] = self.parts
        try:
            whole[1::2] = [forms[name] for name in self.names]
        except KeyError:
            return False
        return b"".join(whole) == raw


def pieces_of(raw: bytes, places: Iterable[Place]) -> Pieces:
    """Take a proved file apart at the *places* of the identity, but not of the edition."""
    parts, names, position = [], [], 0
    for place in places:
        if place.name in IDENTITY:
            parts.append(raw[position : place.start])
            names.append(place.name)
            position = place.end
    return Pieces((*parts, raw[position:]), tuple(names))


def names_in_their_places(blanked_file: bytes, search: Iterable[SearchClaim]) -> frozenset[str]:
    """Return what of a stamp stands where the marks say, whole, and nowhere else in the file.

    Only if all of an identity does can another unit's file that is equal to *blanked_file* be
    taken for proved: in the same places it shows its own, and all else is the same.

    Args:
        blanked_file: Of `blanked`.
        search: What the search index says; a text of it may show the identity, and was proved.
    """
    text = blanked_file.decode("utf-8", "replace")
    entries = read_search(blanked_file)
    if entries is not None:
        counts = _counts_in_search(entries, search)
    else:
        counts = _counts_in_page(LexborHTMLParser(text))
    blanks = Counter(_BLANKED.findall(text))
    return frozenset(name for name, blank in _BLANKS.items() if blanks[blank] == counts[name])


def pair_stands_in_its_places(blanked_file: bytes) -> bool:
    """Whether the identities of both trucks stand where a sheet's marks say, and nowhere else.

    Args:
        blanked_file: Of `blanked_pair`.
    """
    text = blanked_file.decode("utf-8", "replace")
    page = LexborHTMLParser(text)
    blanks = Counter(_BLANKED.findall(text))
    own = {name: blanks[_BLANKS[name]] for name in STAMPED}
    known = {name: blanks[blank] for name, blank in _KNOWN_BLANKS.items()}
    counts = _counts_in_page(page)
    return {name: counts[name] for name in STAMPED} == own and _counts_of_known(page) == known


def _counts_in_search(
    entries: Sequence[Mapping[str, str]], search: Iterable[SearchClaim]
) -> Mapping[str, int]:
    shown = _shown_in(search)
    shown[_NUMBER] += sum(_BLANKS[_NUMBER] in entry["title"] for entry in entries[:1])
    return {name: shown[name] for name in _BLANKS}


def _shown_in(search: Iterable[SearchClaim]) -> Counter[str]:
    patterns = (claim.pattern for entry in search for claim in (entry.title, *entry.text))
    return Counter(name for pattern in patterns for name in facts_in(pattern) if name in IDENTITY)


def _counts_in_page(page: LexborHTMLParser) -> Mapping[str, int]:
    stamped = {name: _BLANKS[name] for name in STAMPED}
    counts = _counts_of_marks(page, "data-fact", stamped)
    title = page.css_first("title")
    if title is not None and title.text().startswith(_BLANKS[_NUMBER]):
        counts[_NUMBER] += 1
    counts[EDITION] = _body_has(page, "data-edition", _BLANKS[EDITION])
    slots = page.css(f"[{Mark.ISSUE.value}]")
    counts[REVISION] = sum(node.text().split()[-1:] == [_BLANKS[REVISION]] for node in slots)
    counts[_NUMBER] += _body_has(page, "data-guide", _BLANKS[_NUMBER])
    return counts


def _counts_of_known(page: LexborHTMLParser) -> Mapping[str, int]:
    counts = _counts_of_marks(page, "data-known-fact", _KNOWN_BLANKS)
    title = page.css_first("title")
    if title is not None and title.text().count(_KNOWN_BLANKS[_NUMBER]) == 1:
        counts[_NUMBER] += 1
    counts[_NUMBER] += _body_has(page, "data-known", _KNOWN_BLANKS[_NUMBER])
    return counts


def _counts_of_marks(
    page: LexborHTMLParser, mark: str, blanks: Mapping[str, str]
) -> dict[str, int]:
    counts = dict.fromkeys(blanks, 0)
    for node in page.css(f"[{mark}^='identity.']"):
        name = node.attributes.get(mark) or ""
        if name in blanks and counts[name] >= 0:
            whole = " ".join(node.text().split()) == blanks[name]
            counts[name] = counts[name] + 1 if whole else -1
    return counts


def _body_has(page: LexborHTMLParser, mark: str, blank: str) -> int:
    body = page.css_first("[data-guide]")
    return int(body is not None and body.attributes.get(mark) == blank)
