"""The figures of a run as a page of documentation.

Takes in results, the machine and the versions; gives out Markdown.
Refuses to call anything met that was not measured.
"""

from collections.abc import Iterable, Mapping
from pathlib import Path

from fleets.programs import Run
from fleets.scenarios import Results
from fleets.targets import judge

_HEAD = Path(__file__).with_name("page_head.md")

_HOLDS = Path(__file__).with_name("page_holds.md")

_HOW = Path(__file__).with_name("page_how.md")

_LARGE = 10_000
"""Units of the largest fleet of a run that the page says more of: what it holds was seen there."""


def write_report(
    results: Results, machine: Mapping[str, str], versions: Mapping[str, str], plots: Iterable[str]
) -> str:
    """Return the whole page; *plots* are files beside it, by name without ending."""
    told = [_HEAD.read_text(encoding="utf-8"), "## Targets\n", _targets(results)]
    if any(run.units >= _LARGE for _, run in results.runs):
        told.append(_HOLDS.read_text(encoding="utf-8"))
    told.append("## Figures\n")
    told += [f"![{plot.replace('-', ' ')}]({plot}.svg)\n" for plot in plots]
    scenarios = dict.fromkeys(scenario for scenario, _ in results.runs)
    for scenario in scenarios:
        told.append(f"### {scenario[0].upper()}{scenario[1:]}\n")
        told.append(_runs(run for named, run in results.runs if named == scenario))
    told += ["## The machine\n", _pairs({**machine, **versions})]
    told.append(_HOW.read_text(encoding="utf-8"))
    told += ["".join(f"- {note}\n" for note in results.notes)] if results.notes else []
    return "\n".join(told)


def _targets(results: Results) -> str:
    rows = [
        (
            outcome.target.says,
            outcome.asked,
            "" if outcome.ratio is None else f"{outcome.ratio:.3g}",
            outcome.verdict,
        )
        for outcome in judge(results)
    ]
    return _table(("ratio", "target", "reached", ""), "lrrl", rows)


def _runs(runs: Iterable[Run]) -> str:
    head = ("program", "workers", "units", "editions", "pages", "kB a page", "seconds", "to disk")
    rows = [
        (
            run.program,
            "" if run.workers is None else str(run.workers),
            *(f"{count:,}" for count in (run.units, run.editions, run.pages)),
            f"{run.size / run.pages / 1000:.1f}",
            *(f"{each:,.2f}" for each in (run.cost.seconds, run.cost.disk_seconds)),
            f"{run.cost.cpu_seconds:,.2f}",
            *(f"{each:,.0f}" for each in (run.rate, run.cpu_rate, run.cost.peak_mb)),
        )
        for run in runs
    ]
    return _table((*head, "CPU s", "pages/s", "pages/CPU s", "peak MB"), "l" + "r" * 11, rows)


def _pairs(told: Mapping[str, str]) -> str:
    return _table(("", ""), "ll", told.items())


def _table(head: Iterable[str], sides: str, rows: Iterable[Iterable[str]]) -> str:
    ruled = "|".join("--:" if side == "r" else "---" for side in sides)
    lines = [f"| {' | '.join(head)} |", f"|{ruled}|"]
    lines += [f"| {' | '.join(row)} |" for row in rows]
    return "\n".join(lines) + "\n"
