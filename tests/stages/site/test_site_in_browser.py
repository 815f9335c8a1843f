"""The sample site in Chromium, as a driver sees it."""

import re
import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from itertools import cycle
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect
from sample_publication import publish_sample
from served_site import LOOK
from wait_in_page import wait_until
from wcag_contrast_ratio import rgb  # type: ignore[import-untyped]
from windows import PHONE, TABLET, UPRIGHT, Windows, in_sizes, own_window

WAIT = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""
expect.set_options(timeout=WAIT)
SMALLEST: ViewportSize = {"width": 320, "height": 640}
"""WCAG 2.2, 1.4.10: what reflows must do so down to 320 px."""
SIZES = (TABLET, UPRIGHT, PHONE, SMALLEST)
PAGES = (
    *("T-17/index.html", "T-17/before-the-day.html", "T-17/air-brakes.html", "T-17/data.html"),
    *("E-04/when-something-is-wrong.html", "H-2/index.html"),
    *("T-17/round.html", "T-17/differences.html", "E-04/from-T-17.html", "T-18/from-T-17.html"),
    *("T-17/search.html", "index.html", "safety.html", "proof.html"),
)
THEMES = ("day", "dark", "night-red")


POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
    "connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'"
)
"""Content Security Policy Level 3: nothing but files of the site, and nothing put into pages."""


class _Strict(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 -- the base's name
        """Keep the test's output clean."""

    def end_headers(self) -> None:
        """Send every file as a careful host would."""
        self.send_header("Content-Security-Policy", POLICY)
        super().end_headers()


@pytest.fixture(scope="module")
def site(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("browser") / "site"
    publish_sample(project_root, folder)
    return folder


@pytest.fixture(scope="module")
def address(site: Path) -> Iterator[str]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Strict, directory=str(site)))
    thread = threading.Thread(target=server.serve_forever, args=(LOOK,))
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()
    thread.join()


@pytest.fixture
def window(browser: Browser) -> Iterator[Page]:
    """A window of one's own, for what is kept, listened to or put in the way."""
    page = own_window(browser, TABLET, {})
    yield page
    page.context.close()


def search(page: Page, words: str) -> list[str]:
    page.locator("#gg-search").fill(words)
    links = page.locator("[data-search-results] a")
    return [str(links.nth(n).get_attribute("href")) for n in range(links.count())]


def search_page(windows: Windows, address: str, unit: str) -> Page:
    page = windows.opened(f"{address}{unit}/search.html")
    expect(page.locator("#gg-search")).to_be_visible()
    return page


def test_searching_in_a_unit_finds_its_own_procedures_only(windows: Windows, address: str) -> None:
    page = search_page(windows, address, "T-17")
    assert search(page, "governor") == ["air-brakes.html#air-build-up"]
    for words in ("orange cables", "650", "Quillon"):
        assert not [each for each in search(page, words) if "high-voltage" in each]


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("govenor", "air-brakes.html#air-build-up"),
        ("GOVERNOR", "air-brakes.html#air-build-up"),
        ("gov", "air-brakes.html#air-build-up"),
        ("drain tanks", "air-brakes.html#drain-air-tanks"),
        ("dran the air tnaks", "air-brakes.html#drain-air-tanks"),
    ],
)
def test_slips_and_beginnings_of_words_are_forgiven(
    typed: str, found: str, windows: Windows, address: str
) -> None:
    page = search_page(windows, address, "T-17")
    assert found in search(page, typed)[:3]


def test_a_result_names_its_chapter_shows_the_words_and_is_big_enough(
    windows: Windows, address: str
) -> None:
    page = search_page(windows, address, "T-17")
    search(page, "governor")
    row = page.locator("[data-search-results] a").first
    expect(row.locator("small")).to_have_text("Air brakes")
    expect(row.locator("mark").first).to_have_text("governor")
    assert min(heights(page, "[data-search-results] a, #gg-search")) >= 64
    expect(page.locator(".gg-index")).not_to_be_visible()
    page.locator("#gg-search").fill("")
    expect(page.locator(".gg-index")).to_be_visible()
    row_count = page.locator(".gg-index a").count()
    page.locator("#gg-search").fill("xyzzyx")
    expect(page.get_by_text("Nothing found.")).to_be_visible()
    assert page.locator(".gg-index a:visible").count() == row_count


