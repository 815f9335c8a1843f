"""From a publication and a shell to the site that readers see.

Takes in what is published, what the site engine drew, who does the work and what an earlier run
left; gives out the site in its place, and what came of proving it. Refuses to put in place what
the proof has not passed: readers keep the old site.
"""

import shutil
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.build import rules
from guidegen.build.batches import batches_of
from guidegen.build.far_press import made_by
from guidegen.build.fleet_memory import FleetMemory
from guidegen.build.held_cards import unchecked_cards
from guidegen.build.manifest import MANIFEST, PackedLines, joined_lines, lines_below, lines_of
from guidegen.build.office_desk import office_desk
from guidegen.build.patch import Patch, apply_patch, clear_up, plan_file
from guidegen.build.photos_off_cards import off_card_findings
from guidegen.build.progress import Progress
from guidegen.build.prove import OFFICE, Outcome, outcome_of, write_reports
from guidegen.build.prove_office import changed_since_proof, prove_office_pages
from guidegen.build.published import Published
from guidegen.build.replaced import read_replaced, write_replaced
from guidegen.build.standing import Standing, look_at_units
from guidegen.build.store import Store
from guidegen.build.switch import staging_folder, switch
from guidegen.build.unit_made import UnitBroken, UnitKept, UnitMade
from guidegen.build.unit_press import NOTHING_PRINTED, Batch, Result, SitePlan
from guidegen.build.workers import Done, Lost, Workers
from guidegen.collector import paused
from guidegen.finding import Finding, Findings, Note
from guidegen.proof.known_pages import NONE_PROVED, KnownPages, ProvedPages
from guidegen.proof.model import Failure
from guidegen.proof.prove import conclude
from guidegen.proof.report import ICON
from guidegen.site.shell import Shell


def build_site(  # noqa: PLR0913, PLR0917 -- what a run needs is this much
    published: Published,
    shell: Shell,
    target: Path,
    workers: Workers,
    memory: FleetMemory,
    progress: Progress,
) -> Outcome:
    """Make and prove the site, put it in place of *target* if it is proved, and return the outcome.

    Units whose folders stand in *target* as an earlier run has left them, and that would come out
    the same, are not made again: in a site of which some stand, the others take their places one
    by one, each in one move.

    A report for the office is written either way: into the site, or beside the old one.

    Args:
        published: What it is made of.
        shell: What the site engine has drawn.
        target: The folder that readers see.
        workers: Who makes the units.
        memory: What earlier runs have left; takes what this one leaves.
        progress: Shows how far the work has come.

    Raises:
        FaultyInput: If the theme lacks what makes the site an app.
        NoCluster: If the work is a cluster's, and it cannot be used or is gone.
    """
    clear_up(target)
    staged = staging_folder(target)
    try:
        staged.mkdir(parents=True)
        with paused():
            standing = look_at_units(published, shell, target, memory)
            run = _Run(published, shell, staged, standing, memory)
        run.make(workers, progress)
        with paused():
            outcome = run.outcome()
            if not outcome.proved:
                write_reports(outcome, failed_proof_folder(target))
                return outcome
            write_reports(outcome, staged / OFFICE)
            failures = run.write_for_office()
            if failures:
                outcome = outcome.with_failures(failures)
                write_reports(outcome, failed_proof_folder(target))
                return outcome
            _write(staged / MANIFEST, run.manifest())
            run.put_in_place(target)
            memory.units, memory.pages = run.kept(), run.pages_kept()
    finally:
        # What was begun needs what is staged to be finished, by the next run.
        if staged.exists() and not plan_file(target).exists():
            shutil.rmtree(staged)
    failed = failed_proof_folder(target)
    if failed.exists():
        shutil.rmtree(failed)
    return outcome.in_place()


def failed_proof_folder(target: Path) -> Path:
    """Return the folder beside the site at *target* for the report of a proof that failed."""
    return target.with_name(f"{target.name}-proof-failed")


