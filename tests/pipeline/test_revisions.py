"""From a first release to an old card in a driver's hand, on a fleet of two trucks."""

import functools
import hashlib
import http.server
import json
import os
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from few_trucks import keep, without_cards
from playwright.sync_api import Browser, Page, expect
from pypdfium2 import PdfDocument  # type: ignore[import-untyped]  # it ships no types
from served_site import LOOK
from wait_in_page import patient

from guidegen.build.project import open_project
from guidegen.build.record_files import alone

Run = Callable[..., Any]
"""`run_guidegen` of this folder's conftest."""

TRUCKS = ("T-17", "T-18")
PROCEDURE = Path("site_templates/procedures/air-build-up.yml")
MODEL = Path("specs/models/drumlin-72.yml")
TOLD = [
    "Governed (cut-out) pressure 130 psi → 120 psi",
    "Changed: procedure “Build up the air pressure” (steps, cautions)",
]


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def history(run: Run, folder: Path, unit: str = "T-17") -> list[dict[str, Any]]:
    told = json.loads(run("history", unit, "--format", "json", folder=folder).out)
    revisions: list[dict[str, Any]] = told["revisions"]
    return revisions


@pytest.fixture(scope="module")
def small(seed: Path, project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two trucks of one model, with procedures of the fleet's own; not to be changed."""
    folder = tmp_path_factory.mktemp("small") / "fleet"
    shutil.copytree(seed, folder)
    shutil.copytree(project_root / "site_templates", folder / "site_templates")
    keep(folder, TRUCKS)
    # A fleet that keeps a record needs no date of its own.
    fleet = folder / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    fleet.write_text("".join(e for e in lines if "issued:" not in e), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def first(small: Path, run: Run) -> Path:
    """The fleet after its first release."""
    ran = run("release", "--by", "Renske Aldous", "--date", "2026-10-01", folder=small)
    assert ran.code == 0, ran.err
    return small


@pytest.fixture(scope="module")
def second(first: Path, run: Run, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The fleet after a value and a procedure changed and were released, with its site."""
    folder = Path(shutil.copytree(first, tmp_path_factory.mktemp("second") / "fleet"))
    edit(folder / MODEL, "cut_out: 130 psi", "cut_out: 120 psi")
    edit(folder / PROCEDURE, "It can kill you.", "It can kill you in minutes.")
    edit(folder / PROCEDURE, "Read the air gauges", "Read both air gauges")
    ran = run("release", "--by", "Renske Aldous", "--date", "2026-11-30", folder=folder)
    assert ran.code == 0, ran.err
    built = run("build", folder=folder)
    assert built.code == 0, built.err
    assert built.err == ""
    return folder


@pytest.fixture(scope="module")
def draft(second: Path, run: Run, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """The fleet with one more change that nobody has released, and what its build warned of."""
    folder = Path(shutil.copytree(second, tmp_path_factory.mktemp("draft") / "fleet"))
    edit(folder / MODEL, "cut_out: 120 psi", "cut_out: 125 psi")
    built = run("build", folder=folder)
    assert built.code == 0, built.err
    return folder, built.err


def test_a_first_release_gives_every_truck_its_first_revision(first: Path, run: Run) -> None:
    for unit in TRUCKS:
        (revision,) = history(run, first, unit)
        assert (revision["revision"], revision["date"]) == (1, "2026-10-01")
        assert revision["by"] == "Renske Aldous"
        assert revision["changes"] == []
        assert (first / "records" / "editions" / f"{revision['edition']}.json").is_file()


def test_a_second_release_tells_what_changed_gravest_first(second: Path, run: Run) -> None:
    newest, oldest = history(run, second)

    assert (newest["revision"], newest["date"]) == (2, "2026-11-30")
    assert newest["changes"][:2] == TOLD
    assert oldest["revision"] == 1
    text = run("history", "T-17", folder=second).out
    assert text.startswith("T-17: revision 2 of 2026-11-30\n")
    assert text.index(TOLD[0]) < text.index(TOLD[1]) < text.index("First revision")


def test_the_record_is_chained_as_hashlib_reckons(second: Path) -> None:
    """FIPS 180-4 by hashlib; JSON Lines: one JSON value a line, in UTF-8."""
    raw = (second / "records" / "revisions.jsonl").read_bytes()
    before = "0" * 64
    lines = raw.split(b"\n")
    assert lines.pop() == b""
    assert len(lines) == 4
    for line in lines:
        content = json.loads(line.decode("utf-8"))
        assert content["before"] == before
        assert hashlib.sha256(line[: line.rindex(b',"seal":')]).hexdigest() == content["seal"]
        kept = (second / "records" / "editions" / f"{content['edition']}.json").read_bytes()
        assert hashlib.sha256(kept).hexdigest() == content["snapshot"]
        before = hashlib.sha256(line + b"\n").hexdigest()


def shown(run: Run, folder: Path, revision: int, out: Path) -> Any:  # noqa: ANN401 -- a run, and JSON
    ran = run(
        *("show", "T-17", "--revision", str(revision), "--out", str(out), "--format", "json"),
        folder=folder,
    )
    assert ran.code == 0, ran.err
    return json.loads(ran.out)


def listed(folder: Path, revision: int) -> dict[str, str]:
    """SHA-256 by path, of the files of T-17 that were published at *revision*."""
    text = (folder / "records" / "outputs" / f"T-17-{revision}.sha256").read_text(encoding="utf-8")
    return {name: digest for digest, name in (line.split("  ") for line in text.splitlines())}


def hashes(folder: Path, unit: str = "T-17") -> dict[str, str]:
    """FIPS 180-4 (SHA-256) by hashlib, of each file of *unit* below *folder*."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in (folder / unit).rglob("*")
        if path.is_file()
    }


def test_the_record_holds_the_hash_of_every_file_that_is_published(second: Path) -> None:
    assert listed(second, 2) == hashes(second / "site")
    lines = (second / "records" / "revisions.jsonl").read_text(encoding="utf-8").splitlines()
    (last,) = [e for e in map(json.loads, lines) if (e["unit"], e["revision"]) == ("T-17", 2)]
    raw = (second / "records" / "outputs" / "T-17-2.sha256").read_bytes()
    assert hashlib.sha256(raw).hexdigest() == last["outputs"]


def test_the_last_revision_is_shown_byte_for_byte(second: Path, run: Run, tmp_path: Path) -> None:
    told = shown(run, second, 2, tmp_path)

    assert told["findings"] == [], str(told["findings"])
    assert told["pages_other_now"] == []
    assert hashes(tmp_path / "T-17-revision-2") == listed(second, 2)


def test_an_old_revision_is_shown_byte_for_byte_although_the_specs_changed(
    first: Path, run: Run, tmp_path: Path
) -> None:
    folder = Path(shutil.copytree(first, tmp_path / "fleet"))
    edit(folder / MODEL, "cut_out: 130 psi", "cut_out: 120 psi")

    told = shown(run, folder, 1, tmp_path / "out")

    assert told["findings"] == [], str(told["findings"])
    assert hashes(tmp_path / "out" / "T-17-revision-1") == listed(first, 1)
    page = (tmp_path / "out" / "T-17-revision-1" / "T-17" / "air-brakes.html").read_bytes()
    assert "130\xa0psi".encode() in page
    assert "120\xa0psi".encode() not in page


def test_of_a_revision_that_other_templates_printed_the_recorded_words_are_shown(
    second: Path, run: Run, tmp_path: Path
) -> None:
    told = shown(run, second, 1, tmp_path)

    (finding,) = told["findings"]
    assert finding["rule"] == "pages-not-as-published"
    assert "guidegen or its templates changed since" in finding["what"]
    assert told["pages_as_published"] == []
    assert not (tmp_path / "T-17-revision-1").exists()
    text = (tmp_path / "T-17-revision-1.txt").read_text(encoding="utf-8")
    assert "130\xa0psi" in text or "130 psi" in text
    assert "It can kill you." in text
    assert "It can kill you in minutes." not in text


def test_a_revision_that_there_is_not_is_wrong_usage(second: Path, run: Run) -> None:
    assert run("show", "T-17", "--revision", "9", folder=second).code == 2
    assert run("show", "T-71", folder=second).code == 2


def test_a_release_without_a_change_issues_nothing(second: Path, run: Run) -> None:
    before = (second / "records" / "revisions.jsonl").read_bytes()

    ran = run("release", "--by", "R. Aldous", "--date", "2026-12-01", folder=second)

    assert ran.code == 0
    assert "no guide has changed" in ran.out
    assert (second / "records" / "revisions.jsonl").read_bytes() == before


def test_a_dry_run_tells_and_writes_nothing(draft: tuple[Path, str], run: Run) -> None:
    folder, _ = draft
    before = (folder / "records" / "revisions.jsonl").read_bytes()

    ran = run("release", "--by", "R. A.", "--date", "2026-12-01", "--dry-run", folder=folder)

    assert ran.code == 0
    assert "Governed (cut-out) pressure 120 psi → 125 psi" in ran.out
    assert (folder / "records" / "revisions.jsonl").read_bytes() == before


def test_a_clock_set_back_is_refused(draft: tuple[Path, str], run: Run) -> None:
    ran = run("release", "--by", "R. Aldous", "--date", "2026-11-29", folder=draft[0])

    assert ran.code == 1
    assert "error[release-before-the-last]" in ran.err
    assert "nothing was released" in ran.out


def test_a_truck_with_a_fault_is_not_released_and_the_other_is(
    draft: tuple[Path, str], run: Run, tmp_path: Path
) -> None:
    folder = without_cards(Path(shutil.copytree(draft[0], tmp_path / "fleet")))
    edit(folder / "specs" / "units" / "T-18.yml", "vin:", "vim:")

    ran = run("release", "--by", "R. Aldous", "--date", "2026-12-01", folder=folder)

    assert ran.code == 1
    assert "`T-18` is held back and not released" in ran.err
    assert history(run, folder, "T-17")[0]["revision"] == 3
    assert history(run, folder, "T-18")[0]["revision"] == 2


def test_pages_that_are_not_proved_are_not_released(
    draft: tuple[Path, str], run: Run, tmp_path: Path
) -> None:
    folder = without_cards(Path(shutil.copytree(draft[0], tmp_path / "fleet")))
    before = (folder / "records" / "revisions.jsonl").read_bytes()
    edit(folder / "site_templates" / "pages" / "revisions.html.j2", "{{ change }}", "no change")

    ran = run("release", "--by", "R. Aldous", "--date", "2026-12-01", folder=folder)

    assert ran.code == 1
    assert "label-not-read-back" in ran.err
    assert "nothing was released" in ran.out
    assert (folder / "records" / "revisions.jsonl").read_bytes() == before


def test_a_release_while_another_one_is_under_way_is_refused(project: Path, run: Run) -> None:
    with alone(open_project(project), "2026-11-30 05:00"):
        ran = run("release", "--by", "R. Aldous", folder=project)

    assert ran.code == 1
    assert "error[other-run-under-way]" in ran.err
    assert f"process {os.getpid()} on" in ran.err
    assert "nothing was released" in ran.out
    assert not (project / "records").exists()


def test_a_release_that_is_killed_leaves_the_record_whole(
    draft: tuple[Path, str], run: Run, tmp_path: Path
) -> None:
    """One kill as users see it; `test_killed_commands.py` has hundreds."""
    folder = without_cards(Path(shutil.copytree(draft[0], tmp_path / "fleet")))
    before = len(history(run, folder))
    process = subprocess.Popen(
        [sys.executable, "-m", "guidegen", "release", "--by", "R. Aldous", "--date", "2026-12-01"],
        cwd=folder,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    editions = folder / "records" / "editions"
    there = len(list(editions.iterdir()))
    while process.poll() is None and len(list(editions.iterdir())) == there:
        time.sleep(0.0005)
    process.kill()
    process.wait()

    assert len(history(run, folder)) in (before, before + 1)
    assert run("check", folder=folder).code == 0


def test_a_damaged_record_stops_a_build_and_says_how_to_get_it_back(
    second: Path, run: Run, tmp_path: Path
) -> None:
    folder = Path(shutil.copytree(second, tmp_path / "fleet"))
    edit(folder / "records" / "revisions.jsonl", "130 psi", "180 psi")

    ran = run("build", folder=folder)

    assert ran.code == 1
    assert "records/revisions.jsonl:3:1: error[record-damaged]" in ran.err
    assert "git restore records/revisions.jsonl" in ran.err


def test_a_name_that_is_no_truck_is_wrong_usage(second: Path, run: Run) -> None:
    ran = run("history", "T-71", folder=second)

    assert ran.code == 2
    assert "did you mean `T-17`?" in ran.err


def test_a_build_warns_of_guides_that_were_not_released(draft: tuple[Path, str]) -> None:
    assert "warning[guide-not-released]" in draft[1]
    assert "T-17, T-18" in draft[1]


def first_side(card: Path) -> str:
    document = PdfDocument(card)
    try:
        return " ".join(str(document[0].get_textpage().get_text_bounded()).split())
    finally:
        document.close()


def test_cards_say_number_and_date_of_their_revision(second: Path) -> None:
    for card in sorted((second / "site" / "T-17" / "cards").glob("*.pdf")):
        assert "Revision 2, 2026-11-30" in first_side(card).replace("2 2026", "2, 2026")


def test_cards_of_a_draft_say_so_with_the_digits_of_their_edition(
    draft: tuple[Path, str],
) -> None:
    page = (draft[0] / "site" / "T-17" / "index.html").read_text(encoding="utf-8")
    digits = page.partition('data-edition="')[2][:8]
    for card in sorted((draft[0] / "site" / "T-17" / "cards").glob("*.pdf")):
        side = first_side(card)
        assert f"Revision draft {digits}" in side
        assert "not released" in side


@pytest.fixture
def served(draft: tuple[Path, str]) -> Iterator[str]:
    handler = functools.partial(Quiet, directory=str(draft[0] / "site"))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, args=(LOOK,), daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing: the test's output is the test's."""


def opened(browser: Browser, address: str) -> Page:
    context = browser.new_context(viewport={"width": 800, "height": 1280})
    page = patient(context.new_page())
    page.goto(address)
    return page


def test_an_old_cards_code_tells_what_changed_since_it_was_printed(
    browser: Browser, served: str, draft: tuple[Path, str], run: Run
) -> None:
    released = {each["revision"]: each for each in history(run, draft[0])}
    page = opened(browser, f"{served}T-17/?r={released[1]['digits']}")
    stale = page.locator("[data-card-stale]")

    expect(stale).to_be_visible()
    expect(stale).to_contain_text("out of date")
    expect(stale).to_contain_text("What has changed since:")
    for line in ("120 psi → 125 psi", *TOLD):
        expect(stale.locator("li li").filter(has_text=line)).to_be_visible()
    expect(stale).not_to_contain_text("First revision")
    expect(page.locator("[data-card-current], [data-card-unknown]")).to_have_count(2)
    expect(page.locator("[data-card-current]")).not_to_be_visible()
    expect(page.locator("[data-card-unknown]")).not_to_be_visible()

    page.goto(f"{served}T-17/?r={released[2]['digits']}")
    expect(stale).to_contain_text("120 psi → 125 psi")
    expect(stale).not_to_contain_text("130 psi")
    page.context.close()


def test_a_card_of_the_guide_as_it_stands_is_up_to_date(browser: Browser, served: str) -> None:
    page = opened(browser, f"{served}T-17/")
    edition = page.locator("[data-guide]").get_attribute("data-edition")
    assert edition is not None
    page.goto(f"{served}T-17/?r={edition[:8]}")

    expect(page.locator("[data-card-current]")).to_be_visible()
    expect(page.locator("[data-card-stale]")).not_to_be_visible()
    page.context.close()


def test_a_card_that_the_record_does_not_know_is_called_so(browser: Browser, served: str) -> None:
    page = opened(browser, f"{served}T-17/?r=0badcafe")

    expect(page.locator("[data-card-unknown]")).to_be_visible()
    expect(page.locator("[data-card-unknown]")).to_contain_text("Go by this page")
    expect(page.locator("[data-card-stale]")).not_to_be_visible()
    page.context.close()


def test_a_copy_in_a_folder_tells_it_too(
    browser: Browser, draft: tuple[Path, str], run: Run
) -> None:
    digits = history(run, draft[0])[-1]["digits"]
    start = (draft[0] / "site" / "T-17" / "index.html").as_uri()
    page = opened(browser, f"{start}?r={digits}")

    expect(page.locator("[data-card-stale]")).to_contain_text(TOLD[0])
    page.context.close()


def test_without_scripts_the_start_page_tells_its_revisions(browser: Browser, served: str) -> None:
    page = patient(browser.new_context(java_script_enabled=False).new_page())
    page.goto(f"{served}T-17/")

    revisions = page.locator("[data-revision]")
    expect(revisions).to_have_count(3)
    expect(revisions.first).to_contain_text("not released")
    for line in TOLD:
        expect(page.get_by_text(line)).to_be_visible()
    page.context.close()