def test_small_words_that_matter_in_a_truck_are_found(windows: Windows, address: str) -> None:
    page = search_page(windows, address, "T-17")
    assert search(page, "off") != []


def test_the_search_works_in_a_copy_opened_from_a_folder(site: Path, windows: Windows) -> None:
    page = windows.opened((site / "T-17" / "index.html").as_uri())
    page.locator(".gg-tools").get_by_text("Search").click()
    page.locator("#gg-search").fill("governor")
    page.locator("[data-search-results] a").first.click()
    page.wait_for_url("**/T-17/air-brakes.html#air-build-up")


def test_without_a_script_the_search_page_lists_all_by_the_alphabet(
    windows: Windows, site: Path
) -> None:
    page = windows.opened((site / "T-17/search.html").as_uri(), java_script_enabled=False)
    expect(page.locator("#gg-search")).not_to_be_visible()
    titles = page.locator(".gg-index a").all_inner_texts()
    assert titles == sorted(titles, key=str.casefold)
    page.get_by_role("link", name="Drain the air tanks").click()
    page.wait_for_url("**/T-17/air-brakes.html#drain-air-tanks")


def listened_to(browser: Browser, address: str, faults: list[str]) -> Page:
    """Return a window that writes all that goes wrong in it into *faults*."""
    page = own_window(browser, TABLET, {})

    def tell(what: str) -> None:
        faults.append(f"{page.url}: {what}")

    page.on("request", lambda asked: None if asked.url.startswith(address) else tell(asked.url))
    page.on("requestfailed", lambda request: tell(request.url))
    page.on("response", lambda got: tell(got.url) if got.status >= 400 else None)
    page.on("pageerror", lambda error: tell(str(error)))
    page.on("console", lambda message: tell(message.text))
    page.add_init_script(
        "addEventListener('securitypolicyviolation', e => console.error(e.violatedDirective))"
    )
    return page


def test_no_page_asks_for_anything_outside_or_breaks(browser: Browser, address: str) -> None:
    faults: list[str] = []
    pages = [listened_to(browser, address, faults) for _ in range(3)]
    # One comes to rest while others are read in.
    for page, path in zip(cycle(pages), PAGES, strict=False):
        page.wait_for_load_state("networkidle")
        page.goto(f"{address}{path}")
    for page in pages:
        page.wait_for_load_state("networkidle")
        page.context.close()
    assert faults == []


_INKS = """() => {
  const seen = new Map();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const text = walker.currentNode.textContent.trim();
    const element = walker.currentNode.parentElement;
    if (!text || !element.checkVisibility({checkOpacity: true, checkVisibilityCSS: true})) continue;
    let opacity = 1, ground = null;
    for (let at = element; at; at = at.parentElement) {
      const style = getComputedStyle(at);
      opacity *= parseFloat(style.opacity);
      if (ground === null && style.backgroundColor !== "rgba(0, 0, 0, 0)") {
        ground = style.backgroundColor;
      }
    }
    const ink = getComputedStyle(element).color;
    seen.set([ink, ground, opacity].join("|"), text);
  }
  return [...seen.entries()];
}"""


_INKS_AND_ON = f"""() => {{
  const seen = [document.documentElement.dataset.theme, ({_INKS})()];
  document.querySelector("[data-theme-button]").click();
  return seen;
}}"""
"""The theme and its inks; then on to the next theme, which is kept for the next page too."""


def channels(color: str) -> tuple[float, ...]:
    assert color.startswith("rgb("), color
    return tuple(int(part) / 255 for part in color[4:-1].split(","))


def test_the_server_of_these_tests_lets_no_inline_script_run(
    windows: Windows, address: str
) -> None:
    page = windows.opened(f"{address}T-17/index.html")
    assert page.evaluate(
        """() => new Promise(done => {
          addEventListener('securitypolicyviolation', e => done(e.violatedDirective))
          const script = document.createElement('script')
          script.textContent = 'document.title = "ran"'
          document.head.append(script)
        })"""
    ).startswith("script-src")


def test_every_text_on_the_screen_has_enough_contrast_in_every_theme(
    window: Page, address: str
) -> None:
    theme = THEMES[0]
    for path in PAGES:
        window.goto(f"{address}{path}")
        seen = set()
        for _ in THEMES:
            shown, pairs = window.evaluate(_INKS_AND_ON)
            assert shown == theme, path
            seen.add(theme)
            assert len(pairs) >= 2, path
            for key, text in pairs:
                ink, ground, opacity = key.split("|")
                assert opacity == "1", (path, theme, text)
                # WCAG 2.2, 1.4.3 (reference K3), judged by wcag-contrast-ratio.
                enough = rgb(channels(ink), channels(ground)) >= 4.5
                assert enough, (path, theme, text, ink, ground)
            theme = THEMES[(THEMES.index(theme) + 1) % len(THEMES)]
        assert seen == set(THEMES)


