"""The drawings of the demo fleet in Chromium: letters large enough, none over another."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser
from wait_in_page import patient, wait_until

PAGES = tuple(
    (unit, page)
    for unit in ("T-17", "D-31", "E-02", "V-08")
    for page in (
        *("before-the-day", "in-the-cab", "on-the-road", "warning-lamps"),
        "when-something-is-wrong",
    )
)
SMALLEST = 14
"""Pixels; letters of 14 px are read at arm's length. Common practice, no source."""

MEASURED = """
() => [...document.querySelectorAll('figure')].map(figure => {
  const drawing = figure.querySelector('svg').getBoundingClientRect()
  const scale = drawing.width / figure.querySelector('svg').viewBox.baseVal.width
  return {
    id: figure.querySelector('[data-text]').dataset.text,
    drawing: [drawing.left, drawing.top, drawing.right, drawing.bottom],
    letters: [...figure.querySelectorAll('text')].map(text => {
      const box = text.getBoundingClientRect()
      const size = parseFloat(getComputedStyle(text).fontSize) * scale
      return [text.textContent, size, box.left, box.top, box.right, box.bottom]
    }),
    ink: getComputedStyle(figure).color,
    inks: [...figure.querySelectorAll('text')].map(text => getComputedStyle(text).fill),
    page: document.documentElement.scrollWidth - document.documentElement.clientWidth,
  }
})
"""


@pytest.mark.parametrize("size", [(1024, 768), (800, 1280)], ids=lambda size: f"{size[0]} wide")
@pytest.mark.parametrize("media", ["screen", "print"])
def test_letters_of_drawings_are_read(
    size: tuple[int, int], media: str, demo: Path, browser: Browser
) -> None:
    page = patient(browser.new_page(viewport={"width": size[0], "height": size[1]}))
    seen = 0
    for unit, chapter in PAGES:
        page.goto((demo / "site" / unit / f"{chapter}.html").as_uri())
        page.emulate_media(media="print" if media == "print" else "screen")
        wait_until(page, "document.fonts.status === 'loaded'")
        for figure in page.evaluate(MEASURED):
            seen += 1
            left, top, right, bottom = figure["drawing"]
            boxes = [letters[2:] for letters in figure["letters"]]
            assert figure["page"] <= 0, (unit, figure["id"])
            assert set(figure["inks"]) <= {figure["ink"]}
            for place, (words, size_shown, *box) in enumerate(figure["letters"]):
                at = (unit, figure["id"], words)
                assert size_shown >= SMALLEST, at
                # A font's box is taller than its letters: the foot may stand out a little.
                assert box[0] >= left - 1, at
                assert box[1] >= top - 6, at
                assert box[2] <= right + 1, at
                assert box[3] <= bottom + 6, at
                for other in boxes[place + 1 :]:
                    apart = box[2] <= other[0] or other[2] <= box[0]
                    stacked = box[3] <= other[1] + 6 or other[3] <= box[1] + 6
                    assert apart or stacked, (at, other)
    page.close()

    assert seen > len(PAGES)
