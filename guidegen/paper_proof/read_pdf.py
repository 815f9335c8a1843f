"""The only door to PDFium.

Takes in the bytes of a PDF; gives out its sides as they are drawn, object by object, and pictures
of parts of them. Refuses what it cannot open; objects that it cannot see through are given out as
drawn, so that nothing on the paper goes unseen.
"""

import ctypes
import hashlib
from collections.abc import Iterable, Iterator
from itertools import islice
from types import TracebackType
from typing import Any, Self

import pypdfium2  # type: ignore[import-untyped]  # it has no hints
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]  # ditto
from PIL import Image

from guidegen.paper_proof.face_model import Dialog, FaceRead, FormRead, Turn
from guidegen.paper_proof.read_links import links_on
from guidegen.paper_proof.read_spoken import spoken_on
from guidegen.paper_proof.sheet_model import Box, DrawnRead, Object, Point, SideRead, TextRead

Handle = Any
"""A pointer of PDFium's; it has no type of its own."""

_ARTIFACT = "Artifact"
_PLAIN_SEGMENTS = 12
_SOLID = 255
_FLIPS = {
    pdfium.DuplexFlipLongEdge: "long",
    pdfium.DuplexFlipShortEdge: "short",
    pdfium.Simplex: "simplex",
}


class UnreadablePdf(Exception):
    """PDFium cannot open it."""