UNLABELED = """
() => [...document.querySelectorAll('[data-known-fact], [data-known-text]')].filter(element => {
  if (element.dataset.knownFact === 'identity.number') return false
  const heads = document.querySelectorAll('[data-known-fact="identity.number"]')
  const box = element.getBoundingClientRect()
  return ![...heads].some(head => {
    const own = head.closest('[data-difference]') === element.closest('[data-difference]')
    const place = head.getBoundingClientRect()
    const beside = place.top < box.bottom + 60 && place.bottom > box.top - 60
    const above = head.closest('.gg-known') !== null && place.top <= box.top
    return own && place.width > 0 && (beside || above)
  })
}).map(element => element.outerHTML)
"""
"""What is of the known truck, and has not that truck's number beside it or over its box."""


@pytest.mark.parametrize(
    "path", ["E-04/from-T-17.html", "T-17/from-E-04.html", "H-2/from-T-17.html"]
)
def test_what_is_of_the_known_truck_stands_by_its_number(
    windows: Windows, address: str, path: str
) -> None:
    page = windows.opened(address + path)
    assert page.locator("[data-known-fact]").count() > 10
    for size in in_sizes(page, SIZES):
        assert page.evaluate(UNLABELED) == [], size


def test_a_sheet_leads_to_its_parts_and_to_the_work_without_a_script(
    windows: Windows, site: Path
) -> None:
    page = windows.opened((site / "E-04" / "from-T-17.html").as_uri(), java_script_enabled=False)
    page.get_by_role("link", name="High voltage, gas and red lamps").click()
    heading = page.locator("h2[data-rank=dangers]")
    expect(heading).to_be_in_viewport()
    page.get_by_role("link", name="Shut off the high voltage").click()
    page.wait_for_url("**/E-04/when-something-is-wrong.html#high-voltage-shut-off")
    page.locator(".gg-onward").get_by_role("link", name="Start").click()
    page.locator(".gg-part").get_by_role("link", name="If you know another truck").click()
    page.locator("[data-truck=T-17] a").click()
    page.wait_for_url("**/E-04/from-T-17.html")


IN_RED = "localStorage.setItem('guidegen-theme', 'night-red')"


def ground(page: Page) -> str:
    return str(page.evaluate("getComputedStyle(document.body).backgroundColor"))


@pytest.mark.parametrize(("scheme", "theme"), [("light", "day"), ("dark", "dark")])
def test_the_first_choice_of_colors_is_the_tablets(
    scheme: str, theme: str, windows: Windows, address: str
) -> None:
    page = windows.opened(f"{address}T-17/index.html", color_scheme=scheme)
    expect(page.locator("html")).to_have_attribute("data-theme", theme)
    with_script = ground(page)
    page = windows.opened(
        f"{address}T-17/index.html", color_scheme=scheme, java_script_enabled=False
    )
    expect(page.locator("[data-theme-button]")).not_to_be_visible()
    assert ground(page) == with_script


def test_one_button_goes_through_the_themes_and_the_choice_holds_in_all_trucks(
    window: Page, address: str
) -> None:
    page = window
    page.goto(f"{address}T-17/index.html")
    button, root = page.get_by_role("button", name="Colors"), page.locator("html")
    seen = [ground(page)]
    for word, theme in (("Dark", "dark"), ("Red", "night-red")):
        button.click()
        expect(root).to_have_attribute("data-theme", theme)
        expect(button).to_have_text(re.compile(word))
        seen.append(ground(page))
    assert len(set(seen)) == 3
    page.goto(f"{address}E-04/index.html")
    expect(root).to_have_attribute("data-theme", "night-red")
    button.click()
    expect(root).to_have_attribute("data-theme", "day")


