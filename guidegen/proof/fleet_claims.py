"""What the proof of every unit needs to know of the whole fleet and site.

Takes in all guides, the stylesheets and the list of files; gives out identities, styles, paths
and the claims of each edition, made once. Refuses to read any file itself.
"""

import hashlib
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import NamedTuple

from selectolax.lexbor import LexborHTMLParser

from guidegen.decks.model import CardKind
from guidegen.differences.offer import Offer
from guidegen.guide.model import STAMPED, Guide
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.words import CHAPTERS
from guidegen.proof.claims import EditionClaims, claims_of, revision_words
from guidegen.proof.content import Contents, is_alike_fact
from guidegen.proof.foreign import Identities, identities_of
from guidegen.proof.links import resolve_address
from guidegen.proof.model import Counts, FileVerdict, FrameRead
from guidegen.proof.read_pack import PackedRead, read_shell
from guidegen.proof.revision_claims import NO_REVISIONS, RevisionClaims, revision_claims_of
from guidegen.proof.sheet_claims import sheet_claims_of
from guidegen.proof.sheet_model import SheetClaims
from guidegen.proof.siblings import Pieces
from guidegen.proof.styles import Styles, read_styles
from guidegen.proof.unchecked import unchecked_of
from guidegen.proof.unit_record import UnitRecord, ids_of, record_of
from guidegen.revisions.model import FleetHistory
from guidegen.round.model import Round
from guidegen.training.model import Quiz
from guidegen.units.model import Presence

Read = Callable[[str], bytes | None]
"""Returns the bytes of a file by its path from the root of the site; nothing if it is not there."""

_NO_OFFER = Offer()
_NO_ROUNDS: Mapping[str, Round] = MappingProxyType({})
_NO_CARDS: Mapping[str, Sequence[CardKind]] = MappingProxyType({})
_NO_QUIZZES: Mapping[str, Quiz] = MappingProxyType({})
_MOST_EDITIONS = 2
"""Claims that are kept at a time besides those of trucks that others are compared with, 1 MB each;
units come sorted by edition."""

_MOST_SHEETS = 32
"""Claims of sheets of differences that are kept at a time."""

_MOST_PIECES = 4
"""Files of one path that are kept in pieces for the siblings of their units."""


class Whole(NamedTuple):
    """What follows from the verdicts on all files of a unit, if none has a failure."""

    verdicts: tuple[FileVerdict, ...]
    counts: Counts
    frames: tuple[FrameRead, ...]
    words: bytes


@dataclass(frozen=True, slots=True)
class Edition:
    """What holds for all units of one edition."""

    guide: Guide
    """Of the first of them that was met."""

    claims: EditionClaims
    not_its_own: Collection[str]
    """Ids of procedures, steps and cautions that its units do not have."""

    is_shared: bool
    """Whether it has more units than one."""

    proved: dict[tuple[str, bytes], FileVerdict] = field(
        default_factory=dict, compare=False, repr=False
    )
    """Sheets without failures, by edition of the known truck and digest without identities."""

    pieces: dict[tuple[str, ...], list[tuple[Pieces, FileVerdict]]] = field(
        default_factory=dict, compare=False, repr=False
    )
    """Files without failures, by path in the unit's folder, revision and revisions told of."""

    wholes: dict[tuple[object, ...], Whole] = field(default_factory=dict, compare=False, repr=False)
    """What follows from verdicts that units share, by the verdicts and the files that are there."""

    def keep(self, key: tuple[str, ...], pieces: Pieces, verdict: FileVerdict) -> None:
        """Keep a proved file in *pieces* for the siblings of its unit."""
        kept = self.pieces.setdefault(key, [])
        if len(kept) < _MOST_PIECES:
            kept.append((pieces, verdict))


