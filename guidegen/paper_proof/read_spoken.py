"""What is read aloud for pictures.

Takes in an open page; gives out the alternative texts in its structure.
Refuses to follow a structure deeper than any that is drawn here.
"""

import ctypes
from collections.abc import Iterator
from typing import Any

import pypdfium2.raw as pdfium  # type: ignore[import-untyped]  # it has no hints

_DEEPEST = 40
_LONGEST = 4096


def spoken_on(page: Any) -> tuple[str, ...]:  # noqa: ANN401 -- a handle of PDFium's
    """Return the alternative texts of *page*, in order."""
    tree = pdfium.FPDF_StructTree_GetForPage(page)
    if not tree:
        return ()
    found = tuple(
        text
        for number in range(pdfium.FPDF_StructTree_CountChildren(tree))
        for text in _spoken(pdfium.FPDF_StructTree_GetChildAtIndex(tree, number), 0)
    )
    pdfium.FPDF_StructTree_Close(tree)
    return found


def _spoken(element: Any, depth: int) -> Iterator[str]:  # noqa: ANN401 -- a handle of PDFium's
    if not element or depth > _DEEPEST:
        return
    for ask in (pdfium.FPDF_StructElement_GetAltText, pdfium.FPDF_StructElement_GetActualText):
        size = ask(element, None, 0)
        if size > 2:  # noqa: PLR2004 -- a text of no letters ends in two bytes of zero
            room = ctypes.create_string_buffer(min(size, _LONGEST))
            ask(element, room, len(room))
            yield room.raw[: size - 2].decode("utf-16-le", "replace")
    for number in range(pdfium.FPDF_StructElement_CountChildren(element)):
        yield from _spoken(pdfium.FPDF_StructElement_GetChildAtIndex(element, number), depth + 1)
