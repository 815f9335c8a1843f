"""The proof: published files held against the guides they were drawn from.

Takes in guides and the files of the site as published; gives out verdicts with counts, failures
and what was not checked. Refuses to trust the printing: it shares no code with it, and reads
nothing but the files.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from types import MappingProxyType

from guidegen.decks.model import CardKind
from guidegen.differences.offer import Offer
from guidegen.guide.model import Guide
from guidegen.proof import rules
from guidegen.proof.claims import DIFFERENCES_PATH, SEARCH_DATA_PATH, card_path
from guidegen.proof.compare_fleet import compare_fleet
from guidegen.proof.compare_photos import compare_photo_files
from guidegen.proof.fleet_claims import FleetClaims, Read, Whole, claims_of_fleet
from guidegen.proof.known_pages import KnownPages
from guidegen.proof.model import (
    Counts,
    Failure,
    FileVerdict,
    FleetVerdict,
    FrameRead,
    UnitVerdict,
    total,
)
from guidegen.proof.prove_file import FileProving, foreign_in, sheets_of
from guidegen.proof.prove_pack import NO_PACK, not_kept, prove_pack
from guidegen.proof.prove_page import Subject
from guidegen.proof.read_pack import PACK_FILE
from guidegen.proof.unit_record import UnitRecord, record_of
from guidegen.proof.words_held import words_together
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
    proving = FileProving(subject)
    wanted = _wanted(subject)
    verdicts = {
        path: proving.prove(path, files[subject.path(path)])
        for path in wanted
        if subject.path(path) in files
    }
    photos = subject.claims.photos
    of_photos = tuple(compare_photo_files(guide.number, photos, files))
    own = guide.number, fleet.revision_of(guide)
    packed = NO_PACK
    if fleet.shell is not None:
        packed = prove_pack(own, files, map(subject.path, (*wanted, *photos)), fleet.shell)
    of_files = (*_compare_files(subject, (*wanted, *photos), files), *of_photos)
    whole = _whole(subject, verdicts, files)
    if whole is not None and not of_files and not packed.failures:
        counts = whole.counts + packed.counts + Counts(photos=len(photos))
        return UnitVerdict(guide.number, guide.edition, counts, (), whole.frames, whole.words)
    failures = (
        *of_files,
        *(failure for verdict in verdicts.values() for failure in verdict.failures),
        *_broken_links(subject, verdicts, files),
        *packed.failures,
        *_not_kept(subject, verdicts, files),
    )
    words = b"" if failures else words_together(each.words for each in verdicts.values())
    of_pages = (verdict.counts for verdict in verdicts.values())
    counts = total((*of_pages, packed.counts, Counts(photos=len(photos) - len(of_photos))))
    frames = _frames_of(verdicts)
    return UnitVerdict(guide.number, guide.edition, counts, failures, frames, words)


def _whole(
    subject: Subject, verdicts: Mapping[str, FileVerdict], files: Mapping[str, bytes]
) -> Whole | None:
    """Return what follows from *verdicts*; nothing if there is a failure in them or among them."""
    number = len(subject.guide.number)
    key = (*map(id, verdicts.values()), *sorted(path[number:] for path in files))
    whole = subject.edition.wholes.get(key)
    if whole is not None:
        return whole
    if any(verdict.failures for verdict in verdicts.values()):
        return None
    if any(_broken_links(subject, verdicts, files)) or any(_not_kept(subject, verdicts, files)):
        return None
    whole = Whole(
        tuple(verdicts.values()),  # kept, so that nothing else gets their ids
        total(verdict.counts for verdict in verdicts.values()),
        _frames_of(verdicts),
        words_together(verdict.words for verdict in verdicts.values()),
    )
    if subject.edition.is_shared:
        subject.edition.wholes[key] = whole
    return whole


def _frames_of(verdicts: Mapping[str, FileVerdict]) -> tuple[FrameRead, ...]:
    return tuple(
        FrameRead(verdict.kind, path, verdict.digest)
        for path, verdict in verdicts.items()
        if verdict.digest
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
    published, every = tuple(guides), tuple(listing)
    fleet = claims_of_fleet(
        published,
        read,
        every,
        held_back,
        offer,
        rounds=rounds,
        quizzes=quizzes,
        cards=cards,
        history=history,
        has_packs=has_packs,
    )
    by_folder = _by_folder(every)
    verdicts: dict[str, UnitVerdict] = {}
    # Units of one edition follow one another, so that its claims are made once.
    for guide in watch(sorted(published, key=lambda each: (each.edition, each.number))):
        paths = by_folder.get(guide.number, ())
        files = {path: raw for path in paths if (raw := read(path)) is not None}
        verdicts[guide.number] = prove_unit(guide, files, fleet)
    in_order = [verdicts[guide.number] for guide in published]
    return conclude(tuple(map(record_of, published)), in_order, read, fleet)


def conclude(
    units: Sequence[UnitRecord],
    verdicts: Sequence[UnitVerdict],
    read: Read,
    fleet: FleetClaims,
    known: KnownPages | None = None,
) -> FleetVerdict:
    """Return the verdict on the whole site, once every unit has its own.

    Args:
        units: Of `record_of`, for every guide that was to be published.
        verdicts: Of `prove_unit`, one for each of *units*; they may come from other processes, or
            from a run before.
        read: Reads a file of the site.
        fleet: What was known when the units were proved.
        known: Pages of no unit that were proved before; takes what is proved now.
    """
    failures = compare_fleet(units, verdicts, read, fleet, known)
    return FleetVerdict(tuple(verdicts), failures, fleet.unchecked)


def _wanted(subject: Subject) -> list[str]:
    return [
        *(page.path for page in subject.claims.pages),
        DIFFERENCES_PATH,
        *sheets_of(subject),
        SEARCH_DATA_PATH,
    ]


def _compare_files(
    subject: Subject, read: Sequence[str], files: Mapping[str, bytes]
) -> Iterable[Failure]:
    number = subject.guide.number
    cards = map(card_path, subject.claims.cards)
    lists = (PACK_FILE,) if subject.fleet.shell is not None else ()
    wanted = {subject.path(path) for path in (*read, *cards, *lists)}
    for path in sorted(wanted - set(files)):
        yield Failure(rules.PAGE_MISSING, number, path, "is not there", _FIX)
    for path in sorted(set(files) - wanted):
        what = "is no page of this truck's guide"
        yield Failure(rules.PAGE_TOO_MANY, number, path, what, _FIX)
        yield from foreign_in(subject, path, files[path])


def _not_kept(
    subject: Subject, verdicts: Mapping[str, FileVerdict], files: Mapping[str, bytes]
) -> Iterable[Failure]:
    shell = subject.fleet.shell
    if shell is None or subject.path(PACK_FILE) not in files:
        return ()
    loads: dict[str, Iterable[str]] = {path: each.loads for path, each in verdicts.items()}
    loads.update((path, ()) for path in subject.claims.photos)  # a picture loads nothing
    return not_kept(subject.guide.number, loads, shell)


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


def _by_folder(paths: Iterable[str]) -> Mapping[str, list[str]]:
    folders: dict[str, list[str]] = {}
    for path in paths:
        folder, slash, _ = path.partition("/")
        if slash:
            folders.setdefault(folder, []).append(path)
    return folders
