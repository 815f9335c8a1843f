"""Doing the inspection round on the tablet, in Chromium, on the demo fleet's site."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect
from served_site import served
from windows import TABLET, Windows

WAIT = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""
expect.set_options(timeout=WAIT)
KEY = "guidegen.round.T-17"
HOSTILE = "<img src=x onerror=\"document.title='harmed'\"> & <b>bold</b>"
REFUSES = """
Storage.prototype.setItem = function () {
  throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
};
"""
AWAKE = """
window.asked = [];
Object.defineProperty(navigator, "wakeLock", {value: {request: kind => {
  window.asked.push(kind);
  const lock = new EventTarget();
  lock.release = () => { lock.dispatchEvent(new Event("release")); return Promise.resolve(); };
  window.lastLock = lock;
  return Promise.resolve(lock);
}}});
"""

Open = Callable[..., Page]


@pytest.fixture(scope="module")
def address(demo: Path) -> Iterator[str]:
    with served(demo / "site") as at:
        yield at


@pytest.fixture
def tablet(browser: Browser) -> Iterator[BrowserContext]:
    """For what is put into pages, listened to, or kept for another browser."""
    context = browser.new_context(viewport=TABLET)
    context.set_default_timeout(WAIT)
    yield context
    context.close()


@pytest.fixture
def window(windows: Windows, address: str) -> Page:
    return windows.as_new(address)


def open_round(page: Page, address: str, script: str = "") -> Page:
    page.clock.install()
    if script:
        page.add_init_script(script)
    page.goto(f"{address}T-17/round.html")
    return page


def begin(page: Page) -> None:
    page.get_by_role("button", name="Begin the round").click()
    expect(page.locator(".gg-roundbar")).to_be_visible()


def stop(page: Page, number: int) -> Locator:
    return page.locator(f"#stop-{number}")


def tick(page: Page, number: int, words: str = "Done, in order") -> None:
    page.clock.run_for(1000)
    stop(page, number).get_by_role("button", name=words).click()


def kept(page: Page) -> dict[str, object]:
    state = page.evaluate(f"localStorage.getItem('{KEY}')")
    loaded = json.loads(state)
    assert isinstance(loaded, dict)
    return loaded


def test_a_tick_moves_on_to_the_next_open_stop_and_is_counted(window: Page, address: str) -> None:
    page = open_round(window, address)
    every = page.locator("[data-stop]").count()
    expect(page.locator(".gg-ticks").first).to_be_hidden()
    begin(page)
    tick(page, 2)
    tick(page, 1)

    expect(page.locator(".gg-roundbar__progress")).to_have_text(f"2 of {every}")
    expect(stop(page, 3)).to_be_focused()
    expect(stop(page, 3)).to_be_in_viewport()
    expect(stop(page, 1).get_by_role("button", name="Done, in order")).to_have_attribute(
        "aria-pressed", "true"
    )


def test_buttons_are_large_enough_for_gloves(window: Page, address: str) -> None:
    page = open_round(window, address)
    begin(page)
    tick(page, 1, "Found something")
    for button in (
        *stop(page, 1).get_by_role("button").all(),
        *page.locator(".gg-roundbar").get_by_role("button").all(),
    ):
        box = button.bounding_box()
        assert box is not None
        assert box["height"] >= 64


def test_ticks_survive_a_reload_and_a_browser_that_was_shut(
    browser: Browser, tablet: BrowserContext, address: str
) -> None:
    page = open_round(tablet.new_page(), address)
    begin(page)
    tick(page, 1)
    tick(page, 2, "Found something")
    stop(page, 2).get_by_role("textbox").fill("Left mirror cracked")
    begun = kept(page)["begun"]
    page.reload()
    expect(stop(page, 2).get_by_role("textbox")).to_have_value("Left mirror cracked")

    later = browser.new_context(storage_state=tablet.storage_state())
    later.set_default_timeout(WAIT)
    again = open_round(later.new_page(), address)
    expect(stop(again, 1).get_by_role("button", name="Done, in order")).to_have_attribute(
        "aria-pressed", "true"
    )
    expect(stop(again, 2).get_by_role("textbox")).to_have_value("Left mirror cracked")
    assert kept(again)["begun"] == begun
    assert kept(again)["open"] is True
    assert kept(again)["edition"] == again.locator("[data-guide]").get_attribute("data-edition")
    later.close()


def test_a_note_stays_text_in_the_list_and_in_the_summary(window: Page, address: str) -> None:
    page = open_round(window, address)
    title = page.title()
    begin(page)
    tick(page, 1, "Found something")
    expect(stop(page, 1).get_by_text("Stays on this tablet. Write no names.")).to_be_visible()
    stop(page, 1).get_by_role("textbox").fill(HOSTILE)
    page.reload()
    expect(stop(page, 1).get_by_role("textbox")).to_have_value(HOSTILE)
    page.get_by_role("button", name="Summary").click()
    summary = page.locator(".gg-summary")
    expect(summary.get_by_text(HOSTILE, exact=True)).to_be_visible()

    assert summary.locator("img").count() == 0
    assert page.title() == title


def test_a_state_that_somebody_has_tampered_with_stays_text_or_is_left_alone(
    window: Page, address: str
) -> None:
    page = open_round(window, address)
    begin(page)
    tick(page, 1, "Found something")
    state = kept(page)
    state["at"] = "javascript:alert(1)"
    state["stops"]["1"]["title"] = HOSTILE  # type: ignore[index]
    state["times"] = {"x": {"stop": HOSTILE, "title": HOSTILE, "said": HOSTILE}}
    page.evaluate(f"text => localStorage.setItem('{KEY}', text)", json.dumps(state))
    page.reload()
    page.get_by_role("button", name="Summary").click()
    expect(page.locator(".gg-summary").get_by_text(HOSTILE).first).to_be_visible()
    assert page.locator(".gg-summary img").count() == 0
    page.goto(f"{address}T-17/air-brakes.html")
    expect(page.get_by_role("link", name="Back to the round")).to_have_attribute(
        "href", "round.html"
    )
    page.evaluate(f"localStorage.setItem('{KEY}', '{{\"stops\": 3')")
    page.goto(f"{address}T-17/round.html")
    expect(page.get_by_role("button", name="Begin the round")).to_be_visible()


def test_where_the_tablet_keeps_nothing_ticks_work_and_the_page_says_so(
    tablet: BrowserContext, address: str
) -> None:
    page = open_round(tablet.new_page(), address, REFUSES)
    expect(page.get_by_role("alert").filter(has_text="This tablet keeps nothing")).to_be_visible()
    begin(page)
    tick(page, 1)
    tick(page, 2, "Found something")
    stop(page, 2).get_by_role("textbox").fill("Oil under the engine")
    expect(page.locator(".gg-roundbar__progress")).to_have_text("2 of 54")
    page.get_by_role("button", name="Summary").click()
    expect(page.locator(".gg-summary").get_by_text("Oil under the engine")).to_be_visible()
    page.get_by_role("button", name="Back to the stops").first.click()
    expect(page.get_by_role("alert").filter(has_text="This tablet keeps nothing")).to_be_visible()


def test_a_storage_that_fills_up_during_the_round_is_told_at_once(
    window: Page, address: str
) -> None:
    page = open_round(window, address)
    begin(page)
    tick(page, 1)
    notice = page.get_by_role("alert").filter(has_text="This tablet keeps nothing")
    expect(notice).to_have_count(0)
    page.evaluate(f"() => {{ {REFUSES} }}")
    tick(page, 2)

    expect(notice).to_be_visible()
    expect(page.locator(".gg-roundbar__progress")).to_have_text("2 of 54")


def test_a_guide_that_has_changed_during_the_round_is_not_mixed_with_its_ticks(
    tablet: BrowserContext, address: str
) -> None:
    page = open_round(tablet.new_page(), address)
    begin(page)
    tick(page, 1, "Found something")
    stop(page, 1).get_by_role("textbox").fill("Belt frayed")
    before = kept(page)
    edition = str(before["edition"])
    page.route(
        "**/round.html",
        lambda route: route.fulfill(
            body=route.fetch().text().replace(edition, "0123456789ab"), content_type="text/html"
        ),
    )
    page.reload()
    expect(page.get_by_text("The guide has changed since this round was begun.")).to_be_visible()
    expect(stop(page, 1).locator(".gg-ticks")).to_be_hidden()
    assert kept(page) == before
    page.get_by_role("button", name="Show the old notes").click()
    expect(page.locator(".gg-summary").get_by_text("Belt frayed")).to_be_visible()
    expect(page.locator(".gg-summary").get_by_text(str(before["revision"]))).to_be_visible()

    page.get_by_role("button", name="Clear and begin anew").click()
    page.get_by_role("button", name="Yes, clear").click()
    expect(stop(page, 1).locator(".gg-ticks")).to_be_visible()
    assert kept(page)["edition"] == "0123456789ab"
    assert kept(page)["stops"] == {}


def test_the_way_back_from_a_procedure_leads_to_the_stop_that_was_opened(
    window: Page, address: str
) -> None:
    page = open_round(window, address)
    page.goto(f"{address}T-17/air-brakes.html")
    expect(page.locator(".gg-roundbar")).to_be_hidden()
    page.goto(f"{address}T-17/round.html")
    begin(page)
    link = stop(page, 46).locator(".gg-stop__head a")
    link.click()
    back = page.get_by_role("link", name="Back to the round, stop 46")
    expect(back).to_be_visible()
    back.click()

    expect(page).to_have_url(f"{address}T-17/round.html#stop-46")
    expect(stop(page, 46).locator(".gg-stop__head")).to_be_in_viewport()


def test_a_second_tap_by_the_same_hand_does_not_tick_the_stop_that_scrolled_under_it(
    window: Page, address: str
) -> None:
    page = open_round(window, address)
    begin(page)
    tick(page, 1)
    page.clock.pause_at("2099-01-01")
    page.evaluate(
        """() => ['1', '2'].forEach(number => document.querySelector(
        `#stop-${number} .gg-tap--done`).click())"""
    )
    expect(page.locator(".gg-roundbar__progress")).to_have_text("0 of 54")
    expect(stop(page, 2).get_by_role("button", name="Done, in order")).to_have_attribute(
        "aria-pressed", "false"
    )


def test_the_summary_says_all_and_what_it_is_not_and_prints_alone(
    window: Page, address: str
) -> None:
    page = open_round(window, address)
    begin(page)
    tick(page, 1)
    tick(page, 2, "Found something")
    stop(page, 2).get_by_role("textbox").fill("Chock missing")
    page.get_by_role("button", name="Summary").click()
    summary = page.locator(".gg-summary")
    titles = page.locator(".gg-stop__head a").all_text_contents()
    expect(summary).to_contain_text("This is no legal inspection report.")
    expect(summary).to_contain_text("Make the report that is prescribed for the vehicle, too.")
    expect(summary).to_contain_text("Nothing of this has been sent to anybody.")
    expect(summary).to_contain_text("T-17")
    expect(summary).to_contain_text(str(kept(page)["revision"]))
    expect(summary).to_contain_text("not ended")
    expect(summary).to_contain_text("Found something: 1")
    expect(summary).to_contain_text("Chock missing")
    expect(summary).to_contain_text("Done, in order: 1")
    expect(summary).to_contain_text(f"Not done: {len(titles) - 2}")
    for number, title in enumerate(titles, 1):
        expect(summary).to_contain_text(f"{number} {title}")

    page.emulate_media(media="print")
    expect(summary).to_be_visible()
    expect(page.locator(".gg-round")).to_be_hidden()
    expect(page.locator(".gg-roundbar")).to_be_hidden()
    expect(summary.get_by_role("button")).to_have_count(0)
    page.emulate_media(media="screen")
    summary.get_by_role("button", name="End the round").click()
    expect(summary).not_to_contain_text("not ended")
    assert kept(page)["open"] is False
    assert kept(page)["ended"]


def test_to_clear_takes_a_second_tap_and_nothing_is_lost_without_it(
    window: Page, address: str
) -> None:
    page = open_round(window, address)
    begin(page)
    tick(page, 1)
    page.get_by_role("button", name="Summary").click()
    page.get_by_role("button", name="Clear and begin anew").click()
    page.get_by_role("button", name="No, keep").click()
    assert "1" in kept(page)["stops"]  # type: ignore[operator]
    page.get_by_role("button", name="Clear and begin anew").click()
    page.get_by_role("button", name="Yes, clear").click()

    expect(page.locator(".gg-roundbar__progress")).to_have_text("0 of 54")
    assert kept(page)["stops"] == {}


def test_a_round_of_another_day_is_told_apart_from_todays(window: Page, address: str) -> None:
    page = open_round(window, address)
    begin(page)
    tick(page, 1)
    page.clock.fast_forward("24:00:00")
    page.reload()
    page.clock.fast_forward("24:00:00")
    page.get_by_role("button", name="Next stop").last.click()

    expect(page.get_by_text("This round was begun on")).to_be_visible()


def test_the_screen_is_kept_on_during_the_round_and_asked_for_again(
    tablet: BrowserContext, address: str
) -> None:
    page = open_round(tablet.new_page(), address, AWAKE)
    assert page.evaluate("window.asked") == []
    begin(page)
    told = page.locator(".gg-roundbar__awake")
    expect(told).to_have_text("The screen stays on.")
    expect(told).to_be_visible()
    page.evaluate("window.lastLock.dispatchEvent(new Event('release'))")
    expect(told).to_be_hidden()
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    expect(told).to_be_visible()
    assert page.evaluate("window.asked") == ["screen", "screen"]
    page.get_by_role("button", name="Summary").click()
    page.get_by_role("button", name="End the round").click()
    expect(told).to_be_hidden()


def test_where_the_screen_cannot_be_kept_on_the_round_says_nothing_of_it(
    tablet: BrowserContext, address: str
) -> None:
    page = open_round(
        tablet.new_page(),
        address,
        "Object.defineProperty(navigator, 'wakeLock', {value: undefined});",
    )
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    begin(page)
    expect(page.locator(".gg-roundbar__progress")).to_be_visible()
    expect(page.locator(".gg-roundbar__awake")).to_be_hidden()
    assert faults == []


def test_the_round_is_done_with_the_keyboard_alone(window: Page, address: str) -> None:
    page = open_round(window, address)
    page.get_by_role("button", name="Begin the round").focus()
    page.keyboard.press("Enter")
    expect(stop(page, 1)).to_be_focused()
    page.keyboard.press("Tab")
    expect(stop(page, 1).locator(".gg-stop__head a")).to_be_focused()
    page.keyboard.press("Tab")
    page.clock.run_for(1000)
    page.keyboard.press("Space")
    expect(stop(page, 2)).to_be_focused()
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.clock.run_for(1000)
    page.keyboard.press("Enter")
    expect(stop(page, 2).get_by_role("textbox")).to_be_focused()
    page.keyboard.type("Flat tire")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")

    expect(stop(page, 3)).to_be_focused()
    assert kept(page)["stops"]["2"]["note"] == "Flat tire"  # type: ignore[index]


def test_without_a_script_every_stop_is_there_and_nothing_to_tap(
    windows: Windows, address: str
) -> None:
    page = windows.opened(f"{address}T-17/round.html", java_script_enabled=False)
    assert page.locator("[data-stop]").count() == page.locator("[data-stop]:visible").count()
    assert page.locator("[data-guide] button").count() == 0
    expect(page.locator("[data-script-word]")).to_have_count(0)


def test_nothing_of_the_round_leaves_the_tablet(tablet: BrowserContext, address: str) -> None:
    page = open_round(tablet.new_page(), address)
    page.wait_for_load_state("networkidle")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    begin(page)
    tick(page, 1, "Found something")
    stop(page, 1).get_by_role("textbox").fill("secret")
    page.get_by_role("button", name="Summary").click()
    page.get_by_role("button", name="End the round").click()
    assert asked == []
