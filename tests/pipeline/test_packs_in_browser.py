"""Trucks saved on a tablet: Chromium, the site of a small fleet, and a network that fails."""

import json
import re
import shutil
from collections.abc import Callable, Iterator
from contextlib import suppress
from itertools import zip_longest
from pathlib import Path
from typing import Any

import pytest
from pack_server import PackServer, serving
from playwright.sync_api import (
    Browser,
    BrowserContext,
    Locator,
    Page,
    Route,
    TimeoutError,  # noqa: A004 -- Playwright's own
    expect,
)
from wait_in_page import wait_until

Run = Callable[..., Any]

WAIT = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""
expect.set_options(timeout=WAIT)
TRUCKS = ("T-17", "E-02")
CHAPTER = "air-brakes.html"


def shrink(project: Path) -> None:
    """Leave two trucks that differ in much, and no cards; add a style of the fleet's own."""
    for path in (project / "specs" / "units").iterdir():
        if path.stem not in TRUCKS:
            path.unlink()
    fleet = project / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith(("address:", "issued:"))]
    fleet.write_text("".join(kept), encoding="utf-8", newline="\n")
    settings = project / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    text = text.replace("extra_css:\n", "extra_css:\n  - own.css\n", 1)
    settings.write_text(text, encoding="utf-8", newline="\n")


