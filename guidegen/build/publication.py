"""What is published for a fleet.

Takes in a project's folder; gives out the files of its site, and what came of proving them.
Refuses to put in place what the proof has not passed: readers keep the old site.
"""

from dataclasses import dataclass, field
from pathlib import Path

from guidegen.build import rules
from guidegen.build.fleet_memory import FleetMemory, new_memory
from guidegen.build.load import Loaded, load_fleet
from guidegen.build.missing import faulty_units, fleet_gaps
from guidegen.build.print_shop import PrintShop, open_stated_shop
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project, open_project
from guidegen.build.prove import OFFICE, Outcome, prove_folder
from guidegen.build.prove_office import INDEX_NAME, prove_office_pages
from guidegen.build.published import Published
from guidegen.build.replaced import read_replaced
from guidegen.build.site_build import build_site
from guidegen.build.workers import InLine, Workers
from guidegen.finding import FaultyInput, Findings
from guidegen.proof.model import Failure
from guidegen.site.model import FleetView
from guidegen.site.shell import Shell
from guidegen.training.fleet_quizzes import LazyQuizzes
from guidegen.training.write_quiz import FleetKnowledge, KnowledgePart


@dataclass(frozen=True, slots=True)
class Publication:
    """A fleet, ready to be published."""

    project: Project
    loaded: Loaded
    findings: Findings
    """Of the units that are held back, and warnings."""

    quizzes: LazyQuizzes
    """The quiz of each edition, by its fingerprint."""

    progress: Progress = unseen
    shop: PrintShop | None = None
    """What prints the cards; none if the fleet states neither address nor date of issue."""

    workers: Workers = field(default_factory=InLine)
    """Who makes the units."""

    memory: FleetMemory = field(default_factory=FleetMemory)
    """What earlier runs have left."""

    @property
    def fleet(self) -> FleetView:
        """What the site says of the fleet as a whole."""
        return FleetView.of(self.loaded.fleet)

    @property
    def theme_dir(self) -> Path:
        """Folder of the theme's overrides."""
        return self.project.templates / "theme"

    @property
    def watched(self) -> tuple[Path, ...]:
        """Folders whose files make the guides."""
        return self.project.watched

    @property
    def held_back(self) -> tuple[str, ...]:
        """Numbers of units that have a file and no guide."""
        return tuple(
            number for number in self.loaded.unit_numbers if number not in self.loaded.guides
        )

    def publish(self, shell: Shell, target: Path) -> Outcome:
        """Put the trucks into *shell*, and all of it in the place of *target* if it is proved.

        Raises:
            FaultyInput: If the theme lacks what makes the site an app.
        """
        published = Published(
            self.project,
            self.loaded,
            self.quizzes,
            self.shop is not None,
            faulty_units(self.findings),
            self.memory.store,
        )
        return build_site(published, shell, target, self.workers, self.memory, self.progress)


def open_publication(
    project_root: Path, progress: Progress = unseen, memory: FleetMemory | None = None
) -> Publication:
    """Return the publication of the project at *project_root*.

    Args:
        project_root: Folder of the project.
        progress: Shows how far the work has come.
        memory: What earlier runs have left.

    Raises:
        FaultyInput: If faults hold back the whole fleet.
    """
    project = open_project(project_root)
    findings = Findings()
    known = new_memory() if memory is None else memory
    loaded = load_fleet(project, findings, progress, known)
    if loaded is None or not loaded.guides:
        if not findings.has_errors:
            findings.add(
                rules.NO_UNITS,
                None,
                what="no unit has a guide",
                fix="write one file for each truck in `specs/units`",
                place="specs/units",
            )
        raise FaultyInput(findings)
    return publication_of(project, loaded, findings, progress, known)


def publication_of(
    project: Project,
    loaded: Loaded,
    findings: Findings,
    progress: Progress = unseen,
    memory: FleetMemory | None = None,
) -> Publication:
    """Return the publication of the fleet *loaded* from *project*.

    Raises:
        FaultyInput: If the fleet's cards have faults.
    """
    shop = _print_shop(project, loaded, findings)
    known = FleetMemory() if memory is None else memory
    quizzes = _quizzes_of(loaded, known)
    return Publication(project, loaded, findings, quizzes, progress, shop, memory=known)


def _print_shop(project: Project, loaded: Loaded, findings: Findings) -> PrintShop | None:
    own = Findings()
    shop = open_stated_shop(project, loaded, own)
    findings.extend(own)
    if own.has_errors:
        raise FaultyInput(findings)
    return shop


def prove_site(publication: Publication, site: Path) -> Outcome:
    """Compare the site that stands at *site* with the guides, and change nothing."""
    if not site.is_dir():
        findings = Findings()
        findings.add(
            rules.FILE_MISSING,
            None,
            what=f"there is no site at `{site.as_posix()}`",
            fix="build it with `guidegen build`, or name its folder: `guidegen prove FOLDER`",
            place=site.as_posix(),
        )
        raise FaultyInput(findings)
    loaded, held_back = publication.loaded, publication.held_back
    progress, quizzes = publication.progress, publication.quizzes
    outcome = prove_folder(loaded, held_back, site, progress, quizzes, publication.shop)
    return outcome.with_failures(_of_office(publication, site)).in_place()


def _of_office(publication: Publication, site: Path) -> tuple[Failure, ...]:
    """Return what is wrong with the pages for the office, if *site* has them."""
    if not (site / OFFICE / INDEX_NAME).is_file():
        return ()
    loaded = publication.loaded
    gaps = fleet_gaps(loaded, faulty_units(publication.findings))
    own = read_replaced(publication.project, Findings())
    folders = {OFFICE, *loaded.guides}
    root = [
        path.relative_to(site).as_posix()
        for first in site.iterdir()
        if first.name not in folders
        for path in (first.rglob("*") if first.is_dir() else (first,))
    ]
    return prove_office_pages(site, loaded.fleet.name, own, gaps, root)


def _quizzes_of(loaded: Loaded, memory: FleetMemory) -> LazyQuizzes:
    """Return the quizzes of all editions; what one asks, it may ask of all trucks' values."""
    shelf, editions = loaded.guides.shelf, loaded.editions
    for edition in editions:
        if edition not in memory.parts:
            memory.parts[edition] = KnowledgePart.of([shelf.guide(edition)])
    names = {
        name
        for edition in editions.values()
        for record in edition.records
        for name in record.names()
    }
    parts = (memory.parts[edition] for edition in editions)
    knowledge = FleetKnowledge.of_parts(parts, names)
    return LazyQuizzes(frozenset(editions), shelf.guide, knowledge)
