"""What is measured, in order.

Takes in the sizes of a run and a folder to work in; gives out all runs, by scenario.
Refuses nothing: a program that is not installed is left out and named in the notes.
"""

import os
import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from fleet_maker import make_fleet
from fleets.away import put_away
from fleets.programs import (
    ZENSICAL,
    ZENSICAL_PIN,
    Fleet,
    Run,
    install_zensical,
    run_copy,
    run_guidegen,
    run_hugo,
    run_mkdocs,
    run_zensical,
    takes_workers,
)
from fleets.sizes import Sizes

COLD = "cold"
OWN = "every unit its own edition"
PLAIN = "beside plain site generators"
ONE_UNIT = "one unit changed"
ONE_MODEL = "one model changed"
NOTHING = "nothing changed"


@dataclass(slots=True)
class Results:
    """All runs so far."""

    runs: list[tuple[str, Run]] = field(default_factory=list)
    """Scenario and run, in the order in which they were made."""

    notes: list[str] = field(default_factory=list)
    """What was left out, and why."""

    def add(self, scenario: str, run: Run) -> None:
        """Keep *run*, and say on the terminal what it took."""
        self.runs.append((scenario, run))
        cost, workers = run.cost, f", {run.workers} workers" if run.workers else ""
        print(
            f"{scenario}: {run.program}{workers}, {run.units:,} units of {run.editions:,} editions,"
            f" {run.pages:,} pages: {cost.seconds:.1f} s, {cost.cpu_seconds:.1f} CPU s,"
            f" {run.rate:,.0f} pages/s, {cost.peak_mb:,.0f} MB",
            flush=True,
        )

    def of(self, scenario: str, program: str) -> list[Run]:
        """Return the runs of *program* in *scenario*."""
        return [run for named, run in self.runs if (named, run.program) == (scenario, program)]


def run_all(sizes: Sizes, folder: Path) -> Results:
    """Measure every scenario, one after another."""
    results = Results()
    workers: tuple[int | None, ...] = (1, 2) if takes_workers() else (None,)
    if workers == (None,):
        results.notes.append("`guidegen build` has no `--workers` here: one row for each build.")
    for units, editions in sizes.growth:
        with_fleet = _make(folder, units, editions)
        for count in workers:
            results.add(COLD, _cold(with_fleet, count))
        results.add(COLD, run_copy(with_fleet, folder))
        if (units, editions) == sizes.changed:
            for scenario, run in _changes(with_fleet, workers[-1]):
                results.add(scenario, run)
        put_away(with_fleet.root)
    _run_own(sizes, folder, workers, results)
    return results


def _run_own(sizes: Sizes, folder: Path, workers: tuple[int | None, ...], results: Results) -> None:
    fleet = _make(folder, *sizes.own_edition)
    for count in workers:
        results.add(OWN, _cold(fleet, count))
    results.add(OWN, run_copy(fleet, folder))
    has_hugo = shutil.which("hugo") is not None
    if not has_hugo:
        results.notes.append("Hugo is not installed.")
    for keeps_marks in (True, False) if has_hugo else ():
        results.add(OWN, run_hugo(fleet, folder, fleet.units, keeps_marks=keeps_marks))
    plain = sizes.plain_units
    for keeps_marks in (True, False) if has_hugo else ():
        results.add(PLAIN, run_hugo(fleet, folder, plain, keeps_marks=keeps_marks))
    results.add(PLAIN, run_mkdocs(fleet, folder, plain))
    zensical = install_zensical(folder)
    if zensical is None:
        results.notes.append(f"{ZENSICAL} could not be installed ({ZENSICAL_PIN}).")
    else:
        results.add(PLAIN, run_zensical(zensical, fleet, folder, plain))
    put_away(fleet.root)
    # The same units, built and proved by guidegen.
    fleet = _make(folder, plain, plain)
    for count in workers:
        results.add(PLAIN, _cold(fleet, count))
    put_away(fleet.root)


def _make(folder: Path, units: int, editions: int) -> Fleet:
    return Fleet(make_fleet(folder / "fleet", units=units, editions=editions), units, editions)


def _cold(fleet: Fleet, workers: int | None) -> Run:
    """Build where nothing was built before: whatever an earlier build kept goes."""
    put_away(fleet.root)
    make_fleet(fleet.root, units=fleet.units, editions=fleet.editions)
    return run_guidegen(fleet, workers)


def _changes(fleet: Fleet, workers: int | None) -> Iterator[tuple[str, Run]]:
    """Yield what building again costs; the site was built a moment before."""
    yield NOTHING, run_guidegen(fleet, workers)
    units = sorted((fleet.root / "specs" / "units").iterdir())
    _edit(
        units[len(units) // 2], r"^  year: (\d+)\n", r"  year: \1\n  overall_height: 12 ft 5 in\n"
    )
    yield ONE_UNIT, run_guidegen(fleet, workers)
    models = sorted((fleet.root / "specs" / "models").iterdir())
    _edit(models[0], r"^(  unit_plate: .+)$", r"\1, lower edge")
    yield ONE_MODEL, run_guidegen(fleet, workers)


def _edit(spec: Path, pattern: str, text: str) -> None:
    before = spec.read_text(encoding="utf-8")
    without = re.sub(r"^  overall_height:.*\n(    .*\n)*", "", before, flags=re.MULTILINE)
    base = without if "overall_height" in text else before
    after, count = re.subn(pattern, text, base, count=1, flags=re.MULTILINE)
    if not count or after == before:
        raise ValueError(f"{spec}: nothing to change at {pattern}")
    spec.write_text(after, encoding="utf-8", newline="\n")
    os.utime(spec)
