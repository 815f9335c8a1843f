"""A real scheduler with worker processes: the same bytes as one process, whoever dies or is odd."""

import os
import pickle
import shutil
import signal
import threading
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, TypeVar

import pytest
from click.testing import CliRunner
from dask_cluster import DaskCluster, cluster_of
from few_trucks import FEW, keep

from guidegen import mkdocs_plugin
from guidegen.build import cluster as cluster_module
from guidegen.build.cluster import Cluster, NoCluster
from guidegen.build.far_press import FarMade
from guidegen.build.fleet_memory import FleetMemory
from guidegen.build.print_run import PrintOrder, print_cards
from guidegen.build.print_shop import open_print_shop
from guidegen.build.prove import Outcome
from guidegen.build.publication import Publication, open_publication
from guidegen.build.unit_made import UnitMade
from guidegen.build.workers import Done, InLine, Processes, Workers
from guidegen.cli import commands
from guidegen.finding import Findings
from guidegen.paper.stock import STOCKS, Duplex, Printing
from guidegen.site.shell import Shell

# The libraries of the cluster open sockets that a process which is killed never closes.
pytestmark = pytest.mark.filterwarnings("ignore::ResourceWarning", "ignore::DeprecationWarning")

S = TypeVar("S")
T = TypeVar("T")
R = TypeVar("R")

ONE_KIND = ("T-17", "T-18")


def project_of(folder: Path, root: Path, trucks: Iterable[str], *, cards: bool) -> Path:
    """Return a project with some trucks of the demo, and with its smallest card or with none."""
    for name in ("specs", "site_templates"):
        shutil.copytree(root / name, folder / name)
    shutil.copy(root / "mkdocs.yml", folder)
    fleet = folder / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    if not cards:
        lines = [line for line in lines if not line.startswith(("address:", "issued:"))]
    # One sheet of differences a truck shows as much as seven.
    lines.append("trained_on: [T-17]\n")
    fleet.write_text("".join(lines), encoding="utf-8")
    library = folder / "site_templates" / "cards.yml"
    kinds = library.read_text(encoding="utf-8").split("\n  - id: ")
    if cards and len(kinds) > 1:
        library.write_text("\n  - id: ".join(kinds[:2]) + "\n", encoding="utf-8")
    return keep(folder, tuple(trucks))


@dataclass
class Fleet:
    """A small fleet, and its site as one process makes it."""

    publication: Publication
    shell: Shell
    alone: Mapping[str, bytes]

    @classmethod
    def of(cls, project: Path) -> "Fleet":
        publication = open_publication(project)
        shell = mkdocs_plugin.draw_shell(
            publication.project.config_file, publication.fleet, publication.theme_dir
        )
        fleet = cls(publication, shell, {})
        fleet.alone = fleet.made(InLine(), project / "alone")
        return fleet

    def made(self, workers: Workers, target: Path) -> Mapping[str, bytes]:
        outcome = self.published(workers, target)
        assert outcome.proved, outcome.findings
        return files_in(target)

    def published(self, workers: Workers, target: Path) -> Outcome:
        # Without memory: what one run has made must not help the next.
        again = replace(self.publication, workers=workers, memory=FleetMemory())
        return again.publish(self.shell, target)


def files_in(folder: Path) -> Mapping[str, bytes]:
    paths = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DaskCluster]:
    with cluster_of(2, tmp_path_factory.mktemp("cluster")) as cluster:
        yield cluster


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory, project_root: Path) -> Fleet:
    folder = tmp_path_factory.mktemp("plain")
    return Fleet.of(project_of(folder, project_root, FEW, cards=False))


@pytest.fixture(scope="module")
def with_card(tmp_path_factory: pytest.TempPathFactory, project_root: Path) -> Fleet:
    folder = tmp_path_factory.mktemp("with-card")
    return Fleet.of(project_of(folder, project_root, ONE_KIND, cards=True))