@dataclass(frozen=True, slots=True)
class FleetClaims:
    """What holds for all units of a site."""

    numbers: frozenset[str]
    held_back: tuple[str, ...]
    """Numbers of trucks that have no guide; the fleet page says so."""

    identities: Identities
    sheets: Mapping[str, str]
    """Stylesheets of the site by path."""

    styles: Styles
    paths: frozenset[str]
    """Every file of the site that stands in no unit's folder."""

    ids: frozenset[str]
    """Of all procedures, steps and cautions of all guides, or of the library."""

    shared_editions: frozenset[str]
    """Those of more units than one."""

    offer: Offer
    """The trucks that drivers may pick as those that they know."""

    quizzes: Mapping[str, Quiz]
    """The quiz of each edition that has one, by its fingerprint."""

    rounds: Mapping[str, Round]
    """The inspection round of each edition that has one, by its fingerprint."""

    cards: Mapping[str, Sequence[CardKind]]
    """The printed cards of each unit that has any, by its number."""

    shell: Mapping[str, PackedRead] | None
    """What all trucks' pages load, by path; nothing if the site has no packs."""

    history: FleetHistory | None = None
    """What was released of each truck; none where no record is kept."""

    _revisions: dict[str, RevisionClaims] = field(default_factory=dict, compare=False, repr=False)
    _sheets: dict[tuple[str, str], SheetClaims] = field(
        default_factory=dict, compare=False, repr=False
    )
    _editions: dict[tuple[str, tuple[str, ...]], Edition] = field(
        default_factory=dict, compare=False, repr=False
    )
    _inline: dict[tuple[str, ...], Styles] = field(default_factory=dict, compare=False, repr=False)
    contents: Contents = field(default_factory=dict, compare=False, repr=False)
    """Files that were proved so far, whatever the edition."""

    def for_batch(
        self,
        *,
        rounds: Mapping[str, Round] = _NO_ROUNDS,
        quizzes: Mapping[str, Quiz] = _NO_QUIZZES,
        cards: Mapping[str, Sequence[CardKind]] = _NO_CARDS,
        history: FleetHistory | None = None,
    ) -> "FleetClaims":
        """Return the same with what only the units of one batch need; what was proved is kept.

        Args:
            rounds: The inspection rounds of the batch's editions.
            quizzes: Their quizzes.
            cards: The printed cards of the batch's units.
            history: What was released of these; none where no record is kept.
        """
        return replace(
            self,
            # Read-only views cannot be sent to other processes.
            rounds=dict(rounds),
            quizzes=dict(quizzes),
            cards=dict(cards),
            history=history,
            _editions={},
            _revisions={},
        )

    @property
    def digest(self) -> str:
        """What two states of a site share if a verdict without failures holds in both.

        It takes in all that a unit's verdict hangs on but the unit's own guide, round, quiz,
        cards, history and files, and the identities of other units: for these there is
        `UnitVerdict.words`.
        """
        parts: list[object] = [
            sorted(self.sheets.items()),
            list(self.sheets),
            sorted(self.paths),
            sorted(self.ids),
            None if self.shell is None else sorted(self.shell.values()),
            self.offer.stands_for_edition,
        ]
        for truck in self.offer.trucks:
            stamped = [str(f.value) for name, f in truck.guide.facts.items() if name in STAMPED]
            parts.append((truck.guide.number, truck.guide.edition, stamped, truck.alike))
        return hashlib.sha256(repr(parts).encode()).hexdigest()

    @property
    def unchecked(self) -> tuple[str, ...]:
        """Statements of what the proof of this fleet does not check."""
        return unchecked_of(self.identities)

    def edition_of(self, guide: Guide) -> Edition:
        """Return what the files of *guide* must say, made once for each edition.

        That two guides are of one edition is not believed but looked at.
        """
        cards = self.cards.get(guide.number, ())
        key = guide.edition, tuple(card.id for card in cards)
        # What was asked for last stands last: the first goes.
        known = self._editions.pop(key, None)
        if known is None or not _is_alike(known.guide, guide):
            if len(self._editions) >= len(self.offer.trucks) + _MOST_EDITIONS:
                del self._editions[next(iter(self._editions))]
            is_shared = guide.edition in self.shared_editions
            claims = claims_of(
                guide,
                self.rounds.get(guide.edition),
                self.quizzes.get(guide.edition),
                cards,
            )
            known = Edition(guide, claims, self.ids - ids_of(guide), is_shared)
        self._editions[key] = known
        return known

    def revisions_of(self, number: str) -> RevisionClaims:
        """Return what the start page of the unit *number* must say of its revisions."""
        if self.history is None:
            return NO_REVISIONS
        if number not in self._revisions:
            # Kept for one unit: its pages are proved one after another.
            self._revisions.clear()
            self._revisions[number] = revision_claims_of(self.history.of(number))
        return self._revisions[number]

    def revision_of(self, guide: Guide) -> str:
        """Return what the bar of every page of the unit of *guide* must say."""
        told = None if self.history is None else self.history.of(guide.number)
        return revision_words(guide, told)

    def sheet_of(self, known: Guide, given: Guide) -> SheetClaims:
        """Return what the sheet from *known* to *given* must say, made once for two editions."""
        key = known.edition, given.edition
        if key not in self._sheets:
            if len(self._sheets) >= _MOST_SHEETS:
                self._sheets.clear()
            # The guides that stand for the editions are alike to these two but for the identity.
            before, after = self.edition_of(known).guide, self.edition_of(given).guide
            self._sheets[key] = sheet_claims_of(before, after)
        return self._sheets[key]

    def styles_with(self, inline: tuple[str, ...]) -> Styles:
        """Return the styles of a page that holds the texts *inline* in style elements."""
        if not inline:
            return self.styles
        if inline not in self._inline:
            own = {f"<style> {place}": text for place, text in enumerate(inline, start=1)}
            self._inline[inline] = read_styles({**self.sheets, **own})
        return self._inline[inline]


