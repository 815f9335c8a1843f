"""From a publication and a shell to the site that readers see.

Takes in what is published, what the site engine drew, and who does the work; gives out the site in
its place, and what came of proving it. Refuses to put in place what the proof has not passed:
readers keep the old site.
"""

import shutil
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from jinja2 import FileSystemLoader

from guidegen.build import rules
from guidegen.build.held_cards import unchecked_cards
from guidegen.build.load import Loaded
from guidegen.build.pack_site import named_manifest, pack_shell, shared_files
from guidegen.build.patch import clear_up
from guidegen.build.print_shop import PrintShop
from guidegen.build.progress import Progress
from guidegen.build.prove import OFFICE, Outcome, outcome_of, write_reports
from guidegen.build.switch import staging_folder, switch
from guidegen.build.unit_press import (
    NOTHING_PRINTED,
    Batch,
    SitePlan,
    UnitBroken,
    UnitMade,
    make_units,
)
from guidegen.build.workers import Done, Lost, Workers
from guidegen.finding import Finding
from guidegen.proof.fleet_claims import FleetClaims, Read, claims_of_fleet
from guidegen.proof.prove import conclude
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

START = "/index.html"
Result = tuple[UnitMade | UnitBroken, ...]
_MOST_IN_BATCH = 64
"""Units that one process makes before it tells what came of them."""


@dataclass(frozen=True, slots=True)
class Published:
    """What a site is made of."""

    loaded: Loaded
    quizzes: Mapping[str, Quiz]
    shop: PrintShop | None
    templates: Path
    """Folder of the page templates."""

    held_back: tuple[str, ...]
    """Numbers of units that have a file and no guide."""

    @property
    def fleet(self) -> FleetView:
        """What the site says of the fleet as a whole."""
        return FleetView.of(self.loaded.fleet)


def build_site(
    published: Published, shell: Shell, target: Path, workers: Workers, progress: Progress
) -> Outcome:
    """Make and prove the site, put it in place of *target* if it is proved, and return the outcome.

    A report for the office is written either way: into the site, or beside the old one.

    Args:
        published: What it is made of.
        shell: What the site engine has drawn.
        target: The folder that readers see.
        workers: Who makes the units.
        progress: Shows how far the work has come.

    Raises:
        FaultyInput: If the theme lacks what makes the site an app.
    """
    clear_up(target)
    staged = staging_folder(target)
    try:
        staged.mkdir(parents=True)
        outcome = _made(published, shell, staged, workers, progress)
        if not outcome.proved:
            write_reports(outcome, failed_proof_folder(target))
            return outcome
        write_reports(outcome, staged / OFFICE)
        switch(staged, target)
    finally:
        if staged.exists():
            shutil.rmtree(staged)
    failed = failed_proof_folder(target)
    if failed.exists():
        shutil.rmtree(failed)
    return outcome.in_place()


def failed_proof_folder(target: Path) -> Path:
    """Return the folder beside the site at *target* for the report of a proof that failed."""
    return target.with_name(f"{target.name}-proof-failed")


def _made(
    published: Published, shell: Shell, staged: Path, workers: Workers, progress: Progress
) -> Outcome:
    """Make everything in *staged*, and return what the proof finds in it."""
    site = _Site(published, shell, staged)
    guides = published.loaded.guides
    plan = site.plan()
    made: dict[str, UnitMade] = {}
    broken: dict[str, str] = {}
    asked = _counted(workers.run(make_units, plan, site.batches()), len(guides), progress)
    for done in asked:
        if isinstance(done.result, Lost):
            broken.update((number, done.result.why) for number in done.task)
            continue
        for each in done.result:
            if isinstance(each, UnitBroken):
                broken[each.number] = each.why
            else:
                made[each.number] = each
    for number in broken:
        shutil.rmtree(staged / number, ignore_errors=True)
    _write_all(staged, site.root_files(broken))
    left = [guides[number] for number in guides if number in made]
    claims = site.claims(broken, _read_root(staged, guides))
    whole = [made[guide.number] for guide in left]
    verdict = conclude(left, [each.verdict for each in whole], _reader(staged), claims)
    return outcome_of(
        verdict,
        sum((each.printed for each in whole), NOTHING_PRINTED),
        unchecked_cards({each.number: each.held for each in whole if each.held}),
        [
            *(finding for each in whole for finding in each.findings),
            *(_broken_finding(number, why) for number, why in sorted(broken.items())),
        ],
    )