@dataclass(frozen=True)
class Watched(Cluster):
    """A cluster that keeps what is sent, and does something after the first result."""

    sent: list[bytes] = field(default_factory=list)
    after_first: Callable[[], None] = lambda: None
    change: Callable[[Any], Any] = lambda result: result

    def run(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        self.sent.append(pickle.dumps((function, shared)))
        for place, done in enumerate(super().run(function, shared, tasks)):
            yield replace(done, result=self.change(done.result))
            if place == 0:
                self.after_first()


def test_a_cluster_makes_the_site_that_one_process_makes(
    with_card: Fleet, running: DaskCluster, tmp_path: Path
) -> None:
    assert any(name.startswith("T-17/cards/") for name in with_card.alone)

    cluster = Watched(running.address)
    assert with_card.made(cluster, tmp_path / "site") == with_card.alone

    # What travels names no folder of this machine: workers elsewhere have none of them.
    (sent,) = cluster.sent
    assert str(with_card.publication.project.root).encode() not in sent
    assert str(tmp_path).encode() not in sent


def test_trucks_may_be_handed_over_in_a_folder_that_all_see(
    plain: Fleet, running: DaskCluster, tmp_path: Path
) -> None:
    shared = tmp_path / "shared"
    shared.mkdir()

    assert plain.made(Cluster(running.address, shared), tmp_path / "site") == plain.alone
    assert not list(shared.iterdir())


def test_a_worker_that_is_killed_midway_costs_no_truck_and_changes_none(
    plain: Fleet, running: DaskCluster, tmp_path: Path
) -> None:
    def kill_one() -> None:
        killed = running.workers.pop(0)
        killed.kill()
        killed.wait()

    cluster = Watched(running.address, after_first=kill_one)
    try:
        assert plain.made(cluster, tmp_path / "site") == plain.alone
    finally:
        running.add_worker()


def test_a_truck_that_comes_back_with_another_byte_is_held_back(
    plain: Fleet, running: DaskCluster, tmp_path: Path
) -> None:
    def spoil(result: tuple[FarMade, ...]) -> tuple[FarMade, ...]:
        made = result[0].made
        assert isinstance(made, UnitMade)
        other = made.hashes.replace(made.hashes[:8], b"00000000", 1)
        return (replace(result[0], made=replace(made, hashes=other)), *result[1:])

    cluster = Watched(running.address, change=spoil)
    outcome = plain.published(cluster, tmp_path / "site")

    told = [
        each.what for each in outcome.findings if "otherwise than they were proved" in each.what
    ]
    assert len(told) == len(FEW)
    assert not (tmp_path / "site" / "T-17").exists()


@pytest.mark.parametrize("gone", ["all workers", "the scheduler"])
def test_a_cluster_that_is_gone_midway_leaves_the_old_site_and_nothing_else(
    gone: str, plain: Fleet, tmp_path: Path
) -> None:
    site = tmp_path / "here" / "site"
    site.mkdir(parents=True)
    (site / "index.html").write_text("old", encoding="utf-8")
    with cluster_of(1, tmp_path) as cluster:

        def end() -> None:
            assert cluster.scheduler is not None
            ended = cluster.scheduler if gone == "the scheduler" else cluster.workers[0]
            ended.kill()
            ended.wait()

        Cluster(cluster.address).check()
        with pytest.raises(NoCluster, match=f"{gone}.* gone"):
            plain.made(Watched(cluster.address, wait=6, after_first=end), site)

    assert files_in(tmp_path / "here") == {"site/index.html": b"old"}


def test_results_that_are_lost_with_all_workers_are_not_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    threads = vars(cluster_module)["_threads"]
    with cluster_of(1, tmp_path) as cluster:

        def end_then(client: object) -> int:
            """End the worker, with results that nobody has fetched, after it was last seen."""
            seen = int(threads(client))
            monkeypatch.setattr(cluster_module, "_threads", threads)
            assert cluster.scheduler is not None
            scheduler = cluster.scheduler.pid
            # It tells nobody yet.
            os.kill(scheduler, signal.SIGSTOP)
            cluster.workers[0].kill()
            cluster.workers[0].wait()
            threading.Timer(1, os.kill, (scheduler, signal.SIGCONT)).start()
            return seen

        results = Cluster(cluster.address, wait=2).run(divmod, 100, range(1, 9))
        assert next(results) == Done(1, (100, 0))
        # The next ones are done meanwhile.
        time.sleep(1)
        monkeypatch.setattr(cluster_module, "_threads", end_then)

        with pytest.raises(NoCluster, match=r"all workers .* gone"):
            next(results)


def test_a_worker_with_another_guidegen_is_refused_before_anything_is_made(
    project_root: Path, tmp_path: Path
) -> None:
    other = tmp_path / "other" / "guidegen"
    shutil.copytree(project_root / "guidegen", other, ignore=shutil.ignore_patterns("__pycache__"))
    changed = other / "build" / "workers.py"
    changed.write_text(changed.read_text("utf-8") + "\n# Another program.\n", "utf-8")
    paths = (str(other.parent), os.environ.get("PYTHONPATH", ""))
    with cluster_of(0, tmp_path) as cluster:
        cluster.add_worker({"PYTHONPATH": os.pathsep.join(filter(None, paths))})

        refused = CliRunner().invoke(
            commands, ["build", "--project", str(project_root), "--cluster", cluster.address]
        )

    assert refused.exit_code == 2
    assert "runs another program: code of guidegen" in refused.output
    assert "install the same guidegen" in refused.output


@pytest.mark.parametrize("command", [["build"], ["cards", "--all"]])
def test_a_cluster_that_is_not_there_is_wrong_usage(command: list[str], project_root: Path) -> None:
    # No such way of talking: refused at once, where a port that is closed is tried for long.
    asked = [*command, "--project", str(project_root), "--cluster", "carrier-pigeon://loft:1"]
    refused = CliRunner().invoke(commands, asked)

    assert refused.exit_code == 2
    assert "start one with `dask scheduler`" in refused.output


def test_a_scheduler_that_does_not_answer_is_told() -> None:
    with pytest.raises(NoCluster, match=r"no scheduler answers at `tcp://127\.0\.0\.1:1`"):
        Cluster("tcp://127.0.0.1:1", wait=0.5).check()


def test_shared_goes_with_a_cluster_only(project_root: Path, tmp_path: Path) -> None:
    asked = ["build", "--project", str(project_root), "--shared", str(tmp_path)]
    refused = CliRunner().invoke(commands, asked)

    assert refused.exit_code == 2
    assert "--shared goes with --cluster only" in refused.output


def test_cards_are_the_same_whoever_draws_them(
    with_card: Fleet, running: DaskCluster, tmp_path: Path
) -> None:
    project = with_card.publication.project

    def printed(workers: Workers, folder: Path) -> Mapping[str, bytes]:
        findings = Findings()
        shop = open_print_shop(project, with_card.publication.loaded, findings)
        assert shop is not None
        sheets = Printing(STOCKS["letter"], Duplex.LONG)
        order = PrintOrder(("T-18", "T-17"), shop.kinds, folder, sheets)
        run = print_cards(shop, order, findings, workers=workers)
        assert not list(findings)
        assert run.cards == 2
        return files_in(folder)

    alone = printed(InLine(), tmp_path / "alone")
    assert len(alone) == 3
    assert printed(Processes(2), tmp_path / "processes") == alone
    assert printed(Cluster(running.address), tmp_path / "cluster") == alone