class PdfRead:
    """An open PDF; to be used in a ``with`` statement."""

    def __init__(self, raw: bytes) -> None:
        """Open *raw*.

        Raises:
            UnreadablePdf: If it is no PDF.
        """
        try:
            self._document = pypdfium2.PdfDocument(raw)
        except pypdfium2.PdfiumError as error:
            raise UnreadablePdf(str(error)) from error
        self._fonts: dict[int, tuple[str, bool]] = {}
        self._open: dict[int, pypdfium2.PdfPage] = {}

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._close_page()
        self._document.close()

    def __len__(self) -> int:
        return len(self._document)

    @property
    def title(self) -> str:
        """Of the file, as viewers show it."""
        return str(self._document.get_metadata_value("Title"))

    @property
    def extras(self) -> tuple[str, ...]:
        """What the file holds beside its pages."""
        found = {
            "attached files": pdfium.FPDFDoc_GetAttachmentCount(self._document),
            "scripts": pdfium.FPDFDoc_GetJavaScriptActionCount(self._document),
            "form fields": int(self._document.get_formtype() != pdfium.FORMTYPE_NONE),
        }
        return tuple(what for what, count in found.items() if count > 0)

    @property
    def bookmarks(self) -> tuple[str, ...]:
        """Titles of the outline."""
        return tuple(each.get_title() for each in self._document.get_toc())

    @property
    def bookmark_sides(self) -> tuple[int, ...]:
        """The pages that they lead to, from 0; less than 0 if one leads nowhere."""
        places = (each.get_dest() for each in self._document.get_toc())
        found = (place.get_index() if place else None for place in places)
        return tuple(-1 if side is None else int(side) for side in found)

    def side(self, number: int) -> SideRead:
        """Return page *number*, from 0."""
        page = self._page(number)
        letters = page.get_textpage()
        trim = page.get_trimbox(fallback_ok=False)
        links = links_on(self._document, page)
        side = SideRead(
            Box(*page.get_mediabox()),
            Box(*trim) if trim else None,
            Box(*page.get_cropbox()),
            page.get_rotation() != 0,
            pdfium.FPDFPage_GetAnnotCount(page) - len(links),
            tuple(self._read(_raw_objects(page), letters)),
            spoken_on(page),
            links,
        )
        letters.close()
        return side

    def face(self, number: int) -> FaceRead:
        """Return page *number*, from 0, as one face of a sheet that other pages are laid on."""
        page = self._page(number)
        letters = page.get_textpage()
        forms, loose = list[FormRead](), list[Object]()
        for raw in _raw_objects(page):
            if pdfium.FPDFPageObj_GetType(raw) == pdfium.FPDF_PAGEOBJ_FORM:
                inner = self._read(_raw_objects_in(raw), letters)
                forms.append(FormRead(_turn(raw), tuple(inner)))
            else:
                loose += self._read([raw], letters)
        letters.close()
        return FaceRead(
            Box(*page.get_mediabox()),
            Box(*page.get_cropbox()),
            page.get_rotation(),
            pdfium.FPDFPage_GetAnnotCount(page),
            tuple(forms),
            tuple(loose),
        )

    def dialog(self) -> Dialog:
        """Return what the file asks of the printer."""
        return Dialog(
            is_full_size=not pdfium.FPDF_VIEWERREF_GetPrintScaling(self._document),
            flips=_FLIPS.get(pdfium.FPDF_VIEWERREF_GetDuplex(self._document), ""),
        )

    def turned_picture(self, number: int, turn: Turn, width: int, height: int) -> Image.Image:
        """Return a gray picture of page *number*, moved and turned by *turn*.

        *turn* leads from points of the page as it is shown, counted from its upper left corner
        downward, to dots of the picture.
        """
        page = self._page(number)
        bitmap = pypdfium2.PdfBitmap.new_native(width, height, pdfium.FPDFBitmap_Gray)
        bitmap.fill_rect((255, 255, 255, 255), 0, 0, width, height)
        clip = pdfium.FS_RECTF(0, 0, width, height)
        pdfium.FPDF_RenderPageBitmapWithMatrix(
            bitmap, page, pdfium.FS_MATRIX(*turn), clip, pdfium.FPDF_ANNOT
        )
        picture: Image.Image = bitmap.to_pil().copy()
        bitmap.close()
        return picture

    def count(self, number: int) -> int:
        """Return how many objects page *number* has."""
        return int(pdfium.FPDFPage_CountObjects(self._page(number)))

    def first_objects(self, number: int, count: int) -> tuple[Object, ...]:
        """Return the first *count* objects of page *number*."""
        page = self._page(number)
        letters = page.get_textpage()
        found = tuple(islice(self._read(_raw_objects(page), letters), count))
        letters.close()
        return found

    def picture(self, number: int, box: Box, dots_per_inch: int) -> Image.Image:
        """Return a gray picture of a part of page *number*, which must be visible."""
        page = self._page(number)
        shown = Box(*page.get_cropbox())
        margins = (
            box.left - shown.left,
            box.bottom - shown.bottom,
            shown.right - box.right,
            shown.top - box.top,
        )
        crop = [max(0.0, margin) for margin in margins]
        width, height = page.get_size()
        if crop[0] + crop[2] > width - 1 or crop[1] + crop[3] > height - 1:
            # The boxes of the page contradict each other, which is reported of its size.
            crop = [0.0] * 4
        bitmap = page.render(scale=dots_per_inch / 72, grayscale=True, crop=tuple(crop))
        picture: Image.Image = bitmap.to_pil().copy()
        bitmap.close()
        return picture

    def _page(self, number: int) -> pypdfium2.PdfPage:
        """Return a page; it stays open until another is asked for, since opening takes longest."""
        if number not in self._open:
            self._close_page()
            self._open[number] = self._document[number]
        return self._open[number]

    def _close_page(self) -> None:
        for page in self._open.values():
            page.close()
        self._open.clear()

    def _read(self, raws: Iterable[Handle], letters: Handle) -> Iterator[Object]:
        for place, raw in enumerate(raws):
            kind = pdfium.FPDFPageObj_GetType(raw)
            if kind == pdfium.FPDF_PAGEOBJ_TEXT:
                yield self._text(raw, place, letters)
            else:
                yield _drawn(raw, place, is_path=kind == pdfium.FPDF_PAGEOBJ_PATH)

    def _text(self, raw: Handle, place: int, letters: Handle) -> TextRead:
        box, color, opacity = _box(raw), *_color(raw)
        turn = pdfium.FS_MATRIX()
        pdfium.FPDFPageObj_GetMatrix(raw, turn)
        size = ctypes.c_float()
        pdfium.FPDFTextObj_GetFontSize(raw, size)
        font, is_embedded = self._font(raw)
        marks, is_replaced = _marks(raw)
        upright = turn.a > 0 and turn.d > 0 and abs(turn.b) + abs(turn.c) < 0.01 * turn.a
        return TextRead(
            place,
            _letters(raw, letters),
            box,
            turn.f,
            size.value * min(abs(turn.a), abs(turn.d)),
            font,
            is_embedded,
            color,
            _hidden(raw, box, opacity, marks, is_upright=upright, is_replaced=is_replaced),
            _ARTIFACT in marks,
        )

    def _font(self, raw: Handle) -> tuple[str, bool]:
        font = pdfium.FPDFTextObj_GetFont(raw)
        key = ctypes.addressof(font.contents)
        if key not in self._fonts:
            name = ctypes.create_string_buffer(200)
            pdfium.FPDFFont_GetBaseFontName(font, name, 200)
            embedded = pdfium.FPDFFont_GetIsEmbedded(font) == 1
            self._fonts[key] = name.value.decode("utf-8", "replace"), embedded
        return self._fonts[key]


