"""Trucks saved on a tablet: Chromium, the site of a small fleet, and a network that fails."""

import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from pack_server import PackServer, serving
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

Run = Callable[..., Any]

WAIT = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""
expect.set_options(timeout=WAIT)
TRUCKS = ("T-17", "E-02")
CHAPTER = "air-brakes.html"


def shrink(project: Path) -> None:
    """Leave two trucks that differ in much, and no cards."""
    for path in (project / "specs" / "units").iterdir():
        if path.stem not in TRUCKS:
            path.unlink()
    fleet = project / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith(("address:", "issued:"))]
    fleet.write_text("".join(kept), encoding="utf-8", newline="\n")


@pytest.fixture(scope="module")
def issues(run: Run, seed: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Two issues of one small fleet's site: T-17's cut-out, a style and a script are others."""
    project = tmp_path_factory.mktemp("issues") / "fleet"
    shutil.copytree(seed, project)
    shrink(project)
    made = []
    for name in ("first", "second"):
        ran = run("build", "--site", name, folder=project)
        assert ran.code == 0, ran.err
        made.append(project / name)
        model = project / "specs" / "models" / "drumlin-72.yml"
        text = model.read_text(encoding="utf-8")
        assert "cut_out: 130 psi" in text or name == "second"
        model.write_text(text.replace("cut_out: 130 psi", "cut_out: 128 psi"), encoding="utf-8")
    return made[0], made[1]


@pytest.fixture
def site(issues: tuple[Path, Path], tmp_path: Path) -> Iterator[PackServer]:
    with serving(issues[0], tmp_path) as server:
        yield server


@pytest.fixture
def tablet(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 800, "height": 1280})
    context.set_default_timeout(WAIT)
    yield context
    context.close()


def opened(tablet: BrowserContext, address: str) -> Page:
    page = tablet.new_page()
    page.goto(address)
    return page


def badge(page: Page) -> Locator:
    return page.locator("[data-pack-status]")


def told(page: Page) -> Locator:
    return page.locator(".gg-keep__say")


def save(page: Page, site: PackServer, unit: str) -> None:
    page.goto(f"{site.address}{unit}/index.html")
    page.get_by_role("button", name="Save for offline").click()
    expect(badge(page)).to_contain_text("Ready offline")


def revision(folder: Path, unit: str) -> str:
    found = re.search(r'data-edition="(.{8})', (folder / unit / "index.html").read_text("utf-8"))
    assert found is not None
    return found[1]


def pages_of(site: PackServer, unit: str) -> list[str]:
    return sorted(path.name for path in (site.folder / unit).glob("*.html"))


def cut_out(page: Page) -> str:
    return str(page.locator('[data-fact="brakes.air.cut_out"]').first.inner_text())


CACHES = "async () => (await caches.keys()).filter(name => name.includes(' pack '))"


def test_a_saved_truck_opens_whole_without_a_network(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, f"{site.address}T-17/index.html")
    expect(badge(page)).to_have_text(f"T-17 · Rev {revision(site.folder, 'T-17')} · Not saved")
    save(page, site, "T-17")
    expect(badge(page)).to_contain_text(re.compile(r"checked today \d\d:\d\d$"))
    faults: list[str] = []
    page.on("console", lambda message: faults.append(message.text))
    page.on("pageerror", lambda error: faults.append(str(error)))
    site.stop()

    for name in pages_of(site, "T-17"):
        page.goto(f"{site.address}T-17/{name}", wait_until="networkidle")
        expect(page.locator('header [data-fact="identity.number"]')).to_have_text("T-17")
        expect(badge(page)).to_contain_text("Ready offline")
        assert page.evaluate("document.styleSheets.length") >= 2, name
        assert page.evaluate("[...document.styleSheets].every(s => s.cssRules.length)"), name
        assert page.evaluate("document.fonts.check('16px \"Atkinson Hyperlegible\"')"), name
    # On start pages alone the site is asked for news, which fails without a network.
    assert [each for each in faults if "pack.json" not in each and "ERR_" not in each] == []
    page.goto(f"{site.address}index.html")
    expect(page.locator("[data-find-count]")).to_have_text("2 of 2 trucks")
    for name in ("safety.html", "proof.html"):
        page.goto(f"{site.address}{name}")
        assert page.locator("h1").count() == 1
