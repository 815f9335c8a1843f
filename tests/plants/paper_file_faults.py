"""Finished files that are changed: sides gone, doubled, exchanged, turned; fonts and marks."""

import io
import re
from collections.abc import Callable, Iterator

import pikepdf
from pikepdf import Array, Dictionary, Name, Pdf
from plants.paper_press import Order, PaperPlant, Shop

CARDS = (
    ("T-17", "brakes", ""),
    ("E-02", "fluids", ""),
    ("D-31", "lamps", ""),
    ("V-08", "round", "pocket"),
)

Edit = Callable[[Pdf], None]


def orders(shop: Shop) -> Iterator[Order]:
    for unit, kind, size in CARDS:
        order = shop.order(unit, kind, size)
        assert order is not None, (unit, kind)
        yield order


def edited(raw: bytes, edit: Edit) -> bytes:
    with pikepdf.open(io.BytesIO(raw)) as pdf:
        edit(pdf)
        changed = io.BytesIO()
        pdf.save(changed)
    return changed.getvalue()


def sow(shop: Shop, what: str, edit: Edit, *rules: str) -> Iterator[PaperPlant]:
    """Yield finished cards with one edit."""
    for order in orders(shop):
        pdf = edited(shop.whole(order), edit)
        says = f"{what}, {order.guide.number} {order.card.kind.id}"
        yield PaperPlant(says, order, pdf, frozenset(rules))


def sides_missing(shop: Shop) -> Iterator[PaperPlant]:
    number, missing = "paper-page-number-differs", "paper-step-missing"
    for place in (0, 1, -1):

        def edit(pdf: Pdf, place: int = place) -> None:
            del pdf.pages[place]

        yield from sow(shop, f"side {place} missing", edit, number, missing)


def sides_doubled(shop: Shop) -> Iterator[PaperPlant]:
    def edit(pdf: Pdf) -> None:
        pdf.pages.append(pdf.pages[0])

    yield from sow(shop, "first side again at the end", edit, "paper-unclaimed-text")


def sides_exchanged(shop: Shop) -> Iterator[PaperPlant]:
    def edit(pdf: Pdf) -> None:
        first = pdf.pages[0]
        del pdf.pages[0]
        pdf.pages.insert(1, first)

    yield from sow(shop, "first two sides exchanged", edit, "paper-page-number-differs")


def sides_of_other_trucks(shop: Shop) -> Iterator[PaperPlant]:
    for order in orders(shop):
        other = shop.order("K-22", order.card.kind.id, order.card.kind.side.id)
        assert other is not None
        strange = shop.whole(other)

        def edit(pdf: Pdf, strange: bytes = strange) -> None:
            with pikepdf.open(io.BytesIO(strange)) as source:
                pdf.pages.append(source.pages[0])

        def instead(pdf: Pdf, strange: bytes = strange) -> None:
            with pikepdf.open(io.BytesIO(strange)) as source:
                pdf.pages[0] = source.pages[0]

        mine = shop.whole(order)
        rules = frozenset({"paper-unit-differs"})
        says = f"side of K-22, {order.guide.number} {order.card.kind.id}"
        yield PaperPlant(f"{says}, added", order, edited(mine, edit), rules)
        yield PaperPlant(f"{says}, instead", order, edited(mine, instead), rules)
        yield PaperPlant(f"{says}, all", order, strange, rules)


def fonts_not_embedded(shop: Shop) -> Iterator[PaperPlant]:
    def edit(pdf: Pdf) -> None:
        for each in pdf.objects:
            if isinstance(each, Dictionary):
                for name in ("/FontFile2", "/FontFile3", "/FontFile"):
                    if name in each:
                        del each[name]

    yield from sow(shop, "fonts not in the file", edit, "paper-font-not-embedded")


def _in_content(pattern: bytes, replacement: bytes, page: int = 0, count: int = 0) -> Edit:
    def edit(pdf: Pdf) -> None:
        # The truck's own and all else are drawn by two streams.
        pdf.pages[page].contents_coalesce()
        content = pdf.pages[page].Contents.read_bytes()
        changed, found = re.subn(pattern, replacement, content, count=count)
        assert found, pattern
        pdf.pages[page].Contents = pdf.make_stream(changed)

    return edit


