import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, expect

Run = Callable[..., Any]
WAIT = 60_000


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


def test_a_built_site_is_published_listed_and_taken_back(
    run: Run, few_built: Path, tmp_path: Path
) -> None:
    target = tmp_path / "guides"
    first = contents(few_built / "site")

    ran = run("publish", str(target), folder=few_built)

    assert ran.code == 0, ran.err
    assert "version 1" in ran.out
    assert contents(target) == first

    edit(few_built / "specs" / "models" / "drumlin-72.yml", "cut_out: 130 psi", "cut_out: 125 psi")
    again = run("publish", str(target), folder=few_built)
    assert again.code == 0
    assert "warning[site-behind]" in again.err
    assert "T-17" in again.err
    assert "shows this already" in again.out

    assert run("build", folder=few_built).code == 0
    ran = run("publish", str(target), "--format", "json", folder=few_built)
    told = json.loads(ran.out)
    assert ran.code == 0, ran.err
    assert (told["version"], told["before"], told["switched"]) == (2, 1, True)
    assert contents(target) == contents(few_built / "site") != first

    listed = json.loads(
        run("publish", str(target), "--list", "--format", "json", folder=few_built).out
    )
    assert [(v["version"], v["standing"]) for v in listed["versions"]] == [
        (2, "shown"),
        (1, "before"),
    ]

    ran = run("publish", str(target), "--rollback", folder=few_built)
    assert ran.code == 0, ran.err
    assert "back to version 1" in ran.out
    assert "T-17: " in ran.out
    assert contents(target) == first


def test_a_site_changed_by_hand_is_not_published(run: Run, few_built: Path, tmp_path: Path) -> None:
    edit(few_built / "site" / "T-17" / "air-brakes.html", "130\xa0psi", "180\xa0psi")

    ran = run("publish", str(tmp_path / "guides"), folder=few_built)

    assert ran.code == 1
    assert "error[site-changed-since-proof] `T-17/air-brakes.html`" in ran.err
    assert not (tmp_path / "guides").exists()


def test_the_start_page_of_a_share_leads_to_the_guides(
    browser: Browser, run: Run, few_built_once: Path, tmp_path: Path
) -> None:
    target = tmp_path / "share"
    assert run("publish", str(target), "--pointer", folder=few_built_once).code == 0
    page = browser.new_context(java_script_enabled=False).new_page()

    page.goto((target / "index.html").as_uri())

    name = (target / "current.txt").read_text(encoding="utf-8").strip()
    start = target / "versions" / name / "index.html"
    expect(page).to_have_url(start.as_uri(), timeout=WAIT)
    expect(page.get_by_role("link", name="T-17").first).to_be_visible(timeout=WAIT)
    page.context.close()


def test_a_place_without_a_name_is_wrong_usage(run: Run, demo: Path) -> None:
    assert run("publish", "/", folder=demo).code == 2
    assert run("publish", "--rollback", "--list", "guides", folder=demo).code == 2
    assert run("publish", "guides", "--keep", "0", folder=demo).code == 2
