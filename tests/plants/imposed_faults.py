"""Sheets with cards on them, and sheets with one fault: the finished file is changed, or cards are
laid out that were not asked for.
"""

import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name, Pdf
from plants.paper_press import Shop

from guidegen.decks.sizes import SIDES
from guidegen.finding import Findings
from guidegen.paper.card import BLEED
from guidegen.paper.impose import DrawnCard, impose
from guidegen.paper.stock import STOCKS, Duplex, Printing
from guidegen.paper_proof.imposed_claims import ImposedOrder, ProvedCard
from guidegen.paper_proof.prove_imposed import prove_imposed

CAPTION = "Sedgewater Rural Cooperative, 2026-11-20"

Edit = Callable[[Pdf], None]


@dataclass(frozen=True, slots=True)
class SheetShop:
    """Cards of the demo fleet on sheets."""

    shop: Shop
    _made: dict[object, tuple[bytes, ImposedOrder]] = field(default_factory=dict, compare=False)

    def card(self, unit: str, kind: str, size: str = "") -> tuple[DrawnCard, ProvedCard]:
        """Return one card, for laying it out and for holding it against the sheets."""
        order = self.shop.order(unit, kind, size)
        assert order is not None
        pdf, side = self.shop.whole(order), order.card.kind.side
        name = f"{unit} {kind}"
        return (
            DrawnCard(name=name, side=side, bleed=BLEED, free=side.free, pdf=pdf),
            ProvedCard(name, order.issue.link, pdf),
        )

    def sheets(
        self, *cards: tuple[str, str, str], stock: str = "letter", duplex: Duplex = Duplex.LONG
    ) -> tuple[bytes, ImposedOrder]:
        """Return sheets without a fault, and what they are held against."""
        key = (cards, stock, duplex)
        if key not in self._made:
            drawn, proved = zip(*(self.card(*card) for card in cards), strict=True)
            findings = Findings()
            pdf = impose(drawn, CAPTION, Printing(STOCKS[stock], duplex), findings)
            assert pdf is not None, [each.what for each in findings]
            order = ImposedOrder("sheets.pdf", proved, SIDES[stock], duplex.value, CAPTION)
            self._made[key] = pdf, order
        return self._made[key]


@dataclass(frozen=True, slots=True)
class SheetPlant:
    """Sheets with one fault in them."""

    what: str
    pdf: bytes
    order: ImposedOrder
    rules: frozenset[str]
    """Names of the rules of which one at least must be broken."""

    def caught_by(self) -> frozenset[str]:
        return frozenset(each.rule.name for each in prove_imposed(self.pdf, self.order).failures)


CUT = (("T-17", "brakes", ""), ("T-18", "visor", ""))
SHARED = (("T-17", "end-of-day", ""),)
POCKET = (("T-17", "round", "pocket"), ("T-18", "round", "pocket"))


def edited(raw: bytes, edit: Edit) -> bytes:
    with pikepdf.open(io.BytesIO(raw)) as pdf:
        edit(pdf)
        changed = io.BytesIO()
        pdf.save(changed)
    return changed.getvalue()


def _drawing(page: pikepdf.Page) -> list[tuple[list[object], str]]:
    return [
        (list(each.operands), str(each.operator)) for each in pikepdf.parse_content_stream(page)
    ]


def _write(pdf: Pdf, page: pikepdf.Page, drawing: list[tuple[list[object], str]]) -> None:
    lines: list[Any] = [(operands, pikepdf.Operator(operator)) for operands, operator in drawing]
    made = pikepdf.unparse_content_stream(lines)
    page.Contents = pdf.make_stream(made)


def moved(number: int, change: Callable[[list[float]], list[float]]) -> Edit:
    """Return what changes the matrix of the first side on page *number*."""

    def edit(pdf: Pdf) -> None:
        page = pdf.pages[number]
        drawing = _drawing(page)
        at = next(place for place, (_, operator) in enumerate(drawing) if operator == "cm")
        matrix = [float(str(each)) for each in drawing[at][0]]
        drawing[at] = ([Decimal(f"{each:.5f}") for each in change(matrix)], "cm")
        _write(pdf, page, drawing)

    return edit


