import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from guidegen.build.scratch import scratch_folder

locks = pytest.mark.skipif(sys.platform == "win32", reason="no folder can be locked there")

_AT_WORK = """
from pathlib import Path
from guidegen.build.scratch import scratch_folder
with scratch_folder() as folder:
    Path(folder, "page.html").touch()
    print(folder, flush=True)
    input()
"""


@pytest.fixture(autouse=True)
def temporary(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of its own for what is temporary."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    return tmp_path


def left_by_nobody(temporary: Path) -> Path:
    """Return a folder that is called as that of a run, and that no process holds."""
    with scratch_folder() as name:
        left = temporary / f"{Path(name).name}-left"
    left.mkdir()
    (left / "page.html").touch()
    return left


def start() -> tuple["subprocess.Popen[str]", Path]:
    """Start a run that is at work in its folder, and return both."""
    running = subprocess.Popen(
        [sys.executable, "-c", _AT_WORK],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert running.stdout is not None
    return running, Path(running.stdout.readline().strip())


def test_a_folder_is_there_and_then_gone(temporary: Path) -> None:
    with scratch_folder() as name:
        assert Path(name).parent == temporary
        (Path(name) / "page.html").touch()

    assert not list(temporary.iterdir())


@locks
def test_what_a_killed_run_has_left_goes_with_the_next_one_and_a_living_run_keeps_its_folder() -> (
    None
):
    (killed, left), (living, used) = start(), start()
    try:
        killed.kill()
        killed.communicate()
        assert (left / "page.html").is_file()

        with scratch_folder() as mine, scratch_folder() as second:
            assert not left.exists()
            assert (used / "page.html").is_file()
            assert Path(mine).is_dir()
            assert Path(second).is_dir()
        living.communicate("\n")
        assert living.returncode == 0
        assert not used.exists()
    finally:
        living.kill()
        living.communicate()


@locks
def test_a_folder_that_nobody_holds_goes_and_what_is_no_folder_of_a_run_stays(
    temporary: Path,
) -> None:
    left = left_by_nobody(temporary)
    other, elsewhere = temporary / "guidegen-other", temporary / "elsewhere"
    for folder in (other, elsewhere):
        folder.mkdir()
        (folder / "page.html").touch()
    link, file = left.with_name(f"{left.name}-link"), left.with_name(f"{left.name}-file")
    link.symlink_to(elsewhere, target_is_directory=True)
    file.touch()

    with scratch_folder():
        pass

    assert not left.exists()
    assert set(temporary.iterdir()) == {elsewhere, other, link, file}
    assert (elsewhere / "page.html").is_file()


@locks
def test_folders_of_other_users_and_machines_stay(
    temporary: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    left = left_by_nobody(temporary)
    monkeypatch.setattr("socket.gethostname", lambda: "another")
    with scratch_folder():
        assert left.is_dir()
    monkeypatch.undo()
    monkeypatch.setattr(tempfile, "tempdir", str(temporary))
    owner = os.getuid()
    monkeypatch.setattr(os, "getuid", lambda: owner + 1)

    # Its own folder seems to be another user's, too, and is made as one that nobody removes.
    with scratch_folder() as mine:
        assert left.is_dir()
        assert Path(mine).is_dir()


@locks
def test_where_nothing_can_be_locked_nothing_is_removed(
    temporary: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    left = left_by_nobody(temporary)

    def refuse(*_: object) -> None:
        raise OSError("no locks available")

    monkeypatch.setattr("fcntl.flock", refuse)
    with scratch_folder() as mine:
        assert Path(mine).is_dir()
        assert left.is_dir()

    assert list(temporary.iterdir()) == [left]
