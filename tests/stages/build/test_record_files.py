import os
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from failing_disk import CutOffDisk, HastyDisk, Killed
from sample_fleet import E_04, T_17

from guidegen.build.disk import Disk
from guidegen.build.lock import Locked
from guidegen.build.project import Project
from guidegen.build.record_files import (
    RecordChanged,
    alone,
    check_editions,
    edition_name,
    edition_path,
    finish_release,
    open_record,
    outputs_name,
    read_history,
    read_outputs,
    record_bytes,
    record_path,
    write_release,
)
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.revisions.model import Revision
from guidegen.revisions.record import lines_of
from guidegen.revisions.snapshot import digest_of, snapshot_bytes

HASTY = HastyDisk()
SINCE = "2026-11-30 07:15"
LISTED = b"%s  T-17/index.html\n" % (b"0" * 64)


@pytest.fixture
def project(tmp_path: Path, project_root: Path) -> Project:
    return Project(tmp_path, project_root / "site_templates")


def released(guide: Guide, number: int = 1) -> Revision:
    kept = digest_of(snapshot_bytes(guide))
    return Revision(guide.number, number, "2026-11-30", "R. Aldous", guide.edition, kept, ())


def release(project: Project, *guides: Guide, disk: Disk = HASTY) -> None:
    before = record_bytes(project)
    record = open_record(project, Findings())
    assert record is not None
    lines = lines_of(map(released, guides), record.last_line)
    kept = {edition_name(each.edition): snapshot_bytes(each) for each in guides}
    write_release(project, before, kept, lines, disk)


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


def faults_of(project: Project) -> list[str]:
    """Return what is wrong with record and editions; nothing may be, and no chain is broken."""
    findings = Findings()
    record = open_record(project, findings)
    if record is not None:
        check_editions(project, record, findings)
    return [f"{each.rule.name}: {each.what}" for each in findings]


def test_a_release_cut_short_at_any_moment_is_done_or_not_begun(
    project: Project, tmp_path: Path
) -> None:
    release(project, T_17)
    before = record_bytes(project)
    done = []
    for moment in range(10_000):
        cut = Project(tmp_path / f"cut-{moment}", project.templates)
        shutil.copytree(project.records, cut.records)
        try:
            release(cut, E_04, disk=CutOffDisk(moment))
        except Killed:
            is_over = False
        else:
            is_over = True
        done.append(record_bytes(cut) != before)
        assert faults_of(cut) == [], moment
        assert record_bytes(cut).startswith(before)
        if not done[-1]:
            # Whoever releases again gets what the first run meant.
            release(cut, E_04)
        history = read_history(cut, [T_17, E_04], Findings())
        assert history is not None
        assert [history.of(n).last for n in ("T-17", "E-04")] == [released(T_17), released(E_04)]
        release_more(cut)
        assert not list(cut.records.rglob("*.new")), moment
        if is_over:
            break
    assert done == sorted(done)
    assert len(done) > 15
    assert 1 < sum(done) < len(done) - 1


def test_a_first_release_cut_short_at_any_moment_leaves_nothing_to_be_warned_of(
    project: Project, tmp_path: Path
) -> None:
    lines = []
    for moment in range(10_000):
        cut = Project(tmp_path / f"cut-{moment}", project.templates)
        try:
            release(cut, T_17, disk=CutOffDisk(moment))
        except Killed:
            lines.append(len(record_bytes(cut).splitlines()))
        else:
            break
        assert faults_of(cut) == [], moment
    assert set(lines) == {0, 1}
    assert lines == sorted(lines)


@pytest.mark.parametrize("is_first", [True, False])
def test_what_a_cut_leaves_is_finished_by_a_release_that_has_nothing_to_issue(
    project: Project, *, is_first: bool
) -> None:
    release(project, T_17)
    head = project.records / "head"
    counted = head.read_bytes()
    release(project, E_04)
    whole = {path: path.read_bytes() for path in project.records.rglob("*") if path.is_file()}
    head.write_bytes(counted)
    (project.records / ".head.new").write_bytes(b"2 ")
    if is_first:
        head.unlink()

    finish_release(project, HASTY)

    left = {path: path.read_bytes() for path in project.records.rglob("*") if path.is_file()}
    assert left == whole


