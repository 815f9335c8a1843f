"""Cards on the sheets of an office printer.

Takes in drawn cards, what the sheets are called, and stock and duplex; gives out one PDF with
cards, trim marks and a note on each sheet. Refuses to shrink a card, and any clock: the same cards
give the same bytes.
"""

import io
from collections.abc import Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from decimal import Decimal

import pikepdf
from pikepdf import Array, Dictionary, Name

from guidegen.decks.sizes import Side
from guidegen.finding import Findings
from guidegen.paper.margin_font import embed, margin_font
from guidegen.paper.rectangle import Rectangle, around, point_box, points
from guidegen.paper.sheet_drawing import (
    FONT_NAME,
    PageBox,
    draw_card,
    draw_lines,
    draw_strokes,
    placing,
)
from guidegen.paper.sheet_grid import lay_grid
from guidegen.paper.sheet_note import (
    SheetNumber,
    check_caption,
    check_names,
    measuring_lines,
    name_lines,
    note_lines,
)
from guidegen.paper.sheet_plan import Placement, Sheet, Stack, plan_sheets, report_too_big
from guidegen.paper.stock import Duplex, Printing
from guidegen.paper.trim_marks import cut_marks, trim_marks
from guidegen.source import Span

_SAME = Decimal("0.01")
"""Points by which a page may differ from its card: binary fractions of the program that drew it."""

