"""Booklets with other words, values, parts or pages than their truck's."""

import io
import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

import pikepdf
from pikepdf import Pdf
from plants.booklet_press import BookletShop, BookletToProve
from plants.paper_file_faults import edited
from plants.paper_press import Given, PaperPlant, replaced_by

Piece = dict[str, Any]
Edit = Callable[[Given], None]


def booklets(shop: BookletShop, what: str, needs: str = "") -> Iterator[BookletToProve]:
    """Yield the booklet to plant *what* in: of two trucks and two sizes the one that it falls to.

    Drawing a booklet and reading it back takes seconds, and a fault is the same in both.
    """
    both = (shop.short_guide("T-17", "letter"), shop.short_guide("E-02", "a5"))
    fit = [e for e in both if not needs or next(pieces(shop.given(e), needs), None) is not None]
    yield from fit[len(what) % max(len(fit), 1) :][:1]


def sow(
    shop: BookletShop, what: str, edit: Edit, *rules: str, needs: str = ""
) -> Iterator[PaperPlant]:
    """Yield booklets of which the matter is edited, if they have a piece of the kind *needs*."""
    for booklet in booklets(shop, what, needs):
        given = shop.given(booklet)
        edit(given)
        assert given != shop.given(booklet), what
        pdf = shop.draw(booklet, replaced_by(given))
        yield PaperPlant(f"{what}, {booklet.name}", booklet, pdf, frozenset(rules))


def sow_look(
    shop: BookletShop, what: str, place: tuple[str, str, str], *rules: str
) -> Iterator[PaperPlant]:
    """Yield a booklet that another template draws; *place* is file, old and new text."""
    booklet = shop.short_guide("T-17", "letter")
    pdf = shop.draw_with(booklet, *place)
    yield PaperPlant(f"{what}, {booklet.name}", booklet, pdf, frozenset(rules))


def sow_file(
    shop: BookletShop, what: str, edit: Callable[[Pdf], None], *rules: str
) -> Iterator[PaperPlant]:
    """Yield finished booklets that are edited."""
    for booklet in booklets(shop, what):
        pdf = edited(shop.whole(booklet), edit)
        yield PaperPlant(f"{what}, {booklet.name}", booklet, pdf, frozenset(rules))


def pieces(given: Given, kind: str) -> Iterator[tuple[list[Piece], int]]:
    """Yield each piece of a kind: the pieces of its group, and its place among them."""
    for chapter in given["chapters"]:
        for group in chapter["groups"]:
            for place, piece in enumerate(group["pieces"]):
                if piece["kind"] == kind:
                    yield group["pieces"], place


