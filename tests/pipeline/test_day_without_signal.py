"""A driver's day on a tablet that has lost its network: look something up, do the round, finish."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pack_server import PackServer, serving
from playwright.sync_api import Browser, Page, expect

WAIT = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""
expect.set_options(timeout=WAIT)


@pytest.fixture(scope="module")
def site(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[PackServer]:
    folder = tmp_path_factory.mktemp("day")
    with serving(demo / "site", folder) as server:
        yield server


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 800, "height": 1280})
    context.set_default_timeout(WAIT)
    yield context.new_page()
    context.close()


def kept(page: Page) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate("JSON.parse(localStorage['guidegen.round.T-17'])")
    return found


def test_a_saved_truck_serves_a_whole_day_without_signal(  # noqa: PLR0915 -- a day is long
    site: PackServer, page: Page
) -> None:
    page.goto(f"{site.address}T-17/index.html")
    page.get_by_role("button", name="Save for offline").click()
    expect(page.locator("[data-pack-status]")).to_contain_text("Ready offline")
    site.stop()

    # A word half remembered and misspelled.
    page.goto(f"{site.address}T-17/search.html")
    page.get_by_role("searchbox").fill("compresor")
    first = page.locator("[data-search-results] a").first
    expect(first).to_contain_text("Build up the air pressure")
    first.click()
    expect(page.locator("#air-build-up")).to_be_in_viewport()

    # A lamp, in two taps.
    page.locator(".gg-tools").get_by_text("Lamps").click()
    page.locator(".gg-picks").get_by_text("amber lamp").click()
    page.locator("#amber [data-tile] a").first.click()
    page.wait_for_url("**/warning-lamps*.html#lamp-*")

    # The round: two stops, a note, a dead battery, a timed check, the end.
    page.locator(".gg-tools").get_by_text("Round").click()
    page.get_by_role("button", name="Begin the round").click()
    page.locator("#stop-1").get_by_role("button", name="Done, in order").click()
    page.reload()
    page.locator("#stop-2").get_by_role("button", name="Found something").click()
    page.locator("#stop-2").get_by_role("textbox").fill("left chock is split")
    page.reload()
    expect(page.locator("#stop-2").get_by_role("textbox")).to_have_value("left chock is split")
    page.locator("[data-stop] a[href*='air-build-up']").click()
    timer = page.locator("#air-build-up .gg-timer").first
    timer.get_by_role("button", name="Start").click()
    timer.get_by_role("button", name="Stop").click()
    expect(timer).to_contain_text("within the limit")
    page.get_by_role("link", name="Back to the round").click()
    page.wait_for_url("**/round.html#stop-*")
    page.get_by_role("button", name="Summary").click()
    summary = page.locator(".gg-summary")
    for said in ("This is no legal inspection report", "left chock is split", "Done, in order: 1"):
        expect(summary).to_contain_text(said)
    page.get_by_role("button", name="End the round").first.click()
    expect(summary).not_to_contain_text("not ended")
    assert kept(page)["open"] is False
