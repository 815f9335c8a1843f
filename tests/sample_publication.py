"""The sample fleet, published without a proof: the counterpart of the publication in build."""

import shutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from jinja2 import FileSystemLoader
from sample_fleet import FLEET, TRUCKS
from sample_round import ROUNDS

from guidegen.build.prove import Outcome
from guidegen.build.switch import staging_folder, switch
from guidegen.differences.offer import offer_known
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.mkdocs_plugin import draw_site
from guidegen.proof.model import FleetVerdict
from guidegen.site.draw import draw_edition
from guidegen.site.draw_differences import DifferencePages
from guidegen.site.fleet_page import draw_fleet_pages, fill_fleet_page
from guidegen.site.frame import Frames
from guidegen.site.framing import fill_frames
from guidegen.site.model import FleetView
from guidegen.site.shell import Shell
from guidegen.site.stamp import stamp
from guidegen.site.templates import PageTemplates
from guidegen.site.truck_line import truck_line
from guidegen.training.model import Quiz


@dataclass(frozen=True, slots=True)
class SamplePublication:
    """The sample fleet, published without a proof; the counterpart of the one in build."""

    templates: PageTemplates
    theme_dir: Path
    trucks: tuple[Guide, ...] = TRUCKS
    fleet: FleetView = FLEET
    held_back: tuple[str, ...] = ("T-22",)
    watched: tuple[Path, ...] = ()
    findings: Findings = field(default_factory=Findings)
    quizzes: Mapping[str, Quiz] = field(default_factory=dict)

    def pages(self, frames: Mapping[str, str]) -> Iterator[tuple[str, bytes]]:
        split = Frames.split(frames)
        offer = offer_known(self.trucks, None)
        differences = DifferencePages(
            offer, ROUNDS, self.fleet, self.templates, split.unit, with_quiz=self.quizzes
        )
        for each in self.trucks:
            tour = ROUNDS.get(each.edition)
            quiz = self.quizzes.get(each.edition)
            edition = draw_edition(each, tour, self.fleet, self.templates, quiz)
            yield from stamp(fill_frames(edition, split), each).items()
            yield from differences.files_of(each)
        lines = [truck_line(each) for each in self.trucks]
        for path, body in draw_fleet_pages(self.fleet, lines, self.held_back, self.templates):
            yield path, fill_fleet_page(split.fleet, body)

    def publish(self, shell: Shell, target: Path) -> Outcome:
        staged = staging_folder(target)
        try:
            for name, raw in (*shell.files.items(), *self.pages(shell.frames)):
                path = staged / name
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(raw)
            switch(staged, target)
        finally:
            shutil.rmtree(staged, ignore_errors=True)
        return Outcome(published=True, verdict=FleetVerdict((), (), ()), findings=Findings())


def publish_sample(
    project_root: Path, site: Path, quizzes: Mapping[str, Quiz] | None = None
) -> Outcome:
    """Draw the sample fleet's site with the project's own settings and templates."""
    templates = project_root / "site_templates"
    publication = SamplePublication(
        PageTemplates.load(FileSystemLoader(templates / "pages")),
        templates / "theme",
        quizzes=quizzes or {},
    )
    return draw_site(project_root / "mkdocs.yml", publication, site)
