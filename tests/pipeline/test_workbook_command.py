import os
import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from clerk import at_desk, files_of
from few_trucks import keep

Run = Callable[..., Any]
"""`run_guidegen` of this folder's conftest."""


@pytest.fixture(scope="module")
def filled(seed: Path, run: Run, tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The demo fleet's workbook, in which a clerk changed many trucks and entered one."""
    file = tmp_path_factory.mktemp("filled") / "fleet.xlsx"
    assert run("workbook", "export", "--out", str(file), folder=seed).code == 0
    desk = at_desk(file.read_bytes())
    for number in ("D-31", "E-02", "K-22", "R-12", "T-04", "T-17", "T-18", "V-08"):
        desk.type(number, "lights.flash", "press the end of the left stalk")
    desk.enter("Trucks", unit="T-99", model="drumlin-72")
    return desk.save()


def specs_of(project: Path) -> dict[str, bytes]:
    return {k: v for k, v in files_of(project / "specs").items() if not k.startswith(".import")}


def test_the_dry_run_names_each_change_and_writes_nothing(
    run: Run, project: Path, filled: bytes
) -> None:
    (project / "fleet.xlsx").write_bytes(filled)
    before = files_of(project)

    ran = run("workbook", "import", "fleet.xlsx", folder=project)

    assert ran.code == 0, ran.err
    assert "T-17 lights.flash " in ran.out
    assert " → press the end of the left stalk, sheet Lights and lamps, cell " in ran.out
    assert "T-99 is new: a truck of model drumlin-72, sheet Trucks, cell A13" in ran.out
    assert "9 changes in 9 files; nothing was written" in ran.out
    assert files_of(project) == before


def test_apply_writes_all_and_leaves_the_clerks_file_alone(
    run: Run, project: Path, filled: bytes
) -> None:
    (project / "fleet.xlsx").write_bytes(filled)

    ran = run("workbook", "import", "fleet.xlsx", "--apply", folder=project)

    assert ran.code == 0, ran.err
    assert "9 changes in 9 files, written" in ran.out
    assert (project / "fleet.xlsx").read_bytes() == filled
    assert "left stalk" in (project / "specs" / "units" / "E-02.yml").read_text(encoding="utf-8")
    again = run("workbook", "import", "fleet.xlsx", "--apply", folder=project)
    assert "nothing is to be changed" in again.out
    assert "changed since the export: specs/units/D-31.yml" in again.out


def test_a_fault_names_sheet_and_cell_and_writes_nothing(
    run: Run, project: Path, filled: bytes
) -> None:
    desk = at_desk(filled)
    place = desk.type("T-18", "tires.steer.cold_pressure", "110")
    (project / "fleet.xlsx").write_bytes(desk.save())
    before = specs_of(project)

    ran = run("workbook", "import", "fleet.xlsx", "--apply", folder=project)

    assert ran.code == 1
    assert f"fleet.xlsx:{place}: error[quantity-without-measure]" in ran.err
    assert specs_of(project) == before


def test_an_export_does_not_write_over_what_a_clerk_entered(
    run: Run, project: Path, filled: bytes
) -> None:
    (project / "fleet.xlsx").write_bytes(filled)

    ran = run("workbook", "export", folder=project)

    assert ran.code == 1
    assert "error[workbook-in-the-way]" in ran.err
    assert (project / "fleet.xlsx").read_bytes() == filled


def test_a_fleet_starts_from_an_empty_workbook(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "new"
    assert run("init", str(folder), "--workbook", folder=tmp_path).code == 0
    desk = at_desk((folder / "fleet.xlsx").read_bytes())
    desk.enter("Models", model="larch-4", source="handbook, edition 1", identity__make="Larch")
    desk.enter("Trucks", unit="L-01", model="larch-4", identity__yard="main-yard")
    (folder / "fleet.xlsx").write_bytes(desk.save())

    ran = run("workbook", "import", "fleet.xlsx", "--apply", folder=folder)

    assert ran.code == 0, ran.err
    assert sorted(specs_of(folder)) == ["fleet.yml", "models/larch-4.yml", "units/L-01.yml"]
    fresh = run("workbook", "export", "--force", folder=folder)
    assert fresh.out == "fleet.xlsx: 1 truck\n"


def test_a_change_that_cannot_be_finished_stops_every_command(run: Run, project: Path) -> None:
    waiting = project / "specs" / ".import"
    waiting.mkdir()
    (waiting / "journal.json").write_text(
        '[{"name": "units/T-17.yml", "staged": "gone", "sha256": "0"}]', encoding="utf-8"
    )

    ran = run("check", folder=project)

    assert ran.code == 1
    assert "error[import-unfinished]" in ran.err


def test_hostile_text_reaches_pages_as_text_only(run: Run, project: Path) -> None:
    hostile = "=1+1 <script>alert(1)</script> {{ 7*7 }} #panic(1) 🚚"
    keep(project, ("T-17",))
    assert run("workbook", "export", folder=project).code == 0
    desk = at_desk((project / "fleet.xlsx").read_bytes())
    desk.type("T-17", "engine.dipstick_location", hostile)
    (project / "fleet.xlsx").write_bytes(desk.save())
    assert run("workbook", "import", "fleet.xlsx", "--apply", folder=project).code == 0

    built = run("build", folder=project)

    pages = [p.read_text(encoding="utf-8") for p in (project / "site" / "T-17").glob("*.html")]
    shown = [page for page in pages if "=1+1 &lt;script&gt;" in page]
    assert shown, built.err
    assert not any("<script>alert" in page for page in pages)
    assert not any("49 #panic" in page for page in pages)


@pytest.mark.skipif(os.name == "nt", reason="kill -9 is of POSIX; Windows ends a process otherwise")
def test_a_real_kill_at_any_moment_leaves_all_old_or_all_new(
    run: Run, seed: Path, filled: bytes, tmp_path: Path
) -> None:
    draw = random.Random(9)  # noqa: S311 -- moments of a test, not a secret
    whole = Path(shutil.copytree(seed, tmp_path / "whole"))
    (whole / "fleet.xlsx").write_bytes(filled)
    assert run("workbook", "import", "fleet.xlsx", "--apply", folder=whole).code == 0
    old, new = specs_of(seed), specs_of(whole)
    assert old != new
    # Two; `test_killed_commands.py` has hundreds.
    for attempt in range(2):
        project = Path(shutil.copytree(seed, tmp_path / f"kill-{attempt}"))
        (project / "fleet.xlsx").write_bytes(filled)
        process = subprocess.Popen(
            [sys.executable, "-m", "guidegen", "workbook", "import", "fleet.xlsx", "--apply"],
            cwd=project,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        # The moments that matter begin when files are put down to wait.
        while process.poll() is None and not (project / "specs" / ".import").exists():
            time.sleep(0.0005)
        until = time.monotonic() + draw.random() * 0.03
        while process.poll() is None and time.monotonic() < until:
            pass
        process.send_signal(signal.SIGKILL)
        process.wait()

        run("history", "T-17", folder=project)

        assert specs_of(project) in (old, new), attempt