def test_a_tablet_that_keeps_nothing_still_shows_all_themes(window: Page, address: str) -> None:
    page = window
    page.emulate_media(color_scheme="dark")
    page.add_init_script(
        "Object.defineProperty(window, 'localStorage', "
        "{get() { throw new DOMException('refused', 'SecurityError') }})"
    )
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto(f"{address}T-17/index.html")
    expect(page.locator("html")).to_have_attribute("data-theme", "dark")
    page.get_by_role("button", name="Colors").click()
    expect(page.locator("html")).to_have_attribute("data-theme", "night-red")
    assert faults == []


def test_the_theme_is_there_before_anything_is_drawn(window: Page, address: str) -> None:
    page = window
    page.add_init_script(IN_RED)
    page.route("**/guidegen.js", lambda route: route.abort())
    page.goto(f"{address}T-17/data.html", wait_until="commit")
    wait_until(page, "document.body !== null && document.body.children.length > 0")
    assert page.evaluate("document.documentElement.dataset.theme") == "night-red"


_SHIFT = """() => new Promise(done => {
  let moved = 0
  new PerformanceObserver(list => {
    for (const each of list.getEntries()) moved += each.value
  }).observe({type: 'layout-shift', buffered: true})
  document.fonts.ready.then(() => requestAnimationFrame(() => requestAnimationFrame(() =>
    done(moved))))
})"""


@pytest.mark.parametrize(
    "path", ["T-17/index.html", "T-17/air-brakes.html", "T-17/round.html", "T-17/data.html"]
)
def test_nothing_moves_while_a_page_is_read_in(windows: Windows, address: str, path: str) -> None:
    page = windows.opened("about:blank")
    # Each time as on a tablet that has nothing of the site yet: letters come late.
    browsers_own = page.context.new_cdp_session(page)
    browsers_own.send("Network.enable")
    browsers_own.send("Network.setCacheDisabled", {"cacheDisabled": True})
    for size in in_sizes(page, SIZES):
        page.goto(address + path)
        # web.dev calls a cumulative layout shift of 0.1 good.
        assert page.evaluate(_SHIFT) < 0.1, size
    browsers_own.detach()


def test_a_hand_on_an_upright_tablet_finds_the_tools_at_the_lower_edge(
    windows: Windows, address: str
) -> None:
    for size in (UPRIGHT, PHONE):
        page = windows.opened(f"{address}T-17/air-brakes.html", size)
        for box in boxes(page, ".gg-tools a"):
            assert box["bottom"] > size["height"] - 80
            assert box["height"] >= 64
        page.locator(".gg-tools").get_by_text("Chapters").click()
        expect(page.locator("#chapters a").first).to_be_in_viewport()
        page.locator("#chapters").get_by_text("Data").click()
        page.wait_for_url("**/T-17/data.html")


def test_a_keyboard_comes_past_the_bar_to_the_page(windows: Windows, address: str) -> None:
    page = windows.opened(f"{address}T-17/air-brakes.html")
    page.keyboard.press("Tab")
    skip = page.get_by_role("link", name="Skip to the page")
    expect(skip).to_be_focused()
    expect(skip).to_be_in_viewport()
    assert skip.evaluate("each => getComputedStyle(each).outlineStyle") == "solid"
    page.keyboard.press("Enter")
    page.wait_for_url("**#page")


_OVER = """() => [
  innerWidth,
  document.documentElement.scrollWidth,
  [...document.querySelectorAll("body *:not(.gg-skip)")].filter(
    (each) => each.getBoundingClientRect().right > innerWidth + 1
  ).map((each) => each.outerHTML.slice(0, 80)),
]"""


def test_nothing_runs_over_the_side_of_any_screen(windows: Windows, address: str) -> None:
    for path in PAGES:
        page = windows.opened(f"{address}{path}")
        for size in in_sizes(page, SIZES):
            inner, whole, over = page.evaluate(_OVER)
            assert inner == size["width"]
            assert over == [], (path, size)
            assert whole <= inner, (path, size)


def heights(page: Page, selector: str) -> list[float]:
    found: list[float] = page.eval_on_selector_all(
        selector, "all => all.map((each) => each.getBoundingClientRect().height)"
    )
    assert found, selector
    return found


def type_sizes(page: Page, selector: str) -> list[float]:
    found: list[float] = page.eval_on_selector_all(
        selector, "all => all.map((each) => parseFloat(getComputedStyle(each).fontSize))"
    )
    assert found, selector
    return found


