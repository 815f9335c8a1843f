"""The states of a site's folders, read by another process or, where it cannot, by this one."""

import os
import subprocess
from pathlib import Path

import pytest

from guidegen.build import folder_states
from guidegen.build.folder_state import folder_state
from guidegen.build.folder_states import read_ahead

NAMES = ("T-17", "Übergroß", "a b", 'q"uote')


@pytest.fixture
def site(tmp_path: Path) -> Path:
    for name in NAMES:
        (tmp_path / name / "cards").mkdir(parents=True)
        (tmp_path / name / "index.html").write_text(name, "utf-8")
        (tmp_path / name / "cards" / "brakes.pdf").write_bytes(b"%PDF")
    (tmp_path / "index.html").write_text("list", "utf-8")
    return tmp_path


def expected(site: Path) -> dict[str, str]:
    return {name: folder_state(site / name) for name in NAMES}


@pytest.mark.parametrize("is_worth_it", [True, False])
def test_states_are_the_same_whoever_reads_them(site: Path, *, is_worth_it: bool) -> None:
    with read_ahead(site, is_worth_it=is_worth_it) as states:
        assert {name: states.of(name) for name in NAMES} == expected(site)
        assert states.of("gone") == folder_state(site / "gone")


def test_another_process_has_read_them_all_before_they_are_asked_for(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = expected(site)

    def read_here(folder: Path) -> str:
        raise AssertionError(folder)

    monkeypatch.setattr(folder_states, "folder_state", read_here)
    with read_ahead(site, is_worth_it=True) as states:
        assert {name: states.of(name) for name in NAMES} == before


@pytest.mark.parametrize("text", ["raise SystemExit(1)", "print('no list')", "print('{}')"])
def test_a_process_that_does_not_tell_is_done_without(
    text: str, site: Path, tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    program = tmp_path_factory.mktemp("program") / "told.py"
    program.write_text(text, "utf-8")
    monkeypatch.setattr("guidegen.build.folder_states.reader.__file__", str(program))

    with read_ahead(site, is_worth_it=True) as states:
        assert {name: states.of(name) for name in NAMES} == expected(site)


def test_where_no_process_can_be_started_states_are_read_here(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.executable", os.fspath(site / "no-such-python"))

    with read_ahead(site, is_worth_it=True) as states:
        assert states.of("T-17") == folder_state(site / "T-17")


def test_a_process_whose_states_nobody_asks_for_is_ended(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: list[subprocess.Popen[bytes]] = []
    reading = folder_states.reading

    def watched(folder: Path) -> "subprocess.Popen[bytes] | None":
        process = reading(folder)
        assert process is not None
        begun.append(process)
        return process

    monkeypatch.setattr(folder_states, "reading", watched)
    with read_ahead(site, is_worth_it=True):
        pass

    assert begun[0].returncode is not None
