"""The proof: published files held against the guides they were drawn from.

Takes in guides and the files of the site as published; gives out verdicts with counts, failures
and what was not checked. Refuses to trust the printing: it shares no code with it, and reads
nothing but the files.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from guidegen.decks.model import CardKind
from guidegen.differences.offer import Offer
from guidegen.guide.model import Guide
from guidegen.proof import rules
from guidegen.proof.claims import (
    DIFFERENCES_PATH,
    LAMP_FINDER,
    QUIZ,
    ROUND,
    SEARCH_DATA_PATH,
    START_PATH,
    card_path,
)
from guidegen.proof.compare_fleet import compare_fleet
from guidegen.proof.compare_picker import known_trucks, sheet_path
from guidegen.proof.compare_words import Wording
from guidegen.proof.faults import Faults
from guidegen.proof.fleet_claims import FleetClaims, Read, claims_of_fleet
from guidegen.proof.foreign import find_foreign
from guidegen.proof.model import Counts, Failure, FileVerdict, FleetVerdict, FrameRead, UnitVerdict
from guidegen.proof.prove_differences import prove_picker, prove_sheet
from guidegen.proof.prove_lamps import prove_lamps
from guidegen.proof.prove_pack import NO_PACK, prove_pack
from guidegen.proof.prove_page import Subject, prove_page
from guidegen.proof.prove_quiz import prove_quiz
from guidegen.proof.prove_round import prove_round
from guidegen.proof.read_pack import PACK_FILE
from guidegen.proof.read_search import prove_search
from guidegen.proof.siblings import blank_identity, digest_of, stands_in_its_places
from guidegen.revisions.model import FleetHistory
from guidegen.round.model import Round
from guidegen.training.model import Quiz

_NO_OFFER = Offer()
_NO_ROUNDS: Mapping[str, Round] = MappingProxyType({})
_NO_CARDS: Mapping[str, Sequence[CardKind]] = MappingProxyType({})
_NO_QUIZZES: Mapping[str, Quiz] = MappingProxyType({})
_FIX = "build the site anew; if it comes back, guidegen writes the wrong files"


def prove_unit(guide: Guide, files: Mapping[str, bytes], fleet: FleetClaims) -> UnitVerdict:
    """Hold the published files of one unit against its guide.

    Args:
        guide: What was to be published.
        files: Every file in the unit's folder, by path from the root of the site.
        fleet: What is known of all units and of the site.
    """
    subject = Subject(guide, fleet.edition_of(guide), fleet)
    verdicts = {
        path: _prove_file(subject, path, files[subject.path(path)])
        for path in _wanted(subject)
        if subject.path(path) in files
    }
    wanted = map(subject.path, _wanted(subject))
    own = guide.number, fleet.revision_of(guide)
    packed = prove_pack(own, files, wanted, fleet.shell) if fleet.shell else NO_PACK
    return UnitVerdict(
        guide.number,
        guide.edition,
        sum((verdict.counts for verdict in verdicts.values()), packed.counts),
        (
            *_compare_files(subject, files),
            *(failure for verdict in verdicts.values() for failure in verdict.failures),
            *_broken_links(subject, verdicts, files),
            *packed.failures,
        ),
        tuple(
            FrameRead(verdict.kind, subject.path(path), verdict.digest)
            for path, verdict in verdicts.items()
            if verdict.digest
        ),
        fleet.unchecked,
    )


def prove_fleet(  # noqa: PLR0913 -- a site is all of this
    guides: Iterable[Guide],
    read: Read,
    listing: Iterable[str],
    *,
    held_back: Iterable[str] = (),
    offer: Offer = _NO_OFFER,
    rounds: Mapping[str, Round] = _NO_ROUNDS,
    quizzes: Mapping[str, Quiz] = _NO_QUIZZES,
    cards: Mapping[str, Sequence[CardKind]] = _NO_CARDS,
    history: FleetHistory | None = None,
    has_packs: bool = False,
    watch: Callable[[Sequence[Guide]], Iterable[Guide]] = iter,
) -> FleetVerdict:
    """Hold a whole published site against the guides it was drawn from.

    Args:
        guides: Every guide that was to be published.
        read: Reads a file of the site by its path; the only door to files.
        listing: Paths of all files of the site, with forward slashes.
        held_back: Numbers of trucks whose guides are not published.
        offer: The trucks that drivers may pick as those that they know.
        rounds: The inspection rounds by edition.
        quizzes: The quizzes by edition.
        cards: The printed cards by number of the unit; that they are there is proved here, and
            nothing else.
        history: What was released of each truck; none where no record is kept.
        has_packs: Whether tablets can keep its trucks.
        watch: Hands the guides on one by one, as each is about to be proved; for a progress bar.
    """
    published = tuple(guides)
    fleet = claims_of_fleet(
        published,
        read,
        listing,
        held_back,
        offer,
        rounds=rounds,
        quizzes=quizzes,
        cards=cards,
        history=history,
        has_packs=has_packs,
    )
    by_folder = _by_folder(fleet.paths)
    verdicts: dict[str, UnitVerdict] = {}
    # Units of one edition follow one another, so that its claims are made once.
    for guide in watch(sorted(published, key=lambda each: (each.edition, each.number))):
        paths = by_folder.get(guide.number, ())
        files = {path: raw for path in paths if (raw := read(path)) is not None}
        verdicts[guide.number] = prove_unit(guide, files, fleet)
    in_order = [verdicts[guide.number] for guide in published]
    return conclude(published, in_order, read, fleet)


def conclude(
    guides: Sequence[Guide], verdicts: Sequence[UnitVerdict], read: Read, fleet: FleetClaims
) -> FleetVerdict:
    """Return the verdict on the whole site, once every unit has its own.

    Args:
        guides: Every guide that was to be published.
        verdicts: Of `prove_unit`, one for each guide; they may come from other processes.
        read: Reads a file of the site.
        fleet: What was known when the units were proved.
    """
    failures = compare_fleet(guides, verdicts, read, fleet)
    return FleetVerdict(tuple(verdicts), failures, fleet.unchecked)


def _wanted(subject: Subject) -> list[str]:
    return [
        *(page.path for page in subject.claims.pages),
        DIFFERENCES_PATH,
        *_sheets(subject),
        SEARCH_DATA_PATH,
    ]


def _sheets(subject: Subject) -> Mapping[str, Guide]:
    """Return the guides of the trucks that the driver may know, by path of the sheet."""
    trucks = known_trucks(subject.guide.number, subject.fleet.offer)
    return {sheet_path(truck.guide.number): truck.guide for truck in trucks}


def _prove_file(subject: Subject, path: str, raw: bytes) -> FileVerdict:
    """Prove one file, or find it equal to one that was proved for a unit of the same edition."""
    known = _sheets(subject).get(path)
    if path == DIFFERENCES_PATH:
        return prove_picker(subject, raw)
    if known is not None:
        return prove_sheet(subject, known, raw)
    if not subject.edition.is_shared:
        return _prove_whole(subject, path, raw)
    proved, identities = subject.edition.proved, subject.fleet.identities
    blanked = blank_identity(raw, subject.guide)
    # Trucks of one edition need not share their revisions, of which the start page tells all.
    revisions = repr(subject.revisions) if path == START_PATH else ""
    told = f"{subject.fleet.revision_of(subject.guide)} {revisions}"
    key = path, digest_of(blanked + told.encode())
    verdict = proved.get(key)
    if verdict is None:
        verdict = _prove_whole(subject, path, raw)
        search = subject.claims.search
        if not verdict.failures and stands_in_its_places(blanked, raw, identities, search):
            proved[key] = verdict
    return verdict


def _prove_whole(subject: Subject, path: str, raw: bytes) -> FileVerdict:
    verdict = _prove_search_or_page(subject, path, raw)
    foreign = tuple(_find_foreign(subject, subject.path(path), raw))
    return replace(verdict, failures=(*verdict.failures, *foreign))


def _prove_search_or_page(subject: Subject, path: str, raw: bytes) -> FileVerdict:
    for page in subject.claims.pages:
        if page.path == path and subject.claims.round is not None and page.kind == ROUND:
            return prove_round(subject, page, subject.claims.round, raw)
        if page.path == path and subject.claims.quiz is not None and page.kind == QUIZ:
            return prove_quiz(subject, page, subject.claims.quiz, raw)
        if page.path == path and subject.claims.lamps is not None and page.kind == LAMP_FINDER:
            return prove_lamps(subject, page, subject.claims.lamps, raw)
        if page.path == path:
            return prove_page(subject, page, raw)
    faults = Faults(subject.guide.number, subject.path(path))
    words = Wording(subject.guide, subject.claims, faults)
    prove_search(raw, words)
    counts = Counts(pages=1, values=words.values)
    return FileVerdict(counts, tuple(faults.found), "search data", "")


def _compare_files(subject: Subject, files: Mapping[str, bytes]) -> Iterable[Failure]:
    number = subject.guide.number
    cards = map(card_path, subject.claims.cards)
    lists = (PACK_FILE,) if subject.fleet.shell is not None else ()
    wanted = {subject.path(path) for path in (*_wanted(subject), *cards, *lists)}
    for path in sorted(wanted - set(files)):
        yield Failure(rules.PAGE_MISSING, number, path, "is not there", _FIX)
    for path in sorted(set(files) - wanted):
        what = "is no page of this truck's guide"
        yield Failure(rules.PAGE_TOO_MANY, number, path, what, _FIX)
        yield from _find_foreign(subject, path, files[path])


def _broken_links(
    subject: Subject, verdicts: Mapping[str, FileVerdict], files: Mapping[str, bytes]
) -> Iterable[Failure]:
    for path, verdict in verdicts.items():
        for target in verdict.targets:
            page = verdicts.get(target.path)
            if subject.path(target.path) not in files:
                what = f"`{target.address}` leads to `{target.path}`, which is not there"
            elif page is not None and target.fragment and target.fragment not in page.ids:
                what = f"`{target.address}` leads to a place that is not on its page"
            else:
                continue
            fix = "lead it to a file of the site and to a place on it"
            yield Failure(rules.LINK_BROKEN, subject.guide.number, subject.path(path), what, fix)


def _find_foreign(subject: Subject, path: str, raw: bytes) -> Iterable[Failure]:
    number, fleet = subject.guide.number, subject.fleet
    for identity in find_foreign(raw, number, fleet.identities):
        if not subject.states(identity):
            what = f"holds `{identity}`, which belongs to {identity.unit}"
            fix = "repair what lets one truck's text into another truck's file"
            yield Failure(rules.FOREIGN_IDENTITY, number, path, what, fix)


def _by_folder(paths: Iterable[str]) -> Mapping[str, list[str]]:
    folders: dict[str, list[str]] = {}
    for path in paths:
        folder, slash, _ = path.partition("/")
        if slash:
            folders.setdefault(folder, []).append(path)
    return folders
