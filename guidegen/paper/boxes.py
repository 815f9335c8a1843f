"""The trimmed card within its page.

Takes in a drawn card, each page of it with bleed on all four sides; gives out the same file with
trim, bleed and crop boxes. Refuses to touch anything else: metadata, tags and inks stay as drawn.
"""

import hashlib
import io
from collections.abc import Mapping
from decimal import Decimal

from guidegen.paper.rectangle import points, written


def set_boxes(pdf: bytes, bleed: Decimal) -> bytes:
    """Return *pdf* with the boxes of ISO 32000-1, 14.11.2 on each page; *bleed* is in millimeters.

    The crop box is the trim box, so that who looks at the card or prints it plainly gets it as it
    is when it is cut. Applied to its own result it changes nothing.

    Raises:
        ValueError: if a page is not bigger than twice the bleed.
    """
    # Takes a while to be read in, and most runs print nothing.
    import pikepdf  # noqa: PLC0415
    from pikepdf import Array, Name  # noqa: PLC0415

    inset = points(bleed)
    changed: dict[int, bytes] = {}
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        for number, page in enumerate(opened.pages, start=1):
            edges = [Decimal(str(edge)) for edge in page.mediabox.as_list()]
            left, bottom, right, top = edges
            trim = [left + inset, bottom + inset, right - inset, top - inset]
            if trim[0] >= trim[2] or trim[1] >= trim[3]:
                raise ValueError(f"page {number} has no room for a bleed of {bleed} mm")
            before = page.obj.unparse(resolved=True)
            page.obj[Name.BleedBox] = Array([written(edge) for edge in edges])
            for key in (Name.TrimBox, Name.CropBox):
                page.obj[key] = Array([written(edge) for edge in trim])
            after = page.obj.unparse(resolved=True)
            if after != before:
                changed[page.obj.objgen[0]] = after
        trailer = {
            "/Size": str(opened.trailer.Size).encode(),
            "/Root": opened.trailer.Root.unparse(),
            "/Info": opened.trailer.Info.unparse(),
            "/ID": opened.trailer.ID[0].unparse(),
        }
    return _updated(pdf, changed, trailer) if changed else pdf


def compacted(pdf: bytes) -> bytes:
    """Return *pdf* in about a third of the room.

    Most of a long file is tags; they go into object streams, ISO 32000-1, 7.5.7.
    """
    import pikepdf  # noqa: PLC0415 -- see above

    with pikepdf.open(io.BytesIO(pdf)) as opened:
        compact = io.BytesIO()
        # The metadata says PDF/A and PDF/UA already; a rewrite of it could only lose that.
        opened.save(
            compact,
            deterministic_id=True,
            fix_metadata_version=False,
            preserve_pdfa=True,
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
        )
    return compact.getvalue()


def count_pages(pdf: bytes) -> int:
    """Return how many pages *pdf* has."""
    import pikepdf  # noqa: PLC0415 -- see above

    with pikepdf.open(io.BytesIO(pdf)) as opened:
        return len(opened.pages)


def _updated(pdf: bytes, changed: Mapping[int, bytes], trailer: Mapping[str, bytes]) -> bytes:
    """Return *pdf* with an update appended, ISO 32000-1, 7.5.6.

    Writing the whole file anew takes longer than drawing it: most of it is tags.

    Args:
        pdf: With a table of objects, not a stream of them.
        changed: Objects by number.
        trailer: Entries that stay as they were; of the ``/ID`` only its first half.
    """
    before = pdf.rindex(b"startxref")
    table_at = pdf[before:].split()[1]
    parts = [pdf, b"\n"]
    length = len(pdf) + 1
    lines = [b"xref\n"]
    for number, content in sorted(changed.items()):
        lines.append(b"%d 1\n%010d 00000 n\r\n" % (number, length))
        written_out = b"%d 0 obj\n%b\nendobj\n" % (number, content)
        parts.append(written_out)
        length += len(written_out)
    kept = {**trailer, "/Prev": table_at}
    second_id = hashlib.sha256(b"".join(parts)).hexdigest()[:32].encode()
    kept["/ID"] = b"[%b<%b>]" % (trailer["/ID"], second_id)
    entries = b"".join(b"%b %b" % (name.encode(), kept[name]) for name in sorted(kept))
    lines.append(b"trailer\n<<%b>>\nstartxref\n%d\n%%%%EOF\n" % (entries, length))
    return b"".join((*parts, *lines))