def test_targets_and_letters_are_big_enough_for_gloves_and_a_dark_cab(
    windows: Windows, address: str
) -> None:
    # WCAG 2.2 asks for targets of 44 px at its strictest (reference K5); 64, 24 and 18 px are
    # our own: common practice, no source.
    page = windows.opened(f"{address}T-17/index.html")
    for size in in_sizes(page, SIZES):
        assert min(heights(page, ".gg-row, .gg-bar__number, .gg-nav a, .gg-foot a")) >= 64, size
        assert min(heights(page, ".gg-bar__theme, .gg-tools a")) >= 64, size
        assert min(type_sizes(page, ".gg-numbers [data-fact]")) >= 24, size
        words = "main [data-label], main dt, main dd, .gg-bar, .gg-tools a"
        assert min(type_sizes(page, words)) >= 18, size
        assert min(type_sizes(page, ".gg-truck h1")) >= 64, size
    page = windows.opened(f"{address}T-17/before-the-day.html")
    for size in in_sizes(page, SIZES):
        steps = type_sizes(page, "[data-step] > div [data-text]")
        assert min(steps) >= 18, size
        assert min(type_sizes(page, "[data-caution] [data-text]")) >= max(steps), size
        assert min(type_sizes(page, ".gg-procedure p [data-fact]")) >= 24, size
    page = windows.opened(f"{address}T-17/air-brakes.html")
    for size in in_sizes(page, SIZES):
        assert min(type_sizes(page, ".gg-procedure p [data-fact]")) >= 24, size
    page = windows.opened(f"{address}E-04/from-T-17.html")
    for size in in_sizes(page, SIZES):
        values = ".gg-sheet dd :is([data-fact], [data-known-fact])"
        assert min(type_sizes(page, values)) >= 24, size
    page = windows.opened(f"{address}index.html")
    for size in in_sizes(page, SIZES):
        assert min(heights(page, ".gg-row, #gg-find, .gg-yard h2 a")) >= 64, size


def test_the_round_is_read_and_pressed_with_gloves_in_a_dark_cab(
    windows: Windows, address: str
) -> None:
    page = windows.opened(f"{address}T-17/round.html")
    read = "[data-station], [data-state], [data-why], [data-act], [data-premise], [data-label]"
    for size in in_sizes(page, SIZES):
        assert min(heights(page, "[data-stop] .gg-row, [data-stop] [data-number]")) >= 64, size
        assert min(type_sizes(page, f"main :is({read})")) >= 18, size
        assert min(type_sizes(page, "[data-stop] [data-signal-word]")) >= 18, size
        assert min(type_sizes(page, "[data-stop] [data-number]")) >= 24, size


def boxes(page: Page, selector: str) -> list[dict[str, float]]:
    found: list[dict[str, float]] = page.eval_on_selector_all(
        selector, "all => all.map((each) => each.getBoundingClientRect().toJSON())"
    )
    assert found, selector
    return found


def test_the_plan_of_the_round_stands_beside_its_list_and_stays_in_sight(
    windows: Windows, address: str
) -> None:
    page = windows.opened(f"{address}T-17/round.html", TABLET)
    (plan,), stops = boxes(page, "[data-figure=round-plan]"), boxes(page, "[data-stop]")
    assert all(plan["right"] <= stop["left"] for stop in stops)
    # Numbers are 33 units high on the plan's grid, and words 24.
    width = page.locator("[data-figure=round-plan] svg").get_attribute("viewBox")
    assert width is not None
    scale = plan["width"] / float(width.split()[2])
    assert 33 * scale >= 24
    assert 24 * scale >= 18
    page.locator("[data-stop]").last.scroll_into_view_if_needed()
    (later,) = boxes(page, "[data-figure=round-plan] svg")
    assert 0 < later["top"] < TABLET["height"] / 2


def test_where_the_screen_is_narrow_the_plan_stands_over_its_list(
    windows: Windows, address: str
) -> None:
    page = windows.opened(f"{address}T-17/round.html")
    for size in in_sizes(page, (UPRIGHT, PHONE)):
        (plan,), stops = boxes(page, "[data-figure=round-plan]"), boxes(page, "[data-stop]")
        assert plan["bottom"] <= min(stop["top"] for stop in stops), size


def test_the_round_on_paper_is_black_on_white(window: Page, address: str) -> None:
    window.add_init_script(IN_RED)
    window.goto(f"{address}T-17/round.html")
    expect(window.locator("html")).to_have_attribute("data-theme", "night-red")
    window.emulate_media(media="print")
    pairs = window.evaluate(_INKS)
    assert {key for key, _ in pairs} == {"rgb(0, 0, 0)|rgb(255, 255, 255)|1"}


