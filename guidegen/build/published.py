"""What a site is made of, and the part of it that belongs to no truck.

Takes in a loaded fleet with its quizzes and its project; gives out the files of the site's root,
what prints the cards, and what the proof of every unit needs to know. Can be sent to other
processes. Refuses to send guides: each process makes those that it needs.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from jinja2 import FileSystemLoader

from guidegen.build.load import Loaded
from guidegen.build.pack_site import named_manifest, pack_shell
from guidegen.build.print_shop import PrintShop, open_stated_shop
from guidegen.build.project import Project
from guidegen.finding import Findings
from guidegen.proof.fleet_claims import FleetClaims, claims_of_fleet
from guidegen.site.app_files import MANIFEST_FILE
from guidegen.site.fleet_page import MOST_LISTED, draw_fleet_pages, fill_fleet_page
from guidegen.site.frame import UNIT_FRAME, Frames
from guidegen.site.host_files import host_files
from guidegen.site.model import FleetView
from guidegen.site.shell import Shell
from guidegen.site.templates import PageTemplates
from guidegen.site.truck_line import truck_line
from guidegen.site.truck_list import LIST_PATH, truck_list
from guidegen.training.model import Quiz

_START = "/index.html"


@dataclass(frozen=True, slots=True, eq=False)
class Published:
    """What a site is made of."""

    project: Project
    loaded: Loaded
    quizzes: Mapping[str, Quiz]
    """By edition."""

    has_cards: bool
    """Whether the fleet's cards are printed with it."""

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
        return replace(self, loaded=replace(self.loaded, units={}))

    def open_shop(self) -> PrintShop | None:
        """Return what prints the cards; none if there are none."""
        if not self.has_cards:
            return None
        # Its faults were told when the publication was opened.
        return open_stated_shop(self.project, self.loaded, Findings())

    def page_templates(self) -> PageTemplates:
        """Return the templates of pages."""
        return PageTemplates.load(FileSystemLoader(self.project.templates / "pages"))

    def root_files(self, shell: Shell, broken: Iterable[str] = ()) -> Mapping[str, bytes]:
        """Return all files that belong to no truck, by path.

        Args:
            shell: What the site engine has drawn.
            broken: Numbers of units that could not be made.

        Raises:
            FaultyInput: If the theme lacks what makes the site an app.
        """
        frames, guides, left_out = Frames.split(shell.frames), self.loaded.guides, frozenset(broken)
        trucks = [truck_line(guides[number]) for number in guides if number not in left_out]
        held_back = sorted({*self.held_back, *left_out})
        files = {**shell.files, **dict(host_files())}
        for path, page in draw_fleet_pages(self.fleet, trucks, held_back, self.page_templates()):
            files[path] = fill_fleet_page(frames.fleet, page)
        if len(trucks) > MOST_LISTED:
            files[LIST_PATH] = truck_list(trucks)
        files[MANIFEST_FILE] = named_manifest(files, self.fleet.name)
        return {**files, **pack_shell(files)}

    def claims(
        self, broken: Iterable[str], root: Mapping[str, bytes], frames: Mapping[str, str]
    ) -> FleetClaims:
        """Return what the proof of every unit needs to know of the site.

        Args:
            broken: Numbers of units that could not be made.
            root: All files that belong to no truck, by path.
            frames: HTML of the frames, by name.
        """
        loaded, left_out = self.loaded, frozenset(broken)
        guides = [loaded.guides[number] for number in loaded.guides if number not in left_out]

        def read(path: str) -> bytes | None:
            # The order of style sheets is read from a start page, which is not there yet.
            frame = frames[UNIT_FRAME].encode() if path.endswith(_START) else None
            return root.get(path, frame)

        return claims_of_fleet(
            guides,
            read,
            [*root, *(f"{guide.number}{_START}" for guide in guides)],
            sorted({*self.held_back, *left_out}),
            loaded.offer,
            rounds=loaded.rounds,
            quizzes=self.quizzes,
            history=loaded.history,
            has_packs=True,
        )
