"""Every kind of page by axe-core, which holds pages against WCAG 2.2, level AA."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import (  # type: ignore[import-untyped]  # no hints
    Axe,
)
from playwright.sync_api import Browser, Page, expect
from windows import UPRIGHT, own_window

PAGES = (
    *("index.html", "safety.html", "proof.html", "offline.html"),
    *("T-17/index.html", "T-17/before-the-day.html", "T-17/before-the-day-3.html"),
    *("T-17/air-brakes.html", "T-17/warning-lamps.html", "T-17/lamp-finder.html"),
    *("T-17/search.html", "T-17/round.html", "T-17/data.html", "T-17/quiz.html"),
    *("T-17/differences.html", "T-17/from-T-18.html"),
)
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
TOLD = {"resultTypes": ["violations"]}
"""Where everything is in order axe need not say of each element by which selector it is found."""

ALL_RULES = {"runOnly": {"type": "tag", "values": WCAG}, **TOLD}
RULES_OF_COLOR = {
    "runOnly": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]},
    **TOLD,
}
"""All that one theme can do wrong and another right; of alike elements one is looked at."""


_MARK = """() => {
  const kinds = new Map(), seen = new Set()
  function kindOf(element) {
    if (!element) return ""
    if (!kinds.has(element)) {
      const style = getComputedStyle(element)
      const own = [element.tagName, element.getAttribute("class"), style.color, style.fontSize]
      own.push(style.fontWeight, style.opacity, style.visibility, style.display)
      own.push(style.backgroundColor, style.backgroundImage, style.textDecorationLine)
      kinds.set(element, own.join() + kindOf(element.parentElement))
    }
    return kinds.get(element)
  }
  document.querySelectorAll("[data-sample]").forEach(each => each.removeAttribute("data-sample"))
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement
    const kind = kindOf(element)
    if (walker.currentNode.textContent.trim() && !seen.has(kind)) {
      seen.add(kind)
      element.dataset.sample = ""
    }
  }
  return seen.size
}"""
"""Mark one element of each kind: the same tag, class and looks, in the same kind of elements."""

_RUN = """([context, options]) => axe.run(context, options).then(
  found => [found.passes.length, found.violations]
)"""


@pytest.fixture(scope="module")
def open_in(browser: Browser, demo: Path) -> Iterator[Callable[[str, str], Page]]:
    """Give what opens a page of the demo's site in a theme, with axe in it."""
    page = own_window(browser, UPRIGHT, {})

    def open_page(path: str, theme: str) -> Page:
        page.goto((demo / "site" / path).as_uri())
        page.evaluate(Axe().axe_script)
        on_to(page, theme)
        return page

    yield open_page
    page.context.close()


_ON_TO = """theme => {
  const root = document.documentElement
  for (let taps = 0; taps < 3 && root.dataset.theme !== theme; taps += 1) {
    document.querySelector("[data-theme-button]").click()
  }
  return root.dataset.theme
}"""


def on_to(page: Page, theme: str) -> None:
    """Press the button for the colors until *page* has *theme*."""
    assert page.evaluate(_ON_TO, theme) == theme


def violations(page: Page, options: dict[str, Any], within: str = "html") -> list[str]:
    passed, found = page.evaluate(_RUN, [within, options])
    assert passed
    return [
        f"{each['id']}: {node['target']} {node['failureSummary']}"
        for each in found
        for node in each["nodes"][:3]
    ]


@pytest.mark.parametrize("path", PAGES)
def test_axe_finds_nothing_on_a_page_in_any_theme(
    open_in: Callable[[str, str], Page], path: str
) -> None:
    page = open_in(path, "day")
    assert violations(page, ALL_RULES) == []
    for theme in ("dark", "night-red"):
        on_to(page, theme)
        assert page.evaluate(_MARK) > 4
        assert violations(page, RULES_OF_COLOR, "[data-sample]") == [], theme


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