_DIALOG = {
    Duplex.SIMPLEX: Name.Simplex,
    Duplex.LONG: Name.DuplexFlipLongEdge,
    Duplex.SHORT: Name.DuplexFlipShortEdge,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnCard:
    """A card as it was drawn: each page is one side with its bleed, in order."""

    name: str
    """As findings call it: ``T-17 air-brakes``."""

    side: Side
    bleed: Decimal
    """Millimeters on each of the four sides."""

    free: Decimal = Decimal(0)
    """Millimeters from the trim inward that nothing is drawn on, nor outside of it; 0 if something
    bleeds, or if nobody knows."""

    pdf: bytes
    span: Span | None = None
    """Where the card is asked for."""


def goes_on(card: DrawnCard, printing: Printing, findings: Findings) -> bool:
    """Say whether *card* fits sheets of *printing*, and report why not."""
    if lay_grid(card.side, card.bleed, printing.stock, card.free) is not None:
        return True
    report_too_big(card, printing, findings)
    return False


def impose(
    cards: Sequence[DrawnCard], caption: str, printing: Printing, findings: Findings
) -> bytes | None:
    """Return *cards* on sheets as one PDF, or nothing if one of them fits no sheet.

    Args:
        cards: at least one side in all.
        caption: what the sheets are, for their foot: ``T-17, revision 3f2a9c``.
        printing: stock and duplex.
        findings: takes what does not fit.

    Raises:
        ValueError: if a page is not as big as its card with bleed, or if there is no page.
    """
    with ExitStack() as files:
        opened = [files.enter_context(pikepdf.open(io.BytesIO(card.pdf))) for card in cards]
        stacks = [_stack(card, pdf) for card, pdf in zip(cards, opened, strict=True)]
        faults = len(findings)
        sheets = plan_sheets(stacks, printing, findings)
        if len(findings) > faults:
            return None
        if not sheets:
            raise ValueError("there is no side to print")
        font = margin_font()
        last = SheetNumber(len(sheets), len(sheets), printing.duplex.faces - 1)
        if not check_caption(caption, last, printing, font, findings):
            return None
        press = _Press(opened, tuple(card.name for card in cards), caption, printing, len(sheets))
        for sheet in sheets:
            press.check_names(sheet, findings)
        if len(findings) > faults:
            return None
        for sheet in sheets:
            press.print(sheet)
        return press.finish()


class _Press:
    """The PDF that is being made, sheet after sheet."""

    def __init__(
        self,
        cards: Sequence[pikepdf.Pdf],
        names: tuple[str, ...],
        caption: str,
        printing: Printing,
        sheets: int,
    ) -> None:
        self._cards = cards
        self._names = names
        self._caption = caption
        self._printing = printing
        self._font = font = margin_font()
        self._sheets = sheets
        self._pdf = pikepdf.new()
        self._embedded = embed(font, self._pdf)

    def check_names(self, sheet: Sheet, findings: Findings) -> None:
        """Report what is on *sheet* and cannot be named on it."""
        for face in sheet.faces if _has_strips(sheet) else ():
            check_names(self._named(face), self._printing.stock, self._font, findings)

    def print(self, sheet: Sheet) -> None:
        """Add the faces of *sheet*."""
        for face in range(len(sheet.faces)):
            if sheet.grid.fills_stock:
                self._add_whole(sheet.faces[face])
            else:
                self._add_cut(sheet, face)

    def finish(self) -> bytes:
        """Return the PDF, with what the printer's dialog is to offer."""
        self._pdf.Root.ViewerPreferences = Dictionary(
            PrintScaling=Name("/None"),
            Duplex=_DIALOG[self._printing.duplex],
            PickTrayByPDFSize=True,
            DisplayDocTitle=True,
        )
        self._pdf.docinfo[Name.Title] = self._caption
        written_to = io.BytesIO()
        self._pdf.save(written_to, deterministic_id=True, min_version="1.7")
        return written_to.getvalue()

    def _add_whole(self, placements: tuple[Placement, ...]) -> None:
        area = self._printing.stock.area
        if not placements:
            self._add_page(area, b"", Dictionary())
            return
        (placement,) = placements
        source = self._cards[placement.leaf.stack].pages[placement.page]
        self._pdf.pages.append(source)
        page = self._pdf.pages[-1]
        # What belongs to the card's file as a whole, tags and links, has no place in this one.
        for key in (Name.StructParents, Name.Tabs, Name.Annots):
            if key in page.obj:
                del page.obj[key]
        box = _page_box(source)
        left = box.left + (box.width - points(area.width)) / 2
        bottom = box.bottom + (box.height - points(area.height)) / 2
        moved = [left, bottom, left + points(area.width), bottom + points(area.height)]
        for key in (Name.MediaBox, Name.CropBox, Name.BleedBox, Name.TrimBox):
            page.obj[key] = Array(moved)
        if placement.rotated:
            page.rotate(placement.rotated, relative=True)

    def _add_cut(self, sheet: Sheet, face: int) -> None:
        forms = Dictionary()
        parts: list[bytes] = []
        for placement in sheet.faces[face]:
            name = f"/Side{placement.leaf.stack}-{placement.page}"
            source = self._cards[placement.leaf.stack].pages[placement.page]
            box = _page_box(source)
            forms[name] = self._form(source, _clip_of(box, placement, sheet.grid.bleed))
            parts.append(draw_card(name, placing(box, placement.trim, placement.rotated)))
        parts += self._around(sheet, face)
        fonts = Dictionary({FONT_NAME: self._embedded})
        resources = Dictionary(XObject=forms, Font=fonts)
        page = self._add_page(self._printing.stock.area, b"".join(parts), resources)
        cuts = sheet.cuts[face]
        page.obj[Name.TrimBox] = Array(point_box(around(cuts)))
        page.obj[Name.BleedBox] = Array(point_box(around(cuts).grown(sheet.grid.bleed)))

    def _around(self, sheet: Sheet, face: int) -> list[bytes]:
        """Return what is drawn beside the cards on one face."""
        cuts, stock = sheet.cuts[face], self._printing.stock
        if not _has_strips(sheet):
            return [draw_strokes(cut_marks(cuts, stock.area))]
        which = SheetNumber(sheet.number, self._sheets, face)
        lines = note_lines(self._caption, which, self._printing)
        lines += name_lines(self._named(sheet.faces[face]), stock, self._font)
        return [
            draw_strokes(trim_marks(cuts, sheet.grid.bleed) + measuring_lines(stock)),
            draw_lines(lines, self._font),
        ]

    def _named(self, placements: tuple[Placement, ...]) -> list[tuple[str, int]]:
        """Return for each side of one face the name of its card, and its number."""
        return [(self._names[it.leaf.stack], it.page + 1) for it in placements]

    def _form(self, source: pikepdf.Page, box: PageBox) -> pikepdf.Object:
        form = self._pdf.copy_foreign(source.as_form_xobject(handle_transformations=False))
        # The page may carry a trim box, which would clip the bleed off.
        form[Name.BBox] = Array([box.left, box.bottom, box.right, box.top])
        return form

    def _add_page(self, area: Rectangle, content: bytes, resources: Dictionary) -> pikepdf.Page:
        box = point_box(area)
        page = Dictionary(
            Type=Name.Page,
            MediaBox=Array(box),
            CropBox=Array(box),
            BleedBox=Array(box),
            TrimBox=Array(box),
            Resources=resources,
            Contents=self._pdf.make_stream(content),
        )
        self._pdf.pages.append(pikepdf.Page(self._pdf.make_indirect(page)))
        return self._pdf.pages[-1]


def _has_strips(sheet: Sheet) -> bool:
    """Whether there is waste at head and foot to write on."""
    return not (sheet.grid.is_shared or sheet.grid.fills_stock)


def _clip_of(box: PageBox, placement: Placement, bleed: Decimal) -> PageBox:
    """Return what of a page is drawn: the trimmed card with *bleed* millimeters around it."""
    lies = placement.rotated % 180 != 0
    trim = placement.trim.grown(bleed)
    width, height = (trim.height, trim.width) if lies else (trim.width, trim.height)
    across, up = (box.width - points(width)) / 2, (box.height - points(height)) / 2
    if max(abs(across), abs(up)) < _SAME:
        return box
    return PageBox(box.left + across, box.bottom + up, box.right - across, box.top - up)


def _stack(card: DrawnCard, pdf: pikepdf.Pdf) -> Stack:
    width = points(card.side.width + 2 * card.bleed)
    height = points(card.side.height + 2 * card.bleed)
    for number, page in enumerate(pdf.pages, start=1):
        box = _page_box(page)
        if abs(box.width - width) > _SAME or abs(box.height - height) > _SAME:
            raise ValueError(
                f"page {number} of {card.name} is {box.width} by {box.height} pt, "
                f"its card with bleed {width} by {height} pt"
            )
    return Stack(
        name=card.name,
        side=card.side,
        bleed=card.bleed,
        free=card.free,
        sides=len(pdf.pages),
        span=card.span,
    )


def _page_box(page: pikepdf.Page) -> PageBox:
    return PageBox(*(Decimal(str(edge)) for edge in page.mediabox.as_list()))
