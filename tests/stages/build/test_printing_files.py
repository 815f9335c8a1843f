import os
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path

import pytest
from failing_disk import CutOffDisk, FullDisk, HastyDisk, Killed, ReadOnlyDisk
from sample_fleet import T_17
from sample_printings import collected, deck, printed

from guidegen.build.disk import Disk
from guidegen.build.lock import held
from guidegen.build.print_record import Entry, Occasion, put_on_record
from guidegen.build.printing_files import (
    Decks,
    RecordDamaged,
    add_printings,
    deck_name,
    open_printings,
    printings_folder,
    printings_path,
)
from guidegen.build.project import Project
from guidegen.finding import Findings
from guidegen.printings.deck import deck_bytes
from guidegen.printings.model import Printing, PrintRecord
from guidegen.revisions.snapshot import digest_of

HASTY = HastyDisk()
SINCE = "2026-11-30 07:15"
OCTOBER = printed("T-17", "2026-10-01", "brakes", "fluids")
NOVEMBER = printed("E-02", "2026-11-30", "brakes")
WORDS = deck_bytes(deck(T_17))
DECKS = {digest_of(WORDS): WORDS}


@pytest.fixture
def project(tmp_path: Path, project_root: Path) -> Project:
    return Project(tmp_path / "fleet", project_root / "site_templates")


def add(
    project: Project,
    *printings: Printing,
    decks: Mapping[str, bytes] = DECKS,
    disk: Disk = HASTY,
) -> None:
    add_printings(project, printings, decks, SINCE, disk)


def opened(project: Project) -> PrintRecord:
    findings = Findings()
    record = open_printings(project, findings)
    assert record is not None, [each.what for each in findings]
    assert len(findings) == 0, [each.what for each in findings]
    return record


def faults(project: Project) -> list[str]:
    findings = Findings()
    open_printings(project, findings)
    return [each.rule.name for each in findings]


def test_a_fleet_that_never_printed_has_an_empty_record_and_no_folder(project: Project) -> None:
    assert opened(project) == PrintRecord()
    assert not project.records.exists()


def test_printings_are_added_and_the_words_of_their_cards_kept(project: Project) -> None:
    add(project, OCTOBER)
    before = printings_path(project).read_bytes()
    add(project, NOVEMBER, collected("T-17", "2026-11-30", "fluids"))
    findings = Findings()

    assert printings_path(project).read_bytes().startswith(before)
    assert len(opened(project).printings) == 3
    (digest,) = DECKS
    words = Decks(project, findings).kept(digest)
    assert words is not None
    assert words.cards == deck(T_17).cards
    assert not (printings_folder(project) / "printings.lock").exists()


def test_words_that_are_gone_are_a_finding_once(project: Project) -> None:
    add(project, OCTOBER)
    (digest,) = DECKS
    (printings_folder(project) / deck_name(digest)).unlink()
    findings = Findings()
    decks = Decks(project, findings)

    assert decks.kept(digest) is decks.kept(digest) is None
    (finding,) = findings
    assert finding.rule.name == "printed-words-damaged"
    assert f"git restore records/printings/decks/{digest}.json" in finding.fix


def test_a_run_cut_short_at_any_moment_is_on_record_or_not_at_all(
    project: Project, tmp_path: Path
) -> None:
    add(project, OCTOBER)
    before = printings_path(project).read_bytes()
    other = {"0" * 64: b"{}\n"}
    done = []
    for moment in range(1000):
        cut = Project(tmp_path / f"cut-{moment}", project.templates)
        shutil.copytree(project.records, cut.records)
        try:
            add(cut, NOVEMBER, decks=other, disk=CutOffDisk(moment))
        except Killed:
            is_over = False
        else:
            is_over = True
        assert printings_path(cut).read_bytes().startswith(before)
        done.append(printings_path(cut).read_bytes() != before)
        assert opened(cut).printings == (OCTOBER, *([NOVEMBER] if done[-1] else []))
        if done[-1]:
            # What a line names was kept before it.
            assert (printings_folder(cut) / deck_name("0" * 64)).is_file()
        add(cut, collected("T-17", "2026-12-01", "fluids"))
        assert len(opened(cut).printings) == (3 if done[-1] else 2)
        assert not list(cut.records.rglob("*.new")), moment
        if is_over:
            break
    assert done == sorted(done)
    assert 1 < sum(done) < len(done) - 5


