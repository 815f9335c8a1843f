"""Several spec files changed all together, or none of them.

Takes in files with their new bytes; gives out all of them in place. Refuses to leave half: the
new files wait beside the old ones, a journal names them, and from then on whoever reads the specs
next finishes what a crash has left.
"""

import hashlib
import json
import os
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from guidegen.build.spec_disk import Disk
from guidegen.finding import FaultyInput, Findings
from guidegen.workbook import rules

WAITING = ".import"
"""Folder within the specs where new files wait; readers of specs do not look into it."""

JOURNAL = "journal.json"
LOCK = ".import.lock"
"""Only on Windows; elsewhere the folder itself is locked."""


class ChangedMeanwhile(RuntimeError):
    """A file is another than when the change was planned; `args` names it."""


class Unfinished(RuntimeError):
    """The change is decided and not all files could be put in place; the next run does it."""


@dataclass(frozen=True, slots=True)
class NewBytes:
    """One file that is to be changed or made."""

    name: str
    """Relative to the specs, with forward slashes: ``units/T-17.yml``."""

    old: bytes | None
    """As it was when the change was planned; none if there was no file."""

    new: bytes


def write_together(specs: Path, files: Iterable[NewBytes], disk: Disk) -> None:
    """Put all *files* in place.

    Raises:
        ChangedMeanwhile: If a file is not as it was; nothing is changed.
        OSError: If the disk refuses before all was decided; nothing is changed.
        Unfinished: If it refuses after that; the next run that reads the specs finishes.
    """
    wanted = sorted(files, key=lambda file: file.name)
    with _locked(specs):
        finish(specs, disk)
        waiting = specs / WAITING
        _clear(waiting, disk)
        try:
            _stage(specs, waiting, wanted, disk)
        except BaseException:
            _clear_quietly(waiting, disk)
            raise
        try:
            finish(specs, disk)
        except OSError as fault:
            raise Unfinished(str(fault)) from fault


def _stage(specs: Path, waiting: Path, files: list[NewBytes], disk: Disk) -> None:
    disk.make_folder(waiting)
    for file in files:
        path = specs / file.name
        disk.make_folder(path.parent)
        if (path.read_bytes() if path.exists() else None) != file.old:
            raise ChangedMeanwhile(file.name)
        disk.write(waiting / _staged_name(file), file.new)
    entries = [{"name": f.name, "staged": _staged_name(f), "sha256": _hash(f.new)} for f in files]
    draft = waiting / f"{JOURNAL}.new"
    disk.write(draft, json.dumps(entries, indent=1).encode())
    disk.settle(waiting)
    # From this move on the change is decided.
    disk.replace(draft, waiting / JOURNAL)


def _staged_name(file: NewBytes) -> str:
    # Named by what it holds, so that a late finisher of another change never takes it for its own.
    return f"{_hash(file.name.encode() + b'/' + file.new)}.yml.new"


def finish(specs: Path, disk: Disk) -> bool:
    """Put in place what a decided change has left; say whether there was any.

    Raises:
        OSError: If the disk refuses; what is left stays for the next run.
    """
    waiting = specs / WAITING
    journal = waiting / JOURNAL
    try:
        entries = json.loads(journal.read_bytes())
    except FileNotFoundError:
        return False
    disk.settle(waiting)
    folders = set()
    for entry in entries:
        target = specs / entry["name"]
        folders.add(target.parent)
        try:
            disk.replace(waiting / entry["staged"], target)
        except FileNotFoundError:
            # It was put in place before this change was cut short.
            if not target.is_file() or _hash(target.read_bytes()) != entry["sha256"]:
                raise
    for folder in sorted(folders):
        disk.settle(folder)
    disk.delete(journal)
    _clear_quietly(waiting, disk)
    return True


def finish_or_stop(root: Path) -> None:
    """Finish what an import has left in the project at *root*; called before specs are read.

    Raises:
        FaultyInput: If it cannot be finished: half-changed specs are not read.
    """
    # A journal that is no journal any more, since somebody edited it, is told like the others.
    specs = root / "specs"
    if not (specs / WAITING / JOURNAL).is_file():
        return
    try:
        with _locked(specs):
            finish(specs, Disk())
    except (OSError, ValueError, KeyError) as fault:
        findings = Findings()
        report_unfinished(findings, str(fault))
        raise FaultyInput(findings) from fault


def report_unfinished(findings: Findings, fault: str) -> None:
    """Add the finding that a decided change waits to be finished."""
    findings.add(
        rules.IMPORT_UNFINISHED,
        None,
        what=f"an import was cut short and cannot be finished: {fault}",
        fix="close the spec files in other programs, see that the folder `specs` can be written"
        " and the disk is not full, then run `guidegen check`, which finishes it",
        place=f"specs/{WAITING}",
    )


def _clear(waiting: Path, disk: Disk) -> None:
    if not waiting.is_dir():
        return
    # The journal first: one that names files that are gone could never be finished.
    disk.delete(waiting / JOURNAL)
    for path in sorted(waiting.iterdir()):
        disk.delete(path)
    disk.delete_folder(waiting)


def _clear_quietly(waiting: Path, disk: Disk) -> None:
    # What stays is named by no journal: the next import deletes it.
    try:
        _clear(waiting, disk)
    except OSError:
        return


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


if sys.platform == "win32":
    import msvcrt

    @contextmanager
    def _locked(specs: Path) -> Iterator[None]:
        """Keep others from writing or finishing while this one does."""
        with (specs / LOCK).open("a+b") as file:
            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_LOCK, 1)
            yield

else:
    import fcntl

    @contextmanager
    def _locked(specs: Path) -> Iterator[None]:
        """Keep others from writing or finishing while this one does."""
        handle = os.open(specs, os.O_RDONLY)
        try:
            # Some shared drives have no locks; each file is still compared before it is written.
            with suppress(OSError):
                fcntl.flock(handle, fcntl.LOCK_EX)
            yield
        finally:
            os.close(handle)
