"""The files that printings leave in a fleet's folder.

Takes in a project; gives out what was printed, and writes what has been. Refuses half a printing:
the words of cards are kept before a line names them, and the record is replaced as a whole. What a
crash leaves between the two is a file that nothing names.

Lines are written when the cards are in their place. A run that is cut short between leaves cards
that nobody has on record: they are asked for once more, and no card is taken for printed that was
not.
"""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.build.disk import DISK, Disk
from guidegen.build.lock import held
from guidegen.build.project import Project
from guidegen.finding import Findings
from guidegen.printings import rules
from guidegen.printings.deck import Deck, read_deck
from guidegen.printings.head import check_head, head_of
from guidegen.printings.model import Printing, PrintRecord
from guidegen.printings.record import lines_of, read_printings

RECORD_FILE = "printings.jsonl"
HEAD_FILE = "head"
DECKS_FOLDER = "decks"
LOCK = "printings.lock"

_ATTRIBUTES = b"""\
# Every byte of these files is sealed: no line end may be changed.
* -text
# Lines of two clerks may both stand: each names those that were there before it.
printings.jsonl merge=union
head merge=union
"""


class RecordDamaged(RuntimeError):
    """The record is not as it was written; nothing may be added to it."""


@dataclass(frozen=True, slots=True)
class Decks:
    """The words of printed cards, read when they are asked for."""

    project: Project
    findings: Findings
    """Takes what is wrong with a file."""

    _read: dict[str, Deck | None] = field(default_factory=dict)

    def kept(self, digest: str) -> Deck | None:
        """Return the deck of that SHA-256, or nothing and a finding."""
        if digest not in self._read:
            self._read[digest] = self._open(digest)
        return self._read[digest]

    def _open(self, digest: str) -> Deck | None:
        path = printings_folder(self.project) / deck_name(digest)
        shown = self.project.shown(path)
        if path.is_file():
            return read_deck(shown, path.read_bytes(), digest, self.findings)
        self.findings.add(
            rules.DECK_DAMAGED,
            None,
            what=f"there is no `{shown}`, which keeps the words of cards that were printed",
            fix=f"get it back from git: `git restore {shown}`",
            place=shown,
        )
        return None


def printings_folder(project: Project) -> Path:
    """Return the folder of all that is said here; not there before the first printing."""
    return project.records / "printings"


def printings_path(project: Project) -> Path:
    """Return the path of the record, whether it is there or not."""
    return printings_folder(project) / RECORD_FILE


def deck_name(digest: str) -> str:
    """Return the path of the file that keeps a deck, in the folder of the record."""
    return f"{DECKS_FOLDER}/{digest}.json"


def open_printings(project: Project, findings: Findings) -> PrintRecord | None:
    """Return the record of *project*, empty before the first printing; nothing if it is damaged."""
    path = printings_path(project)
    raw = path.read_bytes() if path.is_file() else b""
    shown = project.shown(path)
    own = Findings()
    record = read_printings(shown, raw, own)
    if record is not None:
        head = path.with_name(HEAD_FILE)
        check_head(raw, head.read_bytes() if head.is_file() else None, shown, own)
    findings.extend(own)
    return None if own.has_errors else record


def add_printings(
    project: Project,
    printings: Sequence[Printing],
    decks: Mapping[str, bytes],
    since: str,
    disk: Disk = DISK,
) -> None:
    """Keep the words of cards, and append *printings* to the record as it stands.

    Args:
        project: Whose record it is.
        printings: In the order in which they are recorded.
        decks: What they name, by SHA-256.
        since: The time of day, for whoever is kept waiting.
        disk: On which the folder stands.

    Raises:
        Locked: If another run writes the record.
        RecordDamaged: If a line of it is not as it was written.
    """
    folder = printings_folder(project)
    with _alone(folder, since, disk):
        record = open_printings(project, Findings())
        if record is None:
            raise RecordDamaged(printings_path(project))
        disk.make_folder(folder / DECKS_FOLDER)
        for inner in (folder, folder / DECKS_FOLDER):
            for left in sorted(inner.glob(".*.new")):
                disk.remove(left)
        attributes = folder / ".gitattributes"
        if not attributes.exists():
            disk.put(attributes, _ATTRIBUTES)
        for digest, raw in decks.items():
            path = folder / deck_name(digest)
            if not path.is_file() or path.read_bytes() != raw:
                disk.put(path, raw)
        path = printings_path(project)
        before = path.read_bytes() if path.is_file() else b""
        after = before + b"".join(lines_of(printings, record.tips))
        disk.put(path, after)
        # Named last: a record that is longer than its head says has lost nothing.
        written = read_printings(project.shown(path), after, Findings())
        assert written is not None  # noqa: S101 -- it was read before, and lines were added
        disk.put(path.with_name(HEAD_FILE), head_of(written))


@contextmanager
def _alone(folder: Path, since: str, disk: Disk) -> Iterator[None]:
    """Keep other runs out of the record meanwhile."""
    disk.make_folder(folder)
    with held(folder / LOCK, since, disk):
        yield
