"""What the page of what the fleet has replaced must say.

Takes in the fleet's own procedures, as they were read; gives out blocks. Refuses to leave out a
change, or who answers for it.
"""

from collections.abc import Iterator, Sequence

from guidegen.procedures.model import Placeholder, TextTemplate
from guidegen.procedures.own.model import Change, Kind, OwnProcedure, Replacement
from guidegen.proof.office.model import Block, code, heads, row

TITLE = "What the fleet has replaced"
_NOTHING = "\N{EM DASH}"
_OTHER_NOW = (
    "The library's procedure has changed since it was replaced. Compare the two, and take over "
    "what is right for your trucks."
)
_WHAT_IT_IS = (
    "Procedures and lamps of the library that the fleet has its own words for, with all that is "
    "other. What is not listed is as in the library."
)


def replaced_claims(own: Sequence[OwnProcedure]) -> tuple[Block, ...]:
    """Return what the page must say, in order."""
    return tuple(_blocks(own))


def _blocks(own: Sequence[OwnProcedure]) -> Iterator[Block]:
    yield Block("h1", TITLE)
    pairs = [(each, each.replacement) for each in own if each.replacement is not None]
    given_up = sum(
        1 for _, replacement in pairs for change in replacement.changes if _is_given_up(change)
    )
    if given_up:
        words = f"Given up from the library: {given_up:,}, each with the one who answers for it."
        yield Block("p.failed", words)
    else:
        yield Block("p.proved", "No caution of the library is given up.")
    yield Block("p", _WHAT_IT_IS)
    for each, replacement in pairs:
        yield from _replaced(each, replacement)
    beside = [each.template for each in own if each.replacement is None]
    if beside:
        yield Block("h2", "The fleet's own procedures and house rules, beside the library")
    for template in beside:
        yield Block("li", f"{_typed(template.title)}: {code(template.span.place)}")


def _replaced(own: OwnProcedure, replacement: Replacement) -> Iterator[Block]:
    original = replacement.original
    if original.lamp is not None:
        extent = "Words of the lamp"
    else:
        extent = "The whole procedure" if replacement.is_whole else "Steps and cautions of it"
    yield Block("h2", _typed(own.template.title))
    places = code(replacement.span.place), code(original.span.place)
    yield Block("p", f"{extent}: {places[0]} in the place of {places[1]}.")
    if replacement.stated_digest.text != replacement.digest:
        yield Block("p", _OTHER_NOW)
    yield from heads("What", "In the library", "In this fleet", "Who answers for it")
    for change in replacement.changes:
        yield from row(
            Block("td", _what(change)),
            Block("td", _said(change.was, change.was_at.place if change.was_at else "")),
            Block("td", _said(change.now, change.now_at.place if change.now_at else "")),
            Block("td", _answer(change, replacement)),
            kind="tr.given-up" if _is_given_up(change) else "tr",
        )


def _is_given_up(change: Change) -> bool:
    """Whether a caution is gone or warns less, or the truck begins in another state."""
    if change.kind is Kind.CAUTION:
        return not change.now or bool(change.how)
    return change.kind is Kind.STATE and bool(change.was)


def _what(change: Change) -> str:
    verb = "gone" if not change.now else "changed" if change.was else "new"
    how = f" ({', '.join(change.how)})" if change.how else ""
    return f"{change.kind.value} {code(change.name)} {verb}{how}"


def _said(words: str, place: str) -> str:
    folded = " ".join(words.split())
    if not folded:
        return _NOTHING
    return f"{folded} / {code(place)}" if place else folded


def _answer(change: Change, replacement: Replacement) -> str:
    if not _is_given_up(change):
        return ""
    for each in replacement.statements:
        if (each.part, each.about.text) == (change.answered_by, change.name):
            said = f"{each.reason} Approved by {each.approved_by}, {each.date}."
            return " ".join(said.split())
    return "nobody answers for it"


def _typed(text: TextTemplate) -> str:
    parts = (f"{{{{ {p.fact} }}}}" if isinstance(p, Placeholder) else p.text for p in text.parts)
    return " ".join("".join(parts).split())
