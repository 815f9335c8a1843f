"""What an earlier run found of a fleet, so that the next one looks only at what changed.

Takes in files, groups of trucks and finished folders; gives out what was found of each, if all
that it was made of is the same. Refuses to remember trucks of which anything was found: they are
looked at each time, so that every run tells of them.
"""

import os
import time
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import NamedTuple

from guidegen.build.engine_hash import program_hash
from guidegen.build.folder_state import folder_state
from guidegen.build.folder_states import FolderStates
from guidegen.build.kept_parts import Part, joined, parts_of, read_parts, write_parts
from guidegen.build.known_edition import KnownEdition
from guidegen.build.load_group import UnitGroup
from guidegen.build.store import Store, hash_of, open_store
from guidegen.build.unit_made import UnitKept
from guidegen.collector import paused
from guidegen.gaps.model import KnownGaps
from guidegen.photos.prepare import Prepared
from guidegen.procedures.model import ProcedureTemplate
from guidegen.proof.known_pages import NONE_PROVED, ProvedPages
from guidegen.specs.read_units import UnitRecord
from guidegen.training.write_quiz import KnowledgePart

_SETTLED = 2_000_000_000
"""Nanoseconds after which a file's time tells whether it was written again: clocks of file systems
tick in steps of up to two seconds (FAT)."""

FileState = tuple[int, int, int]
"""Time of the last change in nanoseconds, size, and number in the file system."""


class KnownPicture(NamedTuple):
    """A picture file as it was read."""

    state: FileState
    read_at: int
    """When reading began, in nanoseconds."""

    digest: str
    """Hash of its bytes."""


@dataclass(slots=True)
class FleetMemory:
    """What is remembered of one fleet and one site."""

    records: dict[str, tuple[FileState, UnitRecord]] = field(default_factory=dict)
    """Of each unit file by its path as people read it."""

    read_at: int = 0
    """When these were read, in nanoseconds."""

    groups: dict[str, KnownEdition] = field(default_factory=dict)
    """By hash of all that a group of units states and is fitted with."""

    parts: dict[str, KnowledgePart] = field(default_factory=dict)
    """What quizzes may ask of, by edition."""

    units: dict[str, UnitKept] = field(default_factory=dict)
    """By number."""

    pages: ProvedPages = NONE_PROVED
    """Those of the site that belong to no truck."""

    pictures: dict[str, KnownPicture] = field(default_factory=dict)
    """Of each picture file by its path."""

    prepared: dict[str, Prepared] = field(default_factory=dict)
    """The photos that were made of them, by the hash of the file; kept apart in a store."""

    gaps: tuple[str, dict[str, KnownGaps]] = ("", {})
    """What is missing, by hash of what trucks of a group state; with the base that it was found
    with."""

    library: tuple[str, Mapping[str, ProcedureTemplate]] | None = None
    """With the hash of its files; kept apart in a store, since other fleets have the same."""

    store: Store | None = None
    """Where libraries are kept; nowhere if none."""

    base: str = ""
    """Hash of all that the fleet's trucks have in common; set when it is loaded."""

    states: FolderStates | None = None
    """How the folders of the site stand, if another process has begun to look."""

    laid: dict[str, tuple[Part, ...]] = field(default_factory=dict)
    """What of this there is very much of, as it lies in a store, by what it is."""

    laid_in: "_Keys | None" = None
    """Where they do."""

    def recall_record(self, name: str, state: FileState) -> UnitRecord | None:
        """Return what was read of a file, if it was not written since.

        Args:
            name: The file as people read it.
            state: As of `state_of`.
        """
        known = self.records.get(name)
        if known is None or known[0] != state or known[0][0] + _SETTLED > self.read_at:
            return None
        return known[1]

    def keep_records(self, read_at: int, records: Iterable[tuple[FileState, UnitRecord]]) -> None:
        """Remember what was read of each file, and forget all others.

        Args:
            read_at: When reading began, as of `now`.
            records: Each with the state that its file had before it was read: one that is written
                while it is read has another state afterwards, and is read again.
        """
        self.read_at = read_at
        before = self.records
        # What is as it was stays the very same: it is not written again.
        self.records = {
            record.path: known
            if (known := before.get(record.path)) and known[0] == state and known[1] is record
            else (state, record)
            for state, record in records
        }

    def recall_picture(self, path: str, state: FileState) -> KnownPicture | None:
        """Return what was read of the picture file at *path*, if it was not written since."""
        known = self.pictures.get(path)
        if known is None or known.state != state or state[0] + _SETTLED > known.read_at:
            return None
        return known

    def group_key(self, group: UnitGroup, model: str, photos: Iterable[str] = ()) -> str:
        """Return the hash of all that comes of *group*.

        Args:
            group: Units that state the same.
            model: Hash of the file of their model.
            photos: What those of its trucks say.
        """
        own = (part for record in group.records for part in ("", *record.own_parts))
        return hash_of(self.base, model, group.first.signature, *own, "photos", *photos)

    def forget_others(self, groups: Iterable[str], editions: Iterable[str]) -> None:
        """Keep only *groups* and *editions*."""
        self.groups = {key: self.groups[key] for key in groups if key in self.groups}
        self.parts = {key: self.parts[key] for key in editions if key in self.parts}

    def known_gaps(self) -> dict[str, KnownGaps]:
        """Return what is missing in trucks of this base, by hash of what they state; takes more."""
        if self.gaps[0] != self.base:
            self.gaps = self.base, {}
        return self.gaps[1]

    def state_of_folder(self, folder: Path) -> str:
        """Return how *folder* of the site was left, as of `folder_state`."""
        return folder_state(folder) if self.states is None else self.states.of(folder.name)

    def saved(self) -> "FleetMemory":
        """Return what is kept between runs, but for what lies in parts."""
        return FleetMemory(
            read_at=self.read_at,
            groups=self.groups,
            pictures=self.pictures,
            gaps=self.gaps,
            pages=self.pages,
        )

    def in_parts(self) -> dict[str, tuple[Part, ...]]:
        """Return what there is very much of, in parts."""
        return {
            "units": parts_of(self.units, lambda _, unit: unit.made.verdict.edition),
            "records": parts_of(self.records, lambda _, known: known[1].signature),
            "knowledge": parts_of(self.parts, lambda edition, _: edition),
        }

    def lay_out(self, laid: dict[str, tuple[Part, ...]]) -> None:
        """Take in what lies in parts, as of `in_parts`."""
        self.laid = laid
        self.units = joined(laid["units"])
        self.records = joined(laid["records"])
        self.parts = joined(laid["knowledge"])


