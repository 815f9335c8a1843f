import errno
import os
import shutil
import subprocess
from pathlib import Path

import pytest
from failing_disk import FullDisk, ReadOnlyDisk
from published_site import as_read, built, contents, opened, publish, roll_back, versions_in

from guidegen.build.disk import Disk
from guidegen.build.publish import Moment, Publishing, open_proved_site
from guidegen.build.targets import open_target
from guidegen.finding import Findings

POINTER = pytest.mark.parametrize("pointer", [False, True], ids=["link", "pointer"])


def refused(site: Path) -> list[str]:
    findings = Findings()
    assert open_proved_site(site, findings) is None
    return [f"{each.rule.name}: {each.what}" for each in findings]


@POINTER
def test_readers_see_what_was_proved_byte_for_byte(tmp_path: Path, *, pointer: bool) -> None:
    site, target = built(tmp_path / "site", "one"), tmp_path / "web" / "guides"
    target.parent.mkdir()

    switched = publish(site, target, pointer=pointer)

    assert switched is not None
    assert switched.version.units == {"T-17": "one"}
    assert as_read(target, pointer=pointer) == contents(site)


@POINTER
def test_the_same_site_is_not_published_twice(tmp_path: Path, *, pointer: bool) -> None:
    site, target = built(tmp_path / "site", "one"), tmp_path / "guides"
    publish(site, target, pointer=pointer)
    before = versions_in(target, pointer=pointer)

    switched = publish(site, target, pointer=pointer)

    assert switched is not None
    assert not switched.is_switched
    assert versions_in(target, pointer=pointer) == before


@POINTER
def test_a_published_version_that_was_damaged_is_published_anew(
    tmp_path: Path, *, pointer: bool
) -> None:
    site, target = built(tmp_path / "site", "one"), tmp_path / "guides"
    switched = publish(site, target, pointer=pointer)
    assert switched is not None
    shown = open_target(target).versions / switched.version.name
    (shown / "T-17" / "index.html").write_text("two", encoding="utf-8")

    again = publish(site, target, pointer=pointer)

    assert again is not None
    assert again.is_switched
    assert as_read(target, pointer=pointer) == contents(site)


@POINTER
def test_the_last_three_versions_are_kept(tmp_path: Path, *, pointer: bool) -> None:
    target = tmp_path / "guides"
    for word in ("one", "two", "three", "four", "five"):
        publish(built(tmp_path / "site", word), target, pointer=pointer)

    numbers = sorted(int(name[:6]) for name in versions_in(target) if name.endswith(".json"))

    assert numbers == [3, 4, 5]
    assert len(versions_in(target)) == 2 * 3 + 1


@POINTER
def test_a_rollback_goes_back_once_and_once_more_and_then_says_that_nothing_is_left(
    tmp_path: Path, *, pointer: bool
) -> None:
    target = tmp_path / "guides"
    sites = [built(tmp_path / word, word) for word in ("one", "two", "three")]
    for site in sites:
        publish(site, target, pointer=pointer)

    for site in (sites[1], sites[0]):
        assert roll_back(target) is not None
        assert as_read(target, pointer=pointer) == contents(site)
    findings = Findings()

    assert roll_back(target, findings=findings) is None
    assert [each.rule.name for each in findings] == ["no-version-before"]
    assert as_read(target, pointer=pointer) == contents(sites[0])


def test_after_a_rollback_the_version_before_is_the_one_that_readers_saw(tmp_path: Path) -> None:
    target = tmp_path / "guides"
    for word in ("good", "bad"):
        publish(built(tmp_path / word, word), target)
    roll_back(target)
    publish(built(tmp_path / "mended", "mended"), target)

    switched = roll_back(target)

    assert switched is not None
    assert as_read(target) == contents(tmp_path / "good")


def test_versions_are_in_order_although_the_clock_was_set_back(tmp_path: Path) -> None:
    target = tmp_path / "guides"
    for word, day in (("one", "2026-12-24"), ("two", "2026-11-01"), ("three", "1970-01-01")):
        publish(built(tmp_path / word, word), target, moment=Moment(f"{day} 00:00"), keep=2)

    listed = Publishing(open_target(target), Findings()).listed()

    assert [(each.number, standing) for each, standing in listed] == [(3, "shown"), (2, "before")]
    switched = roll_back(target)
    assert switched is not None
    assert switched.version.published == "2026-11-01 00:00"


