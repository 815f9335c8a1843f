"""Every kind of page by axe-core, which holds pages against WCAG 2.2, level AA."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import (  # type: ignore[import-untyped]  # no hints
    Axe,
)
from playwright.sync_api import Browser, BrowserContext, Page

WAIT = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""

PAGES = (
    *("index.html", "safety.html", "proof.html"),
    *("T-17/index.html", "T-17/before-the-day.html", "T-17/air-brakes.html"),
    *("T-17/warning-lamps.html", "T-17/round.html", "T-17/data.html", "T-17/quiz.html"),
    *("T-17/differences.html", "T-17/from-E-02.html", "E-02/when-something-is-wrong.html"),
)
THEMES = ("light", "dark")
RULES = {
    "runOnly": {
        "type": "tag",
        "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    }
}


@pytest.fixture(scope="module", params=THEMES)
def context(browser: Browser, request: pytest.FixtureRequest) -> Iterator[BrowserContext]:
    made = browser.new_context(viewport={"width": 800, "height": 1280}, color_scheme=request.param)
    made.set_default_timeout(WAIT)
    yield made
    made.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    opened = context.new_page()
    yield opened
    opened.close()


@pytest.mark.parametrize("path", PAGES)
def test_axe_finds_nothing(page: Page, demo: Path, path: str) -> None:
    page.goto((demo / "site" / path).as_uri())
    found = Axe().run(page, options=RULES)
    told = [
        f"{each['id']}: {node['target']} {node['failureSummary']}"
        for each in found.response["violations"]
        for node in each["nodes"][:3]
    ]
    assert told == []
    assert found.response["passes"]
