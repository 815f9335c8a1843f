import json
import os
import signal
import socket
import subprocess
import sys
from pathlib import Path

import pytest
from failing_disk import CutOffDisk, Killed
from published_site import as_read, built, contents, publish

from guidegen.build.lock import Locked, held
from guidegen.build.targets import LOCK, open_target
from guidegen.finding import Findings

SINCE = "2026-11-30 07:15"
_HOLDING = """
import sys
from pathlib import Path
from guidegen.build.lock import held
with held(Path(sys.argv[1]), "2026-11-30 05:00"):
    print("held", flush=True)
    sys.stdin.read()
"""


def holding(path: Path) -> "subprocess.Popen[str]":
    root = str(Path(__file__).parents[3])
    running = subprocess.Popen(
        [sys.executable, "-c", _HOLDING, str(path)],
        env={**os.environ, "PYTHONPATH": root},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert running.stdout is not None
    assert running.stdout.readline() == "held\n"
    return running


def test_a_lock_is_held_by_one_run_and_given_up_at_its_end(tmp_path: Path) -> None:
    path = tmp_path / "lock"

    with held(path, SINCE):
        told = json.loads(path.read_bytes())
        assert (told["host"], told["process"]) == (socket.gethostname(), os.getpid())

    assert not path.exists()
    with held(path, SINCE):
        pass


def test_a_second_run_is_told_who_holds_the_lock_and_how_to_remove_it(tmp_path: Path) -> None:
    path = tmp_path / "lock"
    running = holding(path)
    try:
        with pytest.raises(Locked) as caught, held(path, SINCE):
            pass
        assert f"process {running.pid} on " in caught.value.by
        assert "since 2026-11-30 05:00" in caught.value.by
        assert f"delete `{path.as_posix()}`" in caught.value.cure
        assert json.loads(path.read_bytes())["process"] == running.pid
    finally:
        running.communicate("")
    assert not path.exists()


def test_the_lock_is_given_up_when_the_run_fails(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="fault"), held(tmp_path / "lock", SINCE):
        raise ValueError("fault")

    assert not (tmp_path / "lock").exists()


@pytest.mark.skipif(sys.platform == "win32", reason="there the file is removed by hand")
def test_a_lock_whose_run_was_killed_here_is_taken_over(tmp_path: Path) -> None:
    path = tmp_path / "lock"
    running = holding(path)
    running.send_signal(signal.SIGKILL)
    running.communicate()
    assert path.exists()

    with held(path, SINCE):
        assert json.loads(path.read_bytes())["process"] == os.getpid()
    assert not path.exists()


def test_a_lock_that_another_machine_left_is_not_taken_over(tmp_path: Path) -> None:
    path = tmp_path / "lock"
    raw = json.dumps({"host": "office-2", "process": 77, "since": SINCE}).encode()
    path.write_bytes(raw)

    with pytest.raises(Locked, match="process 77 on office-2, since 2026-11-30 07:15"):
        held(path, SINCE).__enter__()
    assert path.read_bytes() == raw


@pytest.mark.skipif(sys.platform == "win32", reason="there the file is removed by hand")
def test_a_run_killed_before_it_left_its_name_is_taken_over(tmp_path: Path) -> None:
    path = tmp_path / "lock"
    path.touch()

    with held(path, SINCE):
        pass
    assert not path.exists()


def test_a_lock_is_left_by_a_run_that_is_cut_short(tmp_path: Path) -> None:
    path = tmp_path / "lock"

    with pytest.raises(Killed), held(path, SINCE, CutOffDisk(0)):
        pass

    assert path.exists()


def test_publishing_while_another_run_publishes_is_refused(tmp_path: Path) -> None:
    target = tmp_path / "guides"
    first = built(tmp_path / "first", "one")
    publish(first, target)
    running = holding(open_target(target).versions / LOCK)
    findings = Findings()
    try:
        assert publish(built(tmp_path / "second", "two"), target, findings=findings) is None
    finally:
        running.communicate("")

    (finding,) = findings
    assert finding.rule.name == "other-run-under-way"
    assert "publishing.lock" in finding.fix
    assert as_read(target) == contents(first)