def middle(given: Given, kind: str) -> tuple[list[Piece], int]:
    found = list(pieces(given, kind))
    return found[len(found) // 2]


def parts_dropped(shop: BookletShop) -> Iterator[PaperPlant]:
    for kind, rule in (
        ("step", "paper-step-missing"),
        ("caution", "paper-caution-missing"),
        ("datum", "paper-value-missing"),
        ("list", "paper-text-missing"),
        ("lamp", "paper-text-missing"),
        ("figure", "paper-text-missing"),
    ):

        def edit(given: Given, kind: str = kind) -> None:
            found, place = middle(given, kind)
            # Where index and contents lead to stays.
            anchor = found[place].get("anchor")
            blank = {"kind": "title", "text": [[" "]], "anchor": anchor, "longest": []}
            found[place : place + 1] = [blank] if anchor else []

        yield from sow(shop, f"{kind} dropped", edit, rule, needs=kind)


def cautions_after_their_step(shop: BookletShop) -> Iterator[PaperPlant]:
    def edit(given: Given) -> None:
        found, place = middle(given, "caution")
        found.append(found.pop(place))

    yield from sow(
        shop, "caution after its step", edit, "paper-caution-after-its-step", "paper-out-of-order"
    )


def values_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    def edit(given: Given) -> None:
        numbers = (found[place] for found, place in pieces(given, "datum"))
        value = next(
            each["value"][0] for each in numbers if re.search("[0-9]", each["value"][0][0])
        )
        value[0] = re.sub("[0-9]", lambda said: str((int(said[0]) + 1) % 10), value[0], count=1)

    def source(given: Given) -> None:
        found, place = middle(given, "datum")
        found[place]["source"] = "from memory"

    yield from sow(shop, "digit changed", edit, "paper-value-differs")
    yield from sow(shop, "source changed", source, "paper-text-differs", "paper-text-missing")


def parts_of_other_trucks(shop: BookletShop) -> Iterator[PaperPlant]:
    other = shop.given(shop.short_guide("K-22", "letter"))

    def step(given: Given) -> None:
        own = [found[place]["text"] for found, place in pieces(given, "step")]
        strange = next(
            found[place]
            for found, place in pieces(other, "step")
            if found[place]["text"] not in own
        )
        found, place = middle(given, "step")
        found[place] = {**strange, "number": found[place]["number"]}

    def absent(given: Given) -> None:
        group = given["chapters"][-1]["groups"][-1]
        group["pieces"][-1]["words"] = "Crane"

    yield from sow(shop, "step of another truck", step, "paper-step-missing", "paper-text-differs")
    yield from sow(
        shop, "thing not fitted changed", absent, "paper-text-missing", "paper-text-differs"
    )


def chapters_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    def title(given: Given) -> None:
        given["chapters"][0]["title"] = "Other brakes"

    def exchanged(given: Given) -> None:
        chapters = given["chapters"]
        chapters[0], chapters[1] = chapters[1], chapters[0]

    yield from sow(shop, "title of a chapter", title, "paper-text-differs", "paper-text-missing")
    yield from sow(shop, "chapters exchanged", exchanged, "paper-out-of-order")


def covers_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    def signals(given: Given) -> None:
        first, second = given["signals"][:2]
        first[1], second[1] = second[1], first[1]

    for name, words, rules in (
        ("unit", "T-18", ("paper-unit-differs",)),
        ("truck", "2020 Corvane", ("paper-text-differs", "paper-text-missing")),
        ("fleet", "Another fleet", ("paper-text-differs", "paper-text-missing")),
        ("revision", "Revision 00000000", ("paper-revision-differs",)),
        ("document", "T-18: Quick guide", ("paper-title-differs",)),
    ):

        def edit(given: Given, name: str = name, words: str = words) -> None:
            given["stamp"][name] = words

        yield from sow(shop, f"{name} changed", edit, *rules)
    differs = ("paper-text-differs", "paper-signal-word-differs", "paper-caution-missing")
    yield from sow(shop, "meanings of signal words", signals, *differs)


def codes_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    def gone(given: Given) -> None:
        given["stamp"]["code"]["svg"] = (
            '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>'
        )

    yield from sow(shop, "no code", gone, "paper-code-missing")
    twice = "#cover\n\n"
    yield from sow_look(
        shop, "code on other pages", ("booklet.typ", twice, f"#cover\n#pagebreak()\n{_CODE}\n\n"),
        "paper-figure-differs",
    )  # fmt: skip


_CODE = (
    '#image(bytes(stamp.code.svg), width: 9mm, height: 9mm, format: "svg", alt: stamp.code.says)'
)


def index_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    def lines_once(given: Given) -> list[Any]:
        """Return the lines of a word of which the first stands under no other word."""
        return next(
            each["entries"]
            for each in given["index"]
            if len(each["entries"]) > 1
            and sum(each["entries"][0] in other["entries"] for other in given["index"]) == 1
        )

    def dropped(given: Given) -> None:
        del lines_once(given)[0]

    def elsewhere(given: Given) -> None:
        line = lines_once(given)[0]
        values = [found[place]["anchor"] for found, place in pieces(given, "datum")]
        titles = [found[place]["anchor"] for found, place in pieces(given, "title")]
        line[1] = titles[0] if line[1] in values else values[-1]

    def keyword(given: Given) -> None:
        given["index"][-1]["word"] = "zebra"

    def order(given: Given) -> None:
        given["index"].append(given["index"].pop(0))

    def words(given: Given) -> None:
        lines_once(given)[0][0] += " of T-18"

    yield from sow(shop, "line of the index dropped", dropped, "paper-text-missing")
    yield from sow(shop, "line of the index leads elsewhere", elsewhere, "paper-page-named-wrongly")
    yield from sow(shop, "another word in the index", keyword, "paper-index-differs")
    yield from sow(shop, "index out of order", order, "paper-index-differs")
    yield from sow(shop, "words of the index changed", words, "paper-unclaimed-text")


LOOKS: Mapping[str, tuple[tuple[str, str, str], str]] = {
    "number of the page one too high": (
        ("booklet.typ", "str(page-here) + labels.of", "str(page-here + 1) + labels.of"),
        "paper-page-number-differs",
    ),
    "count of the pages one too low": (
        ("booklet.typ", "labels.of + str(most)", "labels.of + str(most - 1)"),
        "paper-page-number-differs",
    ),
    "pages in the index one too high": (
        ("booklet.typ", "label(anchor)).first())", "label(anchor)).first() + 1)"),
        "paper-page-named-wrongly",
    ),
    "pages in the contents all the same": (
        (
            "booklet.typ",
            "#outline(title: none",
            ("#show outline.entry: it => block(link(it.element.location(), [#it.body() 3]))\n"
            "  #outline(title: none"),
        ),
        "paper-page-named-wrongly",
    ),
    "contents without procedures": (
        ("booklet.typ", "title: none, depth: 2", "title: none, depth: 1"),
        "paper-text-missing",
    ),
    "links of the index to the cover": (
        ("booklet.typ", "link(label(anchor), words", "link((page: 1, x: 0pt, y: 0pt), words"),
        "paper-page-named-wrongly",
    ),
    "links out of the file": (
        ("booklet.typ", "link(label(anchor), words", 'link("https://example.org", words'),
        "paper-more-than-pages",
    ),
    "no number of the truck in the head": (
        ("booklet.typ", "          strong(stamp.unit)\n", ""),
        "paper-unit-differs",
    ),
    "first chapter in every head": (
        ("booklet.typ", "chapters.last().body", "chapters.first().body"),
        "paper-head-differs",
    ),
    "no notes at the foot": (
        ("booklet.typ", "small(labels.notes.join", "small(labels.notes.slice(1).join"),
        "paper-head-differs",
    ),
    "nothing said to go on": (
        ("booklet.typ", "if goes-on {", "if false {"),
        "paper-continued-differs",
    ),
    "text into the binder's holes": (
        ("booklet.typ", "#let margin = mm(given.margin)", "#let margin = 9mm"),
        "paper-outside-safe-area",
    ),
    "index of 5 pt": (
        (
            "booklet.typ",
            "  set par(leading: 0.3em)\n  let page-of",
            "  set text(size: 5pt)\n  let page-of",
        ),
        "paper-text-small",
    ),
    "values in white": (
        ("matter.typ", "#metadata(none)#label(it.anchor)], strong(says(it.value)),",
         "#metadata(none)#label(it.anchor)], text(fill: white, strong(says(it.value))),"),
        "paper-text-pale",
    ),
    "drawings without lines": (
        ("matter.typ", "bytes(it.svg),", 'bytes(it.svg.replace("<path", "<desc")),'),
        "paper-figure-differs",
    ),
}  # fmt: skip


def looks_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    for what, (place, rule) in LOOKS.items():
        yield from sow_look(shop, what, place, rule)


def rounds_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    booklet = shop.whole_guide("E-02", "letter")
    old = "str(counter(page).at(place).first())"
    pdf = shop.draw_with(booklet, "matter.typ", old, "str(counter(page).at(place).first() + 1)")
    rules = frozenset({"paper-page-named-wrongly"})
    yield PaperPlant("pages of the round's stops one too high", booklet, pdf, rules)
    given = shop.given(booklet)
    found, place = middle(given, "stop")
    del found[place]
    pdf = shop.draw(booklet, replaced_by(given))
    yield PaperPlant("stop dropped", booklet, pdf, frozenset({"paper-step-missing"}))


def files_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    other = shop.whole(shop.short_guide("K-22", "letter"))

    def gone(pdf: Pdf) -> None:
        del pdf.pages[len(pdf.pages) // 2]

    def exchanged(pdf: Pdf) -> None:
        page = pdf.pages[4]
        del pdf.pages[4]
        pdf.pages.insert(5, page)

    def strange(pdf: Pdf) -> None:
        with pikepdf.open(io.BytesIO(other)) as source:
            pdf.pages.insert(4, source.pages[4])

    def bookmarked(pdf: Pdf) -> None:
        with pdf.open_outline() as outline:
            outline.root.append(pikepdf.OutlineItem("T-18", 0))

    def unmarked(pdf: Pdf) -> None:
        with pdf.open_outline() as outline:
            del outline.root[-1]

    def astray(pdf: Pdf) -> None:
        with pdf.open_outline() as outline:
            outline.root[-1].destination = pikepdf.make_page_destination(pdf, 0)

    number = "paper-page-number-differs"
    yield from sow_file(shop, "page gone", gone, number)
    yield from sow_file(shop, "pages exchanged", exchanged, number)
    yield from sow_file(shop, "page of another truck", strange, "paper-unit-differs")
    yield from sow_file(shop, "bookmark more", bookmarked, "paper-unclaimed-text")
    yield from sow_file(shop, "bookmark gone", unmarked, "paper-text-missing")
    yield from sow_file(shop, "bookmark to the cover", astray, "paper-page-named-wrongly")


BOOKLET_KINDS: Mapping[str, Callable[[BookletShop], Iterator[PaperPlant]]] = {
    sow_kind.__name__: sow_kind
    for sow_kind in (
        parts_dropped,
        cautions_after_their_step,
        values_changed,
        parts_of_other_trucks,
        chapters_changed,
        covers_changed,
        codes_changed,
        index_changed,
        looks_changed,
        rounds_changed,
        files_changed,
    )
}