def _raw_objects(page: Handle) -> Iterator[Handle]:
    for place in range(pdfium.FPDFPage_CountObjects(page)):
        yield pdfium.FPDFPage_GetObject(page, place)


def _raw_objects_in(form: Handle) -> Iterator[Handle]:
    for place in range(pdfium.FPDFFormObj_CountObjects(form)):
        yield pdfium.FPDFFormObj_GetObject(form, place)


def _turn(raw: Handle) -> Turn:
    turn = pdfium.FS_MATRIX()
    pdfium.FPDFPageObj_GetMatrix(raw, turn)
    return Turn(turn.a, turn.b, turn.c, turn.d, turn.e, turn.f)


def _box(raw: Handle) -> Box:
    edges = [ctypes.c_float() for _ in range(4)]
    pdfium.FPDFPageObj_GetBounds(raw, *edges)
    return Box(*(edge.value for edge in edges))


def _color(raw: Handle) -> tuple[tuple[int, int, int], int]:
    red, green, blue, opacity = (ctypes.c_uint() for _ in range(4))
    known = pdfium.FPDFPageObj_GetFillColor(raw, red, green, blue, opacity)
    return (red.value, green.value, blue.value), opacity.value if known else 0


def _letters(raw: Handle, letters: Handle) -> str:
    room = (ctypes.c_ushort * _ROOM)()
    size = pdfium.FPDFTextObj_GetText(raw, letters, room, 2 * _ROOM)
    if size > 2 * _ROOM:
        room = (ctypes.c_ushort * size)()
        pdfium.FPDFTextObj_GetText(raw, letters, room, size)
    text = bytes(room)[: max(0, size - 2)].decode("utf-16-le", "replace")
    # A hyphen at the end of a line.
    return text.replace("\ufffe", "-").replace("\x02", "-")


_ROOM = 256
"""Letters of most lines."""


def _marks(raw: Handle) -> tuple[frozenset[str], bool]:
    """Return the names of the marks around it, and whether other words are to be read for it."""
    names = set[str]()
    is_replaced = False
    name, length = (ctypes.c_ushort * 40)(), ctypes.c_ulong()
    for number in range(pdfium.FPDFPageObj_CountMarks(raw)):
        mark = pdfium.FPDFPageObj_GetMark(raw, number)
        pdfium.FPDFPageObjMark_GetName(mark, name, 80, length)
        names.add(bytes(name)[: max(0, length.value - 2)].decode("utf-16-le", "replace"))
        kind = pdfium.FPDFPageObjMark_GetParamValueType(mark, b"ActualText")
        is_replaced = is_replaced or kind != pdfium.FPDF_OBJECT_UNKNOWN
    return frozenset(names), is_replaced


