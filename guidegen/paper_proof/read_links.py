"""Links within a file.

Takes in an open page of PDFium's; gives out the links on it that lead to a page of the same file.
Refuses links that do anything else: they are left among the notes that lie over the page.
"""

import ctypes
from collections.abc import Iterator
from typing import Any

import pypdfium2.raw as pdfium  # type: ignore[import-untyped]  # it has no hints

from guidegen.paper_proof.sheet_model import Box, LinkRead


def links_on(document: Any, page: Any) -> tuple[LinkRead, ...]:  # noqa: ANN401 -- handles of PDFium's
    """Return the links on *page* to pages of *document*."""
    return tuple(_links(document, page))


def _links(document: Any, page: Any) -> Iterator[LinkRead]:  # noqa: ANN401 -- ditto
    for number in range(pdfium.FPDFPage_GetAnnotCount(page)):
        annotation = pdfium.FPDFPage_GetAnnot(page, number)
        link = pdfium.FPDFAnnot_GetLink(annotation)
        edges = pdfium.FS_RECTF()
        if link and pdfium.FPDFAnnot_GetRect(annotation, ctypes.byref(edges)):
            side = _side(document, link)
            if side >= 0:
                yield LinkRead(Box(edges.left, edges.bottom, edges.right, edges.top), side)
        pdfium.FPDFPage_CloseAnnot(annotation)


def _side(document: Any, link: Any) -> int:  # noqa: ANN401 -- ditto
    """Return the page that *link* leads to, from 0, or less than 0."""
    place = pdfium.FPDFLink_GetDest(document, link)
    action = pdfium.FPDFLink_GetAction(link)
    if not place and action and pdfium.FPDFAction_GetType(action) == pdfium.PDFACTION_GOTO:
        place = pdfium.FPDFAction_GetDest(document, action)
    return int(pdfium.FPDFDest_GetDestPageIndex(document, place)) if place else -1
