"""Files that differ from a proved file in nothing but the identity.

Takes in the bytes of a unit's file; gives out the same with the unit's number, VIN, plate and
yard blanked, and whether all of them stand in their own places and nowhere else. Refuses to
call two files alike on any other ground than equal bytes.
"""

import hashlib
import html
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from selectolax.lexbor import LexborHTMLParser

from guidegen.guide.model import STAMPED, Guide
from guidegen.proof.claims_search import SearchClaim
from guidegen.proof.foreign import Identities, find_foreign
from guidegen.proof.read_search import read_search
from guidegen.proof.read_text import facts_in

_NUMBER = "identity.number"
_OPEN, _CLOSE = "\ue000", "\ue001"
_BLANKS = {name: f"{_OPEN}{name}{_CLOSE}" for name in STAMPED}
_KNOWN_BLANKS = {name: f"{_OPEN}known.{name}{_CLOSE}" for name in STAMPED}


def blank_identity(raw: bytes, guide: Guide) -> bytes:
    """Return *raw* with each identity of the unit replaced by a blank that names its fact."""
    return _blanked(raw, _identity(guide, _BLANKS))


def blank_pair(raw: bytes, given: Guide, known: Guide) -> bytes:
    """Return the sheet *raw* with the identities of both units blanked."""
    pairs = [*_identity(given, _BLANKS), *_identity(known, _KNOWN_BLANKS)]
    # The longer first: one number can be a part of the other.
    pairs.sort(key=lambda pair: -len(pair[0]))
    return _blanked(raw, pairs)


def _identity(guide: Guide, blanks: Mapping[str, str]) -> list[tuple[str, str]]:
    facts = guide.facts
    return [(str(facts[name].value), blank) for name, blank in blanks.items() if name in facts]


def _blanked(raw: bytes, identity: Iterable[tuple[str, str]]) -> bytes:
    for value, blank in identity:
        for form in dict.fromkeys((html.escape(value), html.escape(value, quote=False), value)):
            raw = raw.replace(form.encode(), blank.encode())
    return raw


def digest_of(blanked: bytes) -> bytes:
    """Return what two files share if they are equal but for the blanked identity."""
    return hashlib.sha256(blanked).digest()


def stands_in_its_places(
    blanked: bytes, raw: bytes, identities: Identities, search: Iterable[SearchClaim]
) -> bool:
    """Whether the identity stands where the marks say, whole, and nowhere else in the file.

    Only then can another unit's file that is equal to *blanked* be taken for proved: in the same
    places it shows its own identity, and all else is the same.

    Args:
        blanked: Of `blank_identity`.
        raw: The file that *blanked* was made from.
        identities: Of the fleet; what is left in *blanked* must hold none of them.
        search: What the search index says; a text of it may show the identity, and was proved.
    """
    if _OPEN.encode() in raw or find_foreign(blanked, "", identities):
        return False
    text = blanked.decode("utf-8", "replace")
    counts = {name: text.count(blank) for name, blank in _BLANKS.items()}
    entries = read_search(text.encode())
    if entries is not None:
        return counts == _counts_in_search(entries, search)
    return counts == _counts_in_page(LexborHTMLParser(text))


def pair_stands_in_its_places(blanked: bytes, raw: bytes, identities: Identities) -> bool:
    """Whether the identities of both trucks stand where a sheet's marks say, and nowhere else.

    Args:
        blanked: Of `blank_pair`.
        raw: The file that *blanked* was made from.
        identities: Of the fleet; what is left in *blanked* must hold none of them.
    """
    if _OPEN.encode() in raw or find_foreign(blanked, "", identities):
        return False
    text = blanked.decode("utf-8", "replace")
    page = LexborHTMLParser(text)
    return _counts_in_page(page) == {
        name: text.count(blank) for name, blank in _BLANKS.items()
    } and _counts_of_known(page) == {
        name: text.count(blank) for name, blank in _KNOWN_BLANKS.items()
    }


def _counts_in_search(
    entries: Sequence[Mapping[str, str]], search: Iterable[SearchClaim]
) -> Mapping[str, int]:
    patterns = [claim.pattern for entry in search for claim in (entry.title, *entry.text)]
    shown = Counter(name for pattern in patterns for name in facts_in(pattern))
    shown[_NUMBER] += sum(_BLANKS[_NUMBER] in entry["title"] for entry in entries[:1])
    return {name: shown[name] for name in _BLANKS}


def _counts_in_page(page: LexborHTMLParser) -> Mapping[str, int]:
    counts = _counts_of_marks(page, "data-fact", _BLANKS)
    title = page.css_first("title")
    if title is not None and title.text().startswith(_BLANKS[_NUMBER]):
        counts[_NUMBER] += 1
    return _with_body(page, "data-guide", _BLANKS, counts)


def _counts_of_known(page: LexborHTMLParser) -> Mapping[str, int]:
    counts = _counts_of_marks(page, "data-known-fact", _KNOWN_BLANKS)
    title = page.css_first("title")
    if title is not None and title.text().count(_KNOWN_BLANKS[_NUMBER]) == 1:
        counts[_NUMBER] += 1
    return _with_body(page, "data-known", _KNOWN_BLANKS, counts)


def _counts_of_marks(
    page: LexborHTMLParser, mark: str, blanks: Mapping[str, str]
) -> dict[str, int]:
    counts = {}
    for name, blank in blanks.items():
        marked = page.css(f'[{mark}="{name}"]')
        whole = all(" ".join(node.text().split()) == blank for node in marked)
        counts[name] = len(marked) if whole else -1
    return counts


def _with_body(
    page: LexborHTMLParser, mark: str, blanks: Mapping[str, str], counts: dict[str, int]
) -> Mapping[str, int]:
    body = page.css_first("[data-guide]")
    if body is not None and body.attributes.get(mark) == blanks[_NUMBER]:
        counts[_NUMBER] += 1
    return counts
