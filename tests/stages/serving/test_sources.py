"""What is read again after an edit is what a new process would read."""

import shutil
from pathlib import Path

import pytest

from guidegen.build.bundled import bundled_folder
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.serving.sources import Sources

PROCEDURE = "site_templates/procedures/air-build-up.yml"
MODEL = "specs/models/drumlin-72.yml"


@pytest.fixture
def fleet(tmp_path: Path) -> Path:
    for name in ("specs", "site_templates"):
        shutil.copytree(bundled_folder() / name, tmp_path / name)
    return tmp_path


def edit(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def edition_in(sources: Sources, number: str) -> str:
    stated = sources.read(Findings())
    assert stated is not None
    loaded, found = stated.look_at(number)
    assert loaded is not None
    assert loaded.guide is not None
    assert not any(each.is_error for each in found)
    return loaded.guide.edition


def test_each_edit_gives_the_guide_that_a_new_process_would_give(fleet: Path) -> None:
    project = open_project(fleet)
    sources = Sources(project)
    editions = [edition_in(sources, "T-17")]

    for file, old, new in (
        (PROCEDURE, "title: Build up the air pressure", "title: Build up the air"),
        (MODEL, "cut_out: 130 psi", "cut_out: 128 psi"),
        (PROCEDURE, "title: Build up the air", "title: Build up the air pressure"),
    ):
        edit(fleet / file, old, new)
        editions.append(edition_in(sources, "T-17"))
        assert editions[-1] == edition_in(Sources(project), "T-17")

    assert len(set(editions)) == len(editions)


def test_a_faulty_procedure_gives_nothing_and_is_told_each_time(fleet: Path) -> None:
    sources = Sources(open_project(fleet))
    assert sources.read(Findings()) is not None
    edit(fleet / PROCEDURE, "chapter: air-brakes", "chapter: no-such-chapter")

    for _ in range(2):
        findings = Findings()
        assert sources.read(findings) is None
        assert "unknown-chapter" in {each.rule.name for each in findings.errors}


def test_a_fault_of_a_truck_is_told_with_it(fleet: Path) -> None:
    sources = Sources(open_project(fleet))
    edit(fleet / MODEL, "cut_out: 130 psi", "cut_out: 1300 psi")

    stated = sources.read(Findings())
    assert stated is not None
    _, found = stated.look_at("T-17")

    assert any(each.is_error for each in found)
    assert stated.look_at("K-22")[1] == ()
