"""The drawings of the demo fleet in Chromium: letters large enough, none over another."""

from pathlib import Path
from typing import Any, Literal

from wait_in_page import wait_until
from windows import TABLET, UPRIGHT, Windows, in_sizes

MEDIA: tuple[Literal["screen", "print"], ...] = ("print", "screen")

UNITS = ("T-17", "D-31", "E-02", "V-08")
SMALLEST = 14
"""Pixels; letters of 14 px are read at arm's length. Common practice, no source."""

MEASURED = """
() => [...document.querySelectorAll('.gg-figure')].map(figure => {
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


def pages_with_drawings(demo: Path) -> list[Path]:
    """Return the pages of four unlike trucks that have drawings; plans of rounds are apart."""
    pages = (path for unit in UNITS for path in sorted((demo / "site" / unit).glob("*.html")))
    return [path for path in pages if 'class="gg-figure ' in path.read_text(encoding="utf-8")]


def test_letters_of_drawings_are_read(demo: Path, windows: Windows) -> None:
    seen = 0
    for path in pages_with_drawings(demo):
        page = windows.opened(path.as_uri())
        wait_until(page, "document.fonts.status === 'loaded'")
        for size in in_sizes(page, (TABLET, UPRIGHT)):
            for media in MEDIA:
                page.emulate_media(media=media)
                for figure in page.evaluate(MEASURED):
                    seen += 1
                    expect_letters(figure, (path.parent.name, size["width"], media, figure["id"]))

    assert seen > 2 * len(MEDIA) * len(pages_with_drawings(demo))


def expect_letters(figure: dict[str, Any], where: tuple[object, ...]) -> None:
    """Expect the letters of a figure to be large enough, within it, and apart."""
    left, top, right, bottom = figure["drawing"]
    boxes = [letters[2:] for letters in figure["letters"]]
    assert figure["page"] <= 0, where
    assert set(figure["inks"]) <= {figure["ink"]}, where
    for place, (words, size_shown, *box) in enumerate(figure["letters"]):
        at = (*where, words)
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
