from pathlib import Path

import pytest

from guidegen.build import switch as switching
from guidegen.build.switch import old_folder, recover, staging_folder, switch


def folder(path: Path, word: str) -> Path:
    path.mkdir()
    (path / "page.html").write_text(word, encoding="utf-8")
    return path


def read(path: Path) -> str:
    return (path / "page.html").read_text(encoding="utf-8")


def no_exchange(_first: Path, _second: Path) -> bool:
    return False


def test_the_first_site_is_put_in_place(tmp_path: Path) -> None:
    target = tmp_path / "site"

    switch(folder(staging_folder(target), "new"), target)

    assert read(target) == "new"
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_the_new_site_takes_the_place_of_the_old_and_nothing_is_left_over(tmp_path: Path) -> None:
    target = folder(tmp_path / "site", "old")

    switch(folder(staging_folder(target), "new"), target)

    assert read(target) == "new"
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_systems_that_cannot_swap_folders_move_them_one_by_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(switching, "exchange", no_exchange)
    target = folder(tmp_path / "site", "old")

    switch(folder(staging_folder(target), "new"), target)

    assert read(target) == "new"
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_new_site_that_cannot_be_moved_leaves_the_old_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(switching, "exchange", no_exchange)
    target = folder(tmp_path / "site", "old")

    with pytest.raises(FileNotFoundError):
        switch(staging_folder(target), target)

    assert read(target) == "old"


def test_a_move_cut_short_between_its_halves_is_undone_by_the_next_run(tmp_path: Path) -> None:
    target = tmp_path / "site"
    folder(old_folder(target), "old")
    folder(staging_folder(target), "half done")

    recover(target)

    assert read(target) == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_what_an_interrupted_build_left_over_is_cleared_away(tmp_path: Path) -> None:
    target = folder(tmp_path / "site", "old")
    folder(old_folder(target), "older")
    folder(staging_folder(target), "half done")

    recover(target)

    assert read(target) == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["site"]
