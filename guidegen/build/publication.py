"""What is published for a fleet.

Takes in a project's folder; gives out the files of its site, and what came of proving them.
Refuses to put in place what the proof has not passed: readers keep the old site.
"""

import shutil
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from jinja2 import FileSystemLoader

from guidegen.build import rules
from guidegen.build.load import Loaded, load_fleet
from guidegen.build.manifest import write_manifest
from guidegen.build.pack_site import pack_site
from guidegen.build.print_shop import PrintedCard, PrintShop, open_stated_shop
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project, open_project
from guidegen.build.prove import Outcome, prove_folder, write_reports
from guidegen.build.switch import switch
from guidegen.decks.model import CardKind
from guidegen.finding import FaultyInput, Findings
from guidegen.guide.model import Guide
from guidegen.revisions.model import UnitHistory
from guidegen.site.draw import draw_edition
from guidegen.site.draw_differences import DifferencePages
from guidegen.site.fleet_page import MOST_LISTED, draw_fleet_pages, fill_fleet_page
from guidegen.site.frame import Frames
from guidegen.site.host_files import host_files
from guidegen.site.lay_out import card_file
from guidegen.site.lay_out_revisions import lay_out_revisions
from guidegen.site.model import FleetView
from guidegen.site.stamp import FramedEdition, fill_frames, stamp
from guidegen.site.templates import PageTemplates
from guidegen.site.truck_line import truck_line
from guidegen.site.truck_list import LIST_PATH, truck_list
from guidegen.training.fleet_quizzes import write_quizzes
from guidegen.training.model import Quiz


@dataclass(frozen=True, slots=True)
class Publication:
    """A fleet, ready to be published."""

    project: Project
    loaded: Loaded
    findings: Findings
    """Of the units that are held back, and warnings."""

    progress: Progress = unseen
    quizzes: Mapping[str, Quiz] = field(default_factory=dict)
    """The quiz of each edition, by its fingerprint."""

    shop: PrintShop | None = None
    """What prints the cards; none if the fleet states neither address nor date of issue."""

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

    def pages(self, frames: Mapping[str, str]) -> Iterator[tuple[str, bytes]]:
        """Yield each file of the site by path, from the frames by name.

        Each edition is drawn once, and stamped for each of its units.
        """
        split = Frames.split(frames)
        templates = PageTemplates.load(FileSystemLoader(self.project.templates / "pages"))
        guides = self.loaded.guides.values()
        yield from host_files()
        yield from self._fleet_pages(split, templates)
        differences = DifferencePages(
            self.loaded.offer,
            self.loaded.rounds,
            self.fleet,
            templates,
            split.unit,
            with_quiz=self.quizzes,
        )
        framed: FramedEdition | None = None
        framed_cards: tuple[CardKind, ...] = ()
        for guide in self.progress(_by_edition(guides), len(guides), "drawing pages"):
            printed = self._cards_of(guide)
            cards = tuple(each.card.kind for each in printed)
            if framed is None or framed.id != guide.edition or framed_cards != cards:
                tour = self.loaded.rounds.get(guide.edition)
                edition = draw_edition(
                    guide,
                    tour,
                    self.fleet,
                    templates,
                    self.quizzes.get(guide.edition),
                    cards,
                )
                framed_cards = cards
                framed = fill_frames(edition, split)
            told = self.loaded.history.of(guide.number) if self.loaded.history else None
            revisions = _revisions_of(told, templates)
            yield from stamp(framed, guide, revisions, told).items()
            yield from differences.files_of(guide, told)
            for each in printed:
                yield f"{guide.number}/{card_file(each.card.kind)}", each.pdf

    def _fleet_pages(self, frames: Frames, templates: PageTemplates) -> Iterator[tuple[str, bytes]]:
        """Yield the pages on which a driver finds a truck, and the list that their script reads."""
        trucks = [truck_line(guide) for guide in self.loaded.guides.values()]
        for path, page in draw_fleet_pages(self.fleet, trucks, self.held_back, templates):
            yield path, fill_fleet_page(frames.fleet, page)
        if len(trucks) > MOST_LISTED:
            yield LIST_PATH, truck_list(trucks)

    def _cards_of(self, guide: Guide) -> tuple[PrintedCard, ...]:
        """Return the cards of *guide*, without those that fit on no side.

        Why they do not is told by who proves the site and finds them missing.
        """
        shop = self.shop
        return tuple(shop.cards(guide.number, shop.kinds, Findings())) if shop else ()

    def settle(self, staged: Path, target: Path) -> Outcome:
        """Pack and prove what stands in *staged*, and put it in place of *target* if it is proved.

        A report for the office is written either way: into the site, or beside the old one.

        Raises:
            FaultyInput: If the theme lacks what makes the site an app.
        """
        pack_site(staged, self.loaded.guides.values(), self.fleet.name, self.loaded.history)
        outcome = prove_folder(
            self.loaded, self.held_back, staged, self.progress, self.quizzes, self.shop
        )
        if not outcome.proved:
            write_reports(outcome, failed_proof_folder(target))
            shutil.rmtree(staged)
            return outcome
        write_reports(outcome, staged / "office")
        write_manifest(staged)
        switch(staged, target)
        failed = failed_proof_folder(target)
        if failed.exists():
            shutil.rmtree(failed)
        return outcome.in_place()


def _revisions_of(told: UnitHistory | None, templates: PageTemplates) -> str:
    """Return the section of the revisions *told* as HTML; empty where no record is kept."""
    return "" if told is None else templates.revisions.render(view=lay_out_revisions(told))


def failed_proof_folder(target: Path) -> Path:
    """Return the folder beside the site at *target* for the report of a proof that failed."""
    return target.with_name(f"{target.name}-proof-failed")


def open_publication(project_root: Path, progress: Progress = unseen) -> Publication:
    """Return the publication of the project at *project_root*.

    Raises:
        FaultyInput: If faults hold back the whole fleet.
    """
    project = open_project(project_root)
    findings = Findings()
    loaded = load_fleet(project, findings, progress)
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
    return publication_of(project, loaded, findings, progress)


def publication_of(
    project: Project, loaded: Loaded, findings: Findings, progress: Progress = unseen
) -> Publication:
    """Return the publication of the fleet *loaded* from *project*.

    Raises:
        FaultyInput: If the fleet's cards have faults.
    """
    shop = _print_shop(project, loaded, findings)
    quizzes = write_quizzes(loaded.guides.values())
    return Publication(project, loaded, findings, progress, quizzes, shop)


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
    return prove_folder(loaded, held_back, site, progress, quizzes, publication.shop).in_place()


def _by_edition(guides: Iterable[Guide]) -> list[Guide]:
    return sorted(guides, key=lambda guide: (guide.edition, guide.number))