def letters_not_drawn(shop: Shop) -> Iterator[PaperPlant]:
    for mode in (b"1", b"3", b"7"):
        edit = _in_content(rb"BT 0 Tr", b"BT " + mode + b" Tr")
        hidden = ("paper-text-hidden", "paper-text-missing", "paper-unit-differs")
        yield from sow(shop, f"way of drawing {mode.decode()}", edit, *hidden)


def other_words_in_their_place(shop: Shop) -> Iterator[PaperPlant]:
    edit = _in_content(rb"/Span<<", b"/Span<</ActualText (so) ", count=3)
    hidden = ("paper-text-hidden", "paper-text-differs", "paper-text-missing")
    yield from sow(shop, "other words to be copied", edit, *hidden)


def layers_that_can_be_switched_off(shop: Shop) -> Iterator[PaperPlant]:
    edit = _in_content(rb"/Span<<", b"/OC<<")
    yield from sow(shop, "body on a layer", edit, "paper-text-hidden")


def letters_moved_apart(shop: Shop) -> Iterator[PaperPlant]:
    """The first line of text moved to the foot of the paper."""
    edit = _in_content(rb"1 0 0 -1 ([0-9.]+) [0-9.]+ (cm/c[0-9]+ cs 0 0 0 scn\s*BT)",
                       rb"1 0 0 -1 \1 2 \2", count=1)  # fmt: skip
    yield from sow(shop, "number of the truck at the foot", edit, "paper-outside-safe-area")


def pages_turned(shop: Shop) -> Iterator[PaperPlant]:
    def turned(pdf: Pdf) -> None:
        pdf.pages[0].Rotate = 90

    def cropped(pdf: Pdf) -> None:
        pdf.pages[0].CropBox = Array([30, 30, 200, 100])

    def trimmed(pdf: Pdf) -> None:
        pdf.pages[0].TrimBox = Array([0, 0, 200, 100])

    def untrimmed(pdf: Pdf) -> None:
        del pdf.pages[0].obj["/TrimBox"]

    def larger(pdf: Pdf) -> None:
        box = [float(each) for each in pdf.pages[0].MediaBox]
        pdf.pages[0].MediaBox = Array([box[0], box[1], box[2] + 20, box[3] + 20])

    for edit in (turned, cropped, trimmed, untrimmed, larger):
        yield from sow(shop, f"page {edit.__name__}", edit, "paper-size-differs")


def more_than_pages(shop: Shop) -> Iterator[PaperPlant]:
    def noted(pdf: Pdf) -> None:
        note = Dictionary(
            Type=Name.Annot, Subtype=Name.FreeText, Rect=Array([20, 20, 90, 60]), Contents="T-18"
        )
        pdf.pages[0].Annots = Array([pdf.make_indirect(note)])

    def attached(pdf: Pdf) -> None:
        pdf.attachments["T-18.txt"] = b"T-18"

    def scripted(pdf: Pdf) -> None:
        script = Dictionary(S=Name.JavaScript, JS="app.alert('T-18')")
        pdf.Root.Names = Dictionary(
            JavaScript=Dictionary(Names=Array(["a", pdf.make_indirect(script)]))
        )

    def bookmarked(pdf: Pdf) -> None:
        with pdf.open_outline() as outline:
            outline.root.append(pikepdf.OutlineItem("T-18", 0))

    for edit in (noted, attached, scripted):
        yield from sow(shop, edit.__name__, edit, "paper-more-than-pages")
    yield from sow(shop, "bookmarked", bookmarked, "paper-unclaimed-text")


def broken_files(shop: Shop) -> Iterator[PaperPlant]:
    for order in orders(shop):
        raw = shop.whole(order)
        for what, pdf in {"empty": b"", "half": raw[:200], "text": b"T-17"}.items():
            yield PaperPlant(what, order, pdf, frozenset({"paper-not-readable"}))
        nothing = edited(raw, lambda pdf: pdf.pages.__delitem__(slice(None)))
        yield PaperPlant("no pages", order, nothing, frozenset({"paper-not-readable"}))


KINDS = (
    sides_missing,
    sides_doubled,
    sides_exchanged,
    sides_of_other_trucks,
    fonts_not_embedded,
    letters_not_drawn,
    other_words_in_their_place,
    layers_that_can_be_switched_off,
    letters_moved_apart,
    pages_turned,
    more_than_pages,
    broken_files,
)