def test_a_version_that_is_not_whole_is_not_gone_back_to(tmp_path: Path) -> None:
    target = tmp_path / "guides"
    first = publish(built(tmp_path / "site", "one"), target)
    publish(built(tmp_path / "site", "two"), target)
    assert first is not None
    (open_target(target).versions / first.version.name / "T-17" / "air-brakes.html").unlink()
    findings = Findings()

    assert roll_back(target, findings=findings) is None

    (finding,) = findings
    assert finding.rule.name == "version-damaged"
    assert "`T-17/air-brakes.html` is gone" in finding.what
    assert as_read(target) == contents(tmp_path / "site")


def test_a_site_that_was_changed_by_hand_is_refused_file_by_file(tmp_path: Path) -> None:
    site = built(tmp_path / "site", "130 psi")
    (site / "T-17" / "index.html").write_text("180 psi", encoding="utf-8")
    (site / "T-17" / "air-brakes.html").unlink()
    (site / "T-17" / "notes.html").write_text("", encoding="utf-8")

    assert refused(site) == [
        "site-changed-since-proof: `T-17/air-brakes.html` is gone since the proof",
        "site-changed-since-proof: `T-17/index.html` was changed since the proof",
        "site-changed-since-proof: `T-17/notes.html` came in since the proof",
    ]


def test_every_file_of_a_site_is_held_to_what_was_proved(tmp_path: Path) -> None:
    site = built(tmp_path / "site", "one")
    for path in sorted(path for path in site.rglob("*") if path.is_file()):
        raw = path.read_bytes()
        path.write_bytes(raw[:-1] + bytes([raw[-1] ^ 1]))
        assert len(refused(site)) == 1, path
        path.write_bytes(raw)
    opened(site)


