"""Imposed sheets as two PDF readers see them; shares no code with what drew them.

Measures are in points from the lower left corner of the page.
"""

import io
import re
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import pikepdf
import pypdfium2 as pdfium  # type: ignore[import-untyped]  # it ships no types

Edges = tuple[float, float, float, float]
"""Left, bottom, right, top."""

POINTS_A_MILLIMETER = 72 / 25.4


@dataclass(frozen=True, slots=True)
class PlacedSide:
    """A form on a page."""

    name: str
    matrix: tuple[float, ...]
    bled: Edges
    """Where the form is clipped."""

    trim: Edges


def placed_sides(pdf: bytes, bleed: float) -> list[list[PlacedSide]]:
    """Return the forms of each page, in order; *bleed* is in millimeters."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        return [_on_page(page, bleed * POINTS_A_MILLIMETER) for page in opened.pages]


def _on_page(page: pikepdf.Page, bleed: float) -> list[PlacedSide]:
    found: list[PlacedSide] = []
    matrix: tuple[float, ...] = ()
    for instruction in pikepdf.parse_content_stream(page):
        operator = str(instruction.operator)
        if operator == "cm":
            matrix = tuple(float(str(operand)) for operand in instruction.operands)
        if operator == "Do":
            name = str(instruction.operands[0])
            form = page.resources["/XObject"][name]
            box = [float(edge) for edge in form["/BBox"].as_list()]
            inner = [box[0] + bleed, box[1] + bleed, box[2] - bleed, box[3] - bleed]
            found.append(PlacedSide(name, matrix, _moved(box, matrix), _moved(inner, matrix)))
    return found


def _moved(box: list[float], matrix: tuple[float, ...]) -> Edges:
    a, b, c, d, e, f = matrix
    corners = [(x, y) for x in (box[0], box[2]) for y in (box[1], box[3])]
    across = [a * x + c * y + e for x, y in corners]
    up = [b * x + d * y + f for x, y in corners]
    return min(across), min(up), max(across), max(up)


def form_matrices(pdf: bytes) -> list[list[tuple[float, ...]]]:
    """Return the matrices of each page's forms, as another reader than `placed_sides` sees them."""
    document = pdfium.PdfDocument(pdf)
    return [
        [
            form.get_matrix().get()
            for form in page.get_objects(filter=[pdfium.raw.FPDF_PAGEOBJ_FORM], max_depth=1)
        ]
        for page in document
    ]


def text_within(pdf: bytes, page: int, edges: Edges) -> str:
    """Return the text that stands within *edges*, in one line."""
    text = pdfium.PdfDocument(pdf)[page].get_textpage().get_text_bounded(*edges)
    return re.sub(r"\s+", " ", text).strip()


def first_letter_middle(pdf: bytes, page: int, word: str) -> tuple[float, float]:
    """Return the middle of the first letter of *word*, which stands on the page."""
    read = pdfium.PdfDocument(pdf)[page].get_textpage()
    found = read.search(word, match_case=True).get_next()
    assert found is not None
    left, bottom, right, top = read.get_charbox(found[0])
    return (left + right) / 2, (bottom + top) / 2


def red_lines(pdf: bytes, page: int, dots: int) -> tuple[list[float], list[float]]:
    """Return where upright and level red lines lie on a picture of the page, in points.

    Args:
        pdf: the sheets.
        page: counted from 0.
        dots: of the picture, to the inch.
    """
    bitmap = pdfium.PdfDocument(pdf)[page].render(scale=dots / 72, rev_byteorder=True)
    pixels = bitmap.to_numpy().astype(int)
    red = np.clip(pixels[:, :, 0] - pixels[:, :, 2], 0, 255) / 255
    across = _peaks(red.sum(axis=0))
    down = _peaks(red.sum(axis=1))
    height = red.shape[0] * 72 / dots
    return [x * 72 / dots for x in across], sorted(height - y * 72 / dots for y in down)


def _peaks(sums: npt.NDArray[np.float64]) -> list[float]:
    """Return the weighted middles of runs that stand out: a line lies along each."""
    # The short stroke of a cross that runs the other way adds its thickness only.
    strong = sums > sums.max() / 4
    edges = np.flatnonzero(np.diff(np.concatenate(([False], strong, [False])).astype(int)))
    return [
        float(np.average(np.arange(start, end) + 0.5, weights=sums[start:end]))
        for start, end in edges.reshape(-1, 2)
    ]
