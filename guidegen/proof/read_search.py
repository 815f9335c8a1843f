"""The data of one unit's search, read back.

Takes in the bytes of the data and the claims of the edition; records entries that are missing,
too many or out of order, and every word and value that differs from the guide.
Refuses anything around the data: it is a script, and what runs beside them could say anything.
"""

import json
from collections.abc import Mapping, Sequence

from guidegen.finding import Rule
from guidegen.procedures.words import LABELS
from guidegen.proof import rules
from guidegen.proof.claims_search import PatternClaim, SearchClaim
from guidegen.proof.compare_words import Wording
from guidegen.proof.model import ValueRead
from guidegen.proof.read_text import begins_with, find_values, fold, plain
from guidegen.source import Span

_FIX = "repair how guidegen fills the data of the search"
_BEFORE, _AFTER = "window.guideSearch=", ";"
_KEYS = {"location", "title", "text"}
_NAMES_TRUCK = ("identity.number", "identity.make", "identity.model_name")


def prove_search(raw: bytes, words: Wording) -> None:
    """Hold the data *raw* of a search against the guide."""
    found = read_search(raw)
    if found is None:
        what = f"is no `{_BEFORE}…{_AFTER}` around JSON with a list of entries under `docs`"
        words.faults.add(rules.PAGE_NOT_READABLE, what, fix=_FIX)
        return
    entries = words.claims.search
    if found:
        _compare_start(found[0], words)
    _compare_locations([entry["location"] for entry in found[1:]], entries, words)
    by_location = {entry["location"]: entry for entry in found[1:]}
    for entry in entries:
        if entry.location in by_location:
            _compare_entry(by_location[entry.location], entry, words)


def read_search(raw: bytes) -> list[Mapping[str, str]] | None:
    """Return the entries in the data *raw* of a search; nothing if they cannot be read."""
    try:
        text = raw.decode("utf-8").strip()
        if not (text.startswith(_BEFORE) and text.endswith(_AFTER)):
            return None
        data = json.loads(text.removeprefix(_BEFORE).removesuffix(_AFTER))
    except ValueError:
        return None
    if not isinstance(data, dict) or set(data) != {"docs"}:
        return None
    found = data["docs"]
    return found if isinstance(found, list) and all(map(_is_entry, found)) else None


def _is_entry(entry: object) -> bool:
    return (
        isinstance(entry, dict)
        and set(entry) == _KEYS
        and all(isinstance(value, str) for value in entry.values())
    )


def _compare_start(entry: Mapping[str, str], words: Wording) -> None:
    if entry["location"] not in ("", "index.html"):
        _add(words, rules.SEARCH_ENTRY_MISSING, "the first entry is not the start page", None)
    left = fold(f"{entry['title']} {entry['text']}")
    number = words.guide.number
    if number not in left.split():
        _add(words, rules.IDENTITY_DIFFERS, f"the first entry does not name {number}", None)
    for name in _NAMES_TRUCK:
        if name in words.guide.facts:
            left = left.replace(fold(str(words.guide.facts[name].value)), " ")
    left = left.replace(LABELS["start"], " ")
    if any(character.isalnum() for character in left):
        what = f"the first entry says `{fold(left)}` besides the truck's name"
        _add(words, rules.SEARCH_TEXT_DIFFERS, what, None)


def _compare_locations(
    found: Sequence[str], entries: Sequence[SearchClaim], words: Wording
) -> None:
    wanted = [entry.location for entry in entries]
    if list(found) == wanted:
        return
    for location in wanted:
        if location not in found:
            _add(words, rules.SEARCH_ENTRY_MISSING, f"there is no entry for `{location}`", None)
    for place, location in enumerate(found):
        if location not in wanted or location in found[:place]:
            what = f"the entry for `{location}` is not this truck's, or there twice"
            _add(words, rules.SEARCH_ENTRY_TOO_MANY, what, None)
    if sorted(found) == sorted(wanted):
        what = "the entries stand in another order than the guide"
        _add(words, rules.SEARCH_TEXT_DIFFERS, what, None)


def _compare_entry(read: Mapping[str, str], entry: SearchClaim, words: Wording) -> None:
    _compare_patterns(fold(read["title"]), (entry.title,), entry, words)
    _compare_patterns(fold(read["text"]), entry.text, entry, words)


def _compare_patterns(
    text: str, patterns: tuple[PatternClaim, ...], entry: SearchClaim, words: Wording
) -> None:
    proved = words.claims.texts_of_values
    values = find_values(tuple(pattern for pattern, _ in patterns), text, proved)
    if values is None:
        pattern, span = _first_that_differs(text, patterns)
        what = f"`{entry.location}` does not say `{plain(pattern)}` where it should"
        _add(words, rules.SEARCH_TEXT_DIFFERS, what, span)
        return
    for value in values:
        words.compare_value(ValueRead(value.fact, value.text, ""), entry.location)


def _first_that_differs(text: str, patterns: tuple[PatternClaim, ...]) -> PatternClaim:
    for place in range(1, len(patterns) + 1):
        if not begins_with(tuple(pattern for pattern, _ in patterns[:place]), text):
            return patterns[place - 1]
    return patterns[-1] if patterns else PatternClaim("", None)


def _add(words: Wording, rule: Rule, what: str, span: Span | None) -> None:
    words.faults.add(rule, what, fix=_FIX, span=span)
