"""The demo fleet's site in Chromium: what the proof read in files, a browser shows."""

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser
from windows import UPRIGHT, Windows, own_window

from guidegen.build.load import load_fleet
from guidegen.build.project import open_project
from guidegen.figures.compose import figure_of
from guidegen.finding import Findings
from guidegen.guide.leaves import Leaf, leaves_of
from guidegen.guide.model import Caution, Guide, Procedure, Step, Text, caption_of
from guidegen.procedures.model import Words

UNITS = ("T-17", "V-08", "E-02")

SHOWN_AND_ON = """
() => {
  const theme = document.documentElement.dataset.theme
  const shown = [...document.querySelectorAll('[data-text]')].map(element => {
  const box = element.getBoundingClientRect()
  const style = getComputedStyle(element)
  return [element.dataset.text, element.innerText, box.width, box.height, style.visibility]
  })
  document.querySelector("[data-theme-button]").click()
  return [theme, shown]
}
"""
"""The theme and what is shown in it; then on to the next theme."""


@pytest.fixture(scope="module")
def guides(project_root: Path) -> dict[str, Guide]:
    loaded = load_fleet(open_project(project_root), Findings())
    assert loaded is not None
    return dict(loaded.guides)


def texts(guide: Guide, leaf: Leaf) -> list[Text]:
    found: list[Text] = []
    for procedure in leaf.procedures:
        found.append(procedure.title)
        figure = figure_of(procedure, guide.facts)
        if figure is not None:
            found.append(figure.alt)
        found += captions(procedure, "")
        for block in procedure.blocks:
            match block:
                case Caution():
                    found += [block.hazard, block.consequence, block.avoid]
                case Step():
                    found += [block.text, *captions(procedure, block.id)]
        found += [*procedure.expect, *procedure.if_not]
    return found


def captions(procedure: Procedure, step: str) -> list[Text]:
    """Return what stands below the photos of a step; of the whole procedure, if it is empty."""
    shown = (caption_of(each) for each in procedure.photos if each.step_id == step)
    return [caption for caption in shown if caption is not None]


def words_of(text: Text) -> list[str]:
    return [" ".join(part.text.split()) for part in text.parts if isinstance(part, Words)]


@pytest.mark.parametrize("unit", UNITS)
def test_a_browser_shows_every_text_of_every_chapter_in_order(
    unit: str, browser: Browser, demo: Path, guides: dict[str, Guide]
) -> None:
    page = own_window(browser, UPRIGHT, {})
    requests: list[str] = []
    page.on("request", lambda request: requests.append(request.url))

    for leaf in (each for chapter in guides[unit].chapters for each in leaves_of(chapter)):
        expected = texts(guides[unit], leaf)
        address = (demo / "site" / unit / f"{leaf.id}.html").as_uri()
        page.goto(address)
        themes = set()
        for _ in range(3):
            theme, shown = page.evaluate(SHOWN_AND_ON)
            themes.add(theme)
            expect_texts(shown, expected)
        assert themes == {"day", "dark", "night-red"}

    assert requests
    assert all(url.startswith(("file:", "data:")) for url in requests)
    page.context.close()


def expect_texts(shown: list[Any], expected: list[Text]) -> None:
    """Expect a page to show all texts, each in its place and to be seen."""
    assert [key for key, *_ in shown] == [text.id for text in expected]
    for (key, seen, width, height, visibility), text in zip(shown, expected, strict=True):
        assert width > 0, key
        assert height > 0, key
        assert visibility == "visible", key
        folded = " ".join(seen.split())
        assert all(words in folded for words in words_of(text)), key


def test_a_page_is_whole_without_scripts(windows: Windows, demo: Path) -> None:
    address = (demo / "site" / "T-17" / "air-brakes.html").as_uri()
    seen = []
    for scripts in (True, False):
        page = windows.opened(address, java_script_enabled=scripts)
        # What scripts add stands in elements of their own; all the rest is there without them.
        page.evaluate("document.querySelectorAll('[data-by-script]').forEach(e => e.remove())")
        seen.append(" ".join(page.locator("[data-guide]").inner_text().split()))

    assert seen[0] == seen[1]
