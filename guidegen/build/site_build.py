"""From a publication and a shell to the site that readers see.

Takes in what is published, what the site engine drew, and who does the work; gives out the site in
its place, and what came of proving it. Refuses to put in place what the proof has not passed:
readers keep the old site.
"""

import shutil
from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import islice
from pathlib import Path

from guidegen.build import rules
from guidegen.build.held_cards import unchecked_cards
from guidegen.build.load import Loaded
from guidegen.build.manifest import write_manifest
from guidegen.build.patch import clear_up
from guidegen.build.progress import Progress
from guidegen.build.prove import OFFICE, Outcome, outcome_of, write_reports
from guidegen.build.published import Published
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
from guidegen.proof.fleet_claims import Read
from guidegen.proof.prove import conclude
from guidegen.site.shell import Shell

START = "/index.html"
Result = tuple[UnitMade | UnitBroken, ...]
_MOST_IN_BATCH = 64
"""Units that one process makes before it tells what came of them."""


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
        write_manifest(staged)
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
    guides = published.loaded.guides
    plan = SitePlan(published.sent(), shell.frames, published.root_files(shell), staged)
    made: dict[str, UnitMade] = {}
    broken: dict[str, str] = {}
    asked = _counted(
        workers.run(make_units, plan, _batches(published.loaded)), len(guides), progress
    )
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
    _write_all(staged, published.root_files(shell, broken))
    left = [guides[number] for number in guides if number in made]
    claims = published.claims(broken, _read_root(staged, guides), shell.frames)
    whole = [made[guide.number] for guide in left]
    verdict = conclude(left, [each.verdict for each in whole], _reader(staged), claims)
    return outcome_of(
        published.loaded,
        verdict,
        sum((each.printed for each in whole), NOTHING_PRINTED),
        unchecked_cards({each.number: each.held for each in whole if each.held}),
        [
            *(finding for each in whole for finding in each.findings),
            *(_broken_finding(number, why) for number, why in sorted(broken.items())),
        ],
    )


def _batches(loaded: Loaded) -> Iterator[Batch]:
    """Yield the units, those of one edition together."""
    for edition in loaded.editions.values():
        numbers = iter(edition.numbers)
        while batch := tuple(islice(numbers, _MOST_IN_BATCH)):
            yield batch


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
