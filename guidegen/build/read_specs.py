"""From the files of a project to what they state of the fleet.

Takes in a project; gives out its fleet file, models, place and fluids, and its units as records,
with the findings of all. Refuses to stop at the first fault: every file is read before anything is
given up, and a unit's file with faults takes no other with it.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from types import MappingProxyType

from guidegen.build import rules
from guidegen.build.fleet_memory import FleetMemory, now, state_of
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project
from guidegen.build.store import hash_of
from guidegen.finding import Findings, Note, Rule
from guidegen.photos.choose import Known
from guidegen.procedures.model import ProcedureTemplate
from guidegen.specs import rules as spec_rules
from guidegen.specs.fleet import Fleet
from guidegen.specs.model import Spec
from guidegen.specs.read import (
    read_fleet,
    read_model,
    read_profile,
    read_substances,
)
from guidegen.specs.read_units import UnitRecord, read_batch
from guidegen.units.resolve import FleetSpecs

SUBSTANCES_FILE = "substances.yml"


@dataclass(frozen=True, slots=True)
class ReadFleet:
    """What the files of a fleet state, the units as records."""

    specs: FleetSpecs
    """Without any unit."""

    records: tuple[UnitRecord, ...]
    """Of all units that can be used, each number once, in the order of their files."""

    model_hashes: Mapping[str, str]
    """Of each model's file, by its id."""

    numbers: tuple[str, ...]
    """Of all units that have a file, also those that cannot be used."""

    def known(self, library: Mapping[str, ProcedureTemplate]) -> Known:
        """Return what a photo can be of."""
        steps = {id_: tuple(step.id for step in each.steps) for id_, each in library.items()}
        units = frozenset(record.number for record in self.records)
        return Known(units, self.specs.faulty_models.union(self.specs.models), steps)


def load_specs(
    project: Project, findings: Findings, progress: Progress = unseen
) -> FleetSpecs | None:
    """Return what the files state, or nothing if fleet, jurisdiction or library have faults."""
    read = read_project(project, findings, progress)
    if read is None:
        return None
    units = {record.number: record.spec() for record in read.records}
    return replace(read.specs, units=MappingProxyType(units))


def read_project(
    project: Project,
    findings: Findings,
    progress: Progress = unseen,
    memory: FleetMemory | None = None,
) -> ReadFleet | None:
    """Return what the files state, or nothing if fleet, jurisdiction or library have faults.

    Args:
        project: Where its files are.
        findings: Takes the faults.
        progress: Shows how far the work has come.
        memory: What an earlier run has read; files that were not written since are not read again.
    """
    models = _read_models(project, findings)
    records = _read_units(project, FleetMemory() if memory is None else memory, progress)
    usable = usable_records(records, findings)
    if not records:
        findings.add(
            rules.NO_UNITS,
            None,
            what="there is no unit file in `specs/units`",
            fix="write one file for each truck, or start from the demo: `guidegen init my-fleet`",
            place=project.shown(project.specs / "units"),
        )
    shared = read_shared(project, models, findings)
    numbers = tuple(PurePosixPath(record.path).stem for record in records)
    hashes = {id_: hash_of(model.span.file.text) for id_, model in models.items()}
    if shared is None:
        return None
    stems = {path.stem for _, path in project.spec_paths("models")}
    specs = replace(shared, faulty_models=frozenset(stems - set(models)))
    return ReadFleet(specs, usable, MappingProxyType(hashes), numbers)


def _read_units(
    project: Project, memory: FleetMemory, progress: Progress
) -> tuple[UnitRecord, ...]:
    read_at = now()
    files = list(project.spec_paths("units"))
    states = {path: state_of(path) for _, path in files}
    known = {path: memory.recall_record(name, states[path]) for name, path in files}
    unread = [(name, path) for name, path in files if known[path] is None]
    shown = progress(unread, len(unread), "reading specs")
    new = iter(read_batch((name, path.read_bytes()) for name, path in shown))
    records = {path: record or next(new) for path, record in known.items()}
    memory.keep_records(read_at, ((states[path], record) for path, record in records.items()))
    return tuple(records.values())


def read_shared(
    project: Project, models: Mapping[str, Spec], findings: Findings
) -> FleetSpecs | None:
    """Return what all units share; nothing if fleet, jurisdiction or fluids have faults."""
    fleet = _read_one(project, "specs/fleet.yml", read_fleet, findings)
    if fleet is None:
        return None
    profile_path = project.templates / "profiles" / f"{fleet.jurisdiction}.yml"
    profile = read_profile(project.shown(profile_path), profile_path.read_bytes(), findings)
    path = project.templates / SUBSTANCES_FILE
    substances = read_substances(project.shown(path), path.read_bytes(), findings)
    if profile is None or substances is None:
        return None
    return FleetSpecs(fleet, MappingProxyType({}), models, profile, substances)


def load_ground(project: Project, findings: Findings) -> FleetSpecs | None:
    """Return the fleet's specs without units and models, or nothing if there are faults."""
    return read_shared(project, MappingProxyType({}), findings)


def usable_records(records: Iterable[UnitRecord], findings: Findings) -> tuple[UnitRecord, ...]:
    """Return those of *records* that state a truck, each number once; report all faults of files.

    Args:
        records: Of all unit files, in the order of their names.
        findings: Takes the faults.
    """
    first: dict[str, UnitRecord] = {}
    for record in records:
        findings.extend(record.findings)
        if not record.is_usable:
            continue
        known = first.setdefault(record.number, record)
        if known is not record:
            _report_twice(spec_rules.UNIT_TWICE, record.own(), known.own(), findings)
    return tuple(first.values())


def _read_one(
    project: Project,
    name: str,
    read: Callable[[str, bytes, Findings], Fleet | None],
    findings: Findings,
) -> Fleet | None:
    path = project.root / name
    if not path.is_file():
        findings.add(
            rules.FILE_MISSING,
            None,
            what=f"there is no `{name}`",
            fix="run guidegen in the folder of your fleet, or start one: `guidegen init my-fleet`",
            place=name,
        )
        return None
    return read(name, path.read_bytes(), findings)


def _read_models(project: Project, findings: Findings) -> Mapping[str, Spec]:
    models: dict[str, Spec] = {}
    for path, raw in project.spec_files("models"):
        model = read_model(path, raw, findings)
        if model is None:
            continue
        first = models.setdefault(model.id, model)
        if first is not model:
            _report_twice(spec_rules.MODEL_TWICE, model, first, findings)
    return MappingProxyType(models)


def _report_twice(twice: Rule, spec: Spec, first: Spec, findings: Findings) -> None:
    findings.add(
        twice,
        spec.span,
        what=f"`{spec.id}` has two files",
        fix="delete one of the two",
        notes=[Note("the other is", first.span)],
        unit=spec.id,
    )
