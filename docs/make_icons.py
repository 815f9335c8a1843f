"""Draw the app's icons anew: three marks of a list on a plate, in the colors of the bar.

Takes in nothing; gives out PNG files in the theme. Refuses lettering and anybody's sign.
"""

from pathlib import Path

from PIL import Image, ImageDraw

FOLDER = Path(__file__).resolve().parent.parent / "site_templates/theme/assets/images"
PLATE, MARK = "#22282e", "#f7f6f3"
FINE = 4
"""Drawn so many times larger, then made smaller: smooth corners on every system."""

BARS = ((0.25, 0.28, 0.75), (0.25, 0.47, 0.75), (0.25, 0.66, 0.56))
"""Left, top and right of each bar, as shares of the side."""

HEIGHT = 0.09


def icon(side: int, *, is_maskable: bool) -> Image.Image:
    """Return one icon; a maskable one fills its square and keeps its mark in the inner circle."""
    large = side * FINE
    image = Image.new("RGBA", (large, large), (0, 0, 0, 0))
    pen = ImageDraw.Draw(image)
    radius = 0 if is_maskable else large * 6 // 32
    pen.rounded_rectangle((0, 0, large - 1, large - 1), radius, fill=PLATE)
    shrink = 0.85 if is_maskable else 1.0
    for left, top, right in BARS:
        box = [0.5 + (at - 0.5) * shrink for at in (left, top, right, top + HEIGHT)]
        pen.rectangle([round(at * large) for at in box], fill=MARK)
    return image.resize((side, side), Image.Resampling.LANCZOS)


def main() -> None:
    """Write all icons."""
    for side in (192, 512):
        icon(side, is_maskable=False).save(FOLDER / f"app-{side}.png", optimize=True)
    icon(512, is_maskable=True).save(FOLDER / "app-maskable-512.png", optimize=True)


if __name__ == "__main__":
    main()