def _hidden(  # noqa: PLR0913 -- all that hides letters
    raw: Handle,
    box: Box,
    opacity: int,
    marks: frozenset[str],
    *,
    is_upright: bool,
    is_replaced: bool,
) -> str:
    reasons = {
        "other words in its place": is_replaced,
        "a layer that can be switched off": "OC" in marks,
        "a way of drawing that fills no letters": pdfium.FPDFTextObj_GetTextRenderMode(raw)
        != pdfium.FPDF_TEXTRENDERMODE_FILL,
        "ink that lets the paper through": opacity != _SOLID
        or pdfium.FPDFPageObj_HasTransparency(raw) == 1,
        "letters that are turned or mirrored": not is_upright,
        "a mask that cuts it off": _is_cut(raw, box),
    }
    return next((reason for reason, holds in reasons.items() if holds), "")


def _is_cut(raw: Handle, box: Box) -> bool:
    clip = pdfium.FPDFPageObj_GetClipPath(raw)
    for number in range(pdfium.FPDFClipPath_CountPaths(clip) if clip else 0):
        points = [
            _point(pdfium.FPDFClipPath_GetPathSegment(clip, number, each))
            for each in range(pdfium.FPDFClipPath_CountPathSegments(clip, number))
        ]
        across, along = [x for x, _ in points], [y for _, y in points]
        if not points or not Box(min(across), min(along), max(across), max(along)).holds(box, 0.1):
            return True
    return False


def _point(segment: Handle) -> Point:
    across, along = ctypes.c_float(), ctypes.c_float()
    pdfium.FPDFPathSegment_GetPoint(segment, across, along)
    return across.value, along.value


def _drawn(raw: Handle, place: int, *, is_path: bool) -> DrawnRead:
    box, marks = _box(raw), _marks(raw)[0]
    if not is_path:
        coded = _picture(raw)
        return DrawnRead(
            place,
            is_path=False,
            fills=True,
            strokes=False,
            is_plain=False,
            box=box,
            color=(0, 0, 0),
            is_artifact=_ARTIFACT in marks,
            ends=(),
            picture=hashlib.sha256(coded).hexdigest() if coded is not None else "",
            coded=coded or b"",
        )
    how, strokes, width = ctypes.c_int(), ctypes.c_int(), ctypes.c_float()
    pdfium.FPDFPath_GetDrawMode(raw, how, strokes)
    segments = pdfium.FPDFPath_CountSegments(raw)
    if strokes.value and pdfium.FPDFPageObj_GetStrokeWidth(raw, width):
        box = box.grown(-_scale(raw) * width.value / 2)
    is_artifact = _ARTIFACT in marks
    return DrawnRead(
        place,
        is_path=True,
        fills=how.value != pdfium.FPDF_FILLMODE_NONE,
        strokes=bool(strokes.value),
        is_plain=segments <= _PLAIN_SEGMENTS,
        box=box,
        color=_color(raw)[0],
        is_artifact=is_artifact,
        ends=() if is_artifact and segments > _PLAIN_SEGMENTS else tuple(_ends(raw, segments)),
    )


def _picture(raw: Handle) -> bytes | None:
    """Return the coded picture, which of a JPEG is the file itself; none if it is no picture."""
    if pdfium.FPDFPageObj_GetType(raw) != pdfium.FPDF_PAGEOBJ_IMAGE:
        return None
    size = pdfium.FPDFImageObj_GetImageDataRaw(raw, None, 0)
    room = ctypes.create_string_buffer(size)
    pdfium.FPDFImageObj_GetImageDataRaw(raw, room, size)
    return room.raw


def _scale(raw: Handle) -> float:
    turn = pdfium.FS_MATRIX()
    pdfium.FPDFPageObj_GetMatrix(raw, turn)
    return float(max(abs(turn.a), abs(turn.b)))


def _ends(raw: Handle, segments: int) -> Iterator[Point]:
    """Yield the ends of lines and curves; a curve is three segments, of which two only bend it."""
    bends = 0
    for number in range(segments):
        segment = pdfium.FPDFPath_GetPathSegment(raw, number)
        if pdfium.FPDFPathSegment_GetType(segment) == pdfium.FPDF_SEGMENT_BEZIERTO:
            bends += 1
            if bends % 3:
                continue
        yield _point(segment)
