"""A few trucks of a site exchanged, and every moment at which that may be cut short."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from guidegen.build import patch as patching
from guidegen.build.patch import Patch, apply_patch, clear_up, plan_file
from guidegen.build.switch import exchange, staging_folder


class Killed(BaseException):
    """The process ended here."""


def lay(folder: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def read(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


OLD = {
    "T-1/index.html": "old 1",
    "T-1/gone.html": "old 1",
    "T-2/index.html": "old 2",
    "T-9/index.html": "old 9",
    "index.html": "old list",
    "yard-x.html": "old yard",
}
NEW = {
    "T-1/index.html": "new 1",
    "T-3/index.html": "new 3",
    "index.html": "new list",
    "trucks.json": "new table",
}
GONE = ("T-9", "yard-x.html")
AFTER = {"T-2/index.html": "old 2", **NEW}


def begin(tmp_path: Path) -> tuple[Path, Path, Patch]:
    target = tmp_path / "site"
    staged = staging_folder(target)
    lay(target, OLD)
    lay(staged, NEW)
    names = ("T-1", "T-3", "index.html", "trucks.json")
    return target, staged, Patch.of(staged, names, GONE)


def no_exchange(_first: Path, _second: Path) -> bool:
    return False


@pytest.mark.parametrize("swap", [exchange, no_exchange])
def test_changed_and_new_trucks_take_their_places_and_those_gone_leave(
    swap: Callable[[Path, Path], bool], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(patching, "exchange", swap)
    target, staged, patch = begin(tmp_path)

    apply_patch(patch, staged, target)

    assert read(target) == AFTER
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("swap", [exchange, no_exchange])
def test_a_run_cut_short_at_any_moment_is_finished_by_the_next(
    swap: Callable[[Path, Path], bool], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    moments = 0
    for moment in range(200):
        folder = tmp_path / str(moment)
        folder.mkdir()
        target, staged, patch = begin(folder)
        with monkeypatch.context() as broken:
            left = _kill_at(moment, swap, broken)
            try:
                apply_patch(patch, staged, target)
            except Killed:
                moments += 1
            if left[0] >= 0:  # it came to its end before the moment
                break
        for truck in ("T-1", "T-2"):
            whole = {path.name for path in (target / truck).glob("*")}
            assert whole in ({"index.html", "gone.html"}, {"index.html"}, set()), moment
        begun = plan_file(target).exists()

        clear_up(target)

        # What was not yet planned has not happened; what was, has.
        assert read(target) in ((AFTER,) if begun else (OLD, AFTER)), moment
        assert [path.name for path in folder.iterdir()] == ["site"]
    assert moments > 10


def _kill_at(
    moment: int, swap: Callable[[Path, Path], bool], broken: pytest.MonkeyPatch
) -> list[int]:
    """Let the process end right before or right after the file operation number *moment*."""
    left = [moment]

    def counted(operation: Callable[..., Any]) -> Callable[..., Any]:
        def called(*given: object, **named: object) -> object:
            left[0] -= 1
            if left[0] == -1:
                raise Killed
            result = operation(*given, **named)
            left[0] -= 1
            if left[0] == -1:
                raise Killed
            return result

        return called

    broken.setattr(patching, "exchange", counted(swap))
    for name in ("rename", "replace", "unlink", "write_text"):
        broken.setattr(Path, name, counted(getattr(Path, name)))
    return left
