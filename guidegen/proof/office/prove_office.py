"""From the pages for the office to what is wrong with them.

Takes in the files of the office's folder and what its pages must say; gives out failures. Refuses
words that nothing states, words that cannot be seen, and links that lead nowhere.
"""

from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from itertools import islice

from guidegen.gaps.model import FleetGaps
from guidegen.procedures.own.model import OwnProcedure
from guidegen.proof import rules
from guidegen.proof.links import judge_address, resolve_address
from guidegen.proof.model import Failure
from guidegen.proof.office import missing_claims, replaced_claims
from guidegen.proof.office.model import Block
from guidegen.proof.office.read_page import OfficePage, read_office_page
from guidegen.proof.styles import Styles, read_styles

FOLDER = "office"
_FIX = "repair what makes the page, and build again"
_MOST_TOLD = 20
"""Differences of one page that are told."""

_INDEX_TITLE = "For the office"
_LEADS_TO = (
    ("missing.html", "What is missing: which trucks wait for what, and which gap to close first"),
    ("missing.csv", "What to look up, by yard and truck, as a spreadsheet to send to the shop"),
    ("missing.txt", "The same as plain text"),
    ("proof.html", "Proof of the guides: what was read back, and what was not checked"),
    ("proof.json", "The same for programs"),
    ("files.sha256", "All files of the site with their hashes"),
)
_REPLACED = (
    "replaced.html",
    "What the fleet says in its own words, and what it has in the place of what",
)

Claims = Callable[[Sequence[Block]], Sequence[Block]]
"""Returns what a page must say; it is given what was read, for the order that the page is free to
choose."""


@dataclass(frozen=True, slots=True)
class OfficeClaims:
    """What one page must say."""

    title: str
    blocks: Claims


def index_claims(fleet_name: str, *, has_own: bool) -> OfficeClaims:
    """Return what the page that leads to all others must say.

    Args:
        fleet_name: As it stands in the fleet file.
        has_own: Whether the fleet has words of its own.
    """
    leads_to = (*_LEADS_TO, _REPLACED) if has_own else _LEADS_TO
    blocks = (
        Block("h1", _INDEX_TITLE),
        Block("p", " ".join(fleet_name.split())),
        *(Block("li", words, (address,)) for address, words in leads_to),
    )
    return OfficeClaims(_INDEX_TITLE, lambda _: blocks)


def claims_of_missing(fleet: FleetGaps, beside: Container[str]) -> OfficeClaims:
    """Return what the page of what is missing must say; see `missing_claims`."""

    def claims(read: Sequence[Block]) -> Sequence[Block]:
        order = missing_claims.order_read(read)
        return missing_claims.missing_claims(fleet, beside, order)

    return OfficeClaims(missing_claims.TITLE, claims)


def claims_of_replaced(own: Sequence[OwnProcedure]) -> OfficeClaims:
    """Return what the page of what the fleet has replaced must say."""
    blocks = replaced_claims.replaced_claims(own)
    return OfficeClaims(replaced_claims.TITLE, lambda _: blocks)


def prove_office(
    pages: Mapping[str, OfficeClaims], files: Mapping[str, bytes], paths: Container[str]
) -> tuple[Failure, ...]:
    """Return what is wrong with *pages*.

    Args:
        pages: What each must say, by its name in the folder of the office.
        files: The folder's pages and stylesheets, by their names in it.
        paths: Of all files of the site, from its root.
    """
    found: list[Failure] = []
    known: dict[tuple[str, ...], Styles] = {}
    for name, claims in pages.items():
        path = f"{FOLDER}/{name}"
        raw = files.get(name)
        if raw is None:
            found.append(Failure(rules.PAGE_MISSING, "", path, "the page is not there", _FIX))
            continue
        # Once without styles, for the names of the stylesheets.
        sheets = tuple(read_office_page(raw, read_styles({})).sheets)
        if sheets not in known:
            known[sheets] = _styles(sheets, files)
        page = read_office_page(raw, known[sheets])
        found += islice(_failures(path, page, claims, paths), _MOST_TOLD)
        for where, address in known[sheets].addresses:
            what = f"the stylesheet `{where}` asks for `{address}`"
            found.append(Failure(rules.REQUEST_TO_OTHER_ORIGIN, "", path, what, _FIX))
    return tuple(found)


def _styles(sheets: Sequence[str], files: Mapping[str, bytes]) -> Styles:
    named = (resolve_address(f"{FOLDER}/", each)[0] for each in sheets)
    texts = {path: files.get(path.removeprefix(f"{FOLDER}/"), b"") for path in named}
    return read_styles({path: raw.decode("utf-8", "replace") for path, raw in texts.items()})


def _failures(
    path: str, page: OfficePage, claims: OfficeClaims, paths: Container[str]
) -> Iterator[Failure]:
    for stray in page.strays:
        yield Failure(stray.rule, "", path, stray.what, _FIX)
    if page.title != claims.title:
        what = f"its title is `{page.title}`, and not `{claims.title}`"
        yield Failure(rules.TEXT_NOT_READ_BACK, "", path, what, _FIX)
    for address in page.addresses:
        found = judge_address(path, address, paths)
        if found is not None:
            yield Failure(found.rule, "", path, found.what, _FIX)
    claimed = list(claims.blocks(page.blocks))
    if claimed != page.blocks:
        yield from _differences(path, claimed, page.blocks)


def _differences(path: str, claimed: list[Block], read: list[Block]) -> Iterator[Failure]:
    for kind, start, end, at, to in SequenceMatcher(
        None, claimed, read, autojunk=False
    ).get_opcodes():
        if kind == "equal":
            continue
        wanted, there = claimed[start:end], read[at:to]
        for one, other in zip(wanted, there, strict=False):
            rule = rules.TEXT_NOT_READ_BACK
            if (one.kind, one.text) == (other.kind, other.text):
                rule = rules.LINK_TO_OTHER_PLACE
            what = f"reads {_shown(other)}, and must read {_shown(one)}"
            yield Failure(rule, "", path, what, _FIX)
        for one in wanted[len(there) :]:
            yield Failure(rules.TEXT_MISSING, "", path, f"{_shown(one)} is not there", _FIX)
        for other in there[len(wanted) :]:
            what = f"nothing states {_shown(other)}"
            yield Failure(rules.UNCLAIMED_TEXT, "", path, what, _FIX)


def _shown(block: Block, longest: int = 160) -> str:
    links = f" to {', '.join(block.links)}" if block.links else ""
    text = f"{block.text}{links}"
    text = text if len(text) <= longest else f"{text[: longest - 1]}…"
    return f"<{block.kind}> “{text}”"