def scaled(by: float) -> Callable[[list[float]], list[float]]:
    return lambda matrix: [*(each * by for each in matrix[:4]), *matrix[4:]]


def shifted(across: float, up: float) -> Callable[[list[float]], list[float]]:
    return lambda matrix: [*matrix[:4], matrix[4] + across, matrix[5] + up]


def turned_about(matrix: list[float]) -> list[float]:
    """Turn a lying side about its middle, where cards of 4 by 6 inches are laid."""
    return [-each for each in matrix[:4]] + matrix[4:]


def pages_swapped(one: int, two: int) -> Edit:
    def edit(pdf: Pdf) -> None:
        first, second = pdf.pages[one].Contents.read_bytes(), pdf.pages[two].Contents.read_bytes()
        pdf.pages[one].Contents = pdf.make_stream(second)
        pdf.pages[two].Contents = pdf.make_stream(first)
        resources = pdf.pages[one].Resources
        pdf.pages[one].Resources = pdf.pages[two].Resources
        pdf.pages[two].Resources = resources

    return edit


def sides_swapped(number: int) -> Edit:
    """Exchange the first two sides on one face."""

    def edit(pdf: Pdf) -> None:
        forms = pdf.pages[number].Resources.XObject
        one, two, *_ = sorted(forms.keys())
        forms[one], forms[two] = forms[two], forms[one]

    return edit


def side_dropped(number: int) -> Edit:
    def edit(pdf: Pdf) -> None:
        page = pdf.pages[number]
        drawing = _drawing(page)
        del drawing[next(at for at, (_, operator) in enumerate(drawing) if operator == "Do")]
        _write(pdf, page, drawing)

    return edit


def side_doubled(number: int) -> Edit:
    def edit(pdf: Pdf) -> None:
        forms = pdf.pages[number].Resources.XObject
        one, two, *_ = sorted(forms.keys())
        forms[two] = forms[one]

    return edit


def clipped(number: int) -> Edit:
    def edit(pdf: Pdf) -> None:
        forms = pdf.pages[number].Resources.XObject
        form = forms[min(forms.keys())]
        left, bottom, right, top = (float(str(each)) for each in form.BBox)
        form.BBox = Array([left, bottom, right - 60, top])

    return edit


def drawn_over(number: int, operators: bytes) -> Edit:
    """Return what draws more on page *number*, after all else."""

    def edit(pdf: Pdf) -> None:
        pdf.pages[number].contents_add(operators)

    return edit


def note_moved(number: int, across: int, up: int) -> Edit:
    """Return what moves the first line of the note on a face."""

    def edit(pdf: Pdf) -> None:
        page = pdf.pages[number]
        drawing = _drawing(page)
        at = next(place for place, (_, operator) in enumerate(drawing) if operator == "Tm")
        drawing[at] = ([1, 0, 0, 1, across, up], "Tm")
        _write(pdf, page, drawing)

    return edit


def note_in_white(number: int) -> Edit:
    def edit(pdf: Pdf) -> None:
        page = pdf.pages[number]
        _write(pdf, page, [([1] if op == "g" else given, op) for given, op in _drawing(page)])

    return edit


def without_line(number: int, which: int) -> Edit:
    """Return what leaves out one stroke of a face; less than 0 counts from the last."""

    def edit(pdf: Pdf) -> None:
        page = pdf.pages[number]
        drawing = _drawing(page)
        starts = [at for at, (_, operator) in enumerate(drawing) if operator == "m"]
        del drawing[starts[which] : starts[which] + 3]
        _write(pdf, page, drawing)

    return edit


