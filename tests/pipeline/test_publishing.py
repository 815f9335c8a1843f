import hashlib
import os
import random
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from few_trucks import keep, without_cards

Run = Callable[..., Any]


def contents(site: Path) -> dict[str, str]:
    """Digest of every file by path."""
    return {
        path.relative_to(site).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in site.rglob("*")
        if path.is_file()
    }


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def small(project: Path) -> Path:
    """Leave two trucks and no cards: what is tested many times need not take long."""
    return without_cards(keep(project, ("T-17", "T-18")))


def begin_build(project: Path, *arguments: str) -> subprocess.Popen[bytes]:
    """Start a build that can be killed, with an interpreter of its own as users start it."""
    return subprocess.Popen(
        [sys.executable, "-m", "guidegen", "build", *arguments],
        cwd=project,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )


def test_two_builds_of_one_fleet_are_equal_to_the_byte(few_built_once: Path, again: Path) -> None:
    assert contents(again / "site") == contents(few_built_once / "site")


def test_the_site_engine_alone_gives_the_same_site(few_built_once: Path, few: Path) -> None:
    subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--quiet"],
        cwd=few,
        check=True,
        env={**os.environ, "PYTHONWARNINGS": ""},
    )

    assert contents(few / "site") == contents(few_built_once / "site")


def test_nothing_is_left_beside_the_site(demo: Path) -> None:
    assert sorted(path.name for path in demo.iterdir()) == [
        ".gitignore",
        "docs",
        "mkdocs.yml",
        "schema",
        "site",
        "specs",
    ]


def test_a_build_whose_proof_fails_publishes_nothing_and_leaves_a_report(
    run: Run, few_built: Path
) -> None:
    """A theme of the fleet's own hides cautions; the office must not get that onto tablets."""
    before = contents(few_built / "site")
    edit(few_built / "mkdocs.yml", "extra_css:", "extra_css:\n  - hiding.css")
    (few_built / "docs" / "hiding.css").write_text(
        "[data-caution] {display: none}", encoding="utf-8"
    )

    ran = run("build", folder=few_built)

    assert ran.code == 1
    assert "caution-hidden" in ran.err
    assert "not published" in ran.out
    assert contents(few_built / "site") == before
    assert (few_built / "site-proof-failed" / "proof.html").is_file()


def test_a_build_with_a_fault_in_the_library_leaves_the_old_site(run: Run, few_built: Path) -> None:
    before = contents(few_built / "site")
    edit(few_built / "specs" / "fleet.yml", "jurisdiction: us", "jurisdiction: mars")

    ran = run("build", folder=few_built)

    assert ran.code == 1
    assert contents(few_built / "site") == before


def test_a_build_killed_at_any_moment_leaves_the_old_or_the_new_site_whole(
    run: Run, project: Path
) -> None:
    built = small(project)
    assert run("build", folder=built).code == 0
    old = contents(built / "site")
    edit(built / "specs" / "models" / "drumlin-72.yml", "cut_out: 130 psi", "cut_out: 128 psi")
    start = time.monotonic()
    assert begin_build(built, "--site", "elsewhere").wait() == 0
    duration = time.monotonic() - start
    new = contents(built / "elsewhere")
    assert new != old
    moments = random.Random(7)  # noqa: S311 -- moments, not secrets
    ended = set()

    for _ in range(6):
        process = begin_build(built)
        time.sleep(duration * moments.uniform(0.5, 1.1))
        process.kill()
        process.wait()
        found = contents(built / "site")
        assert found in (old, new)
        ended.add(found == new)

    assert run("build", folder=built).code == 0
    assert contents(built / "site") == new
    assert not [path.name for path in built.iterdir() if path.name.startswith(".site.")]


def test_a_round_that_cannot_be_done_is_reported_and_holds_its_trucks_back(
    run: Run, few: Path, project_root: Path
) -> None:
    shutil.copytree(project_root / "site_templates", without_cards(few) / "site_templates")
    template = few / "site_templates" / "procedures" / "coolant-level-electric.yml"
    text = template.read_text(encoding="utf-8")
    begin = text.index("state:")
    end = text.index("\nstation:", begin)
    changed = text[:begin] + "state: {drive: ready, key: out}" + text[end:]
    template.write_text(changed, encoding="utf-8", newline="\n")

    checked = run("check", folder=few)
    built = run("build", folder=few)

    for ran in (checked, built):
        assert ran.code == 1
        place = re.search(r"coolant-level-electric\.yml:\d+:\d+: error\[(.*?)\]", ran.out + ran.err)
        assert place is not None
        assert place[1] == "state-contradicts-itself"
    site = few / "site"
    assert not (site / "E-02").exists()
    assert (site / "T-17" / "round.html").is_file()
    assert "E-02" in (site / "index.html").read_text(encoding="utf-8")


def test_every_truck_of_the_demo_fleet_has_a_round_that_its_start_page_leads_to(
    demo: Path,
) -> None:
    starts = sorted((demo / "site").glob("*-*/index.html"))
    assert len(starts) == 8
    for start in starts:
        assert 'href="round.html"' in start.read_text(encoding="utf-8")
        assert start.with_name("round.html").is_file()
