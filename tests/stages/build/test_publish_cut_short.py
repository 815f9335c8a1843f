"""Publishing that is killed: readers see the old version or the new one, whole."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from failing_disk import CutOffDisk, Killed
from published_site import as_read, built, contents, publish, roll_back, versions_in

from guidegen.build.disk import Disk

POINTER = pytest.mark.parametrize("pointer", [False, True], ids=["link", "pointer"])
LONG = 10_000
KEEP = 2

_AGAIN_AND_AGAIN = """
import sys
from pathlib import Path
from published_site import publish
first, second, target = map(Path, sys.argv[1:4])
print("ready", flush=True)
while True:
    for site in (first, second):
        publish(site, target, keep=2, pointer=sys.argv[4] == "pointer")
"""


def moments_of(before: Path, act: Callable[[Path, Disk], object]) -> list[tuple[Path, bool]]:
    """Run *act* once for each moment at which it can be cut short, and once to its end.

    Returns the place of each run, a copy of what is *before*, and whether it came to its end.
    """
    runs = []
    for moment in range(LONG):
        disk = CutOffDisk(moment)
        place = before.with_name(f"cut-{moment}")
        shutil.copytree(before, place, symlinks=True)
        try:
            act(place / "guides", disk)
        except Killed:
            runs.append((place / "guides", False))
        else:
            runs.append((place / "guides", True))
            return runs
    raise AssertionError("it never came to its end")


def published(sites: Sequence[Path], *, pointer: bool) -> Path:
    """Return a folder in which *sites* were published one after the other."""
    place = sites[0].parent / "before"
    place.mkdir()
    for site in sites:
        publish(site, place / "guides", keep=KEEP, pointer=pointer)
    return place


@POINTER
def test_cut_short_at_any_moment_readers_see_the_old_version_or_the_new_one(
    tmp_path: Path, *, pointer: bool
) -> None:
    sites = [built(tmp_path / word, word) for word in ("one", "two", "three", "four")]
    old, new = contents(sites[2]), contents(sites[3])

    runs = moments_of(
        published(sites[:3], pointer=pointer),
        lambda target, disk: publish(sites[3], target, disk, keep=KEEP, pointer=pointer),
    )

    seen = []
    for target, is_done in runs:
        found = as_read(target, pointer=pointer)
        assert found in (old, new), target
        assert found == new or not is_done
        seen.append(found == new)
    # Once the new one is seen, a later cut does not bring the old one back.
    assert seen == sorted(seen)
    assert len(seen) >= 60
    assert 0 < sum(seen) < len(seen)


@POINTER
def test_after_a_cut_at_any_moment_the_next_run_publishes_and_clears_up(
    tmp_path: Path, *, pointer: bool
) -> None:
    sites = [built(tmp_path / word, word) for word in ("one", "two", "three", "four")]

    for target, _ in moments_of(
        published(sites[:3], pointer=pointer),
        lambda target, disk: publish(sites[3], target, disk, keep=KEEP, pointer=pointer),
    ):
        switched = publish(sites[3], target, keep=KEEP, pointer=pointer)

        assert switched is not None
        assert as_read(target, pointer=pointer) == contents(sites[3])
        kept = versions_in(target, pointer=pointer)
        assert len(kept) == 2 * KEEP + 1, (target, kept)
        assert not [path for path in target.parent.rglob("*") if path.name.endswith(".new")]
        assert roll_back(target) is not None
        assert as_read(target, pointer=pointer) == contents(sites[2])


@POINTER
def test_a_first_version_that_is_cut_short_leaves_nothing_or_all_of_it(
    tmp_path: Path, *, pointer: bool
) -> None:
    site = built(tmp_path / "site", "one")

    (tmp_path / "nothing").mkdir()
    runs = moments_of(
        tmp_path / "nothing", lambda target, disk: publish(site, target, disk, pointer=pointer)
    )

    assert len(runs) > 30
    for target, _ in runs:
        if (target / "index.html").is_file():
            assert as_read(target, pointer=pointer) == contents(site)
        assert publish(site, target, pointer=pointer) is not None
        assert as_read(target, pointer=pointer) == contents(site)
        assert len(versions_in(target, pointer=pointer)) == 3


@POINTER
def test_a_rollback_cut_short_at_any_moment_shows_one_of_the_two(
    tmp_path: Path, *, pointer: bool
) -> None:
    old, new = built(tmp_path / "old", "old"), built(tmp_path / "new", "new")

    runs = moments_of(published([old, new], pointer=pointer), roll_back)

    seen = [as_read(target, pointer=pointer) for target, _ in runs]
    assert all(found in (contents(old), contents(new)) for found in seen)
    assert seen[0] == contents(new)
    assert seen[-1] == contents(old)
    for target, _ in runs:
        assert publish(new, target, pointer=pointer) is not None
        assert as_read(target, pointer=pointer) == contents(new)


def start(*arguments: str) -> "subprocess.Popen[str]":
    tests = Path(__file__).parents[2]
    path = os.pathsep.join((str(tests), str(tests.parent), os.environ.get("PYTHONPATH", "")))
    return subprocess.Popen(
        [sys.executable, "-c", _AGAIN_AND_AGAIN, *arguments],
        env={**os.environ, "PYTHONPATH": path},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


@POINTER
def test_a_run_of_the_command_line_that_is_killed_leaves_one_version_whole(
    tmp_path: Path, *, pointer: bool
) -> None:
    """One kill as users see it; `tests/pipeline/test_killed_commands.py` has hundreds."""
    first, second = built(tmp_path / "first", "one"), built(tmp_path / "second", "two")
    target = tmp_path / "guides"
    publish(first, target, pointer=pointer)
    there = versions_in(target, pointer=pointer)
    running = subprocess.Popen(
        [sys.executable, "-m", "guidegen", "publish", str(target), "--site", str(second)],
        cwd=tmp_path,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    while running.poll() is None and versions_in(target, pointer=pointer) == there:
        # A reader in between: through the link, or on the page that leads on.
        assert (target / "index.html").read_bytes()
    running.kill()
    running.communicate()

    assert as_read(target, pointer=pointer) in (contents(first), contents(second))
    assert publish(second, target, pointer=pointer, keep=KEEP) is not None
    assert as_read(target, pointer=pointer) == contents(second)
    assert len(versions_in(target, pointer=pointer)) == 2 * KEEP + 1


@POINTER
def test_of_two_runs_at_once_readers_get_one_whole_and_then_the_other(
    tmp_path: Path, *, pointer: bool
) -> None:
    sites = [built(tmp_path / word, word) for word in ("one", "two")]
    target = tmp_path / "guides"
    publish(sites[0], target, pointer=pointer)
    way = "pointer" if pointer else "link"
    running = [start(*map(str, (*order, target)), way) for order in (sites, sites[::-1])]
    try:
        for each in running:
            assert each.stdout is not None
            assert each.stdout.readline() == "ready\n"
        for _ in range(2000):
            page = (target / "index.html").read_text(encoding="utf-8")
            assert page in ("one", "two") or page.endswith("</html>\n")
    finally:
        for each in running:
            each.kill()
        left = [each.communicate()[1] for each in running]
    assert left == ["", ""]
    assert as_read(target, pointer=pointer) in [contents(site) for site in sites]
    assert publish(sites[1], target, pointer=pointer) is not None
    assert as_read(target, pointer=pointer) == contents(sites[1])
