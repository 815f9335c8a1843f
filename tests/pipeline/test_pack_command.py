"""Copies for sticks, made by the command line and opened from a folder by Chromium."""

import hashlib
import io
import json
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from playwright.sync_api import Browser, expect
from wait_in_page import patient

Run = Callable[..., Any]
WAIT = 60_000
expect.set_options(timeout=WAIT)


@pytest.fixture(scope="module")
def packed(run: Run, few_built_once: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Copies of two of the three trucks: before anything is packed, the whole site is proved."""
    out = tmp_path_factory.mktemp("packed")
    ran = run("pack", "T-17", "E-02", "--out", str(out), folder=few_built_once)
    assert ran.code == 0, ran.err
    return out


def copy_of(packed: Path, unit: str) -> Path:
    (found,) = packed.glob(f"{unit}-*.zip")
    return found


def test_packs_of_the_site_state_what_stands_in_it(demo: Path) -> None:
    site = demo / "site"
    lists = [site / "pack.json", *sorted(site.glob("*/pack.json"))]
    assert len(lists) == 9
    for path in lists:
        pack = json.loads(path.read_bytes())
        lines = ""
        for file in pack["files"]:
            raw = (site / file["path"]).read_bytes()
            assert (len(raw), hashlib.sha256(raw).hexdigest()) == (file["bytes"], file["sha256"])
            lines += f"{file['sha256']}  {file['path']}\n"
        assert hashlib.sha256(lines.encode()).hexdigest() == pack["id"]
        listed = {file["path"] for file in pack["files"]}
        if pack["unit"]:
            assert pack["unit"] == path.parent.name
            own = {f"{pack['unit']}/{each.name}" for each in path.parent.glob("*.html")}
            shared = {
                each.relative_to(site).as_posix()
                for each in (site / "assets").rglob("*")
                if each.is_file()
            }
            photos = {f"{pack['unit']}/photos/{e.name}" for e in path.parent.glob("photos/*")}
            index = f"{pack['unit']}/search-data.js"
            assert listed == own | shared | photos | {index}
            assert len(listed) < 50
        else:
            assert {"index.html", "offline.html", "safety.html", "app.webmanifest"} <= listed
            assert not [each for each in listed if each.partition("/")[0] in ("T-17", "office")]
    worker = (site / "sw.js").read_text(encoding="utf-8")
    assert json.loads(lists[0].read_bytes())["id"] in worker


def test_a_copy_holds_the_pack_of_its_truck_to_the_byte(few_built_once: Path, packed: Path) -> None:
    with zipfile.ZipFile(copy_of(packed, "T-17")) as archive:
        assert archive.testzip() is None
        names = set(archive.namelist())
        folder = copy_of(packed, "T-17").stem
        pack = json.loads(archive.read(f"{folder}/T-17/pack.json"))
        for file in pack["files"]:
            raw = archive.read(f"{folder}/{file['path']}")
            assert hashlib.sha256(raw).hexdigest() == file["sha256"]
    cards = {path.name for path in (few_built_once / "site" / "T-17" / "cards").iterdir()}
    assert {f"{folder}/T-17/cards/{name}" for name in cards} <= names
    assert not [name for name in names if "/E-02/" in name or name.endswith("sw.js")]


def test_two_runs_give_the_same_copies(
    run: Run, few_built_once: Path, packed: Path, tmp_path: Path
) -> None:
    ran = run("pack", "T-17", "--out", str(tmp_path), "--format", "json", folder=few_built_once)
    assert ran.code == 0
    (made,) = json.loads(ran.out)["files"]
    assert Path(made["file"]).read_bytes() == copy_of(packed, "T-17").read_bytes()


def test_an_unpacked_copy_opens_from_its_folder_and_every_page_of_it_is_reached(
    browser: Browser, packed: Path, tmp_path: Path
) -> None:
    for unit in ("T-17", "E-02"):
        with zipfile.ZipFile(io.BytesIO(copy_of(packed, unit).read_bytes())) as archive:
            archive.extractall(tmp_path)
    page = browser.new_context().new_page()
    page.set_default_timeout(WAIT)
    faults: list[str] = []
    page.on("console", lambda message: faults.append(message.text))
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("requestfailed", lambda request: faults.append(request.url))
    folder = copy_of(packed, "T-17").stem

    page.goto((tmp_path / "OPEN-T-17.html").as_uri())
    start = (tmp_path / folder / "T-17" / "index.html").as_uri()
    expect(page).to_have_url(start)
    expect(page.locator("[data-pack-status]")).to_contain_text("works without signal")

    met, waiting = set[str](), [start]
    while waiting:
        address = waiting.pop()
        if address in met:
            continue
        met.add(address)
        page.goto(address)
        links = page.evaluate(
            "[...document.links].filter(a => a.protocol === 'file:').map(a => a.href.split('#')[0])"
        )
        for link in dict.fromkeys(links):
            path = Path(unquote(link.removeprefix("file://")))
            assert path.is_file(), (address, link)
            assert path.is_relative_to(tmp_path / folder), (address, link)
            if path.suffix == ".html":
                waiting.append(link)
    pages = {path.as_uri() for path in (tmp_path / folder).rglob("*.html")}
    assert met == pages
    # A tab's picture is given up when the next page is asked for.
    assert [each for each in faults if not each.endswith("favicon.svg")] == []
    page.context.close()


def test_a_copy_that_is_still_packed_says_how_to_unpack_it(
    browser: Browser, packed: Path, tmp_path: Path
) -> None:
    """Windows opens a page out of a zip file alone, without the folder beside it."""
    with zipfile.ZipFile(copy_of(packed, "T-17")) as archive:
        archive.extract("OPEN-T-17.html", tmp_path)
    page = patient(browser.new_context().new_page())

    page.goto((tmp_path / "OPEN-T-17.html").as_uri())

    expect(page.locator("body")).to_contain_text("Extract all")
    page.context.close()


def test_without_a_site_there_is_nothing_to_pack(run: Run, project: Path) -> None:
    ran = run("pack", "T-17", folder=project)

    assert ran.code == 1
    assert "there is no site" in ran.err
    assert not (project / "sticks").exists()


def test_a_site_that_is_not_proved_is_not_packed(run: Run, few_built: Path) -> None:
    page = few_built / "site" / "T-17" / "air-brakes.html"
    page.write_bytes(page.read_bytes().replace(b"130\xc2\xa0psi", b"180\xc2\xa0psi", 1))

    ran = run("pack", "E-02", folder=few_built)

    assert ran.code == 1
    assert "site-not-proved" in ran.err
    assert not (few_built / "sticks").exists()


def test_a_truck_that_there_is_not_is_wrong_usage(
    run: Run, few_built_once: Path, tmp_path: Path
) -> None:
    assert run("pack", "T-99", "--out", str(tmp_path), folder=few_built_once).code == 2
    assert run("pack", "--out", str(tmp_path), folder=few_built_once).code == 2
