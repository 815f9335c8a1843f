import os
from pathlib import Path

import pytest
from sample_fleet import E_04, T_17

from guidegen.build.project import Project
from guidegen.build.record_files import (
    RecordChanged,
    check_editions,
    edition_path,
    open_record,
    read_history,
    record_bytes,
    record_path,
    write_release,
)
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.revisions.model import Revision
from guidegen.revisions.record import lines_of
from guidegen.revisions.snapshot import digest_of, snapshot_bytes


@pytest.fixture
def project(tmp_path: Path, project_root: Path) -> Project:
    return Project(tmp_path, project_root / "site_templates")


def released(guide: Guide, number: int = 1) -> Revision:
    kept = digest_of(snapshot_bytes(guide))
    return Revision(guide.number, number, "2026-11-30", "R. Aldous", guide.edition, kept, ())


def release(project: Project, *guides: Guide) -> None:
    before = record_bytes(project)
    record = open_record(project, Findings())
    assert record is not None
    lines = lines_of(map(released, guides), record.last_line)
    write_release(project, before, {g.edition: snapshot_bytes(g) for g in guides}, lines)


def test_a_fleet_that_never_released_has_no_history_and_no_folder(project: Project) -> None:
    findings = Findings()

    assert read_history(project, [T_17], findings) is None
    assert len(findings) == 0
    assert not project.records.exists()


def test_what_was_released_is_read_back(project: Project) -> None:
    release(project, T_17)
    release(project, E_04)
    findings = Findings()

    history = read_history(project, [T_17, E_04], findings)

    assert history is not None
    assert history.drafts == ()
    assert [history.of(n).last for n in ("T-17", "E-04")] == [released(T_17), released(E_04)]
    assert len(findings) == 0
    assert not list(project.records.rglob("*.new"))


def test_git_is_told_to_change_no_line_end(project: Project) -> None:
    release(project, T_17)

    assert b"* -text\n" in (project.records / ".gitattributes").read_bytes()


def test_a_crash_before_the_line_is_written_leaves_the_record_as_it_was(
    project: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    release(project, T_17)
    before = record_bytes(project)
    replace = os.replace

    def crash(source: Path, target: Path) -> None:
        if Path(target) == record_path(project):
            raise OSError("the power went")
        replace(source, target)

    monkeypatch.setattr(os, "replace", crash)
    with pytest.raises(OSError, match="power"):
        release(project, E_04)
    monkeypatch.undo()
    findings = Findings()

    assert record_bytes(project) == before
    assert edition_path(project, E_04.edition).is_file()
    record = open_record(project, findings)
    assert record is not None
    check_editions(project, record, findings)
    assert len(findings) == 0
    release(project, E_04)
    history = read_history(project, [E_04], findings)
    assert history is not None
    assert history.of("E-04").last == released(E_04)


def test_a_release_that_another_one_came_before_is_not_written(project: Project) -> None:
    release(project, T_17)

    with pytest.raises(RecordChanged):
        write_release(project, b"", {}, lines_of([released(E_04)], b""))

    record = open_record(project, Findings())
    assert record is not None
    assert record.revisions == (released(T_17),)


def test_an_edition_that_is_gone_or_changed_is_found(project: Project) -> None:
    release(project, T_17, E_04)
    edition_path(project, T_17.edition).unlink()
    path = edition_path(project, E_04.edition)
    path.write_bytes(path.read_bytes().replace(b"650", b"560", 1))
    record = open_record(project, Findings())
    assert record is not None
    findings = Findings()

    check_editions(project, record, findings)

    assert [each.rule.name for each in findings] == ["edition-damaged", "edition-damaged"]
    assert {each.where.partition(":")[0] for each in findings} == {
        f"records/editions/{guide.edition}.json" for guide in (T_17, E_04)
    }
