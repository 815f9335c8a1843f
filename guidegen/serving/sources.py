"""What the files of a project state now, read as fast as they are saved.

Takes in a project; gives out its specs and library, and what comes of single trucks. Refuses to
read a file twice that was not written since, and to fit a procedure anew that did not change.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.build.fleet_memory import FleetMemory
from guidegen.build.load_group import FleetBase, LoadedGroup, load_group
from guidegen.build.load_library import knows_names, library_hash, remembered_library
from guidegen.build.load_photos import with_photos
from guidegen.build.project import Project
from guidegen.build.read_specs import read_project
from guidegen.finding import Finding, Findings
from guidegen.guide.assemble import Assembly
from guidegen.plausibility.check import tell_doubts
from guidegen.procedures.read import KeptFiles
from guidegen.specs.read_units import UnitRecord


@dataclass(frozen=True, slots=True, eq=False)
class Stated:
    """What the files state at one time."""

    base: FleetBase
    assembly: Assembly
    records: Mapping[str, UnitRecord]
    """Of all usable units by number."""

    def look_at(self, number: str) -> tuple[LoadedGroup | None, tuple[Finding, ...]]:
        """Return what comes of the unit *number*, and all that was found of it."""
        record = self.records.get(number)
        if record is None:
            return None, ()
        loaded = load_group(record.spec(), self.base, self.assembly)
        told = Findings()
        told.extend((*loaded.unresolved, *loaded.unfitted))
        tell_doubts({number: loaded.doubts}, told)
        if loaded.planned is not None:
            told.extend(loaded.planned.findings)
        return loaded, tuple(told)


@dataclass(slots=True)
class Sources:
    """The files of a project, read again and again."""

    project: Project
    memory: FleetMemory = field(default_factory=FleetMemory)
    _kept: KeptFiles = field(default_factory=dict)
    _assembly: Assembly | None = None

    def read(self, findings: Findings) -> Stated | None:
        """Return what the files state now, or nothing if what all trucks share has faults.

        Args:
            findings: Takes the faults of all files.
        """
        read = read_project(self.project, findings, memory=self.memory)
        key = library_hash(self.project)
        library = remembered_library(self.project, key, findings, self.memory, self._kept)
        if read is None or library is None:
            return None
        if not knows_names(read, library, findings):
            return None
        known = read.known(library)
        specs = with_photos(self.project, read.specs, known, self.memory, findings)
        if specs is None:
            return None
        before = self._assembly
        self._assembly = Assembly(library) if before is None else before.with_library(library)
        records = {record.number: record for record in read.records}
        return Stated(FleetBase(specs, library), self._assembly, records)