@dataclass(frozen=True, slots=True)
class _Site:
    """A site that is being made."""

    published: Published
    shell: Shell
    staged: Path

    def plan(self) -> SitePlan:
        """Return what all units share, once what pages load has been settled."""
        published = self.published
        files = self.root_files(())
        return SitePlan(
            loaded=published.loaded,
            fleet=published.fleet,
            quizzes=published.quizzes,
            shop=published.shop,
            frames=self.shell.frames,
            templates=published.templates,
            shared=shared_files(files),
            claims=self.claims((), files),
            folder=self.staged,
        )

    def batches(self) -> Iterator[Batch]:
        """Yield the units, those of one edition together."""
        for edition in self.published.loaded.editions.values():
            numbers = iter(edition.numbers)
            while batch := tuple(islice(numbers, _MOST_IN_BATCH)):
                yield batch

    def root_files(self, broken: Iterable[str]) -> Mapping[str, bytes]:
        """Return all files that belong to no truck, by path.

        Args:
            broken: Numbers of units that could not be made.
        """
        published, frames = self.published, Frames.split(self.shell.frames)
        templates = PageTemplates.load(FileSystemLoader(published.templates))
        guides = published.loaded.guides
        left_out = frozenset(broken)
        trucks = [truck_line(guides[number]) for number in guides if number not in left_out]
        held_back = sorted({*published.held_back, *left_out})
        files = {**self.shell.files, **dict(host_files())}
        for path, page in draw_fleet_pages(published.fleet, trucks, held_back, templates):
            files[path] = fill_fleet_page(frames.fleet, page)
        if len(trucks) > MOST_LISTED:
            files[LIST_PATH] = truck_list(trucks)
        files[MANIFEST_FILE] = named_manifest(files, published.fleet.name)
        return {**files, **pack_shell(files)}

    def claims(self, broken: Iterable[str], files: Mapping[str, bytes]) -> FleetClaims:
        """Return what the proof of every unit needs to know of the site."""
        published, left_out = self.published, frozenset(broken)
        loaded = published.loaded
        guides = [loaded.guides[number] for number in loaded.guides if number not in left_out]

        def read(path: str) -> bytes | None:
            # The order of style sheets is read from a start page, which is not there yet.
            frame = self.shell.frames[UNIT_FRAME].encode() if path.endswith(START) else None
            return files.get(path, frame)

        return claims_of_fleet(
            guides,
            read,
            [*files, *(f"{guide.number}/index.html" for guide in guides)],
            sorted({*published.held_back, *left_out}),
            loaded.offer,
            rounds=loaded.rounds,
            quizzes=published.quizzes,
            history=loaded.history,
            has_packs=True,
        )


def _counted(
    done: Iterable[Done[Batch, Result]], total: int, progress: Progress
) -> Iterator[Done[Batch, Result]]:
    """Yield what is *done*, and show how many of *total* units that makes."""
    numbers = progress(iter(range(total)), total, "making and proving trucks")
    for each in done:
        for _ in each.task:
            next(numbers, None)
        yield each
    next(numbers, None)


def _read_root(staged: Path, numbers: Collection[str]) -> Mapping[str, bytes]:
    """Return all files in *staged* that do not stand in the folder of a unit, by path."""
    files: dict[str, bytes] = {}
    for first in sorted(staged.iterdir()):
        if first.name not in numbers:
            for path in sorted(first.rglob("*")) if first.is_dir() else (first,):
                if path.is_file():
                    files[path.relative_to(staged).as_posix()] = path.read_bytes()
    return files


def _reader(staged: Path) -> Read:
    def read(path: str) -> bytes | None:
        file = staged / path
        return file.read_bytes() if file.is_file() else None

    return read


def _write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    for name, raw in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(raw)


def _broken_finding(number: str, why: str) -> Finding:
    last = why.strip().splitlines()[-1]
    return Finding(
        rules.UNIT_BROKEN,
        None,
        f"{number} could not be made: {last}",
        "this is a fault of guidegen and not of your files: report it with the lines below",
        unit=number,
        place=f"specs/units/{number}.yml",
    )
