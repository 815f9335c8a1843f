"""A build that is killed: every truck that readers see is whole, and the next build mends all."""

import hashlib
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from rebuilt_fleet import Builder, contents, make_fleet, swap, write

from guidegen.build import patch as patching
from guidegen.build import site_build
from guidegen.build import switch as switching


class Killed(BaseException):
    """The process ended here."""


@pytest.fixture(scope="module")
def built(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Builder:
    """A site of which one truck has changed and another is gone by now; not to be changed."""
    made = Builder(make_fleet(project_root, tmp_path_factory.mktemp("built") / "fleet"))
    changed, twin = made.units / "T-18.yml", made.units / "T-19.yml"
    write(twin, changed.read_text(encoding="utf-8").replace("T-18", "T-19").replace("418", "419"))
    made.build()
    swap(changed, "highest_speed: 20 mph", "highest_speed: 25 mph")
    twin.unlink()
    return made


TRUCKS = {"E-02", "T-17", "T-18"}
OPERATIONS = ("rename", "replace", "unlink", "write_text", "rmdir")


class Clock:
    """Ends the process before or after its file operation number *left*, counted in moves.

    A process that was killed does nothing more; one that is interrupted clears up on its way out.
    """

    def __init__(self, left: int, *, dies: bool) -> None:
        self.left, self.dies, self.is_over = left, dies, False

    def tick(self) -> None:
        if self.is_over and self.dies:
            raise Killed
        self.left -= 1
        if self.left == -1:
            self.is_over = True
            raise Killed

    def counted(self, operation: Callable[..., Any]) -> Callable[..., Any]:
        def called(*given: object, **named: object) -> object:
            self.tick()
            result = operation(*given, **named)
            self.tick()
            return result

        return called


def no_exchange(_first: Path, _second: Path) -> bool:
    return False


def whole_trucks(site: Path) -> set[str]:
    """Return the numbers of all units in *site*, each of which is as its own list says."""
    numbers = set()
    for pack in sorted(site.glob("*/pack.json")):
        number = pack.parent.name
        for file in json.loads(pack.read_bytes())["files"]:
            if file["path"].startswith(f"{number}/"):
                raw = (site / file["path"]).read_bytes()
                assert hashlib.sha256(raw).hexdigest() == file["sha256"], file["path"]
        numbers.add(number)
    return numbers


def cut_short(builder: Builder, clock: Clock, patched: pytest.MonkeyPatch, *, swaps: bool) -> bool:
    """Build until *clock* ends it, from where files take their places; say whether it did."""
    kind = site_build._Run  # noqa: SLF001 -- only from there on may readers see anything
    placing: Callable[..., None] = kind.put_in_place

    def begin(run: object, target: Path) -> None:
        exchange = clock.counted(switching.exchange if swaps else no_exchange)
        patched.setattr(patching, "exchange", exchange)
        patched.setattr(switching, "exchange", exchange)
        for name in OPERATIONS:
            patched.setattr(Path, name, clock.counted(getattr(Path, name)))
        patched.setattr(shutil, "rmtree", clock.counted(shutil.rmtree))
        placing(run, target)

    patched.setattr(kind, "put_in_place", begin)
    try:
        builder.build()
    except Killed:
        return True
    return False


@pytest.mark.parametrize("moment", [2, 5, 9, 17])
@pytest.mark.parametrize("dies", [True, False], ids=["killed", "interrupted"])
@pytest.mark.parametrize("swaps", [True, False], ids=["swap", "no-swap"])
def test_a_patch_leaves_every_truck_whole_and_the_next_build_mends_all(
    built: Builder, tmp_path: Path, moment: int, *, dies: bool, swaps: bool
) -> None:
    builder = built.copy(tmp_path)
    with pytest.MonkeyPatch.context() as patched:
        assert cut_short(builder, Clock(moment, dies=dies), patched, swaps=swaps)

    # The truck that changes is away for the time of one move where two folders cannot be swapped.
    seen = whole_trucks(builder.site)
    assert seen >= ({"E-02", "T-17", "T-18"} if swaps else {"E-02", "T-17"})
    again, anew = builder.build(), builder.build_anew()
    assert again.files == anew.files
    assert again.counts == anew.counts
    assert whole_trucks(builder.site) == TRUCKS
    assert not {path.name for path in builder.root.iterdir() if path.name.startswith(".site")}


@pytest.mark.parametrize("moment", [0, 1, 2, 3])
@pytest.mark.parametrize("swaps", [True, False], ids=["swap", "no-swap"])
def test_a_switch_leaves_every_truck_whole_and_the_next_build_mends_all(
    built: Builder, tmp_path: Path, moment: int, *, swaps: bool
) -> None:
    builder = built.copy(tmp_path)
    shutil.rmtree(builder.store.folder or tmp_path)  # nothing is known, so that all is made again
    with pytest.MonkeyPatch.context() as patched:
        cut_short(builder, Clock(moment, dies=True), patched, swaps=swaps)

    seen = whole_trucks(builder.site)
    assert seen in ({*TRUCKS, "T-19"}, TRUCKS) or (seen == set() and not swaps)
    again, anew = builder.build(), builder.build_anew()
    assert again.files == anew.files
    assert not {path.name for path in builder.root.iterdir() if path.name.startswith(".site")}


def test_a_patch_that_failed_is_finished_by_the_next_build_and_not_thrown_away(
    built: Builder, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    builder = built.copy(tmp_path)

    def is_open(*_given: object) -> None:
        raise PermissionError("another program has the folder open")

    with monkeypatch.context() as patched:
        patched.setattr(patching, "_move", is_open)
        with pytest.raises(PermissionError):
            builder.build()
    assert patching.plan_file(builder.site).exists()
    patching.clear_up(builder.site)

    assert whole_trucks(builder.site) == TRUCKS
    # All that was to take its place has: only the run's own memory of it is missing.
    assert contents(builder.site) == builder.build_anew().files


def test_a_plan_that_was_lost_with_the_power_stops_no_build(built: Builder, tmp_path: Path) -> None:
    builder = built.copy(tmp_path)
    patching.plan_file(builder.site).write_bytes(b"")

    assert builder.build().files == builder.build_anew().files
