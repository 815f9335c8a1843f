"""How fast fleets of any size are built and proved, beside other programs in one run.

Takes in how large the fleets may be; gives out a page of figures, targets and plots.
Refuses to compare figures of different runs.
"""

import argparse
import tempfile
from collections.abc import Callable
from pathlib import Path

from fleets.machine import describe
from fleets.plot import Series, draw_plot
from fleets.programs import Run, versions
from fleets.report import write_report
from fleets.scenarios import COLD, OWN, PLAIN, Results, run_all
from fleets.sizes import LARGE, QUICK, USUAL

DOCS = Path(__file__).parents[1] / "docs" / "benchmarks"
PLOTS: dict[str, tuple[str, str, Callable[[Run], float]]] = {
    "fleets-seconds": ("Seconds to build", "seconds", lambda run: run.cost.seconds),
    "fleets-cpu": ("Processor time to build", "CPU seconds", lambda run: run.cost.cpu_seconds),
    "fleets-rate": ("Pages a second", "pages/s", lambda run: run.rate),
    "fleets-memory": ("Greatest memory", "MB", lambda run: run.cost.peak_mb),
}


def main() -> None:
    """Measure, and write the page."""
    parser = argparse.ArgumentParser(description=__doc__)
    size = parser.add_mutually_exclusive_group()
    size.add_argument("--quick", action="store_true", help="small fleets; writes no page by itself")
    size.add_argument("--large", action="store_true", help="up to 10,000 units: 25 GB of disk")
    parser.add_argument("--out", type=Path, help=f"folder of the page (quick: none, else {DOCS})")
    parser.add_argument("--work", type=Path, help="folder on the disk to measure")
    chosen = parser.parse_args()
    sizes = QUICK if chosen.quick else LARGE if chosen.large else USUAL
    with tempfile.TemporaryDirectory(prefix="guidegen-bench-", dir=chosen.work) as name:
        machine = describe(Path(name))
        results = run_all(sizes, Path(name))
    out = chosen.out or (None if chosen.quick else DOCS)
    page = write_report(results, machine, versions(), PLOTS)
    print(page)
    if out is not None:
        out.mkdir(parents=True, exist_ok=True)
        (out / "fleets.md").write_text(page, encoding="utf-8", newline="\n")
        for plot, drawn in draw_plots(results).items():
            (out / f"{plot}.svg").write_text(drawn, encoding="utf-8", newline="\n")


def draw_plots(results: Results) -> dict[str, str]:
    """Return each plot by the name of its file."""
    by_name: dict[str, list[Run]] = {}
    for scenario, run in results.runs:
        if scenario in {COLD, OWN, PLAIN}:
            by_name.setdefault(_line_name(scenario, run), []).append(run)
    drawn = {}
    for plot, (title, measure, value) in PLOTS.items():
        series = [
            Series(name, tuple((run.units, value(run)) for run in _by_units(runs)))
            for name, runs in by_name.items()
        ]
        drawn[plot] = draw_plot(title, measure, series)
    return drawn


def _line_name(scenario: str, run: Run) -> str:
    workers = f", {run.workers} worker{'s' * (run.workers > 1)}" if run.workers else ""
    is_own = scenario in {OWN, PLAIN} and run.program.startswith("guidegen")
    return f"{run.program}{workers}{', own editions' if is_own else ''}"


def _by_units(runs: list[Run]) -> list[Run]:
    return sorted({run.units: run for run in runs}.values(), key=lambda run: run.units)


if __name__ == "__main__":
    main()