@dataclass(slots=True)
class _Run:
    """A site that is being made."""

    published: Published
    shell: Shell
    staged: Path
    standing: Standing
    memory: FleetMemory
    made: dict[str, UnitMade] = field(default_factory=dict)
    broken: dict[str, str] = field(default_factory=dict)
    lost: list[str] = field(default_factory=list)
    """Units of batches that ended their processes; each is tried alone."""

    root: Mapping[str, bytes] = field(default_factory=dict)
    known_pages: KnownPages | None = None
    """Of the root."""

    def make(self, workers: Workers, progress: Progress) -> None:
        """Make all units that do not stand, and everything that belongs to no unit."""
        plan = SitePlan(
            published=self.published.sent(),
            frames=self.shell.frames,
            shared=self.standing.shared,
            claims=self.standing.claims,
            folder=self.staged,
        )
        batches = list(batches_of(self.published.loaded.editions.values(), self.standing.units))
        total = sum(map(len, batches))
        done = made_by(workers, plan, batches) if batches else iter(())
        for each in _counted(done, total, progress):
            self._take(each)
        if self.lost:
            # One of a batch has ended its process, and the others were made in vain.
            alone: list[Batch] = [(number,) for number in self.lost]
            for each in made_by(workers, plan, alone):
                self._take(each)
        for number in self.broken:
            shutil.rmtree(self.staged / number, ignore_errors=True)
        self.root = self._root_files()
        for name, raw in self.root.items():
            _write(self.staged / name, raw)

    def outcome(self) -> Outcome:
        """Return what came of proving it."""
        standing = self.standing
        units = [self._made_or_stood(number) for number in self._numbers()]
        root = _read_root(self.staged, self.made)
        if root == standing.root and not self.broken:
            claims = standing.claims
        else:
            claims = self.published.claims(
                (standing.records[each.number] for each in units),
                root,
                self.shell.frames,
                sorted({*self.published.held_back, *self.broken}),
            )
        before = self.memory.units
        unchanged = frozenset(
            number
            for number, record in standing.records.items()
            if number in before and before[number].made.record == record
        )
        self.known_pages = KnownPages.of(self.memory.pages, claims, unchanged)
        verdict = conclude(
            [standing.records[each.number] for each in units],
            [each.verdict for each in units],
            root.get,
            claims,
            self.known_pages,
        )
        return outcome_of(
            self.published.loaded,
            verdict,
            sum((each.printed for each in units), NOTHING_PRINTED),
            unchecked_cards({each.number: each.held for each in units if each.held}),
            [
                *(finding for each in units for finding in each.findings),
                *off_card_findings(
                    ((each.number, off) for each in units for off in each.off_cards),
                    self.published.loaded,
                ),
                *(_broken_finding(number, why) for number, why in sorted(self.broken.items())),
            ],
        )

    def write_for_office(self) -> tuple[Failure, ...]:
        """Write what stands beside the report of the proof; return what is wrong with it."""
        store, published = self.memory.store or Store(None, ""), self.published
        own = read_replaced(published.project, Findings())
        if own:
            write_replaced(self.staged / OFFICE, own, ICON)
        desk = office_desk(published, self.memory, has_own=bool(own))
        for name, raw in desk.files.items():
            _write(self.staged / OFFICE / name, raw)
        name = published.fleet.name
        failures = (
            *prove_office_pages(self.staged, name, own, desk.gaps, self.root.keys()),
            *changed_since_proof(self.staged, desk.files),
        )
        if not failures:
            desk.keep(store)
        return failures

    def manifest(self) -> bytes:
        """Return the list of all files of the site with their hashes."""
        blocks: PackedLines = {
            f"{number}/": self._made_or_stood(number).hashes for number in self._numbers()
        }
        root = lines_of(self.root)
        office = lines_below(self.staged, OFFICE)
        return joined_lines({**blocks, **root, **office})

    def put_in_place(self, target: Path) -> None:
        """Let readers see it."""
        if not self.standing.units:
            switch(self.staged, target)
            return
        new = {path.partition("/")[0] for path in self.root}
        same = {name for name in new if self._is_same(name, target)}
        for name in same:
            there = self.staged / name
            shutil.rmtree(there) if there.is_dir() else there.unlink()
        wanted = {*new, *self._numbers(), OFFICE}
        gone = sorted(path.name for path in target.iterdir() if path.name not in wanted)
        # Trucks first, then what leads to them, and last what tells tablets that all is new.
        names = [*sorted(self.made), *sorted(new - same, key=_put_last), OFFICE]
        apply_patch(Patch.of(self.staged, names, gone), self.staged, target)

    def kept(self) -> dict[str, UnitKept]:
        """Return what a later run may find standing."""
        standing = self.standing
        kept = dict(standing.units)
        for number, made in self.made.items():
            if made.is_clean:
                pools = tuple((fact, standing.pools.get(fact, "")) for fact in sorted(made.asked))
                kept[number] = UnitKept(
                    standing.interned(made), standing.keys[number], pools, standing.claims_digest
                )
        return kept

    def pages_kept(self) -> ProvedPages:
        """Return what a later run need not prove again of the root."""
        return NONE_PROVED if self.known_pages is None else self.known_pages.proved()

    def _root_files(self) -> Mapping[str, bytes]:
        """Return all files that belong to no truck, by path."""
        standing, broken = self.standing, self.broken
        if not broken:
            return standing.root
        lines = [line for number, line in standing.lines.items() if number not in broken]
        return self.published.root_files(self.shell, lines, broken)

    def _numbers(self) -> list[str]:
        """Return the numbers of all units of the site, in order."""
        guides = self.published.loaded.guides
        return [number for number in guides if number not in self.broken]

    def _made_or_stood(self, number: str) -> UnitMade:
        made = self.made.get(number)
        return self.standing.units[number].made if made is None else made

    def _take(self, done: Done[Batch, Result]) -> None:
        if isinstance(done.result, Lost):
            if len(done.task) > 1:
                self.lost.extend(done.task)
            else:
                self.broken.update((number, done.result.why) for number in done.task)
            return
        for each in done.result:
            if isinstance(each, UnitBroken):
                self.broken[each.number] = each.why
            else:
                self.made[each.number] = each

    def _is_same(self, name: str, target: Path) -> bool:
        """Whether all below *name*, in the root, is in *target* what it would be now."""
        new = {path: raw for path, raw in self.root.items() if path.partition("/")[0] == name}
        there = target / name
        old = [path for path in there.rglob("*") if path.is_file()] if there.is_dir() else [there]
        return {path.relative_to(target).as_posix() for path in old} == set(new) and all(
            path.is_file() and path.read_bytes() == new[path.relative_to(target).as_posix()]
            for path in old
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


_TOLD_LAST = ("pack.json", "sw.js")


def _put_last(name: str) -> tuple[int, str]:
    return (_TOLD_LAST.index(name) + 1 if name in _TOLD_LAST else 0), name


def _read_root(staged: Path, numbers: Collection[str]) -> Mapping[str, bytes]:
    """Return all files in *staged* that do not stand in the folder of a unit, by path."""
    files: dict[str, bytes] = {}
    for first in sorted(staged.iterdir()):
        if first.name not in numbers:
            for path in sorted(first.rglob("*")) if first.is_dir() else (first,):
                if path.is_file():
                    files[path.relative_to(staged).as_posix()] = path.read_bytes()
    return files


def _write(path: Path, raw: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(raw)


def _broken_finding(number: str, why: str) -> Finding:
    return Finding(
        rules.UNIT_BROKEN,
        None,
        f"{number} could not be made: {why.strip().splitlines()[-1]}",
        "this is a fault of guidegen and not of your files: report it with the note",
        notes=(Note(" / ".join(line.strip() for line in why.strip().splitlines())),),
        unit=number,
        place=f"specs/units/{number}.yml",
    )
