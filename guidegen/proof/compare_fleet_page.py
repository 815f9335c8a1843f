"""Whether the fleet page lists every truck once, as what it is.

Takes in the bytes of the page and all guides; gives out failures: trucks that are not listed,
listed twice, cannot be seen or go by another truck's name. Refuses words in a truck's entry
that its guide does not state.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from selectolax.lexbor import LexborHTMLParser, LexborNode

from guidegen.guide.model import Guide
from guidegen.proof import rules
from guidegen.proof.fleet_claims import FleetClaims
from guidegen.proof.hiding import Effect
from guidegen.proof.links import resolve_address
from guidegen.proof.model import Failure
from guidegen.proof.read_text import fold
from guidegen.proof.visibility import Sight, look_at
from guidegen.specs.fields import ChoiceField
from guidegen.units.model import Fact

FLEET_PAGE = "index.html"

_FIX = "repair the template of the fleet page"
_ENTRY_TAGS = ("li", "tr", "article")
_MAY_NAME = (
    *("identity.number", "identity.vin", "identity.plate", "identity.yard", "identity.year"),
    *("identity.make", "identity.model_name", "identity.body"),
)
_SILENT = ("class", "href", "role", "tabindex", "aria-hidden", "id", "scope")


def compare_fleet_page(
    guides: Sequence[Guide], raw: bytes | None, fleet: FleetClaims
) -> Iterator[Failure]:
    """Yield what is wrong with the fleet page."""
    if raw is None:
        yield Failure(rules.PAGE_MISSING, "", FLEET_PAGE, "there is no fleet page", _FIX)
        return
    page = LexborHTMLParser(raw.decode("utf-8", "replace"))
    entries = _entries(page)
    inline = tuple(node.text() for node in page.css("style"))
    body = page.css_first("main") or page.body
    sight = look_at(page, body, fleet.styles_with(inline)) if body is not None else Sight()
    for reason in dict.fromkeys(sight.of_page):
        what = f"nothing of the list can be seen, by {reason}"
        yield Failure(rules.TRUCK_NOT_LISTED, "", FLEET_PAGE, what, _FIX)
    for guide in guides:
        yield from _compare_entries(guide, entries.get(guide.number, []), sight)
    shown = fold(body.text(separator=" ")).split() if body is not None else []
    for number in fleet.held_back:
        if number not in shown:
            what = f"the fleet page does not say that {number} has no guide"
            yield Failure(rules.TRUCK_NOT_LISTED, number, FLEET_PAGE, what, _FIX)


def _compare_entries(
    guide: Guide, entries: Sequence[LexborNode], sight: Sight
) -> Iterator[Failure]:
    number = guide.number
    if len(entries) > 1:
        what = f"the fleet page leads to {number} {len(entries)} times"
        yield Failure(rules.TRUCK_LISTED_TWICE, number, FLEET_PAGE, what, _FIX)
    if not entries:
        what = f"the fleet page does not lead to {number}"
        yield Failure(rules.TRUCK_NOT_LISTED, number, FLEET_PAGE, what, _FIX)
    for entry in entries:
        yield from _compare_entry(guide, entry, sight)


def _entries(page: LexborHTMLParser) -> Mapping[str, list[LexborNode]]:
    found: dict[str, list[LexborNode]] = {}
    for link in page.css("a[href]"):
        target, _ = resolve_address(FLEET_PAGE, link.attributes.get("href") or "")
        folder, _, name = target.partition("/")
        if name == "index.html":
            found.setdefault(folder, []).append(link)
    return found


def _compare_entry(guide: Guide, link: LexborNode, sight: Sight) -> Iterator[Failure]:
    number = guide.number
    hidden = next((reason for node in _outward(link) if (reason := _hidden(node, sight))), "")
    if hidden:
        what = f"the entry of {number} cannot be seen, by {hidden}"
        yield Failure(rules.TRUCK_NOT_LISTED, number, FLEET_PAGE, what, _FIX)
    entry = next((node for node in _outward(link) if node.tag in _ENTRY_TAGS), link)
    text = fold(entry.text(separator=" "))
    if number not in text.split():
        what = f"the entry that leads to {number} says `{text}`"
        yield Failure(rules.IDENTITY_DIFFERS, number, FLEET_PAGE, what, _FIX)
    stated = list(_stated(guide))
    for words in (text, *_silent_words(entry)):
        left = _without(words, stated)
        if left:
            what = f"the entry of {number} says `{left}`, which its guide does not state"
            yield Failure(rules.IDENTITY_DIFFERS, number, FLEET_PAGE, what, _FIX)


def _hidden(node: LexborNode, sight: Sight) -> str:
    reasons = [reason for effect, reason in sight.effects_on(node) if effect is Effect.HIDES]
    return reasons[0] if reasons else ""


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


def _stated(guide: Guide) -> Iterator[str]:
    for name in _MAY_NAME:
        fact = guide.facts.get(name)
        if fact is not None:
            yield from (fold(each).casefold() for each in _words(fact))


def _words(fact: Fact) -> Iterable[str]:
    field = fact.field.field
    typed = str(fact.value)
    return (field.choices.get(typed, ""), typed) if isinstance(field, ChoiceField) else (typed,)


def _without(text: str, stated: Iterable[str]) -> str:
    left = f" {text.casefold()} "
    for words in sorted(stated, key=len, reverse=True):
        left = left.replace(f" {words} ", "  ")
    return fold(left) if any(character.isalnum() for character in left) else ""
