"""From the files of a project to the values that guides are made of.

Takes in a project; gives out the fleet's specs and the library, with the findings of both.
Refuses to stop at the first fault: every file is read before anything is given up.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from types import MappingProxyType

from guidegen.build import rules
from guidegen.build.combine import Combined, combine, with_known
from guidegen.build.fleet_memory import FleetMemory, new_memory, now, state_of
from guidegen.build.known_edition import KnownEdition
from guidegen.build.load_group import FleetBase, group_units, load_groups
from guidegen.build.load_photos import with_photos
from guidegen.build.own_procedures import LAMP_FILE, own_files, own_procedures
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project
from guidegen.build.record_files import read_history
from guidegen.build.store import Store, hash_of
from guidegen.build.unit_guides import EditionUnits, LazyGuides, LazyUnits, own_place
from guidegen.collector import paused
from guidegen.differences.offer import MOST_EDITIONS, Offer, offer_known
from guidegen.finding import Findings, Note, Rule, nearest
from guidegen.photos.choose import Known
from guidegen.procedures.fleet_names import check_fleet_names
from guidegen.procedures.lamps import by_gravity, read_lamps
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.order import in_order, read_order
from guidegen.procedures.own.place import with_own
from guidegen.procedures.read import KeptFiles, read_procedures
from guidegen.procedures.style.check import check_style
from guidegen.procedures.style.glossary import read_glossary
from guidegen.revisions.model import FleetHistory
from guidegen.round.model import Round
from guidegen.source import Span
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

ORDER_FILE = "procedure-order.yml"
GLOSSARY_FILE = "glossary.yml"
SUBSTANCES_FILE = "substances.yml"


@dataclass(frozen=True, slots=True)
class Loaded:
    """A fleet, read and fitted."""

    fleet: Fleet
    unit_numbers: tuple[str, ...]
    """All units that have a file, also those held back."""

    units: LazyUnits
    """Those that could be resolved and can be believed, each with every place in its own files;
    made when asked for."""

    library: Mapping[str, ProcedureTemplate]
    guides: LazyGuides
    """Those that nothing holds back, by number; made when asked for."""

    rounds: Mapping[str, Round]
    """The inspection round of each edition, by its fingerprint; none where no procedure has a
    place in one."""

    history: FleetHistory | None = None
    """What was released of each truck; none if nothing ever was."""

    @property
    def editions(self) -> Mapping[str, EditionUnits]:
        """The editions by fingerprint, each with its units, in the order of their first ones."""
        return self.guides.editions()

    def own_place(self, number: str, span: Span | None) -> Span | None:
        """Return where the unit *number* states itself what its guide has from *span*.

        Guides of an edition have the places of the unit that it was loaded from; whoever tells of
        a fault of one unit asks here.
        """
        guide = self.guides.get(number)
        if span is None or guide is None or self.guides.is_loaded(number):
            return span
        return own_place(guide, lambda: self.units[number], span)

    @property
    def offer(self) -> Offer:
        """The trucks that drivers may pick as those that they know."""
        stated = self.fleet.trained_on
        if stated is not None:
            trained_on = [str(each.value) for each in stated]
            known = (self.guides[number] for number in trained_on if number in self.guides)
            return offer_known(known, trained_on)
        if len(self.editions) > MOST_EDITIONS:
            return Offer()
        return offer_known(self.guides.values(), None)


def load_fleet(
    project: Project,
    findings: Findings,
    progress: Progress = unseen,
    memory: FleetMemory | None = None,
) -> Loaded | None:
    """Return the fleet with its guides, or nothing if fleet, library or record have faults.

    Faults of single units or models hold back those units only.

    Args:
        project: Where its files are.
        findings: Takes the faults.
        progress: Shows how far the work has come.
        memory: What an earlier run found; trucks that are as they were are not loaded again.
    """
    with paused():
        return _loaded(project, findings, progress, new_memory() if memory is None else memory)


def _loaded(
    project: Project, findings: Findings, progress: Progress, known: FleetMemory
) -> Loaded | None:
    read = read_project(project, findings, progress, known)
    library_key = library_hash(project)
    library = remembered_library(project, library_key, findings, known)
    if read is None or library is None or not knows_names(project, read, library, findings):
        return None
    known.base = hash_of(
        *(part for name in _common_files(project, read.specs.fleet) for part in name),
        library_key,
    )
    specs = with_photos(project, read.specs, read.known(library), known, findings)
    if specs is None:
        return None
    combined = _combined(FleetBase(specs, library), read, known, findings, progress)
    numbers = read.numbers
    check_trained_on(specs.fleet, numbers, findings)
    recorded = Findings()
    history = read_history(project, combined.guides.values(), recorded)
    findings.extend(recorded)
    if recorded.has_errors:
        return None
    return Loaded(
        specs.fleet,
        numbers,
        combined.units,
        library,
        combined.guides,
        combined.rounds,
        history,
    )


def _combined(
    base: FleetBase,
    read: "ReadFleet",
    memory: FleetMemory,
    findings: Findings,
    progress: Progress,
) -> Combined:
    """Return all units: those that *memory* does not know loaded, the others as it knows them."""
    photos = base.specs.photos
    groups = group_units(read.records, base.library, photos)
    keys = [
        memory.group_key(
            group,
            read.model_hashes.get(group.first.model, ""),
            photos.parts(group.first.number, group.first.model),
        )
        for group in groups
    ]
    known = [
        (g, memory.groups[key]) for g, key in zip(groups, keys, strict=True) if key in memory.groups
    ]
    new = [(g, key) for g, key in zip(groups, keys, strict=True) if key not in memory.groups]
    loaded = load_groups((group.first.spec() for group, _ in new), base)
    shown = progress(loaded, len(new), "fitting procedures")
    combined = combine(zip((g for g, _ in new), shown, strict=True), base, findings)
    for group, key in new:
        numbers = {record.number for record in group.records}
        if numbers <= combined.quiet:
            edition = combined.guides.edition_of(group.first.number)
            memory.groups[key] = KnownEdition(edition, edition in combined.rounds)
    whole = with_known(combined, known, base)
    memory.forget_others(keys, whole.guides.editions())
    return whole


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
        return Known(units, frozenset(self.specs.models), steps)


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
    return None if shared is None else ReadFleet(shared, usable, MappingProxyType(hashes), numbers)


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


def _common_files(project: Project, fleet: Fleet) -> Iterator[tuple[str, bytes]]:
    """Yield what all trucks have in common besides the library, by name."""
    profile = project.templates / "profiles" / f"{fleet.jurisdiction}.yml"
    for path in (
        project.root / "specs" / "fleet.yml",
        profile,
        project.templates / SUBSTANCES_FILE,
    ):
        yield path.name, path.read_bytes()


def remembered_library(
    project: Project,
    key: str,
    findings: Findings,
    memory: FleetMemory,
    kept: KeptFiles | None = None,
) -> Mapping[str, ProcedureTemplate] | None:
    """Return the library as *memory* has it, or read and remember it if nothing is found in it.

    Args:
        project: Where its files are.
        key: Of `library_hash`.
        findings: Takes the faults.
        memory: Holds the library that was read last.
        kept: What was read of each file before; see `load_library`.
    """
    if memory.library is not None and memory.library[0] == key:
        return memory.library[1]
    store = memory.store or Store(None, "")
    stored = store.get(store.key("library", key))
    if isinstance(stored, Mapping):
        memory.library = key, stored
        return stored
    own = Findings()
    library = load_library(project, own, kept)
    findings.extend(own)
    if library is not None and not len(own):
        memory.library = key, library
        store.put(store.key("library", key), library)
    return library


def library_hash(project: Project) -> str:
    """Return the hash of all files of procedures, each with its path as people read it."""
    singles = (project.template(name) for name in (ORDER_FILE, LAMP_FILE, GLOSSARY_FILE))
    files = [
        *project.template_files("procedures"),
        *own_files(project),
        *((project.shown(path), path.read_bytes()) for path in singles),
    ]
    return hash_of(*(part for file in files for part in file))


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


def load_library(
    project: Project, findings: Findings, kept: KeptFiles | None = None
) -> Mapping[str, ProcedureTemplate] | None:
    """Return the procedures in the order of the guide, the fleet's own among them.

    Nothing if any has faults.

    Args:
        project: Where its files are.
        findings: Takes the faults.
        kept: What was read of each file before; see `read_procedures`.
    """
    own = Findings()
    files = tuple(project.template_files("procedures"))
    library = read_procedures(files, own, kept)
    order_path = project.templates / ORDER_FILE
    order = read_order(project.shown(order_path), order_path.read_bytes(), own)
    ordered = in_order(library, order, own)
    lamps_path = project.templates / LAMP_FILE
    lamps = read_lamps(project.shown(lamps_path), lamps_path.read_bytes(), own)
    _check_style(project, (*library.values(), *lamps.values()), own)
    fleets = own_procedures(project, files, own)
    told = frozenset(own)
    styled = Findings()
    # House rules are no instructions that a driver works through.
    written = (each.template for each in fleets if each.template.station)
    _check_style(project, written, styled)
    # A replacement has from the library what was told of the library.
    own.extend(each for each in styled if each not in told)
    # One that the fleet takes more gravely moves up.
    own_lamps = {each.template.id: each.template for each in fleets if each.template.id in lamps}
    lamps = by_gravity({**lamps, **own_lamps}.values())
    whole = with_own({**ordered, **lamps}, fleets, own)
    findings.extend(own)
    return None if own.has_errors else whole


def knows_names(
    project: Project,
    read: ReadFleet,
    library: Mapping[str, ProcedureTemplate],
    findings: Findings,
) -> bool:
    """Say whether the fleet has all models and yards that conditions of *library* name."""
    own = Findings()
    # A model whose file has faults is told of there.
    models = {*read.specs.models, *(path.stem for _, path in project.spec_paths("models"))}
    yards = [yard.id for yard in read.specs.fleet.yards]
    check_fleet_names(library.values(), models, yards, own)
    findings.extend(own)
    return not own.has_errors


def check_trained_on(fleet: Fleet, numbers: Collection[str], findings: Findings) -> None:
    """Report units that drivers are said to be signed off on and that have no file."""
    for stated in fleet.trained_on or ():
        number = str(stated.value)
        if number not in numbers:
            near = nearest(number, numbers)
            findings.add(
                spec_rules.TRAINED_ON_UNKNOWN_UNIT,
                stated.span,
                what=f"`trained_on` names `{number}`, and no unit file has that number",
                fix=f"did you mean `{near}`?" if near else "write its unit file, or take it out",
            )


def _check_style(
    project: Project, procedures: Iterable[ProcedureTemplate], findings: Findings
) -> None:
    path = project.template(GLOSSARY_FILE)
    glossary = read_glossary(project.shown(path), path.read_bytes(), findings)
    if glossary is not None:
        check_style(procedures, glossary, findings)


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
