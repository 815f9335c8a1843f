"""The pictures in the README, taken of the demo fleet's site as a tablet shows it.

Takes in the built site; gives out one PNG a picture. Refuses to take pictures of a site that is
not there: build it first.
"""

import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).resolve().parent.parent
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
LYING = (1024, 768)
UPRIGHT = (800, 1280)


def as_it_is(_page: Page) -> None:
    """Do nothing."""


def save_truck(page: Page) -> None:
    """Keep the truck on the tablet."""
    page.get_by_role("button", name="Save for offline").click()
    page.locator("[data-pack-status]", has_text="Ready offline").wait_for()
    page.evaluate("scrollTo(0, 0)")


def begin_round(page: Page) -> None:
    """Tick the first stops, and find something at the third."""
    page.get_by_role("button", name="Begin the round").click()
    for stop in (1, 2):
        page.locator(f"#stop-{stop}").get_by_role("button", name="Done, in order").click()
        # A second tap within 0.7 s is taken for a trembling hand.
        page.wait_for_timeout(1000)
    third = page.locator("#stop-3")
    third.get_by_role("button", name="Found something").click()
    third.get_by_role("textbox").fill("Switch is stiff")
    page.wait_for_timeout(1000)
    page.evaluate("document.getElementById('stop-2').scrollIntoView()")


@dataclass(frozen=True)
class Picture:
    """One page as a tablet shows it."""

    name: str
    page: str
    size: tuple[int, int]
    theme: str = "day"
    before: Callable[[Page], None] = as_it_is
    """What the driver does first."""


PICTURES = (
    Picture("start-page", "T-17/index.html", LYING, before=save_truck),
    Picture("chapter-page", "T-17/air-brakes.html#low-air-warning", LYING),
    Picture("lamp-finder", "T-17/lamp-finder.html", LYING),
    Picture("round", "T-17/round.html", UPRIGHT, before=begin_round),
    Picture("plan", "T-17/round.html", LYING, "dark"),
    Picture("cord-table", "T-17/end-of-day.html#heater-cord", UPRIGHT),
    Picture("dark", "E-02/when-something-is-wrong.html", UPRIGHT, "dark"),
    Picture("night", "T-17/air-brakes.html#low-air-warning", LYING, "night-red"),
    Picture("proof", "office/proof.html", LYING),
)


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 -- the base's name
        """Keep the terminal clean."""


def main() -> None:
    """Take every picture."""
    browser = next(filter(None, map(shutil.which, BROWSERS)), None)
    with served(ROOT / "site") as address, sync_playwright() as playwright:
        chromium = playwright.chromium.launch(
            executable_path=browser, args=["--no-sandbox", "--disable-gpu"]
        )
        for picture in PICTURES:
            width, height = picture.size
            page = chromium.new_page(viewport={"width": width, "height": height})
            page.goto(f"{address}{picture.page}")
            page.evaluate(
                "theme => { document.documentElement.dataset.theme = theme }", picture.theme
            )
            picture.before(page)
            page.evaluate("document.fonts.ready")
            page.screenshot(path=ROOT / "docs" / "images" / f"{picture.name}.png")
            page.close()
        chromium.close()


@contextmanager
def served(site: Path) -> Iterator[str]:
    """Serve *site* on this machine; yield its address."""
    if not site.is_dir():
        raise SystemExit("there is no site: build it first")
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(site)))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


if __name__ == "__main__":
    main()
