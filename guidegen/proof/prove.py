"""The proof: published files held against the guides they were drawn from.

Takes in guides and the files of the site as published; gives out verdicts with counts, failures
and what was not checked. Refuses to trust the printing: it shares no code with it, and reads
nothing but the files.
"""

from collections.abc import Iterable, Mapping, Sequence

from guidegen.guide.model import Guide
from guidegen.proof import rules
from guidegen.proof.claims import SEARCH_PATH, EditionClaims
from guidegen.proof.compare_fleet import compare_fleet
from guidegen.proof.compare_words import Words
from guidegen.proof.faults import Faults
from guidegen.proof.fleet_claims import FleetClaims, Read, claims_of_fleet
from guidegen.proof.foreign import Identity, find_foreign
from guidegen.proof.links import resolve_address
from guidegen.proof.model import Counts, Failure, FleetVerdict, FrameRead, UnitVerdict
from guidegen.proof.prove_page import PageVerdict, Subject, prove_page
from guidegen.proof.read_search import prove_search
from guidegen.proof.unchecked import unchecked_of
from guidegen.specs.fields import TextField

_FIX = "build the site anew; if it comes back, guidegen writes the wrong files"


def prove_unit(guide: Guide, files: Mapping[str, bytes], fleet: FleetClaims) -> UnitVerdict:
    """Hold the published files of one unit against its guide.

    Args:
        guide: What was to be published.
        files: Every file in the unit's folder, by path from the root of the site.
        fleet: What is known of all units and of the site.
    """
    claims, not_its_own = fleet.edition_of(guide)
    subject = Subject(guide, claims, not_its_own, fleet)
    failures = list(_compare_files(subject, files))
    counts, frames = Counts(), list[FrameRead]()
    pages: dict[str, PageVerdict] = {}
    for page in claims.pages:
        path = subject.path(page.path)
        if path in files:
            pages[path] = prove_page(subject, page, files[path])
    for verdict in pages.values():
        counts += verdict.counts
        failures.extend(verdict.failures)
        frames.extend([verdict.frame] if verdict.frame else [])
    failures.extend(_broken_fragments(guide.number, pages))
    search = subject.path(SEARCH_PATH)
    if search in files:
        faults = Faults(guide.number, search)
        words = Words(guide, claims, faults)
        digest = prove_search(files[search], words)
        frames.append(FrameRead("search", search, digest))
        counts += Counts(pages=1, values=words.values)
        failures.extend(faults.found)
    for path in sorted(files):
        failures.extend(_find_foreign(subject, path, files[path]))
    return UnitVerdict(
        guide.number,
        guide.edition,
        counts,
        tuple(failures),
        tuple(frames),
        unchecked_of(fleet.identities),
    )


def prove_fleet(
    guides: Iterable[Guide], read: Read, listing: Iterable[str], *, held_back: Iterable[str] = ()
) -> FleetVerdict:
    """Hold a whole published site against the guides it was drawn from.

    Args:
        guides: Every guide that was to be published.
        read: Reads a file of the site by its path; the only door to files.
        listing: Paths of all files of the site, with forward slashes.
        held_back: Numbers of trucks whose guides are not published.
    """
    published = tuple(guides)
    fleet = claims_of_fleet(published, read, listing, held_back)
    by_folder = _by_folder(fleet.paths)
    verdicts = []
    for guide in published:
        paths = by_folder.get(guide.number, ())
        files = {path: raw for path in paths if (raw := read(path)) is not None}
        verdicts.append(prove_unit(guide, files, fleet))
    return conclude(published, verdicts, read, fleet)


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
    return FleetVerdict(tuple(verdicts), failures, unchecked_of(fleet.identities))


def _compare_files(subject: Subject, files: Mapping[str, bytes]) -> Iterable[Failure]:
    number = subject.guide.number
    wanted = [page.path for page in subject.claims.pages] + [SEARCH_PATH]
    for path in wanted:
        if subject.path(path) not in files:
            what = f"`{path}` is not there"
            yield Failure(rules.PAGE_MISSING, number, subject.path(path), what, _FIX)
    for path in sorted(set(files) - {subject.path(path) for path in wanted}):
        what = "is no page of this truck's guide"
        yield Failure(rules.PAGE_TOO_MANY, number, path, what, _FIX)


def _broken_fragments(unit: str, pages: Mapping[str, PageVerdict]) -> Iterable[Failure]:
    for path, verdict in pages.items():
        for address in verdict.links:
            target, fragment = resolve_address(path, address)
            if fragment and target in pages and fragment not in pages[target].ids:
                what = f"`{address}` leads to a place that is not on its page"
                fix = "give the place that id, or lead the link elsewhere"
                yield Failure(rules.LINK_BROKEN, unit, path, what, fix)


def _find_foreign(subject: Subject, path: str, raw: bytes) -> Iterable[Failure]:
    number, fleet = subject.guide.number, subject.fleet
    for identity in find_foreign(raw, number, fleet.identities):
        if not _is_stated(identity, subject.guide, subject.claims):
            what = f"holds `{identity}`, which belongs to {identity.unit}"
            fix = "repair what lets one truck's text into another truck's file"
            yield Failure(rules.FOREIGN_IDENTITY, number, path, what, fix)


def _is_stated(identity: Identity, guide: Guide, claims: EditionClaims) -> bool:
    """Whether the unit's own spec or procedures print *identity*, such as an oil grade CK-4."""
    typed = [
        str(fact.value) for fact in guide.facts.values() if isinstance(fact.field.field, TextField)
    ]
    patterns = [text.pattern for text in claims.texts.values()]
    return any(str(identity) in text.upper() for text in (*typed, *patterns))


def _by_folder(paths: Iterable[str]) -> Mapping[str, list[str]]:
    folders: dict[str, list[str]] = {}
    for path in paths:
        folder, slash, _ = path.partition("/")
        if slash:
            folders.setdefault(folder, []).append(path)
    return folders
