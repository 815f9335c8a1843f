"""The difference pages of one unit, held against the guides of both trucks.

Takes in the bytes of a page, the unit and the truck that the driver knows; gives out verdicts.
Refuses a number, VIN or plate of any truck but the unit's own, unless it stands where the page
must name a truck that the driver may know, and as often as it must.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from guidegen.guide.model import Guide
from guidegen.procedures.words import LABELS
from guidegen.proof import rules
from guidegen.proof.claims import DIFFERENCES_PATH, PageClaims
from guidegen.proof.compare_picker import Picker, sheet_path
from guidegen.proof.compare_sheet import Sheet
from guidegen.proof.compare_words import Wording
from guidegen.proof.foreign import count_foreign, find_foreign
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Counts, Failure, FileVerdict
from guidegen.proof.prove_page import Dress, PageRead, Subject, dress_of, prove_body
from guidegen.proof.sheet_claims import SHEET_WORDS
from guidegen.proof.siblings import blanked_pair, digest_of, pair_stands_in_its_places

_FIX = "repair what lets one truck's text into another truck's file"


def prove_sheet(unit: Subject, known: Guide, raw: bytes) -> tuple[FileVerdict, bool]:
    """Hold the sheet *raw* for drivers who know the truck of *known* against both guides.

    A sheet that differs from a proved one of the same two editions in nothing but the identities,
    each in its places, is proved with it.

    Returns:
        The verdict, and whether all identities stand in their places and nowhere else.
    """
    fleet, path = unit.fleet, sheet_path(known.number)
    blank = blanked_pair(raw, unit.guide, known)
    is_shared = unit.edition.is_shared or known.edition in fleet.shared_editions
    if not is_shared or blank is None:
        return _prove_sheet(unit, known, raw), False
    bar = fleet.revision_of(unit.guide)
    key = f"{bar} from {known.edition}", digest_of(blank)
    proved = unit.edition.proved.get(key)
    if proved is not None:
        return _led_to(proved, path), True
    verdict = _prove_sheet(unit, known, raw)
    is_sharable = (
        not verdict.failures
        and pair_stands_in_its_places(blank)
        and not find_foreign(blank, "", fleet.identities)
    )
    if is_sharable:
        unit.edition.proved[key] = _led_to(verdict, "", path)
    return verdict, is_sharable


def _led_to(verdict: FileVerdict, path: str, before: str = "") -> FileVerdict:
    """Return *verdict* with its links to *before* leading to *path*."""
    targets = (t._replace(path=path) if t.path == before else t for t in verdict.targets)
    return replace(verdict, targets=tuple(targets))


def _prove_sheet(unit: Subject, known: Guide, raw: bytes) -> FileVerdict:
    page = PageClaims("from", sheet_path(known.number), "from", (), (), ())
    container = {
        **unit.container("from"),
        Holder.KNOWN.value: known.number,
        Holder.KNOWN_EDITION.value: known.edition,
    }
    heading = f"{LABELS['known_truck']} {known.number}"
    # The title and the body's own mark name the known truck once each.
    told = [known.number, known.number]

    def compare(read: PageRead) -> Counts:
        before = unit.fleet.edition_of(known).claims
        old = Wording(known, before, read.faults, Mark.KNOWN_TEXT, Mark.KNOWN_FACT)
        new = Wording(unit.guide, unit.claims, read.faults, also_fixed=SHEET_WORDS)
        claims = unit.fleet.sheet_of(known, unit.guide)
        proved = Sheet(claims, read, old, new, unit.path(page.path)).compare()
        told.extend(_told_of_others(read))
        values, labels = old.values + new.values, old.labels + new.labels
        return Counts(values=values, labels=labels, differences=proved)

    verdict = prove_body(unit, page, raw, (Dress(heading, container), compare))
    return _with_foreign(unit, verdict, unit.path(page.path), (raw, told))


def prove_picker(unit: Subject, raw: bytes) -> FileVerdict:
    """Hold the page *raw*, on which a driver picks the truck that he knows, against the offer."""
    page = PageClaims("differences", DIFFERENCES_PATH, "differences", (), (), ())
    told: list[str] = []

    def compare(read: PageRead) -> Counts:
        own = Wording(unit.guide, unit.claims, read.faults)
        for reading in read.body.readings:
            if reading.claim.mark is not Mark.KNOWN_FACT:
                own.compare(reading)
                read.links.compare_link(reading)
        picker = Picker(unit, read)
        values = picker.compare()
        told.extend((*_told_of_others(read), *picker.named_beside()))
        return Counts(values=values + own.values, labels=own.labels)

    verdict = prove_body(unit, page, raw, (dress_of(unit, page), compare))
    return _with_foreign(unit, verdict, unit.path(page.path), (raw, told))


def _told_of_others(read: PageRead) -> Iterator[str]:
    """Yield what the page shows of other trucks under marks that were looked at."""
    for reading in read.body.readings:
        if reading.claim.mark in (Mark.KNOWN_FACT, Mark.KNOWN_TEXT):
            yield reading.text


def _with_foreign(
    unit: Subject, verdict: FileVerdict, path: str, texts: tuple[bytes, Iterable[str]]
) -> FileVerdict:
    """Add failures for identities that stand in a file more often than its claims tell of them.

    Args:
        unit: Whose file it is.
        verdict: What was found of it so far.
        path: Of the file.
        texts: The file, and all that it may tell of other trucks.
    """
    raw, told = texts
    number, identities = unit.guide.number, unit.fleet.identities
    may = count_foreign("\n".join(told).encode(), number, identities)
    failures = []
    for identity, count in sorted(count_foreign(raw, number, identities).items()):
        if count > may[identity] and not unit.states(identity):
            what = f"holds `{identity}` {count} times, and must name it {may[identity]} times"
            failures.append(Failure(rules.FOREIGN_IDENTITY, number, path, what, _FIX))
    return replace(verdict, failures=(*verdict.failures, *failures))