def claims_of_fleet(  # noqa: PLR0913 -- a site is all of this
    guides: Iterable[Guide],
    read: Read,
    listing: Iterable[str],
    held_back: Iterable[str] = (),
    offer: Offer = _NO_OFFER,
    *,
    rounds: Mapping[str, Round] = _NO_ROUNDS,
    quizzes: Mapping[str, Quiz] = _NO_QUIZZES,
    cards: Mapping[str, Sequence[CardKind]] = _NO_CARDS,
    history: FleetHistory | None = None,
    has_packs: bool = False,
) -> FleetClaims:
    """Return what holds for all units of a site.

    Args:
        guides: Every guide that is published.
        read: Reads a file of the site.
        listing: Paths of all files of the site, with forward slashes.
        held_back: Numbers of trucks whose guides are not published.
        offer: The trucks that drivers may pick as those that they know.
        rounds: The inspection rounds by edition; an edition that has none must have no page of it.
        quizzes: The quizzes by edition; likewise.
        cards: The printed cards by number of the unit; likewise. What is on them is for others
            to prove.
        history: What was released of each truck; without it no page must speak of revisions.
        has_packs: Whether every truck must have the list of what a tablet keeps of it.
    """
    records: list[UnitRecord] = []
    ids: dict[str, frozenset[str]] = {}
    for guide in guides:
        records.append(record_of(guide))
        if guide.edition not in ids:
            ids[guide.edition] = ids_of(guide)
    return claims_of_site(
        records,
        read,
        listing,
        held_back=held_back,
        offer=offer,
        ids=frozenset().union(*ids.values()),
        has_packs=has_packs,
    ).for_batch(rounds=rounds, quizzes=quizzes, cards=cards, history=history)


def claims_of_site(  # noqa: PLR0913 -- a site is all of this
    units: Iterable[UnitRecord],
    read: Read,
    listing: Iterable[str],
    *,
    ids: frozenset[str],
    held_back: Iterable[str] = (),
    offer: Offer = _NO_OFFER,
    has_packs: bool = False,
) -> FleetClaims:
    """Return what holds for all units of a site, without any of their guides.

    It can be sent to other processes, where `FleetClaims.for_batch` adds what a batch needs.

    Args:
        units: Every truck whose guide is published.
        read: Reads a file of the site.
        listing: Paths of all files of the site, with forward slashes; those in the folders of
            units may be left out.
        ids: Of all chapters, procedures, steps and cautions that any truck can have: the library's
            (`ids_of_library`), or all that the guides have (`ids_of`).
        held_back: Numbers of trucks whose guides are not published.
        offer: The trucks that drivers may pick as those that they know.
        has_packs: Whether every truck must have the list of what a tablet keeps of it.
    """
    published, withheld = tuple(units), tuple(held_back)
    numbers = frozenset(unit.number for unit in published)
    paths = frozenset(path for path in listing if path.partition("/")[0] not in numbers)
    sheets = {
        path: (read(path) or b"").decode("utf-8", "replace")
        for path in _in_order_of_links(published, read, paths)
    }
    typed = [(unit.number, each) for unit in published for each in unit.identity]
    editions = Counter(unit.edition for unit in published)
    return FleetClaims(
        numbers=numbers,
        held_back=withheld,
        identities=identities_of((*typed, *((number, number) for number in withheld))),
        sheets=sheets,
        styles=read_styles(sheets),
        paths=paths,
        shared_editions=frozenset(each for each, count in editions.items() if count > 1),
        offer=offer,
        rounds={},
        quizzes={},
        cards={},
        shell=read_shell(read, paths, numbers) if has_packs else None,
        ids=ids,
    )


def ids_of_library(templates: Iterable[ProcedureTemplate]) -> frozenset[str]:
    """Return the ids of all chapters, procedures, steps and cautions that guides can have."""
    found = set[str](CHAPTERS)
    for template in templates:
        found.add(template.id)
        for step in template.steps:
            found.add(step.text.id)
        for caution in template.cautions:
            found.update((caution.id, caution.hazard.id, caution.consequence.id, caution.avoid.id))
    return frozenset(found)


def _in_order_of_links(
    units: Sequence[UnitRecord], read: Read, paths: frozenset[str]
) -> Iterator[str]:
    """Yield the paths of all stylesheets, those that a start page links to last and in order."""
    linked: list[str] = []
    for unit in units[:1]:
        page = f"{unit.number}/index.html"
        parsed = LexborHTMLParser((read(page) or b"").decode("utf-8", "replace"))
        linked.extend(
            resolve_address(page, node.attributes.get("href") or "")[0]
            for node in parsed.css("link[rel~=stylesheet]")
        )
    sheets = sorted(path for path in paths if path.endswith(".css"))
    yield from (path for path in sheets if path not in linked)
    yield from (path for path in dict.fromkeys(linked) if path in sheets)


def _is_alike(first: Guide, second: Guide) -> bool:
    """Whether two guides differ in nothing but the identity and where their facts stand."""
    return (
        first.chapters == second.chapters
        and _presences(first) == _presences(second)
        and list(first.facts) == list(second.facts)
        and all(
            name in STAMPED or fact is second.facts[name] or is_alike_fact(fact, second.facts[name])
            for name, fact in first.facts.items()
        )
    )


def _presences(guide: Guide) -> Mapping[str, Presence]:
    return {name: state.presence for name, state in guide.sections.items()}
