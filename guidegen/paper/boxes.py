"""The trimmed card within its page.

Takes in a drawn card, each page of it with bleed on all four sides; gives out the same file with
trim, bleed and crop boxes. Refuses to touch anything else: metadata, tags and inks stay as drawn.
"""

import io
from decimal import Decimal

import pikepdf
from pikepdf import Array, Name, ObjectStreamMode

from guidegen.paper.rectangle import points, written


def set_boxes(pdf: bytes, bleed: Decimal) -> bytes:
    """Return *pdf* with the boxes of ISO 32000-1, 14.11.2 on each page; *bleed* is in millimeters.

    The crop box is the trim box, so that who looks at the card or prints it plainly gets it as it
    is when it is cut. Applied to its own result it changes nothing.

    Raises:
        ValueError: if a page is not bigger than twice the bleed.
    """
    inset = points(bleed)
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        for number, page in enumerate(opened.pages, start=1):
            edges = [Decimal(str(edge)) for edge in page.mediabox.as_list()]
            left, bottom, right, top = edges
            trim = [left + inset, bottom + inset, right - inset, top - inset]
            if trim[0] >= trim[2] or trim[1] >= trim[3]:
                raise ValueError(f"page {number} has no room for a bleed of {bleed} mm")
            page.obj[Name.BleedBox] = Array([written(edge) for edge in edges])
            for key in (Name.TrimBox, Name.CropBox):
                page.obj[key] = Array([written(edge) for edge in trim])
        boxed = io.BytesIO()
        # The metadata says PDF/A and PDF/UA already; a rewrite of it could only lose that. Most
        # of the file is the tags: in object streams (ISO 32000-1, 7.5.7) they take half the room.
        opened.save(
            boxed,
            deterministic_id=True,
            fix_metadata_version=False,
            preserve_pdfa=True,
            object_stream_mode=ObjectStreamMode.generate,
        )
    return boxed.getvalue()


def count_pages(pdf: bytes) -> int:
    """Return how many pages *pdf* has."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        return len(opened.pages)