def release_more(project: Project) -> None:
    """Release T-17 once more, as a run after the one that was cut short does."""
    record = open_record(project, Findings())
    assert record is not None
    number = len(record.of("T-17")) + 1
    again = replace(released(T_17, number), number=number)
    lines = lines_of([again], record.last_line)
    write_release(project, record_bytes(project), {}, lines, HASTY)


@pytest.mark.parametrize("lines", [0, 1, 2])
def test_lines_that_were_cut_off_at_the_end_are_missed(project: Project, lines: int) -> None:
    release(project, T_17)
    release(project, E_04)
    release_more(project)
    kept = record_bytes(project).splitlines(keepends=True)[:lines]
    record_path(project).write_bytes(b"".join(kept))
    findings = Findings()

    assert open_record(project, findings) is None

    (finding,) = findings
    assert finding.rule.name == "record-cut-off"
    gone = 3 - lines
    assert f"{gone} line{' is' if gone == 1 else 's are'} gone" in finding.what
    assert "git restore records/revisions.jsonl records/head" in finding.fix


def test_a_record_that_is_gone_is_missed(project: Project) -> None:
    release(project, T_17)
    record_path(project).unlink()

    assert "record-cut-off" in faults_of(project)[0]


def test_a_record_written_anew_from_its_beginning_is_found(project: Project) -> None:
    release(project, T_17)
    release(project, E_04)
    other = replace(released(T_17), by="Nobody")
    record_path(project).write_bytes(b"".join(lines_of([other, released(E_04)], b"")))

    assert "written anew" in faults_of(project)[0]


def test_a_record_whose_length_nobody_knows_is_warned_of_until_the_next_release(
    project: Project,
) -> None:
    release(project, T_17)
    (project.records / "head").unlink()
    findings = Findings()

    assert open_record(project, findings) is not None
    assert [each.rule.name for each in findings] == ["record-without-head"]
    assert not findings.has_errors

    release(project, E_04)
    assert faults_of(project) == []


def test_every_changed_byte_of_the_head_is_found(project: Project) -> None:
    release(project, T_17, E_04)
    path = project.records / "head"
    raw = path.read_bytes()
    for place in range(len(raw)):
        for bit in range(8):
            changed = bytearray(raw)
            changed[place] ^= 1 << bit
            path.write_bytes(changed)
            # A count of fewer lines has the hash of more than these.
            assert faults_of(project), (place, bit)


def test_what_was_published_of_a_revision_is_read_back_and_held_to_its_hash(
    project: Project,
) -> None:
    revision = replace(released(T_17), outputs=digest_of(LISTED), program="26.1.0+0123456789ab")
    lines = lines_of([revision], b"")
    kept = {
        edition_name(T_17.edition): snapshot_bytes(T_17),
        outputs_name(revision): LISTED,
    }
    write_release(project, b"", kept, lines, HASTY)
    findings = Findings()

    assert read_outputs(project, revision, findings) == {"T-17/index.html": "0" * 64}
    assert len(findings) == 0
    path = project.records / outputs_name(revision)
    for raw in (LISTED.replace(b"0", b"1", 1), b""):
        path.write_bytes(raw)
        own = Findings()
        assert read_outputs(project, revision, own) is None
        assert [each.rule.name for each in own] == ["list-of-pages-damaged"]
    assert read_outputs(project, released(T_17), findings) is None
    assert len(findings) == 0


def test_of_two_releases_at_once_the_second_is_refused(project: Project) -> None:
    with alone(project, SINCE, HASTY):
        with pytest.raises(Locked, match=f"process {os.getpid()} on "), alone(project, SINCE):
            pass
        release(project, T_17)

    assert faults_of(project) == []
    assert not (project.records / "release.lock").exists()


def test_a_release_that_comes_to_nothing_leaves_no_folder(project: Project) -> None:
    with alone(project, SINCE, HASTY):
        pass

    assert not project.records.exists()
