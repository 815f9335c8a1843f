"""The pictures in the README, taken of the demo fleet's site.

Takes in the built site; gives out one PNG a picture. Refuses to take pictures of a site that is
not there: build it first.
"""

import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from playwright.sync_api import sync_playwright

ROOT = Path(__file__).resolve().parent.parent
BROWSERS = ("chromium", "chromium-browser", "google-chrome")


@dataclass(frozen=True)
class Picture:
    """One page as a tablet shows it."""

    name: str
    page: str
    width: int
    height: int
    scheme: Literal["light", "dark"]


PICTURES = (
    Picture("start-page", "T-17/index.html", 1024, 768, "light"),
    Picture("chapter-page", "T-17/air-brakes.html#low-air-warning", 1024, 768, "light"),
    Picture("round", "T-17/round.html", 1024, 768, "light"),
    Picture("cord-table", "T-17/end-of-day.html#heater-cord", 800, 1280, "light"),
    Picture("night", "E-02/when-something-is-wrong.html", 800, 1280, "dark"),
    Picture("proof", "office/proof.html", 1024, 768, "light"),
)


def main() -> None:
    """Take every picture."""
    browser = next(filter(None, map(shutil.which, BROWSERS)), None)
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(
            executable_path=browser, args=["--no-sandbox", "--disable-gpu"]
        )
        for picture in PICTURES:
            page = chromium.new_page(
                viewport={"width": picture.width, "height": picture.height},
                color_scheme=picture.scheme,
            )
            page.goto(f"{(ROOT / 'site').as_uri()}/{picture.page}")
            page.evaluate("document.fonts.ready")
            page.screenshot(path=ROOT / "docs" / "images" / f"{picture.name}.png")
            page.close()
        chromium.close()


if __name__ == "__main__":
    main()