def test_a_copy_opened_from_a_folder_works(site: Path, windows: Windows) -> None:
    page = windows.opened((site / "index.html").as_uri())
    page.get_by_text("T-17").click()
    page.locator(".gg-part").get_by_text("Air brakes").click()
    page.locator(".gg-contents").get_by_text("Drain the air tanks").click()
    page.wait_for_url("**/T-17/air-brakes.html#drain-air-tanks")
    expect(page.locator("[data-caution]").first).to_be_visible()


def test_the_code_on_a_card_tells_whether_the_card_is_out_of_date(
    windows: Windows, address: str
) -> None:
    page = windows.opened(f"{address}T-17/")
    stale, current = page.locator("[data-card-stale]"), page.locator("[data-card-current]")
    edition = page.locator("[data-guide]").get_attribute("data-edition")
    assert edition is not None
    expect(stale).not_to_be_visible()
    page.goto(f"{address}T-17/?r={edition[:8]}")
    expect(current).to_be_visible()
    expect(stale).not_to_be_visible()
    page.goto(f"{address}T-17/?r=00000000")
    expect(stale).to_be_visible()
    expect(current).not_to_be_visible()


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("17", ["T-17"]),
        ("blf 4417", ["T-17"]),
        ("7Z9ELM26XRBC00004", ["E-04"]),
        ("river street", ["E-04", "T-18"]),
        ("corvane", ["T-17", "T-18"]),
        ("corvane river", ["T-18"]),
        ("zeppelin", []),
        ("", ["T-17", "E-04", "T-18", "H-2"]),
    ],
)
def test_the_filter_finds_trucks_by_all_that_is_on_their_papers(
    typed: str, found: list[str], windows: Windows, address: str
) -> None:
    page = windows.opened(f"{address}index.html")
    page.locator("#gg-find").fill(typed)
    expect(page.get_by_text(f"{len(found)} of 4 trucks")).to_be_visible()
    shown = page.locator("[data-unit]:visible")
    assert [shown.nth(n).get_attribute("data-unit") for n in range(shown.count())] == found


def test_enter_opens_the_only_truck_that_is_left(windows: Windows, address: str) -> None:
    page = windows.opened(f"{address}index.html")
    page.locator("#gg-find").fill("e-04")
    page.keyboard.press("Enter")
    page.wait_for_url("**/E-04/index.html")


def test_without_scripts_the_whole_list_stands_and_no_dead_box(
    windows: Windows, address: str
) -> None:
    page = windows.opened(f"{address}index.html", java_script_enabled=False)
    assert page.locator("[data-unit]:visible").count() == 4
    expect(page.locator("#gg-find")).not_to_be_visible()
    page.goto(f"{address}T-17/air-brakes.html")
    expect(page.get_by_text("With low air the spring brakes")).to_be_visible()


def test_on_paper_a_caution_has_its_word_its_symbol_and_a_border_in_black(
    window: Page, address: str
) -> None:
    page = window
    page.emulate_media(media="print", color_scheme="dark")
    page.goto(f"{address}T-17/before-the-day.html")
    expect(page.locator("html")).to_have_attribute("data-theme", "dark")
    for gone in (".gg-tools", ".gg-nav", "[data-theme-button]", ".gg-skip"):
        expect(page.locator(gone)).not_to_be_visible()
    held = page.locator("[data-step]").first.evaluate("each => getComputedStyle(each).breakInside")
    assert held == "avoid"
    expect(page.locator(".gg-bar__number")).to_be_visible()
    for text in ("WARNING", "CAUTION", "NOTICE"):
        panel = page.locator(f"[data-caution][data-signal={text}]").first
        expect(panel.get_by_text(text)).to_be_visible()
        style = panel.evaluate(
            "each => { const s = getComputedStyle(each); "
            "return [s.borderTopColor, s.borderTopWidth, s.backgroundColor, s.color]; }"
        )
        assert style[0] == style[3] == "rgb(0, 0, 0)"
        assert style[2] == "rgb(255, 255, 255)"
        assert float(style[1].removesuffix("px")) >= 2
    expect(page.locator("[data-signal=WARNING] svg").first).to_be_visible()
    pairs = page.evaluate(_INKS)
    assert {key for key, _ in pairs} == {"rgb(0, 0, 0)|rgb(255, 255, 255)|1"}