def now() -> int:
    """Return the time in nanoseconds, to be compared with times of files and nothing else."""
    return time.time_ns()


def state_of(path: Path) -> FileState:
    """Return the state of a file."""
    found = os.stat(path)  # noqa: PTH116 -- a path object takes three times as long
    return found.st_mtime_ns, found.st_size, found.st_ino


def new_memory() -> FleetMemory:
    """Return a memory that knows nothing of the fleet; libraries are found in the user's store."""
    return FleetMemory(store=open_store(program_hash()))


def open_memory(store: Store, project: Path, target: Path) -> FleetMemory:
    """Return what is remembered of the fleet in *project* and its site at *target*."""
    own = _Keys(store, project, target)
    with paused():
        match store.get(own.whole):
            case (FleetMemory() as memory, dict(counts)):
                memory.lay_out(
                    {
                        kind: read_parts(store, partial(own.of_part, kind), count)
                        for kind, count in counts.items()
                    }
                )
                memory.laid_in = own
            case _:
                memory = FleetMemory()
    memory.store = store
    return memory


def keep_memory(memory: FleetMemory, store: Store, project: Path, target: Path) -> None:
    """Remember the fleet in *project* and its site at *target*."""
    own = _Keys(store, project, target)
    with paused():
        laid = memory.in_parts()
        known = memory.laid if memory.laid_in == own else {}
        for kind, parts in laid.items():
            write_parts(store, partial(own.of_part, kind), parts, known.get(kind, ()))
        counts = {kind: len(parts) for kind, parts in laid.items()}
        store.put(own.whole, (memory.saved(), counts))
        memory.laid, memory.laid_in = laid, own


@dataclass(frozen=True, slots=True)
class _Keys:
    """Where a fleet lies in a store."""

    store: Store
    project: Path
    target: Path

    @property
    def whole(self) -> str:
        """Of all but what lies in parts."""
        return self._key("fleet")

    def of_part(self, kind: str, place: int, count: int) -> str:
        """Of a part of what is of *kind*."""
        return self._key(kind, str(place), str(count))

    def _key(self, kind: str, *parts: str) -> str:
        return self.store.key(kind, self.project.as_posix(), self.target.as_posix(), *parts)
