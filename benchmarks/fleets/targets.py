"""What each scenario is to reach, as a ratio within one run.

Takes in the results; gives out each target with the ratio reached, and whether it was met.
Refuses a ratio across runs: both sides come from the same results.
"""

from collections.abc import Callable
from dataclasses import dataclass

from fleets.programs import COPY, GUIDEGEN, HUGO, MKDOCS, Run
from fleets.scenarios import COLD, NOTHING, ONE_MODEL, ONE_UNIT, OWN, PLAIN, Results


@dataclass(frozen=True, slots=True)
class Target:
    """A bound on a ratio."""

    says: str
    """What is divided by what."""

    bound: float
    is_floor: bool
    """Whether the ratio must be at least the bound, or at most."""

    ratio: Callable[[Results], float | None]
    """None where one side was not measured."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """A target, and what was reached."""

    target: Target
    ratio: float | None

    @property
    def asked(self) -> str:
        """The bound in words."""
        return f"{'at least' if self.target.is_floor else 'at most'} {self.target.bound:g}"

    @property
    def verdict(self) -> str:
        """Whether it was met, in words."""
        if self.ratio is None:
            return "not measured"
        reached, bound = self.ratio, self.target.bound
        is_met = reached >= bound if self.target.is_floor else reached <= bound
        return "met" if is_met else "missed"


def judge(results: Results) -> list[Outcome]:
    """Return the outcome of every target."""
    return [Outcome(target, target.ratio(results)) for target in TARGETS]


def _best(results: Results, scenario: str, program: str) -> Run | None:
    """Return the quickest run of the largest fleet."""
    runs = results.of(scenario, program)
    return min(runs, key=lambda run: (-run.units, run.cost.seconds), default=None)


def _rates(scenario: str, other: str) -> Callable[[Results], float | None]:
    def ratio(results: Results) -> float | None:
        ours, theirs = _best(results, scenario, GUIDEGEN), _best(results, scenario, other)
        return None if ours is None or theirs is None else ours.rate / theirs.rate

    return ratio


def _over_mkdocs(results: Results) -> float | None:
    ours = [run for run in results.of(COLD, GUIDEGEN) if run.units == _USUAL]
    theirs = _best(results, PLAIN, MKDOCS)
    return max(run.rate for run in ours) / theirs.rate if ours and theirs else None


def _over_copy(results: Results) -> float | None:
    ours, copy = _best(results, COLD, GUIDEGEN), _best(results, COLD, COPY)
    return None if ours is None or copy is None else ours.cost.disk_seconds / copy.cost.disk_seconds


def _growth(results: Results) -> float | None:
    runs = [run for run in results.of(COLD, GUIDEGEN) if run.workers in {None, 1}]
    if len(runs) < 2:  # noqa: PLR2004 -- growth is from one to another
        return None
    small, large = runs[0], runs[-1]
    return small.cpu_rate / large.cpu_rate


def _workers(results: Results) -> float | None:
    runs = results.of(COLD, GUIDEGEN)
    most = max((run.units for run in runs), default=0)
    by_workers = {run.workers: run.cost.seconds for run in runs if run.units == most}
    return by_workers[1] / by_workers[2] if {1, 2} <= by_workers.keys() else None


def _again(scenario: str) -> Callable[[Results], float | None]:
    def ratio(results: Results) -> float | None:
        again, cold = _best(results, scenario, GUIDEGEN), _best(results, COLD, GUIDEGEN)
        return None if again is None or cold is None else again.cost.seconds / cold.cost.seconds

    return ratio


def _seconds(scenario: str, units: int) -> Callable[[Results], float | None]:
    def ratio(results: Results) -> float | None:
        runs = [run for run in results.of(scenario, GUIDEGEN) if run.units == units]
        return min((run.cost.seconds for run in runs), default=None)

    return ratio


def _memory(results: Results) -> float | None:
    runs = [run for run in results.of(COLD, GUIDEGEN) if run.units == _LARGEST]
    return max((run.cost.peak_mb for run in runs), default=None)


_USUAL = 1000
_LARGEST = 10_000

TARGETS = (
    Target(
        "seconds, 1,000 units of 60 editions, cold",
        10,
        is_floor=False,
        ratio=_seconds(COLD, _USUAL),
    ),
    Target(
        "pages/s of 1,000 units of 60 editions over plain MkDocs with Material, which has fewer"
        " units, since it is slower with more",
        50,
        is_floor=True,
        ratio=_over_mkdocs,
    ),
    Target(
        "seconds, 10,000 units of 600 editions, cold",
        60,
        is_floor=False,
        ratio=_seconds(COLD, _LARGEST),
    ),
    Target(
        "seconds to disk of a cold build over a raw copy, largest fleet",
        3,
        is_floor=False,
        ratio=_over_copy,
    ),
    Target("MB at most, 10,000 units", 600, is_floor=False, ratio=_memory),
    Target(
        "pages/s over Hugo, every unit its own edition", 2, is_floor=True, ratio=_rates(OWN, HUGO)
    ),
    Target("CPU seconds a page, largest fleet over smallest", 1.15, is_floor=False, ratio=_growth),
    Target(
        "seconds, one unit of 10,000 changed", 2, is_floor=False, ratio=_seconds(ONE_UNIT, _LARGEST)
    ),
    Target("seconds with one worker over two, largest fleet", 1.7, is_floor=True, ratio=_workers),
    Target("seconds with one unit changed over cold", 0.1, is_floor=False, ratio=_again(ONE_UNIT)),
    Target(
        "seconds with one model changed over cold", 0.5, is_floor=False, ratio=_again(ONE_MODEL)
    ),
    Target("seconds with nothing changed over cold", 0.1, is_floor=False, ratio=_again(NOTHING)),
)
