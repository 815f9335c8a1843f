"""One published file of a unit: proved, or found equal to one that was.

Takes in the bytes of a file and its unit; gives out its verdict. Refuses to take a file for proved
by its name or edition: only equal bytes and equal claims make it so.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from guidegen.guide.model import Guide
from guidegen.proof import rules
from guidegen.proof.bare import bare
from guidegen.proof.claims import (
    DIFFERENCES_PATH,
    LAMP_FINDER,
    QUIZ,
    ROUND,
    SEARCH_DATA_PATH,
    START_PATH,
)
from guidegen.proof.compare_picker import known_trucks, named_on_offer, sheet_path
from guidegen.proof.compare_words import Wording
from guidegen.proof.contents import find_content, keep_contents, watched
from guidegen.proof.faults import Faults
from guidegen.proof.foreign import Identity, find_foreign, words_in
from guidegen.proof.model import Counts, Failure, FileVerdict
from guidegen.proof.prove_differences import prove_picker, prove_sheet
from guidegen.proof.prove_lamps import prove_lamps
from guidegen.proof.prove_pack import loaded_in
from guidegen.proof.prove_page import Subject, prove_page
from guidegen.proof.prove_quiz import prove_quiz
from guidegen.proof.prove_round import prove_round
from guidegen.proof.read_search import prove_search
from guidegen.proof.siblings import (
    ALL_STAMPED,
    IDENTITY,
    Place,
    blanked,
    digest_of,
    names_in_their_places,
    pieces_of,
    places_in_data,
    places_on_page,
    stamp_of,
    written,
)
from guidegen.proof.words_held import words_held

Forms = Mapping[str, bytes]
"""What is stamped into a file as it must be written there."""


class FileProving:
    """Proves the files of one unit."""

    def __init__(self, subject: Subject) -> None:
        self.subject = subject
        self.stamp = stamp_of(subject.guide)
        self.revision = subject.fleet.revision_of(subject.guide)
        self.on_pages = written(self.stamp, START_PATH)
        self.in_data = written(self.stamp, SEARCH_DATA_PATH)
        self.sheets = sheets_of(subject)
        self.is_offered = subject.guide.number in named_on_offer(subject.fleet.offer)

    def prove(self, path: str, raw: bytes) -> FileVerdict:
        """Return the verdict on the file *raw* at *path* in the unit's folder."""
        edition = self.subject.edition
        forms = self.on_pages if path.endswith(".html") else self.in_data
        # What a truck that is on offer may pick is no other truck's choice.
        if forms is None or (path == DIFFERENCES_PATH and self.is_offered):
            return self.prove_alone(path, raw)
        key = self.key_of(path)
        if edition.is_shared:
            for pieces, verdict in edition.pieces.get(key, ()):
                if pieces.fit(raw, forms):
                    return verdict
        places = self.places_in(path, raw, forms)
        if places is None:
            return self.prove_alone(path, raw)
        blank = blanked(raw, places)
        if path in self.sheets:
            verdict, is_sharable = self.prove_sheet(path, raw, blank)
        else:
            verdict, is_sharable = self.prove_blanked(path, raw, blank)
        if is_sharable and edition.is_shared:
            edition.keep(key, pieces_of(raw, places), verdict)
        return verdict

    def places_in(self, path: str, raw: bytes, forms: Forms) -> tuple[Place, ...] | None:
        """Return where the unit's identity stands in a file; nothing if that cannot be told."""
        claims = self.subject.claims
        if path == SEARCH_DATA_PATH:
            return places_in_data(raw, forms, claims.search)
        # A title may be shown without marks in it, so that nothing says where its values stand.
        return None if claims.titles_name_truck else places_on_page(raw, forms)

    def key_of(self, path: str) -> tuple[str, ...]:
        """Return what two units of an edition must share to share their files at *path*.

        They need not share their revisions, of which the start page tells all.
        """
        if path == START_PATH:
            return path, self.revision, repr(self.subject.revisions)
        return path, self.revision

    def prove_alone(self, path: str, raw: bytes) -> FileVerdict:
        """Prove a file of which nothing can be shared."""
        known = self.sheets.get(path)
        if known is not None:
            verdict, _ = prove_sheet(self.subject, known, raw)
        else:
            verdict = self.with_foreign(prove_by_claims(self.subject, path, raw), path, raw)
        return self.complete(verdict, path, raw)

    def prove_sheet(self, path: str, raw: bytes, blank: bytes) -> tuple[FileVerdict, bool]:
        """Prove a sheet of differences, and say whether siblings may share it."""
        verdict, is_sharable = prove_sheet(self.subject, self.sheets[path], raw)
        named = self.names_folder(verdict)
        is_sharable &= not named and names_in_their_places(blank, ()) >= IDENTITY
        return self.complete(verdict, path, raw), is_sharable

    def prove_blanked(self, path: str, raw: bytes, blank: bytes) -> tuple[FileVerdict, bool]:
        """Prove any other file, or find it equal to one of any edition.

        Returns:
            The verdict, and whether siblings may share it.
        """
        subject = self.subject
        digest = digest_of(blank)
        known = find_content(subject, path, digest)
        if known is not None:
            return known.verdict, True
        without, words = bare(blank), words_in(blank)
        foreign = self.named_in(path, blank, words)
        is_stated = all(map(subject.states_for_all, foreign))
        if without.values and is_stated:
            alike = find_content(subject, path, digest_of(without.raw), without.values)
            if alike is not None:
                return replace(alike.verdict, words=words_held(words)), True
        noting = watched(subject)
        verdict = self.with_found_foreign(prove_by_claims(noting, path, raw), path, foreign)
        if verdict.failures:
            return self.complete(verdict, path, raw, words), False
        names = names_in_their_places(blank, subject.claims.search)
        if self.names_folder(verdict) or not names >= IDENTITY or not is_stated:
            return self.complete(verdict, path, raw, words), False
        verdict = self.complete(verdict, path, raw, words)
        if names >= ALL_STAMPED:
            keep_contents(noting, path, (digest, without), verdict, foreign)
        return verdict, True

    def names_folder(self, verdict: FileVerdict) -> bool:
        """Whether an address leads by the unit's own folder, which is another's for a sibling."""
        number = self.subject.guide.number
        return any(number in target.address.split("/") for target in verdict.targets)

    def named_in(self, path: str, blank: bytes, words: frozenset[bytes]) -> tuple[Identity, ...]:
        """Return the identities in a file without its unit's own, but those that it must name."""
        found = find_foreign(blank, "", self.subject.fleet.identities, words)
        if path != DIFFERENCES_PATH:
            return found
        # How often it names those on offer was counted.
        named = {number.upper() for number in named_on_offer(self.subject.fleet.offer)}
        return tuple(each for each in found if str(each) not in named)

    def with_foreign(self, verdict: FileVerdict, path: str, raw: bytes) -> FileVerdict:
        """Add failures for identities of other trucks in the file *raw*."""
        fleet = self.subject.fleet
        found = () if path == DIFFERENCES_PATH else find_foreign(raw, "", fleet.identities)
        return self.with_found_foreign(verdict, path, found)

    def with_found_foreign(
        self, verdict: FileVerdict, path: str, found: Iterable[Identity]
    ) -> FileVerdict:
        """Add failures for those *found* that are other trucks', and that this one states nowhere.

        Where a stamp stands is its own truck's, so that they may be found in a file without it.
        The page of trucks to pick counts them itself.
        """
        if path == DIFFERENCES_PATH:
            return verdict
        foreign = tuple(failures_for(self.subject, self.subject.path(path), found))
        return replace(verdict, failures=(*verdict.failures, *foreign)) if foreign else verdict

    def complete(
        self, verdict: FileVerdict, path: str, raw: bytes, words: frozenset[bytes] | None = None
    ) -> FileVerdict:
        """Add what is needed of a file once it is proved."""
        number, is_page = self.subject.guide.number, path.endswith(".html")
        loads = loaded_in(number, path, raw) if is_page else ()
        held = words_held(words_in(raw) if words is None else words)
        return replace(verdict, loads=loads, words=held)


