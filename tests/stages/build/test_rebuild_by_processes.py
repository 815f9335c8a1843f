"""A site made by one process or by several is the same, and no truck takes another with it."""

import os
import signal
from collections.abc import Callable
from pathlib import Path

import pytest
from rebuilt_fleet import Builder, make_fleet, write

from guidegen.build import far_press, unit_press
from guidegen.build.fleet_memory import FleetMemory
from guidegen.build.unit_press import Batch, Result, SitePlan
from guidegen.build.workers import InLine, Processes, workers_of
from guidegen.guide.model import Guide


@pytest.fixture(scope="module")
def fleet(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Builder:
    return Builder(make_fleet(project_root, tmp_path_factory.mktemp("workers") / "fleet"))


@pytest.mark.parametrize("count", [2, 3])
def test_any_number_of_workers_makes_the_same(fleet: Builder, tmp_path: Path, count: int) -> None:
    alone = fleet.build_anew()

    assert fleet.publish(tmp_path / "site", FleetMemory(), workers_of(count)) == alone


def make_and_die_once(plan: SitePlan, batch: Batch) -> Result:
    """Make all of *batch*, and end the process before it can tell, the first time."""
    made = unit_press.make_units(plan, batch)
    marker = plan.folder.with_name("died")
    if "T-18" in batch and not marker.exists():
        marker.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return made


def make_and_die_of_t_18(plan: SitePlan, batch: Batch) -> Result:
    made = unit_press.make_units(plan, batch)
    if "T-18" in batch:
        os.kill(os.getpid(), signal.SIGKILL)
    return made


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system has no such signal")
def test_a_worker_that_is_killed_after_it_has_written_loses_nothing(
    fleet: Builder, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # In this process, which must not be the one that ends.
    alone = fleet.build_anew()
    monkeypatch.setattr(far_press, "make_units", make_and_die_once)

    left = fleet.publish(tmp_path / "site", FleetMemory(), Processes(2))

    assert (tmp_path / "died").exists()
    assert left == alone


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system has no such signal")
def test_a_truck_that_ends_its_process_takes_none_of_its_batch_with_it(
    fleet: Builder, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    twin = fleet.units / "T-20.yml"
    text = (fleet.units / "T-18.yml").read_text(encoding="utf-8")
    text = text.replace("T-18", "T-20").replace("SRC 418", "SRC 420")
    write(twin, text.replace("7Z9DT72S3MBDV4214", "7Z9DT72S5MBDV4215"))
    try:
        monkeypatch.setattr(far_press, "make_units", make_and_die_of_t_18)
        left = fleet.publish(tmp_path / "site", FleetMemory(), Processes(2))
    finally:
        twin.unlink()

    assert left.published, left.found
    assert {path.parent.name for path in (tmp_path / "site").glob("*/pack.json")} == {
        *("E-02", "T-17", "T-20"),
    }, left.found
    assert [line for line in left.found if line.startswith("unit-broken ")] != []


def test_a_truck_that_breaks_is_told_and_held_back_and_all_others_are_published(
    fleet: Builder, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def files_of(press: object, guide: Guide, printed: object) -> object:
        if guide.number == "T-18":
            raise ZeroDivisionError("a fault of the program")
        return drawn(press, guide, printed)

    kind, memory = unit_press._Press, FleetMemory()  # noqa: SLF001 -- where one truck can be made to fail
    drawn: Callable[..., object] = kind.files_of
    monkeypatch.setattr(kind, "files_of", files_of)
    site = tmp_path / "site"
    left = fleet.publish(site, memory, InLine())
    again = fleet.publish(site, memory, InLine())

    for each in (left, again):
        assert each.published
        broken = [line for line in each.found if line.startswith("unit-broken ")]
        assert len(broken) == 1
        assert "T-18 could not be made: ZeroDivisionError: a fault of the program" in broken[0]
    assert again.files == left.files
    assert {path.parent.name for path in site.glob("*/pack.json")} == {"E-02", "T-17"}
    start = (site / "index.html").read_text(encoding="utf-8")
    assert "T-18" in start
    assert "T-18/index.html" not in start

    monkeypatch.undo()
    assert fleet.publish(site, memory, InLine()) == fleet.build_anew()