def line_moved(number: int, which: int, by: float) -> Edit:
    def edit(pdf: Pdf) -> None:
        page = pdf.pages[number]
        drawing = _drawing(page)
        starts = [at for at, (_, operator) in enumerate(drawing) if operator == "m"]
        for at in (starts[which], starts[which] + 1):
            x, y = (float(str(each)) for each in drawing[at][0])
            drawing[at] = ([Decimal(f"{x + by:.3f}"), Decimal(f"{y + by:.3f}")], drawing[at][1])
        _write(pdf, page, drawing)

    return edit


def _dialog(**entries: Any) -> Edit:  # noqa: ANN401 -- whatever a file can hold
    def edit(pdf: Pdf) -> None:
        pdf.Root.ViewerPreferences = Dictionary(**entries)

    return edit


def _smaller(pdf: Pdf) -> None:
    pdf.pages[0].MediaBox = Array([0, 0, 595, 792])


def _turned(pdf: Pdf) -> None:
    pdf.pages[1].Rotate = 180


def _noted(pdf: Pdf) -> None:
    note = Dictionary(
        Type=Name.Annot, Subtype=Name.FreeText, Rect=Array([20, 20, 90, 60]), Contents="T-18"
    )
    pdf.pages[0].Annots = Array([pdf.make_indirect(note)])


def _last_page_gone(pdf: Pdf) -> None:
    del pdf.pages[-1]


MISSING, TWICE, DIFFERS = (f"paper-sheet-side-{what}" for what in ("missing", "twice", "differs"))
SCALE, CUT_OFF, BACK = (
    "paper-sheet-scale-differs",
    "paper-sheet-side-cut",
    "paper-sheet-back-differs",
)
NOTE, MARK = "paper-sheet-note-differs", "paper-sheet-mark-differs"
DIALOG, SIZE, MORE = "paper-sheet-dialog-differs", "paper-size-differs", "paper-more-than-pages"

TENTH_OF_A_MILLIMETER = 0.2835
"""Points."""

EDITS: dict[str, tuple[tuple[tuple[str, str, str], ...], Edit, str]] = {
    "backs of two sheets exchanged": (CUT, pages_swapped(1, 3), BACK),
    "two backs of one sheet exchanged": (CUT, sides_swapped(1), BACK),
    "front and back exchanged": (CUT, pages_swapped(0, 1), BACK),
    "two fronts exchanged": (SHARED, sides_swapped(0), BACK),
    "side shrunk to 97 %": (CUT, moved(0, scaled(0.97)), SCALE),
    "side grown by 1 %": (CUT, moved(1, scaled(1.01)), SCALE),
    "side mirrored": (CUT, moved(0, lambda m: [-m[0], -m[1], m[2], m[3], m[4], m[5]]), SCALE),
    "back two tenths of a millimeter off": (
        CUT, moved(1, shifted(2 * TENTH_OF_A_MILLIMETER, 0)), BACK),
    "front two tenths of a millimeter off": (
        CUT, moved(0, shifted(0, 2 * TENTH_OF_A_MILLIMETER)), BACK),
    "back of a shared cut off": (SHARED, moved(1, shifted(0, -2)), BACK),
    "side over the edge of the sheet": (SHARED, moved(0, shifted(30, 0)), CUT_OFF),
    "side on another": (CUT, moved(0, shifted(0, -120)), CUT_OFF),
    "back upside down": (CUT, moved(1, turned_about), BACK),
    "side missing": (CUT, side_dropped(0), MISSING),
    "back missing": (SHARED, side_dropped(1), MISSING),
    "side doubled": (CUT, side_doubled(0), TWICE),
    "side cut off": (CUT, clipped(0), CUT_OFF),
    "side of a shared cut cut off": (SHARED, clipped(0), CUT_OFF),
    "white over text": (CUT, drawn_over(0, b"q 1 g 250 200 60 30 re f Q"), CUT_OFF),
    "black bar on a card": (SHARED, drawn_over(0, b"q 0 g 250 250 60 3 re f Q"), CUT_OFF),
    "line across a card": (CUT, drawn_over(0, b"q 0 G 0.25 w 120 300 m 500 300 l S Q"), MARK),
    "code covered": (CUT, drawn_over(0, b"q 1 g 100 480 80 90 re f Q"), MARK),
    "mark left out": (CUT, without_line(0, 0), MARK),
    "mark of a shared cut left out": (SHARED, without_line(0, -1), MARK),
    "mark half a millimeter off": (CUT, line_moved(0, 0, 1.4), MARK),
    "mark of a shared cut off": (SHARED, line_moved(0, 0, 1.4), MARK),
    "measuring line left out": (CUT, without_line(1, -6), MARK),
    "stray line in the waste": (CUT, drawn_over(0, b"q 0 G 0.25 w 30 300 m 60 300 l S Q"), MARK),
    "note on a card": (CUT, note_moved(0, 200, 300), NOTE),
    "note off the sheet": (CUT, note_moved(0, -300, 33), NOTE),
    "note in white": (CUT, note_in_white(0), NOTE),
    "printed to fit the page": (CUT, _dialog(Duplex=Name.DuplexFlipLongEdge), DIALOG),
    "turned on the other edge": (
        CUT, _dialog(Duplex=Name.DuplexFlipShortEdge, PrintScaling=Name("/None")), DIALOG),
    "smaller page": (CUT, _smaller, SIZE),
    "page turned about": (CUT, _turned, BACK),
    "note over the page": (CUT, _noted, MORE),
    "last page missing": (CUT, _last_page_gone, BACK),
}  # fmt: skip