@pytest.mark.parametrize("disk", [FullDisk(0), FullDisk(1), ReadOnlyDisk()])
def test_what_cannot_be_written_is_a_finding_and_the_record_stays(
    project: Project, disk: Disk
) -> None:
    add(project, OCTOBER, decks={})
    before = printings_path(project).read_bytes()
    findings = Findings()
    entry = Entry((NOVEMBER,), DECKS)

    is_recorded = put_on_record(project, entry, Occasion("2026-11-30", SINCE), findings, disk)

    assert not is_recorded
    (finding,) = findings
    assert finding.rule.name == "printing-not-recorded"
    assert printings_path(project).read_bytes() == before


def test_of_two_runs_at_once_the_second_is_told_who_was_first(project: Project) -> None:
    add(project, OCTOBER)
    findings = Findings()
    with held(printings_folder(project) / "printings.lock", SINCE, HASTY):
        entry = Entry((NOVEMBER,), {})
        assert not put_on_record(project, entry, Occasion("2026-11-30", SINCE), findings)

    (finding,) = findings
    assert finding.rule.name == "other-run-under-way"
    assert f"process {os.getpid()} on " in finding.what
    assert opened(project).printings == (OCTOBER,)


def test_nothing_is_added_to_a_damaged_record(project: Project) -> None:
    add(project, OCTOBER)
    path = printings_path(project)
    path.write_bytes(path.read_bytes().replace(b"T-17", b"T-18", 1))

    assert faults(project) == ["printings-damaged"]
    with pytest.raises(RecordDamaged):
        add(project, NOVEMBER)


def test_a_record_that_is_gone_is_missed(project: Project) -> None:
    add(project, OCTOBER)
    printings_path(project).unlink()

    assert faults(project) == ["printings-cut-off"]


def git(folder: Path, *arguments: str) -> None:
    named = ("-c", "user.name=Clerk", "-c", "user.email=clerk@example.org")
    done = subprocess.run(
        ["git", *named, *arguments], cwd=folder, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, (arguments, done.stdout, done.stderr)


@pytest.mark.skipif(shutil.which("git") is None, reason="needs git")
@pytest.mark.parametrize("is_first", [True, False])
def test_git_merges_what_two_clerks_have_printed(
    project: Project,
    is_first: bool,  # noqa: FBT001 -- named by the parameters
) -> None:
    """By git itself, which goes by the attributes that the first printing has left."""
    root = project.root
    root.mkdir()
    git(root, "init", "--quiet", "--initial-branch", "main")
    (root / "notes.txt").write_text("fleet\n", encoding="utf-8")
    if not is_first:
        add(project, OCTOBER)
    git(root, "add", ".")
    git(root, "commit", "--quiet", "-m", "start")
    git(root, "branch", "river")
    add(project, NOVEMBER)
    git(root, "add", ".")
    git(root, "commit", "--quiet", "-m", "printed at Mill Yard")
    git(root, "checkout", "--quiet", "river")
    other = printed("K-22", "2026-12-02", "brakes")
    add(project, other)
    git(root, "add", ".")
    git(root, "commit", "--quiet", "-m", "printed at River Street")

    git(root, "merge", "--quiet", "--no-edit", "main")

    merged = opened(project)
    assert set(merged.printings) == {NOVEMBER, other, *([] if is_first else [OCTOBER])}
    assert len(merged.tips) == 2
    add(project, printed("T-17", "2026-12-03", "brakes"))
    assert len(opened(project).tips) == 1
