"""Every kind of page by axe-core, which holds pages against WCAG 2.2, level AA."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import (  # type: ignore[import-untyped]  # no hints
    Axe,
)
from playwright.sync_api import Browser, Page, expect

WAIT = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""

PAGES = (
    *("index.html", "safety.html", "proof.html", "offline.html"),
    *("T-17/index.html", "T-17/before-the-day.html", "T-17/air-brakes.html"),
    *("T-17/warning-lamps.html", "T-17/lamp-finder.html", "T-17/search.html"),
    *("T-17/round.html", "T-17/data.html", "T-17/quiz.html"),
    *("T-17/differences.html", "T-17/from-T-18.html"),
)
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
TOLD = {"resultTypes": ["violations"]}
"""Where everything is in order axe need not say of each element by which selector it is found."""

ALL_RULES = {"runOnly": {"type": "tag", "values": WCAG}, **TOLD}
OF_COLOR = (
    *("T-17/index.html", "T-17/air-brakes.html", "T-17/warning-lamps.html", "T-17/search.html"),
    *("T-17/lamp-finder.html", "T-17/round.html", "T-17/data.html", "T-17/quiz.html"),
    *("T-17/before-the-day-3.html", "T-17/from-T-18.html", "index.html"),
)
"""Pages that between them have all that themes color."""

RULES_OF_COLOR = {
    "runOnly": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]},
    **TOLD,
}
"""All that one theme can do wrong and another right."""


@pytest.fixture(scope="module")
def open_in(browser: Browser, demo: Path) -> Iterator[Callable[[str, str], Page]]:
    """Give what opens a page of the demo's site in the window of a theme."""
    windows: dict[str, Page] = {}

    def open_page(path: str, theme: str) -> Page:
        if theme not in windows:
            context = browser.new_context(viewport={"width": 800, "height": 1280})
            context.set_default_timeout(WAIT)
            context.add_init_script(f"localStorage.setItem('guidegen-theme', '{theme}')")
            windows[theme] = context.new_page()
        page = windows[theme]
        page.goto((demo / "site" / path).as_uri())
        expect(page.locator("html")).to_have_attribute("data-theme", theme)
        return page

    yield open_page
    for page in windows.values():
        page.context.close()


def violations(page: Page, options: dict[str, Any]) -> list[str]:
    found = Axe().run(page, options=options).response
    assert found["passes"]
    return [
        f"{each['id']}: {node['target']} {node['failureSummary']}"
        for each in found["violations"]
        for node in each["nodes"][:3]
    ]


@pytest.mark.parametrize("path", PAGES)
def test_axe_finds_nothing_on_a_page(open_in: Callable[[str, str], Page], path: str) -> None:
    assert violations(open_in(path, "day"), ALL_RULES) == []


@pytest.mark.parametrize("theme", ["dark", "night-red"])
def test_axe_finds_no_color_that_cannot_be_read(
    open_in: Callable[[str, str], Page], theme: str
) -> None:
    found = {path: violations(open_in(path, theme), RULES_OF_COLOR) for path in OF_COLOR}
    assert {path: faults for path, faults in found.items() if faults} == {}


def test_axe_finds_nothing_in_a_round_under_way_and_its_summary(
    open_in: Callable[[str, str], Page],
) -> None:
    page = open_in("T-17/round.html", "night-red")
    page.get_by_role("button", name="Begin the round").click()
    page.locator("#stop-1").get_by_role("button", name="Found something").click()
    expect(page.locator("#stop-1").get_by_role("textbox")).to_be_visible()
    assert violations(page, ALL_RULES) == []
    page = open_in("T-17/round.html", "night-red")
    page.get_by_role("button", name="Summary").click()
    expect(page.locator(".gg-summary")).to_be_visible()
    assert violations(page, ALL_RULES) == []


def test_axe_finds_nothing_while_a_timer_runs(open_in: Callable[[str, str], Page]) -> None:
    page = open_in("T-17/air-brakes.html", "dark")
    page.locator(".gg-timer").last.get_by_role("button").first.click()
    expect(page.locator(".gg-timer__works--running")).to_be_visible()
    assert violations(page, ALL_RULES) == []


def test_axe_finds_nothing_in_what_a_search_has_found(open_in: Callable[[str, str], Page]) -> None:
    page = open_in("T-17/search.html", "day")
    page.get_by_role("searchbox").fill("brake")
    expect(page.locator("[data-search-results] a").first).to_be_visible()
    assert violations(page, ALL_RULES) == []
