import errno
import random
from pathlib import Path

import pytest
from clerk import files_of
from faulty_disk import FaultyDisk, Killed

from guidegen.build.project import open_project
from guidegen.build.spec_disk import Disk
from guidegen.build.spec_journal import (
    JOURNAL,
    WAITING,
    ChangedMeanwhile,
    NewBytes,
    Unfinished,
    finish_or_stop,
    write_together,
)
from guidegen.finding import FaultyInput

OLD = {f"units/T-{number:02}.yml": f"old {number}\n".encode() for number in range(6)}
NEW = {name: raw.replace(b"old", b"new") * 40 for name, raw in OLD.items()} | {
    "models/added.yml": b"added\n"
}
FILES = [NewBytes(name, OLD.get(name), raw) for name, raw in NEW.items()]


def fleet(folder: Path) -> Path:
    for name, raw in OLD.items():
        path = folder / "specs" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(raw)
    return folder / "specs"


def kept(specs: Path) -> dict[str, bytes]:
    """Return what readers of specs see."""
    return {k: v for k, v in files_of(specs).items() if not k.startswith(".")}


def calls_of_one_write(folder: Path) -> int:
    disk = FaultyDisk(10**9)
    write_together(fleet(folder), FILES, disk)
    return disk.done


def test_all_files_are_put_in_place_and_nothing_else_is_left(tmp_path: Path) -> None:
    specs = fleet(tmp_path)

    write_together(specs, FILES, Disk())

    assert files_of(specs) == NEW
    assert not (specs / WAITING).exists()


def test_a_kill_at_any_call_leaves_all_old_or_after_the_next_reader_all_new(
    tmp_path: Path,
) -> None:
    outcomes = set()
    for call in range(calls_of_one_write(tmp_path / "whole")):
        specs = fleet(tmp_path / f"at-{call}")
        with pytest.raises(Killed):
            write_together(specs, FILES, FaultyDisk(call))
        was_decided = (specs / WAITING / JOURNAL).exists()

        open_project(specs.parent)

        assert kept(specs) in (OLD, NEW), call
        assert not was_decided or kept(specs) == NEW
        outcomes.add(kept(specs) == NEW)
        write_together(
            specs, [NewBytes(n, kept(specs).get(n), raw) for n, raw in NEW.items()], Disk()
        )
        assert files_of(specs) == NEW
    assert outcomes == {True, False}


def test_kills_one_after_another_still_leave_all_or_nothing(tmp_path: Path) -> None:
    draw = random.Random(4)  # noqa: S311 -- moments of a test, not a secret
    calls = calls_of_one_write(tmp_path / "whole")
    for attempt in range(200):
        specs = fleet(tmp_path / f"try-{attempt}")
        for _ in range(3):
            files = [NewBytes(n, kept(specs).get(n), raw) for n, raw in NEW.items()]
            try:
                write_together(specs, files, FaultyDisk(draw.randrange(calls)))
            except (Killed, ChangedMeanwhile):
                continue

        finish_or_stop(specs.parent)

        assert kept(specs) in (OLD, NEW)


@pytest.mark.parametrize("fault", [errno.ENOSPC, errno.EROFS, errno.EACCES])
def test_a_disk_that_refuses_any_call_leaves_all_old_or_all_new(tmp_path: Path, fault: int) -> None:
    for call in range(calls_of_one_write(tmp_path / "whole")):
        specs = fleet(tmp_path / f"at-{call}")
        try:
            write_together(specs, FILES, FaultyDisk(call, fault=fault))
        except Unfinished:
            assert (specs / WAITING / JOURNAL).exists()
        except OSError:
            assert kept(specs) == OLD
            assert not (specs / WAITING / JOURNAL).exists()
        finish_or_stop(specs.parent)

        assert kept(specs) in (OLD, NEW)


def test_a_file_saved_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    specs = fleet(tmp_path)
    (specs / "units" / "T-03.yml").write_bytes(b"newer\n")

    with pytest.raises(ChangedMeanwhile, match=r"units/T-03\.yml"):
        write_together(specs, FILES, Disk())

    assert kept(specs) == OLD | {"units/T-03.yml": b"newer\n"}
    assert not (specs / WAITING).exists()


def test_specs_that_cannot_be_finished_are_not_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    specs = fleet(tmp_path)
    calls = calls_of_one_write(tmp_path / "whole")
    for call in range(calls):
        with pytest.raises(Killed):
            write_together(specs, FILES, FaultyDisk(call))
        if (specs / WAITING / JOURNAL).exists():
            break

    def refuse(*_: object) -> None:
        raise OSError(errno.EROFS, "Read-only file system")

    monkeypatch.setattr(Disk, "replace", refuse)
    with pytest.raises(FaultyInput) as caught:
        open_project(tmp_path)

    assert [finding.rule.name for finding in caught.value.findings] == ["import-unfinished"]