def test_a_site_without_a_proof_is_refused(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    assert "site-without-proof" in refused(tmp_path / "site")[0]
    assert "has not passed" in refused(built(tmp_path / "failed", "one", proved=False))[0]


@POINTER
def test_a_folder_with_files_of_others_is_refused_and_left_as_it_is(
    tmp_path: Path, *, pointer: bool
) -> None:
    target = tmp_path / "guides"
    target.mkdir()
    (target / "index.html").write_text("the depot's menu", encoding="utf-8")
    findings = Findings()

    assert publish(built(tmp_path / "site", "one"), target, findings=findings, pointer=pointer) is (
        None
    )

    (finding,) = findings
    assert finding.rule.name == "target-not-its-own"
    assert "move it away" in finding.fix
    assert contents(tmp_path / "guides") == {"index.html": b"the depot's menu"}
    assert sorted(path.name for path in tmp_path.iterdir()) == ["guides", "site"]


def test_an_empty_folder_gives_way(tmp_path: Path) -> None:
    target = tmp_path / "guides"
    target.mkdir()

    assert publish(built(tmp_path / "site", "one"), target) is not None
    assert as_read(target) == contents(tmp_path / "site")


def test_a_link_to_somewhere_else_is_refused(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    target = tmp_path / "guides"
    target.symlink_to("elsewhere")
    findings = Findings()

    assert publish(built(tmp_path / "site", "one"), target, findings=findings) is None
    assert [each.rule.name for each in findings] == ["target-not-its-own"]
    assert target.readlink() == Path("elsewhere")


@POINTER
def test_a_file_of_others_among_the_versions_is_never_deleted(
    tmp_path: Path, *, pointer: bool
) -> None:
    target = tmp_path / "guides"
    first = publish(built(tmp_path / "site", "one"), target, pointer=pointer)
    assert first is not None
    folder = open_target(target).versions / first.version.name
    (folder / "T-17" / "trainer's notes.txt").write_text("keep", encoding="utf-8")
    findings = Findings()

    for word in ("two", "three"):
        publish(built(tmp_path / "site", word), target, keep=1, findings=findings)

    assert contents(folder) == {"T-17/trainer's notes.txt": b"keep"}
    assert {each.rule.name for each in findings} == {"version-left-over"}
    assert not findings.has_errors
    assert as_read(target, pointer=pointer) == contents(tmp_path / "site")


@pytest.mark.parametrize("inside", [True, False])
def test_a_target_within_the_site_or_around_it_is_refused(tmp_path: Path, *, inside: bool) -> None:
    site = built(tmp_path / "guides" / "site", "one")
    target = site / "web" if inside else tmp_path / "guides"
    before = contents(tmp_path)
    findings = Findings()

    assert publish(site, target, findings=findings, pointer=True) is None
    assert [each.rule.name for each in findings] == ["target-not-its-own"]
    assert contents(tmp_path) == before


@POINTER
def test_a_full_disk_leaves_readers_with_what_they_saw(tmp_path: Path, *, pointer: bool) -> None:
    first, second = built(tmp_path / "first", "one"), built(tmp_path / "second", "two")
    for writes in range(100):
        target = tmp_path / str(writes) / "guides"
        target.parent.mkdir()
        publish(first, target, pointer=pointer)
        disk, findings = FullDisk(writes), Findings()

        switched = publish(second, target, disk, findings=findings, pointer=pointer)

        if not disk.is_full:
            assert switched is not None
            break
        assert switched is None
        (finding,) = findings
        assert finding.rule.name == "target-not-written"
        assert os.strerror(errno.ENOSPC) in finding.what
        assert as_read(target, pointer=pointer) == contents(first)
        assert publish(second, target, pointer=pointer) is not None
        assert as_read(target, pointer=pointer) == contents(second)
    assert writes > 9


@POINTER
def test_a_place_that_cannot_be_written_to_is_told(tmp_path: Path, *, pointer: bool) -> None:
    site, target = built(tmp_path / "site", "one"), tmp_path / "guides"
    findings = Findings()

    assert publish(site, target, ReadOnlyDisk(), findings=findings, pointer=pointer) is None
    assert [each.rule.name for each in findings] == ["target-not-written"]
    assert not target.exists()

    publish(site, target, pointer=pointer)
    findings = Findings()
    other = built(tmp_path / "other", "two")
    assert publish(other, target, ReadOnlyDisk(), findings=findings, pointer=pointer) is None
    assert [each.rule.name for each in findings] == ["target-not-written"]
    assert as_read(target, pointer=pointer) == contents(site)


def test_where_no_link_can_be_made_the_pointer_is_named(tmp_path: Path) -> None:
    class Linkless(Disk):
        def link(self, path: Path, to: str) -> None:  # noqa: ARG002 -- to anywhere
            raise OSError(errno.EPERM, os.strerror(errno.EPERM), str(path))

    findings = Findings()

    assert publish(built(tmp_path / "s", "one"), tmp_path / "g", Linkless(), findings=findings) is (
        None
    )
    (finding,) = findings
    assert "--pointer" in finding.fix


def test_a_pointer_is_known_again_without_the_option(tmp_path: Path) -> None:
    target = tmp_path / "guides"
    publish(built(tmp_path / "site", "one"), target, pointer=True)

    publish(built(tmp_path / "site", "two"), target)

    assert as_read(target, pointer=True) == contents(tmp_path / "site")
    names = sorted(path.name for path in target.iterdir())
    assert names == ["current.txt", "index.html", "versions"]


def test_a_reader_with_the_old_version_open_keeps_it_until_it_is_no_longer_kept(
    tmp_path: Path,
) -> None:
    target = tmp_path / "guides"
    publish(built(tmp_path / "site", "one"), target, pointer=True, keep=2)
    page = (target / "versions").glob("000001-*/T-17/air-brakes.html")
    (opened_page,) = page

    publish(built(tmp_path / "site", "two"), target, keep=2)
    assert opened_page.is_file()
    publish(built(tmp_path / "site", "three"), target, keep=2)
    assert not opened_page.exists()


def test_a_copy_is_read_back_before_it_is_shown(tmp_path: Path) -> None:
    class Lossy(Disk):
        def write(self, path: Path, content: bytes) -> None:
            is_page = path.suffix == ".html"
            super().write(path, content.replace(b"two", b"twq") if is_page else content)

    target = tmp_path / "guides"
    first = built(tmp_path / "first", "one")
    publish(first, target)
    findings = Findings()

    assert publish(built(tmp_path / "second", "two"), target, Lossy(), findings=findings) is None
    assert [each.rule.name for each in findings] == ["version-damaged"]
    assert as_read(target) == contents(first)


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="it is not installed")
def test_the_list_of_files_is_one_that_coreutils_check(tmp_path: Path) -> None:
    """GNU coreutils: `sha256sum --check` reads lines of a hash, two spaces and a name."""
    site = built(tmp_path / "site", "one")
    done = subprocess.run(
        ["sha256sum", "--check", "--strict", "office/files.sha256"], cwd=site, check=False
    )
    assert done.returncode == 0
