"""Small cards, tagged and archivable as the real ones are, with crosses at the corners."""

from decimal import Decimal
from functools import cache

import fontpkg_atkinson_hyperlegible  # type: ignore[import-untyped]  # it ships no types
import typst

from guidegen.decks.sizes import SIDES
from guidegen.paper.impose import DrawnCard

_SOURCE = b"""
#let given = sys.inputs
#let bleed = float(given.bleed) * 1mm
#let width = float(given.width) * 1mm
#let height = float(given.height) * 1mm
#let cross(x, y) = {
  place(top + left, dx: bleed + x - 2mm, dy: bleed + y, line(length: 4mm, stroke: 0.5pt + red))
  place(top + left, dx: bleed + x, dy: bleed + y - 2mm,
    line(length: 4mm, angle: 90deg, stroke: 0.5pt + red))
}
#set document(title: given.name)
#set page(
  width: width + 2 * bleed,
  height: height + 2 * bleed,
  margin: bleed + 4mm,
  foreground: {
    cross(0mm, 0mm); cross(width, 0mm); cross(0mm, height); cross(width, height)
  },
)
#set text(font: "Atkinson Hyperlegible", fallback: false, lang: "en", size: 9pt)
#for side in range(int(given.sides)) {
  if side > 0 { pagebreak() }
  heading[#given.name side #(side + 1)]
  [Read 120 psi.]
}
"""


@cache
def sample_card(name: str, size: str, sides: int, bleed: str = "3") -> DrawnCard:
    """Return a card whose sides are headed ``<name> side <number>``; *bleed* is in millimeters."""
    fonts = typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[fontpkg_atkinson_hyperlegible.ROOT / "files"],
    )
    side = SIDES[size]
    inputs = {
        "name": name,
        "width": str(side.width),
        "height": str(side.height),
        "bleed": bleed,
        "sides": str(sides),
    }
    pdf = typst.Compiler(font_paths=fonts).compile(
        input=_SOURCE,
        format="pdf",
        pdf_standards=["a-2a", "ua-1"],
        timestamp=0,
        sys_inputs=inputs,
    )
    assert isinstance(pdf, bytes)
    return DrawnCard(name=name, side=side, bleed=Decimal(bleed), pdf=pdf)
