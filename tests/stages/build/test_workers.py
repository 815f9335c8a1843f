"""Tasks done in this process or in several: the same results, in order, whatever happens."""

import multiprocessing
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from guidegen.build.worker_process import can_be_copied
from guidegen.build.workers import (
    AsWorthIt,
    Done,
    InLine,
    Lost,
    Processes,
    Workers,
    started,
    workers_of,
)


def square(shared: int, task: int) -> int:
    return shared + task * task


def die_at_13(_shared: None, task: int) -> int:
    if task == 13:
        os.kill(os.getpid(), signal.SIGKILL)
    return task


def die_once(marker: Path, task: int) -> int:
    if task == 5 and not marker.exists():
        marker.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return task


def die_late(_shared: None, task: int) -> int:
    if task == 1:
        time.sleep(0.5)
        os.kill(os.getpid(), signal.SIGKILL)
    return task


def break_at_2(_shared: None, task: int) -> int:
    if task == 2:
        raise ValueError("a bug")
    return task


@pytest.mark.parametrize("count", [1, 2, 3])
def test_results_come_in_the_order_of_their_tasks(count: int) -> None:
    done = list(workers_of(count).run(square, 7, range(40)))

    assert done == [Done(task, 7 + task * task) for task in range(40)]


def test_one_worker_is_this_process() -> None:
    assert isinstance(workers_of(1), InLine)


def test_a_task_that_ends_its_process_is_told_as_lost_and_takes_no_other_with_it() -> None:
    done = {each.task: each.result for each in Processes(2).run(die_at_13, None, range(30))}

    assert isinstance(done.pop(13), Lost)
    assert done == {task: task for task in range(30) if task != 13}


def test_a_process_that_waits_for_work_beside_one_that_is_killed_does_not_hold_up_the_end() -> None:
    done = {each.task: each.result for each in Processes(2).run(die_late, None, range(2))}

    assert done[0] == 0
    assert isinstance(done[1], Lost)


def test_a_process_that_was_killed_once_is_no_loss(tmp_path: Path) -> None:
    done = list(Processes(2).run(die_once, tmp_path / "marker", range(12)))

    assert [each.result for each in done] == list(range(12))


@pytest.mark.parametrize("workers", [InLine(), Processes(2)])
def test_a_bug_is_raised_and_not_taken_for_a_result(workers: Workers) -> None:
    with pytest.raises(ValueError, match="a bug"):
        list(workers.run(break_at_2, None, range(4)))


def where(_shared: None, _task: int) -> int:
    return os.getpid()


@pytest.mark.parametrize(("tasks", "here"), [(0, True), (5, True), (6, False), (20, False)])
def test_other_processes_are_started_where_there_is_enough_to_do(tasks: int, *, here: bool) -> None:
    done = list(AsWorthIt(2).run(where, None, range(tasks)))

    assert len(done) == tasks
    assert all((each.result == os.getpid()) is here for each in done)


def test_tasks_are_taken_only_as_far_as_they_are_worked_on() -> None:
    taken = 0

    def tasks() -> Iterator[int]:
        nonlocal taken
        for task in range(1000):
            taken = task
            yield task

    for done in Processes(2).run(square, 0, tasks()):
        if done.task == 100:
            break

    assert taken < 120


def test_processes_that_were_started_ahead_do_the_work() -> None:
    workers = Processes(2)

    with started(workers, "guidegen.build.far_press", is_worth_it=True):
        waiting = set(multiprocessing.active_children())
        done = [each.result for each in workers.run(square, 0, range(40))]

    assert len(waiting) == 2
    assert done == [square(0, each) for each in range(40)]
    assert not waiting & set(multiprocessing.active_children())


def test_processes_that_were_started_in_vain_are_ended() -> None:
    before = set(multiprocessing.active_children())

    with started(AsWorthIt(2), "guidegen.build.far_press", is_worth_it=True):
        assert len(set(multiprocessing.active_children()) - before) == 2

    assert set(multiprocessing.active_children()) == before


def test_all_processes_that_end_while_nobody_waits_for_them_lose_nothing() -> None:
    before = set(multiprocessing.active_children())
    results: list[int | Lost] = []

    for done in Processes(2).run(square, 0, range(30)):
        if not results:
            for process in set(multiprocessing.active_children()) - before:
                process.kill()
                process.join()
        results.append(done.result)

    assert results == [square(0, each) for each in range(30)]


WAITING = """
import multiprocessing, sys, time
from guidegen.build import workers
if __name__ == "__main__":
    is_copied = sys.argv[1] == "copies"
    assert workers.can_be_copied() or not is_copied
    if not is_copied:
        workers.can_be_copied = lambda: False
    done = workers.Processes(2).run(divmod, 1000, iter(range(1, 1000)))
    next(done)
    print(*(process.pid for process in multiprocessing.active_children()), flush=True)
    time.sleep(600)
"""

KINDS = [
    pytest.param(
        "copies", marks=pytest.mark.skipif(sys.platform != "linux", reason="copies only on Linux")
    ),
    "new interpreters",
]


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="looks for processes in /proc")
@pytest.mark.parametrize("kind", KINDS)
def test_no_process_is_left_behind_when_the_one_that_started_it_is_killed(
    kind: str, tmp_path: Path
) -> None:
    script = tmp_path / "waiting.py"
    script.write_text(WAITING, encoding="utf-8")
    command = [sys.executable, str(script), kind]
    parent = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert parent.stdout is not None
    started_ones = [int(each) for each in parent.stdout.readline().split()]
    assert len(started_ones) == 2

    parent.kill()
    parent.communicate()

    deadline = time.monotonic() + 60
    while any(map(_is_running, started_ones)):
        assert time.monotonic() < deadline
        time.sleep(0.1)


def _is_running(process: int) -> bool:
    try:
        return "Z (zombie)" not in Path(f"/proc/{process}/status").read_text(encoding="ascii")
    except OSError:
        return False


COPIED = """
import os, signal, sys
from pathlib import Path
from guidegen.build import worker_process, workers

class Stays:
    here = os.getpid()
    def __reduce__(self):
        raise TypeError("is not sent")

def here_and_there(stays, task):
    return stays.here, os.getpid(), task

def die_at_13(shared, task):
    if task == 13:
        os.kill(os.getpid(), signal.SIGKILL)
    return shared + task

if __name__ == "__main__":
    assert workers.can_be_copied()
    done = [each.result for each in workers.Processes(2).run(here_and_there, Stays(), range(20))]
    assert [task for _, _, task in done] == list(range(20))
    assert {here for here, _, _ in done} == {os.getpid()}
    assert os.getpid() not in {there for _, there, _ in done}
    assert worker_process._shared == {}
    lost = [each.result for each in workers.Processes(2).run(die_at_13, 100, range(20))]
    assert isinstance(lost.pop(13), workers.Lost)
    assert lost == [100 + task for task in range(20) if task != 13]
    assert workers.can_be_copied(), "threads are left"
    print("done")
"""


@pytest.mark.skipif(sys.platform != "linux", reason="copies only on Linux")
def test_copies_of_a_process_have_what_it_has_and_lose_nothing(tmp_path: Path) -> None:
    script = tmp_path / "copied.py"
    script.write_text(COPIED, encoding="utf-8")

    run = subprocess.run([sys.executable, str(script)], capture_output=True, text=True, check=False)

    assert (run.stdout, run.stderr) == ("done\n", "")


def test_no_copy_is_made_of_a_process_with_threads() -> None:
    waiting = threading.Event()
    thread = threading.Thread(target=waiting.wait)
    thread.start()

    assert not can_be_copied()

    waiting.set()
    thread.join()