def edits(shop: SheetShop) -> Iterator[SheetPlant]:
    """Yield finished sheets with one edit."""
    for what, (cards, edit, rule) in EDITS.items():
        pdf, order = shop.sheets(*cards)
        yield SheetPlant(what, edited(pdf, edit), order, frozenset({rule}))


def other_cards(shop: SheetShop) -> Iterator[SheetPlant]:
    """Yield sheets of other cards than were asked for."""
    _, order = shop.sheets(*CUT)
    for what, cards, rules in (
        ("another truck's card", (("T-18", "brakes", ""), CUT[1]), {DIFFERS}),
        ("a card too few", CUT[:1], {MISSING}),
        ("a card too many", (*CUT, ("T-17", "fluids", "")), {DIFFERS}),
        ("cards of another size", (("T-17", "brakes", "a6"), CUT[1]), {DIFFERS}),
    ):
        pdf, _ = shop.sheets(*cards)
        yield SheetPlant(what, pdf, order, frozenset(rules))
    pdf, _ = shop.sheets(*CUT, stock="a4")
    yield SheetPlant("sheets of another stock", pdf, order, frozenset({SIZE}))
    pdf, _ = shop.sheets(*CUT, duplex=Duplex.SHORT)
    yield SheetPlant("sheets for the other edge", pdf, order, frozenset({BACK, DIALOG}))


def other_names(shop: SheetShop) -> Iterator[SheetPlant]:
    """Yield sheets that name other trucks, cards or dates than they hold."""
    for cards in (CUT, POCKET):
        pdf, order = shop.sheets(*cards)
        renamed = replace(order.cards[0], name="K-22 brakes")
        named = replace(order, cards=(renamed, *order.cards[1:]))
        yield SheetPlant("another truck named", pdf, named, frozenset({NOTE}))
        dated = replace(order, caption="Sedgewater Rural Cooperative, 2026-11-21")
        yield SheetPlant("another date", pdf, dated, frozenset({NOTE}))
        led = replace(order.cards[0], link="https://guides.sedgewater.example/T-18/")
        elsewhere = replace(order, cards=(led, *order.cards[1:]))
        yield SheetPlant("code leads elsewhere", pdf, elsewhere, frozenset({"paper-code-differs"}))


KINDS = {"edits": edits, "other_cards": other_cards, "other_names": other_names}
