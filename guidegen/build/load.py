"""From the files of a project to the values that guides are made of.

Takes in a project; gives out the fleet's specs and the library, with the findings of both.
Refuses to stop at the first fault: every file is read before anything is given up.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from guidegen.build.combine import Combined, combine, with_known
from guidegen.build.fleet_memory import FleetMemory, new_memory
from guidegen.build.known_edition import KnownEdition
from guidegen.build.load_group import FleetBase, group_units, load_groups
from guidegen.build.load_library import knows_names, library_hash, remembered_library
from guidegen.build.load_photos import with_photos
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project
from guidegen.build.read_specs import SUBSTANCES_FILE, ReadFleet, read_project
from guidegen.build.record_files import read_history
from guidegen.build.store import hash_of
from guidegen.build.unit_guides import EditionUnits, LazyGuides, LazyUnits, own_place
from guidegen.collector import paused
from guidegen.differences.offer import MOST_EDITIONS, Offer, offer_known
from guidegen.finding import Findings, nearest
from guidegen.procedures.model import ProcedureTemplate
from guidegen.revisions.model import FleetHistory
from guidegen.round.model import Round
from guidegen.source import Span
from guidegen.specs import rules as spec_rules
from guidegen.specs.fleet import Fleet


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
    if read is None or library is None or not knows_names(read, library, findings):
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


def _common_files(project: Project, fleet: Fleet) -> Iterator[tuple[str, bytes]]:
    """Yield what all trucks have in common besides the library, by name."""
    profile = project.templates / "profiles" / f"{fleet.jurisdiction}.yml"
    for path in (
        project.root / "specs" / "fleet.yml",
        profile,
        project.templates / SUBSTANCES_FILE,
    ):
        yield path.name, path.read_bytes()


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
