"""What a site is made of, and the part of it that belongs to no truck.

Takes in a loaded fleet with its quizzes and its project; gives out the files of the site's root,
what prints the cards, and what the proof of every unit needs to know. Can be sent to other
processes. Refuses to send guides: each process makes those that it needs.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from jinja2 import FileSystemLoader

from guidegen.build.kept_templates import KeptTemplates
from guidegen.build.load import Loaded
from guidegen.build.pack_site import named_manifest, pack_shell
from guidegen.build.print_shop import (
    CARDS_FILE,
    PrintShop,
    open_stated_shop,
    paper_folder,
    theme_files,
)
from guidegen.build.project import Project
from guidegen.build.store import Store
from guidegen.finding import Findings
from guidegen.proof.fleet_claims import FleetClaims, claims_of_site, ids_of_library
from guidegen.proof.unit_record import UnitRecord
from guidegen.site.app_files import MANIFEST_FILE
from guidegen.site.fleet_page import MOST_LISTED, draw_fleet_pages, fill_fleet_page
from guidegen.site.frame import UNIT_FRAME, Frames
from guidegen.site.host_files import host_files
from guidegen.site.model import FleetView
from guidegen.site.shell import Shell
from guidegen.site.templates import PageTemplates
from guidegen.site.truck_line import TruckLine
from guidegen.site.truck_list import LIST_PATH, truck_list
from guidegen.training.fleet_quizzes import LazyQuizzes

_START = "/index.html"


@dataclass(frozen=True, slots=True, eq=False)
class Published:
    """What a site is made of."""

    project: Project
    loaded: Loaded
    quizzes: LazyQuizzes
    """By edition."""

    has_cards: bool
    """Whether the fleet's cards are printed with it."""

    faulty: frozenset[str] = frozenset()
    """Numbers of units in which something is wrong that is no gap in the record."""

    store: Store | None = None
    """Where compiled templates are kept on this machine; nowhere if none."""

    @property
    def fleet(self) -> FleetView:
        """What the site says of the fleet as a whole."""
        return FleetView.of(self.loaded.fleet)

    @property
    def held_back(self) -> tuple[str, ...]:
        """Numbers of units that have a file and no guide."""
        return tuple(n for n in self.loaded.unit_numbers if n not in self.loaded.guides)

    def sent(self) -> "Published":
        """Return it without what other processes do not need."""
        return replace(self, loaded=replace(self.loaded, units=self.loaded.units.none()))

    def open_shop(self) -> PrintShop | None:
        """Return what prints the cards; none if there are none."""
        if not self.has_cards:
            return None
        # Its faults were told when the publication was opened.
        return open_stated_shop(self.project, self.loaded, Findings())

    def page_templates(self) -> PageTemplates:
        """Return the templates of pages."""
        compiled = KeptTemplates(self.store) if self.store else None
        return PageTemplates.load(FileSystemLoader(self.project.templates / "pages"), compiled)

    def shell_files(self, shell: Shell) -> Mapping[str, bytes]:
        """Return the files of *shell* as they are published, with those for hosts, by path.

        Raises:
            FaultyInput: If the theme lacks what makes the site an app.
        """
        files = {**shell.files, **dict(host_files())}
        return {**files, MANIFEST_FILE: named_manifest(files, self.fleet.name)}

    def root_files(
        self, shell: Shell, trucks: Iterable[TruckLine], broken: Iterable[str]
    ) -> Mapping[str, bytes]:
        """Return all files that belong to no truck, by path.

        Args:
            shell: What the site engine has drawn.
            trucks: One line a truck that has a folder.
            broken: Numbers of units that could not be made.

        Raises:
            FaultyInput: If the theme lacks what makes the site an app.
        """
        frame = Frames.split(shell.frames).fleet
        listed = list(trucks)
        held_back = sorted({*self.held_back, *broken})
        files = dict(self.shell_files(shell))
        for path, page in draw_fleet_pages(self.fleet, listed, held_back, self.page_templates()):
            files[path] = fill_fleet_page(frame, page)
        if len(listed) > MOST_LISTED:
            files[LIST_PATH] = truck_list(listed)
        return {**files, **pack_shell(files)}

    def claims(
        self,
        units: Iterable[UnitRecord],
        root: Mapping[str, bytes],
        frames: Mapping[str, str],
        held_back: Iterable[str],
    ) -> FleetClaims:
        """Return what the proof needs to know of the site.

        Args:
            units: All that have a folder.
            root: All files that belong to no truck, by path.
            frames: HTML of the frames, by name.
            held_back: Numbers of units that have none.
        """

        def read(path: str) -> bytes | None:
            # The order of style sheets is read from a start page, which is not there yet.
            frame = frames[UNIT_FRAME].encode() if path.endswith(_START) else None
            return root.get(path, frame)

        return claims_of_site(
            units,
            read,
            root,
            ids=ids_of_library(self.loaded.library.values()),
            held_back=held_back,
            offer=self.loaded.offer,
            has_packs=True,
        )

    def template_parts(self) -> Iterator[str | bytes]:
        """Yield all that pages and cards are drawn with: names and bytes of files."""
        project = self.project
        folders = [project.templates / "pages"]
        if self.has_cards:
            folders.append(paper_folder(project))
            for path in (project.template(CARDS_FILE), *theme_files(project)):
                yield from _file(path)
        for folder in folders:
            for path in sorted(folder.rglob("*")):
                yield from _file(path)


def _file(path: Path) -> Iterator[str | bytes]:
    if path.is_file():
        yield path.name
        yield path.read_bytes()
