import os
from pathlib import Path

from guidegen.serving.watch import Watch


def test_nothing_has_changed_if_nothing_was_saved(tmp_path: Path) -> None:
    (tmp_path / "one.yml").write_text("a", encoding="utf-8")

    assert not Watch((tmp_path,)).has_changed()


def test_a_change_is_told_once(tmp_path: Path) -> None:
    watch = Watch((tmp_path,))
    (tmp_path / "deep" / "er").mkdir(parents=True)
    (tmp_path / "deep" / "er" / "one.yml").write_text("a", encoding="utf-8")

    assert watch.has_changed()
    assert not watch.has_changed()


def test_a_file_of_the_same_size_is_told_by_its_time(tmp_path: Path) -> None:
    file = tmp_path / "one.yml"
    file.write_text("a", encoding="utf-8")
    watch = Watch((file,))

    file.write_text("b", encoding="utf-8")
    os.utime(file, ns=(1, 1))

    assert watch.has_changed()


def test_a_file_that_goes_is_a_change_and_one_that_never_was_is_none(tmp_path: Path) -> None:
    file = tmp_path / "one.yml"
    file.write_text("a", encoding="utf-8")
    watch = Watch((tmp_path, tmp_path / "never"))

    assert not watch.has_changed()
    file.unlink()
    assert watch.has_changed()


def test_files_that_editors_keep_for_themselves_are_no_change(tmp_path: Path) -> None:
    watch = Watch((tmp_path,))

    (tmp_path / ".one.yml.swp").write_text("a", encoding="utf-8")

    assert not watch.has_changed()