def sheets_of(subject: Subject) -> Mapping[str, Guide]:
    """Return the guides of the trucks that the driver may know, by path of the sheet."""
    trucks = known_trucks(subject.guide.number, subject.fleet.offer)
    return {sheet_path(truck.guide.number): truck.guide for truck in trucks}


def foreign_in(subject: Subject, path: str, raw: bytes) -> Iterator[Failure]:
    """Yield a failure for each identity of another truck in a file of the unit of *subject*.

    Args:
        subject: The unit.
        path: Of the file, from the root of the site.
        raw: The file.
    """
    number = subject.guide.number
    yield from failures_for(subject, path, find_foreign(raw, number, subject.fleet.identities))


def failures_for(subject: Subject, path: str, found: Iterable[Identity]) -> Iterator[Failure]:
    """Yield a failure for each of *found* that is another truck's and not stated by this one.

    Args:
        subject: The unit.
        path: Of the file that holds them, from the root of the site.
        found: Of `find_foreign`.
    """
    number = subject.guide.number
    for identity in found:
        if identity.unit != number and not subject.states(identity):
            what = f"holds `{identity}`, which belongs to {identity.unit}"
            fix = "repair what lets one truck's text into another truck's file"
            yield Failure(rules.FOREIGN_IDENTITY, number, path, what, fix)


def prove_by_claims(subject: Subject, path: str, raw: bytes) -> FileVerdict:
    """Hold one file of the unit of *subject* against its claims; sheets are proved elsewhere."""
    if path == DIFFERENCES_PATH:
        return prove_picker(subject, raw)
    claims, page = subject.claims, subject.claims.page_at(path)
    if page is None:
        faults = Faults(subject.guide.number, subject.path(path))
        words = Wording(subject.guide, claims, faults)
        prove_search(raw, words)
        counts = Counts(pages=1, values=words.values)
        return FileVerdict(counts, tuple(faults.found), "search data", "")
    if claims.round is not None and page.kind == ROUND:
        return prove_round(subject, page, claims.round, raw)
    if claims.quiz is not None and page.kind == QUIZ:
        return prove_quiz(subject, page, claims.quiz, raw)
    if claims.lamps is not None and page.kind == LAMP_FINDER:
        return prove_lamps(subject, page, claims.lamps, raw)
    return prove_page(subject, page, raw)