@pytest.fixture(scope="module")
def issues(run: Run, seed: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Two issues of one small fleet's site: of another cut-out pressure, and of another style."""
    project = tmp_path_factory.mktemp("issues") / "fleet"
    shutil.copytree(seed, project)
    shrink(project)
    made = []
    for name in ("first", "second"):
        style = f"body {{ --issue: {name}; }}\n"
        (project / "docs" / "own.css").write_text(style, encoding="utf-8", newline="\n")
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


def revision_said(page: Page) -> Locator:
    """Return the revision in the bar."""
    return page.locator("[data-issue]")


def told(page: Page) -> Locator:
    return page.locator(".gg-keep__say").first


_IS_READY = """() => {
  const badge = document.querySelector("[data-pack-status]")
  return badge !== null && badge.textContent.includes("Ready offline")
}"""


def expect_ready(page: Page) -> None:
    """Expect the open truck to be saved; looked at more often than `expect` looks."""
    with suppress(TimeoutError):
        page.wait_for_function(_IS_READY, polling=20)
    expect(badge(page)).to_contain_text("Ready offline")


def save(page: Page, site: PackServer, unit: str) -> None:
    page.goto(f"{site.address}{unit}/index.html")
    page.get_by_role("button", name="Save for offline").click()
    expect_ready(page)


def revision(folder: Path, unit: str) -> str:
    found = re.search(r'data-edition="(.{8})', (folder / unit / "index.html").read_text("utf-8"))
    assert found is not None
    return found[1]


def pages_of(site: PackServer, unit: str) -> list[str]:
    return sorted(path.name for path in (site.folder / unit).glob("*.html"))


def cut_out(page: Page) -> str:
    return str(page.locator('[data-fact="brakes.air.cut_out"]').first.inner_text())


def issue(page: Page) -> str:
    """Which issue's style the page has."""
    found = page.evaluate("getComputedStyle(document.body).getPropertyValue('--issue')")
    return str(found).strip()


_IN_FRAMES = """async addresses => {
  const found = {}
  for (const address of addresses) {
    const frame = document.createElement("iframe")
    const isThere = new Promise(done => frame.addEventListener("load", done))
    frame.hidden = true
    frame.src = address
    document.body.append(frame)
    await isThere
    const page = frame.contentDocument
    const guide = page.querySelector("[data-guide]")
    const style = frame.contentWindow.getComputedStyle(page.body)
    found[address] = [
      guide && guide.dataset.guide,
      guide && guide.dataset.edition.slice(0, 8),
      style.getPropertyValue("--issue").trim(),
    ]
    frame.remove()
  }
  return found
}"""


def seen_in_frames(page: Page, addresses: list[str]) -> dict[str, list[str]]:
    """Return of the pages at *addresses* whose they are, of which revision and which style.

    A frame is navigated to as a window is, and its page asks for its own style, at a third of
    the cost.
    """
    found: dict[str, list[str]] = page.evaluate(_IN_FRAMES, addresses)
    return found


def addresses_of(site: PackServer, unit: str) -> list[str]:
    return [f"{site.address}{unit}/{name}" for name in pages_of(site, unit)]


_WHOLE = """async () => {
  await document.fonts.ready
  const badge = document.querySelector("[data-pack-status]")
  for (let left = 6000; left && !badge.textContent.includes("Ready offline"); left -= 1) {
    await new Promise(done => setTimeout(done, 10))
  }
  const sheets = [...document.styleSheets]
  return [
    badge.textContent.slice(0, 13),
    document.querySelector("[data-guide]").dataset.guide,
    sheets.map(sheet => sheet.cssRules.length > 0),
    getComputedStyle(document.body).getPropertyValue("--issue").trim(),
    document.fonts.check('16px "Atkinson Hyperlegible"'),
  ]
}"""
"""What the page says, whose it is, and whether its one style and its letters are there."""

_HEIGHT = "image => image.getBoundingClientRect().height"


def shows_photos(page: Page) -> int:
    """Return how many photos *page* shows; each is loaded when a driver comes near it."""
    photos = page.locator("[data-photo] img").all()
    for photo in photos:
        height = photo.evaluate(_HEIGHT)
        photo.scroll_into_view_if_needed()
        width = int(photo.get_attribute("width") or "")
        expect(photo).to_have_js_property("naturalWidth", width)
        # Nothing moves when it is there.
        assert photo.evaluate(_HEIGHT) == height > 100
    return len(photos)


CACHES = "async () => (await caches.keys()).filter(name => name.includes(' pack '))"


def test_a_saved_truck_opens_whole_without_a_network(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, f"{site.address}T-17/index.html")
    expect(revision_said(page)).to_have_text(revision(site.folder, "T-17"))
    expect(badge(page)).to_have_text("Not saved")
    save(page, site, "T-17")
    expect(badge(page)).to_contain_text(re.compile(r"checked today \d\d:\d\d$"))
    faults: list[str] = []
    page.on("console", lambda message: faults.append(message.text))
    page.on("pageerror", lambda error: faults.append(str(error)))
    site.stop()

    photos = 0
    for name in pages_of(site, "T-17"):
        page.goto(f"{site.address}T-17/{name}")
        seen = page.evaluate(_WHOLE)
        assert seen == ["Ready offline", "T-17", [True], "first", True], name
        photos += shows_photos(page)
    page.wait_for_load_state("networkidle")
    assert photos == 2
    # On start pages alone the site is asked for news, which fails without a network.
    assert [each for each in faults if "pack.json" not in each and "ERR_" not in each] == []
    page.goto(f"{site.address}index.html")
    expect(page.locator("[data-find-count]")).to_have_text("2 of 2 trucks")
    for name in ("safety.html", "proof.html"):
        page.goto(f"{site.address}{name}")
        assert page.locator("h1").count() == 1


def test_all_that_a_saved_truck_loads_comes_from_its_own_pack(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    # Nothing but the pack is left: neither the fleet's own pages nor the network.
    page.evaluate(
        "async () => { for (const n of await caches.keys()) "
        "if (n.includes(' shell ')) await caches.delete(n) }"
    )
    listed = json.loads((site.folder / "T-17" / "pack.json").read_bytes())
    site.stop()

    page.goto(f"{site.address}T-17/{CHAPTER}")
    hashes = {file["path"]: file["sha256"] for file in listed["files"]}
    got = page.evaluate(
        """async paths => {
          const found = {}
          for (const path of paths) {
            const response = await fetch(new URL("../" + path, location))
            const digest = await crypto.subtle.digest("SHA-256", await response.arrayBuffer())
            found[path] = Array.from(new Uint8Array(digest))
          }
          return found
        }""",
        list(hashes),
    )
    assert len(hashes) > len(pages_of(site, "T-17"))
    assert {path: bytes(digest).hex() for path, digest in got.items()} == hashes
    assert page.evaluate("async () => (await fetch('../E-02/index.html')).status") == 504


def test_a_truck_that_is_not_saved_says_so_and_names_those_that_are(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    page.goto(f"{site.address}E-02/index.html")
    expect(badge(page)).to_contain_text("Not saved")
    site.stop()

    page.goto(f"{site.address}E-02/index.html")

    expect(page.get_by_role("heading", level=1)).to_have_text(
        "This truck is not saved on this tablet"
    )
    expect(page.locator("[data-pack-saved] a")).to_have_text(["T-17"])
    expect(page.locator("[data-pack-none]")).to_be_hidden()
    page.locator("[data-pack-saved] a").click()
    expect(page.locator(".gg-bar__number")).to_have_text("T-17")


def test_without_a_network_the_saved_revision_stays(
    site: PackServer, tablet: BrowserContext, issues: tuple[Path, Path]
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    site.exchange(issues[1])
    site.stop()

    page.goto(f"{site.address}T-17/index.html")

    expect(revision_said(page)).to_have_text(revision(issues[0], "T-17"))
    expect_ready(page)
    expect(page.get_by_role("button", name="New revision")).to_have_count(0)
    page.goto(f"{site.address}T-17/{CHAPTER}")
    assert cut_out(page).startswith("130")


def test_a_new_revision_is_offered_on_the_start_page_and_loaded_after_a_tap_as_a_whole(
    site: PackServer, tablet: BrowserContext, issues: tuple[Path, Path]
) -> None:
    new = revision(issues[1], "T-17")
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    site.exchange(issues[1])
    offer = page.get_by_role("button", name=f"New revision {new} of T-17 ready: load it")

    page.goto(f"{site.address}T-17/index.html")
    expect(offer).to_be_visible()
    for name in (CHAPTER, "round.html"):
        page.goto(f"{site.address}T-17/{name}")
        expect(revision_said(page)).to_have_text(revision(issues[0], "T-17"))
        expect_ready(page)
        assert page.get_by_role("button", name="New revision").count() == 0
        assert issue(page) == "first"
    page.goto(f"{site.address}T-17/{CHAPTER}")
    assert cut_out(page).startswith("130")
    page.goto(f"{site.address}T-17/index.html")
    offer.click()
    expect(revision_said(page)).to_have_text(new)
    expect_ready(page)
    site.stop()

    page.goto(f"{site.address}T-17/{CHAPTER}")
    assert cut_out(page).startswith("128")
    assert issue(page) == "second"
    all_of_it = addresses_of(site, "T-17")
    assert seen_in_frames(page, all_of_it) == {
        address: ["T-17", new, "second"] for address in all_of_it
    }
    assert len(page.evaluate(CACHES)) == 1


def test_while_a_round_is_under_way_no_new_revision_is_offered(
    site: PackServer, tablet: BrowserContext, issues: tuple[Path, Path]
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    site.exchange(issues[1])
    page.evaluate("localStorage.setItem('guidegen.round.T-17', JSON.stringify({open: true}))")

    page.goto(f"{site.address}T-17/index.html")
    expect(told(page)).to_contain_text("Finish the inspection round first")
    assert page.get_by_role("button", name="New revision").count() == 0
    page.goto(f"{site.address}index.html")
    expect(told(page)).to_contain_text("Finish the inspection round first")
    assert page.get_by_role("button", name="New revision").count() == 0

    page.evaluate("localStorage.setItem('guidegen.round.T-17', JSON.stringify({open: false}))")
    page.evaluate("localStorage.setItem('guidegen.round.E-02', JSON.stringify({open: true}))")
    page.goto(f"{site.address}T-17/index.html")
    expect(page.get_by_role("button", name="New revision")).to_be_visible()


def test_a_revision_is_not_exchanged_under_a_page_that_is_open_in_another_window(
    site: PackServer, tablet: BrowserContext, issues: tuple[Path, Path]
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    site.exchange(issues[1])
    other = opened(tablet, f"{site.address}T-17/{CHAPTER}")
    expect_ready(other)

    page.goto(f"{site.address}T-17/index.html")
    expect(told(page)).to_contain_text("open in another window")
    assert page.get_by_role("button", name="New revision").count() == 0

    other.close()
    wait_until(page, "async () => (await navigator.locks.query()).held.length === 0")
    page.reload()
    expect(page.get_by_role("button", name="New revision")).to_be_visible()


@pytest.mark.parametrize("fault", ["flipped", "cut"])
def test_a_download_that_is_damaged_or_broken_off_leaves_the_old_pack_whole(
    fault: str, site: PackServer, tablet: BrowserContext, issues: tuple[Path, Path]
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    site.exchange(issues[1])
    getattr(site, fault).add("T-17/when-something-is-wrong.html")
    page.goto(f"{site.address}T-17/index.html")
    page.get_by_role("button", name="New revision").click()

    said = "A file came damaged" if fault == "flipped" else "The signal broke off"
    expect(told(page)).to_contain_text(said)
    old = revision(issues[0], "T-17")
    expect(told(page)).to_contain_text(f"is whole and still here (revision {old})")
    expect(revision_said(page)).to_have_text(old)
    expect_ready(page)
    assert len(page.evaluate(CACHES)) == 1
    site.stop()
    page.goto(f"{site.address}T-17/{CHAPTER}")
    assert cut_out(page).startswith("130")
    assert issue(page) == "first"
    all_of_it = addresses_of(site, "T-17")
    assert seen_in_frames(page, all_of_it) == {
        address: ["T-17", old, "first"] for address in all_of_it
    }


REFUSALS = {
    "security": "caches.open = () => Promise.reject(new DOMException('no', 'SecurityError'))",
    "quota": "Cache.prototype.put = () => "
    "Promise.reject(new DOMException('full', 'QuotaExceededError'))",
    "no room": "navigator.storage.estimate = () => Promise.resolve({quota: 1000, usage: 900})",
    "read": "for (const n of ['open', 'has', 'match', 'keys']) "
    "caches[n] = () => Promise.reject(new DOMException('no', 'SecurityError'))",
}


@pytest.mark.parametrize("refusal", REFUSALS)
def test_storage_that_is_refused_or_full_is_told_in_plain_words(
    refusal: str, site: PackServer, tablet: BrowserContext
) -> None:
    tablet.add_init_script(REFUSALS[refusal])
    page = opened(tablet, f"{site.address}T-17/index.html")
    page.get_by_role("button", name="Save for offline").click()

    said = "no room left" if refusal in ("quota", "no room") else "does not let the site save"
    expect(told(page)).to_contain_text(said)
    expect(told(page)).to_contain_text("T-17 is still not saved")
    expect(badge(page)).to_contain_text("Not saved")


def test_storage_that_runs_full_leaves_the_old_pack_whole(
    site: PackServer, tablet: BrowserContext, issues: tuple[Path, Path]
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    site.exchange(issues[1])
    page.goto(f"{site.address}T-17/index.html")
    offer = page.get_by_role("button", name="New revision")
    expect(offer).to_be_visible()
    page.evaluate(
        """() => {
          const put = Cache.prototype.put
          let left = 9
          Cache.prototype.put = function (...given) {
            left -= 1
            return left < 0
              ? Promise.reject(new DOMException("full", "QuotaExceededError"))
              : put.apply(this, given)
          }
        }"""
    )
    offer.click()

    expect(told(page)).to_contain_text("no room left")
    old = revision(issues[0], "T-17")
    expect(revision_said(page)).to_have_text(old)
    expect_ready(page)
    site.stop()
    page.goto(f"{site.address}T-17/{CHAPTER}")
    expect(revision_said(page)).to_have_text(old)
    expect_ready(page)
    assert cut_out(page).startswith("130")


def test_two_saved_trucks_of_two_issues_are_never_mixed(
    site: PackServer, tablet: BrowserContext, issues: tuple[Path, Path]
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    site.exchange(issues[1])
    save(page, site, "E-02")
    site.stop()

    seen = {
        "T-17": ["T-17", revision(issues[0], "T-17"), "first"],
        "E-02": ["E-02", revision(issues[1], "E-02"), "second"],
    }
    for unit, (_, _, of) in seen.items():
        page.goto(f"{site.address}{unit}/data.html")
        assert issue(page) == of, unit
    # The pages of one truck and of the other by turns.
    by_turns = zip_longest(*(addresses_of(site, unit) for unit in seen))
    asked = [address for both in by_turns for address in both if address]
    expected = {address: seen[address.split("/")[-2]] for address in asked}
    assert seen_in_frames(page, asked) == expected
    assert len(page.evaluate(CACHES)) == 2


def test_the_list_of_trucks_changes_with_its_worker_and_after_a_tap(
    site: PackServer, tablet: BrowserContext, issues: tuple[Path, Path]
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    page.goto(f"{site.address}index.html")
    assert issue(page) == "first"
    site.exchange(issues[1])

    page.goto(f"{site.address}index.html")
    offer = page.get_by_role("button", name="New list of trucks ready: load it")
    expect(offer).to_be_visible()
    assert issue(page) == "first"
    offer.click()

    wait_until(
        page,
        "document.body !== null"
        " && getComputedStyle(document.body).getPropertyValue('--issue').trim() === 'second'",
    )
    expect(page.get_by_role("button", name="New revision")).to_be_visible()
    site.stop()
    page.goto(f"{site.address}index.html")
    assert issue(page) == "second"
    page.goto(f"{site.address}T-17/index.html")
    assert issue(page) == "first"


def test_a_new_revision_can_be_loaded_from_the_list_of_trucks(
    site: PackServer, tablet: BrowserContext, issues: tuple[Path, Path]
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    site.exchange(issues[1])
    page.goto(f"{site.address}index.html")
    page.get_by_role("button", name="New revision").click()
    expect(told(page)).to_contain_text("T-17: Ready offline")
    site.stop()

    page.goto(f"{site.address}T-17/{CHAPTER}")

    assert cut_out(page).startswith("128")


def test_a_page_that_is_closed_while_it_saves_leaves_nothing_behind(
    site: PackServer, tablet: BrowserContext
) -> None:
    site.held.add("T-17/round.html")
    page = opened(tablet, f"{site.address}T-17/index.html")
    page.get_by_role("button", name="Save for offline").click()
    expect(badge(page)).to_contain_text(re.compile(r"Saving [1-9]\d* of \d+"))
    assert len(page.evaluate(CACHES)) == 1
    page.close()
    site.release()

    page = opened(tablet, f"{site.address}T-17/index.html")

    expect(badge(page)).to_contain_text("Not saved")
    wait_until(page, "async () => !(await caches.keys()).some(name => name.includes(' pack '))")


def test_a_pack_that_lost_a_file_says_so_and_is_saved_again(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    page.evaluate(
        """async () => {
          const name = (await caches.keys()).find(each => each.includes(' pack '))
          await (await caches.open(name)).delete(new URL('round.html', location.href))
        }"""
    )

    page.goto(f"{site.address}T-17/{CHAPTER}")
    expect(badge(page)).to_contain_text("Saved pack is broken: save again")
    page.goto(f"{site.address}T-17/round.html")
    expect(page.get_by_role("heading", level=1)).to_have_text("The saved pack of T-17 is broken")
    page.get_by_role("button", name="Save again").click()

    expect(page.locator("[data-guide]")).to_have_attribute("data-page", "round")
    expect_ready(page)


def turn_a_byte(page: Page) -> None:
    """Break the saved pack of the truck that is open."""
    page.evaluate(
        """async () => {
          const name = (await caches.keys()).find(each => each.includes(' pack '))
          const cache = await caches.open(name)
          const url = new URL('round.html', location.href).href
          const bytes = new Uint8Array(await (await cache.match(url)).arrayBuffer())
          bytes[bytes.length >> 1] ^= 1
          await cache.put(url, new Response(bytes, {headers: {'Content-Type': 'text/html'}}))
        }"""
    )


WATCH_THE_BADGE = """() => {
  const badge = document.querySelector('[data-pack-status]')
  sessionStorage.said = ''
  new MutationObserver(() => sessionStorage.said += badge.textContent + '\\n')
    .observe(badge, {childList: true, characterData: true, subtree: true})
}"""
"""Keep all that the badge says from now on, over the next load of the page."""


def test_a_byte_that_turned_on_the_tablet_is_found_on_the_start_page(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    turn_a_byte(page)

    page.goto(f"{site.address}T-17/index.html")
    expect(badge(page)).to_contain_text("Saved pack is broken: save again")
    page.get_by_role("button", name="Save again").click()

    expect_ready(page)


def test_a_button_stays_under_the_finger_while_the_page_looks_for_a_new_revision(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    turn_a_byte(page)
    site.held.add("T-17/pack.json")
    page.goto(f"{site.address}T-17/index.html")
    button = page.get_by_role("button", name="Save again")
    button.evaluate("button => button.isTouched = true")
    page.evaluate(WATCH_THE_BADGE)

    site.release()

    wait_until(page, "() => (sessionStorage.said ?? '').includes('broken')")
    assert button.evaluate("button => button.isTouched")


def test_a_look_that_ends_late_does_not_talk_over_what_is_being_saved(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    turn_a_byte(page)
    site.held.add("T-17/pack.json")
    page.goto(f"{site.address}T-17/index.html")
    button = page.get_by_role("button", name="Save again")
    expect(button).to_be_visible()
    page.evaluate(WATCH_THE_BADGE)
    button.click()
    expect(badge(page)).to_contain_text("Saving")

    site.release()

    expect_ready(page)
    said = page.evaluate("() => sessionStorage.said")
    assert "Saving" in said
    assert "broken" not in said


def test_saving_waits_for_a_sweep_instead_of_being_refused(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, f"{site.address}T-17/index.html")
    button = page.get_by_role("button", name="Save for offline")
    expect(button).to_be_visible()
    page.evaluate(
        """() => new Promise(isHeld => navigator.locks.request('guidegen-pack-sweeping', () => {
          isHeld()
          return new Promise(done => (self.endTheSweep = done))
        }))"""
    )
    button.click()
    expect(badge(page)).to_contain_text("Saving")

    page.evaluate("() => self.endTheSweep()")

    expect_ready(page)


def test_the_app_opens_at_the_last_truck_and_the_list_names_it_first(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "E-02")
    save(page, site, "T-17")
    page.goto(f"{site.address}E-02/data.html")
    expect_ready(page)
    site.stop()

    page.goto(f"{site.address}index.html?open=last")
    expect(page).to_have_url(f"{site.address}E-02/index.html")
    page.goto(f"{site.address}index.html")
    expect(page.locator(".gg-keep__last")).to_have_text("E-02Last truck")
    expect(page.locator("[data-unit] .gg-kept")).to_have_text(["Saved on this tablet"] * 2)


def test_a_truck_that_is_removed_is_gone_from_the_tablet(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    page.on("dialog", lambda dialog: dialog.accept())

    page.get_by_role("button", name="Remove from this tablet").click()

    expect(badge(page)).to_contain_text("Not saved")
    assert page.evaluate(CACHES) == []


def test_a_look_that_ends_late_does_not_talk_over_what_was_removed(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    remove = page.get_by_role("button", name="Remove from this tablet")
    expect(remove).to_be_visible()
    page.on("dialog", lambda dialog: dialog.accept())
    # From now on the page finds no file of the pack before it is let.
    page.evaluate(
        """() => {
          const match = CacheStorage.prototype.match
          const isLet = new Promise(done => (self.letIt = done))
          self.asked = self.answered = 0
          CacheStorage.prototype.match = async function (url, options) {
            const isOfPack = options.cacheName.includes(" pack ")
            self.asked += isOfPack
            await (isOfPack && isLet)
            const found = await match.call(this, url, options)
            self.answered += isOfPack
            return found
          }
        }"""
    )
    page.get_by_role("button", name="Ask the office's site again").click()
    wait_until(page, "self.asked > 0")
    remove.click()
    expect(badge(page)).to_contain_text("Not saved")

    page.evaluate("() => self.letIt()")
    files = json.loads((site.folder / "T-17" / "pack.json").read_bytes())["files"]
    wait_until(page, f"self.answered >= {len(files)}")
    # What the page asks for after its files, a few times more: then its look has ended.
    page.evaluate(
        """async () => {
          for (let times = 0; times < 5; times += 1) {
            await navigator.serviceWorker.getRegistration()
            await navigator.storage.persisted()
          }
        }"""
    )

    expect(badge(page)).to_contain_text("Not saved")
    expect(page.get_by_role("button", name="Save for offline")).to_be_visible()


def test_a_site_without_https_says_that_saving_needs_it_and_names_the_stick(
    site: PackServer, tablet: BrowserContext
) -> None:
    def answer(route: Route) -> None:
        path = site.folder / route.request.url.partition(".example/")[2]
        route.fulfill(path=path) if path.is_file() else route.fulfill(status=404)

    tablet.route("http://guides.example/**", answer)
    page = opened(tablet, "http://guides.example/T-17/index.html")

    expect(told(page)).to_contain_text("https")
    expect(told(page)).to_contain_text("stick")
    expect(badge(page)).to_contain_text("Not saved")
    assert page.get_by_role("button", name="Save for offline").count() == 0


def test_the_browser_finds_no_fault_in_the_manifest(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, f"{site.address}index.html")
    page.wait_for_selector("link[rel=manifest]", state="attached")
    browsers_own = tablet.new_cdp_session(page)

    read = browsers_own.send("Page.getAppManifest")

    # The judge is Chromium's own reader of the W3C's Web Application Manifest.
    assert read["url"] == f"{site.address}app.webmanifest"
    assert read["errors"] == []
    installing = browsers_own.send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [each["errorId"] for each in installing if each["errorId"] != "in-incognito"] == []


def test_a_tablet_that_lost_the_fleets_pages_still_leads_to_its_trucks(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, "about:blank")
    save(page, site, "T-17")
    page.evaluate(
        "async () => { for (const n of await caches.keys()) "
        "if (n.includes(' shell ')) await caches.delete(n) }"
    )
    site.stop()

    page.goto(f"{site.address}E-02/index.html")
    expect(page.get_by_role("heading")).to_have_text("No signal")
    page.get_by_role("link", name="T-17").click()

    expect_ready(page)


def test_nothing_is_kept_and_no_worker_runs_before_somebody_saves(
    site: PackServer, tablet: BrowserContext
) -> None:
    page = opened(tablet, f"{site.address}index.html")
    expect(page.locator("[data-find-count]")).to_be_visible()
    page.goto(f"{site.address}T-17/index.html")
    expect(badge(page)).to_contain_text("Not saved")

    assert (
        page.evaluate("async () => (await navigator.serviceWorker.getRegistrations()).length") == 0
    )
    assert page.evaluate("caches.keys()") == []
