"""SIGKILL at 268 random moments of the commands that change what people rely on.

Nothing may be lost and nothing half done. `make kills` does it at 200 moments of each, with nothing
read beforehand and every write waited for, which takes long: docs/benchmarks/kills.md.
"""

import json
import os
import random
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from clerk import at_desk
from few_trucks import keep, without_cards

pytestmark = pytest.mark.skipif(
    not hasattr(os, "fork"), reason="without fork a kill costs a start of the interpreter"
)

Run = Callable[..., Any]
"""`run_guidegen` of this folder's conftest."""

IS_FULL = os.environ.get("GUIDEGEN_KILLS") == "full"
KILLS = 200 if IS_FULL else 67
"""Of each of the commands; of `release` as many again of the first one of a fleet."""

WHOLE = KILLS if IS_FULL else 2
"""Kills of runs that do all that the command does; see `killing`."""

MODEL = Path("specs/models/drumlin-72.yml")


def kill(command: str, folder: Path) -> dict[str, Any]:
    """Kill *command* on the fleet in *folder*; return what came of it."""
    tests = Path(__file__).parents[1]
    seed = int(os.environ.get("GUIDEGEN_KILLS_SEED") or random.SystemRandom().randrange(10**6))
    temporary = folder / "temporary"
    temporary.mkdir()
    path = os.pathsep.join((str(tests), str(tests.parent), os.environ.get("PYTHONPATH", "")))
    done = subprocess.run(
        [
            *(sys.executable, str(tests / "killed_commands.py"), command, str(folder)),
            *("--kills", str(KILLS), "--whole", str(WHOLE), "--seed", str(seed)),
            *(["--on-disk"] if IS_FULL else []),
        ],
        env={**os.environ, "PYTHONPATH": path, "TMPDIR": str(temporary), "PYTHONWARNINGS": ""},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stderr
    told: dict[str, Any] = json.loads(done.stdout)
    assert told["hits"] == KILLS
    assert told["whole"] == WHOLE
    assert told["writing"] > KILLS / 2
    assert min(told["seen"][word] for word in ("old", "new")) > 0, told["seen"]
    print(command, seed, done.stdout)  # noqa: T201 -- `make kills` shows it
    return told


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8", newline="\n")


@pytest.fixture
def folder(seed: Path, tmp_path: Path) -> Path:
    """A folder with a fleet of two trucks, which prints no cards."""
    without_cards(keep(Path(shutil.copytree(seed, tmp_path / "fleet")), ("T-17", "T-18")))
    return tmp_path


def test_publish_killed_at_random_moments_shows_one_version_whole(folder: Path) -> None:
    told = kill("publish", folder)

    assert told["states"] > 20


def test_first_release_killed_at_random_moments_is_recorded_whole_or_not_at_all(
    folder: Path,
) -> None:
    assert not (folder / "fleet" / "records").exists()

    told = kill("release", folder)

    assert told["states"] > 8


def test_release_killed_at_random_moments_is_recorded_whole_or_not_at_all(
    folder: Path, run: Run
) -> None:
    fleet = folder / "fleet"
    ran = run("release", "--by", "Renske Aldous", "--date", "2026-10-01", folder=fleet)
    assert ran.code == 0, ran.err
    edit(fleet / MODEL, "cut_out: 130 psi", "cut_out: 128 psi")

    told = kill("release", folder)

    assert told["states"] > 8


def test_an_import_killed_at_random_moments_changes_all_files_or_none(
    folder: Path, run: Run
) -> None:
    fleet = folder / "fleet"
    assert run("workbook", "export", folder=fleet).code == 0
    book = fleet / "fleet.xlsx"
    desk = at_desk(book.read_bytes())
    desk.type("drumlin-72", "brakes.air.cut_out", "128 psi")
    for number in ("T-17", "T-18"):
        desk.type(number, "lights.flash", "press the end of the left stalk")
    desk.enter("Trucks", unit="T-99", model="drumlin-72")
    book.write_bytes(desk.save())

    told = kill("import", folder)

    assert told["seen"]["decided"] > 0
    assert told["states"] > 8
