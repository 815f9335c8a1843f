"""The lamp finder in Chromium: color, symbol, and what to do now, with a glove and no signal."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, ViewportSize, expect
from windows import PHONE, TABLET, UPRIGHT, Windows, in_sizes

from guidegen.build.load import load_fleet
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.guide.model import Guide, Procedure

WAIT = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""
UNITS = ("T-17", "E-02")
GLOVE = 64
"""Pixels of a thing to press with gloves."""
SYMBOL = 72
MOST_TABS = 60


@pytest.fixture(scope="module")
def guides(project_root: Path) -> dict[str, Guide]:
    loaded = load_fleet(open_project(project_root), Findings())
    assert loaded is not None
    return dict(loaded.guides)


def opened(
    windows: Windows, path: Path, size: ViewportSize = UPRIGHT, *, scripts: bool = True
) -> Page:
    """Return the page at *path*, opened from a folder on a screen to touch, with no network."""
    touched = {"has_touch": True, "offline": True, "java_script_enabled": scripts}
    return windows.opened(path.as_uri(), size, **touched)


def lamps(guide: Guide) -> list[Procedure]:
    every = [each for chapter in guide.chapters for each in chapter.procedures]
    return [each for each in every if each.lamp is not None]


def expect_what_to_do(page: Page, lamp: str) -> None:
    """Expect the act of *lamp* and its first step on the screen."""
    section = page.locator(f"[id='{lamp}']")
    expect(section.locator("[data-lamp-act]")).to_be_in_viewport(ratio=1, timeout=WAIT)
    expect(section.locator("[data-step]").first).to_be_in_viewport(ratio=1, timeout=WAIT)


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without"])
@pytest.mark.parametrize("unit", UNITS)
def test_two_taps_lead_from_the_start_page_to_what_to_do_now(
    unit: str, windows: Windows, demo: Path, guides: dict[str, Guide], *, scripts: bool
) -> None:
    start = demo / "site" / unit / "index.html"
    for each in (lamps(guides[unit])[0], lamps(guides[unit])[-1]):
        assert each.lamp is not None
        page = opened(windows, start, scripts=scripts)
        page.locator(f"[data-pick={each.lamp.color}]").tap()
        page.wait_for_url(f"**/lamp-finder.html#{each.lamp.color}")
        tile = page.locator(f"[data-tile={each.id}]")
        expect(page.locator(f"[id={each.lamp.color}] h2")).to_be_in_viewport(ratio=1)
        tile.locator("a").tap()
        page.wait_for_url(f"**#{each.id}")
        expect_what_to_do(page, each.id)


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without"])
def test_the_keyboard_alone_leads_to_what_to_do_now(
    windows: Windows, demo: Path, *, scripts: bool
) -> None:
    page = opened(windows, demo / "site" / "T-17" / "index.html", scripts=scripts)
    for wanted in ("[data-pick=amber]", "[data-tile=lamp-coolant-level] a"):
        target = page.locator(wanted)
        for _ in range(MOST_TABS):
            page.keyboard.press("Tab")
            if target.evaluate("each => each === document.activeElement"):
                break
        expect(target).to_be_focused()
        page.keyboard.press("Enter")
        page.wait_for_url("**#*")
    page.wait_for_url("**#lamp-coolant-level")
    expect_what_to_do(page, "lamp-coolant-level")


_BOXES = """wanted => [...document.querySelectorAll(wanted)].map(each => {
  const box = each.getBoundingClientRect()
  return Math.min(box.width, box.height)
})"""


@pytest.mark.parametrize("name", ["lamp-finder.html", "index.html"])
@pytest.mark.parametrize("unit", UNITS)
def test_what_is_pressed_is_large_and_nothing_runs_over_the_side(
    unit: str, name: str, windows: Windows, demo: Path
) -> None:
    page = opened(windows, demo / "site" / unit / name)
    for size in in_sizes(page, (UPRIGHT, TABLET, PHONE)):
        pressed = page.evaluate(_BOXES, "[data-pick], .gg-tile")
        assert len(pressed) > 2
        assert min(pressed) >= GLOVE, size
        symbols = page.evaluate(_BOXES, "[data-tile] svg")
        assert bool(symbols) is (name == "lamp-finder.html")
        assert min(symbols, default=SYMBOL) >= SYMBOL, size
        over = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
        assert page.evaluate(over) <= 0, size


def test_every_truck_shows_its_own_lamps_each_under_its_color_without_a_script(
    windows: Windows, demo: Path, guides: dict[str, Guide]
) -> None:
    for unit, guide in guides.items():
        path = demo / "site" / unit / "lamp-finder.html"
        page = opened(windows, path, scripts=False)
        for each in lamps(guide):
            assert each.lamp is not None
            tile = page.locator(f"[data-color={each.lamp.color}] [data-tile={each.id}]")
            expect(tile).to_be_visible()
        expect(page.locator("[data-tile]")).to_have_count(len(lamps(guide)))


_LEADS_TO = """() => [...document.querySelectorAll("[data-tile]")].map(
  tile => [tile.dataset.tile, tile.querySelector("a").href]
)"""


def test_the_act_and_the_first_step_of_every_lamp_stand_on_the_first_screen(
    windows: Windows, demo: Path, guides: dict[str, Guide]
) -> None:
    seen = set()
    for unit in UNITS:
        page = opened(windows, demo / "site" / unit / "lamp-finder.html", TABLET)
        # What a tap on each tile opens; the taps themselves are tested above.
        leads_to = dict(page.evaluate(_LEADS_TO))
        for each in lamps(guides[unit]):
            if each.id in seen:
                continue
            seen.add(each.id)
            page.goto(leads_to[each.id])
            expect_what_to_do(page, each.id)
    assert len(seen) > 30
