"""Booklets as PDF: the whole guide, in order, and nothing clipped."""

import io
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pikepdf
import pypdfium2  # type: ignore[import-untyped]  # it has no hints
import pytest
from printed import ISSUE, PAPER, sides, theme
from sample_fleet import SPAN, TRUCKS, procedure

from guidegen.build.load import Loaded, load_fleet
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.guide.model import Caution, Chapter, Guide, Text
from guidegen.paper.booklet import BOOKLET_STOCKS, Booklet, BookletPress
from guidegen.paper.matter import Matter
from guidegen.round.plan import plan_round

TRUCK = TRUCKS[0]
PLAIN = "Walk once around the truck and look under it for leaks of any kind."


@pytest.fixture(scope="module")
def press() -> BookletPress:
    return BookletPress.at(PAPER, theme(), "Bluff County Haulage")


@pytest.fixture(scope="module")
def demo(project_root: Path) -> Loaded:
    fleet = load_fleet(open_project(project_root), Findings())
    assert fleet is not None
    return fleet


def draw(press: BookletPress, guide: Guide, stock: str = "letter", **parts: object) -> bytes:
    booklet = Booklet(guide, None, BOOKLET_STOCKS[stock], SPAN)
    findings = Findings()
    pdf = press.draw(replace(booklet, **parts), ISSUE, findings)  # type: ignore[arg-type]
    assert pdf is not None, [finding.what for finding in findings]
    return pdf


def with_work(*steps: str, title: str = "Odd work") -> Guide:
    work = procedure("odd", title, steps)
    return replace(TRUCK, chapters=(Chapter("before-the-day", (work,)),))


def texts_of(guide: Guide) -> Iterator[Text]:
    """Yield every text of a guide in the order of its pages."""
    for chapter in guide.chapters:
        for each in chapter.procedures:
            yield each.title
            lines = [*each.expect] if each.lamp else []
            for block in each.blocks:
                if isinstance(block, Caution):
                    lines += [block.hazard, block.consequence, block.avoid]
                else:
                    lines.append(block.text)
            yield from lines
            if not each.lamp:
                yield from (*each.expect, *each.if_not)


def body_text(pdf: bytes, *, first: int) -> str:
    """Return all text from page *first* on, heads and feet of pages taken out."""
    opened = pypdfium2.PdfDocument(pdf)
    parts = []
    for page in list(opened)[first - 1 :]:
        _, height = page.get_size()
        # On a letter page heads and feet lie within 60 and 76 points of the edges, text does not.
        text = page.get_textpage().get_text_bounded(bottom=60, top=height - 76)
        parts.append(" ".join(text.split()))
    opened.close()
    return unbroken(" ".join(parts))


def unbroken(text: str) -> str:
    """Return *text* with the hyphens that PDFium takes for broken words; none is ever broken."""
    return text.replace("\x02", "-")


@pytest.mark.parametrize("unit", ["T-17", "E-02"])
def test_every_step_and_caution_of_a_demo_truck_is_in_its_booklet_in_order(
    press: BookletPress, demo: Loaded, unit: str
) -> None:
    guide = demo.guides[unit]
    tour = plan_round(guide, demo.library, Findings())

    pdf = draw(press, guide, tour=tour)

    matter = Matter(guide)
    first = next(
        number
        for number, text in enumerate(sides(pdf), start=1)
        if text.startswith(f"{unit} Before the day")
    )
    text = body_text(pdf, first=first)
    position = 0
    for each in texts_of(guide):
        words = " ".join(matter.words(each).split())
        found = text.find(words, position)
        assert found >= 0, f"{each.id}: {words}"
        position = found + len(words)


def test_a_booklet_has_an_outline_of_chapters_procedures_and_sections(
    press: BookletPress,
) -> None:
    with pikepdf.open(io.BytesIO(draw(press, TRUCK))) as pdf, pdf.open_outline() as outline:
        chapters = {each.title: [child.title for child in each.children] for each in outline.root}

    matter = Matter(TRUCK)
    titles = [
        [matter.words(each.title).replace("\xa0", " ") for each in chapter.procedures]
        for chapter in TRUCK.chapters
    ]
    assert next(iter(chapters)) == "Contents"
    assert list(chapters)[-2:] == ["Data", "Index"]
    drawn = [[title.replace("\xa0", " ") for title in each] for each in chapters.values()]
    assert drawn[1:-2] == titles
    assert chapters["Data"][0] == "Which truck it is, and how big"


def test_a_booklet_is_tagged_and_says_its_language(press: BookletPress) -> None:
    with pikepdf.open(io.BytesIO(draw(press, TRUCK))) as pdf:
        metadata = pdf.open_metadata()
        assert metadata["pdfuaid:part"] == "1"
        assert (metadata["pdfaid:part"], metadata["pdfaid:conformance"]) == ("2", "A")
        assert bool(pdf.Root.MarkInfo.Marked)
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.docinfo.Title) == f"{TRUCK.number}: Quick guide"


def test_every_font_of_a_booklet_is_embedded(press: BookletPress) -> None:
    fonts = 0
    with pikepdf.open(io.BytesIO(draw(press, TRUCK))) as pdf:
        for each in pdf.objects:
            if isinstance(each, pikepdf.Dictionary) and each.get("/Type") == "/FontDescriptor":
                assert "/FontFile2" in each or "/FontFile3" in each
                fonts += 1
    assert fonts >= 2


POINTS = {
    # ISO 216 by reference P1 (A4, A5) and letter by P2; an inch is 72 points.
    "letter": (612, 792),
    "a4": (595.28, 841.89),
    "a5": (419.53, 595.28),
}


@pytest.mark.parametrize("stock", POINTS)
def test_pages_have_the_size_of_the_standard(press: BookletPress, stock: str) -> None:
    with pikepdf.open(io.BytesIO(draw(press, TRUCK, stock))) as pdf:
        boxes = {tuple(float(edge) for edge in page.mediabox.as_list()) for page in pdf.pages}

    ((left, bottom, right, top),) = boxes
    assert (left, bottom) == (0, 0)
    assert (right, top) == pytest.approx(POINTS[stock], abs=0.01)


def test_every_page_but_the_cover_says_truck_chapter_revision_and_number(
    press: BookletPress,
) -> None:
    cover, *pages = sides(draw(press, TRUCK))

    assert TRUCK.number in cover
    assert "Revision 1a2b3c4d, 2026-11-20" in cover
    for word in ("DANGER", "WARNING", "CAUTION", "NOTICE", "Park first.", "owner's manual"):
        assert word in cover
    for number, text in enumerate(pages, start=2):
        assert text.startswith(f"{TRUCK.number} ")
        assert f"page {number} of {len(pages) + 1}" in text[:80]
        assert "Revision 1a2b3c4d, 2026-11-20" in text[:160]
        assert "Do not read while driving. Park first." in text


def test_contents_and_index_name_the_page_that_a_procedure_stands_on(
    press: BookletPress,
) -> None:
    long = tuple(f"Look at place number {number}. {PLAIN}" for number in range(90))
    works = (procedure("long", "Long work", long), procedure("zebra", "Zebra crossings", (PLAIN,)))
    guide = replace(TRUCK, chapters=(Chapter("before-the-day", works),))

    texts = sides(draw(press, guide, "a5"))

    def begins(text: str) -> bool:
        return "Zebra crossings State" in text or "Zebra crossings Where" in text

    (page,) = [number for number, text in enumerate(texts, start=1) if begins(text)]
    assert page > 5
    contents, index = texts[1], " ".join(texts)
    assert re.search(rf"Zebra crossings[ .]+{page}\b", contents)
    assert re.search(rf"zebra Zebra crossings,\W{page}\b", index)


def test_all_values_stand_in_the_data_with_their_source(press: BookletPress) -> None:
    text = unbroken(" ".join(sides(draw(press, TRUCK))))

    matter = Matter(TRUCK)
    for name, fact in TRUCK.facts.items():
        words = matter.value_words(name).replace("\xa0", " ")
        assert f"{fact.field.label} {words}" in text


def test_a_step_taller_than_a_page_is_a_finding_at_its_text(press: BookletPress) -> None:
    findings = Findings()
    guide = with_work(" ".join([PLAIN] * 60), PLAIN, " ".join([PLAIN] * 70))

    pdf = press.draw(Booklet(guide, None, BOOKLET_STOCKS["a5"], SPAN), ISSUE, findings)

    assert pdf is None
    assert [finding.what for finding in findings] == [
        "step 1 of `odd` is taller than one page of the booklet, size `a5`",
        "step 3 of `odd` is taller than one page of the booklet, size `a5`",
    ]


@pytest.mark.parametrize(
    ("step", "rule"),
    [
        ("Turn the " + "x" * 90 + " knob.", "word-wider-than-side"),
        ("Turn the \u70b9 knob.", "letter-without-shape"),
    ],
)
def test_what_cannot_be_set_is_a_finding(press: BookletPress, step: str, rule: str) -> None:
    findings = Findings()

    pdf = press.draw(
        Booklet(with_work(step), None, BOOKLET_STOCKS["letter"], SPAN), ISSUE, findings
    )

    assert pdf is None
    assert [finding.rule.name for finding in findings] == [rule]


def test_words_of_a_fleet_are_set_and_never_run(press: BookletPress) -> None:
    typed = "Press #panic(1) and $x^2$ and *this* <label> @who \\ #import it."
    title = "Odd *work* #here and [there]"

    text = " ".join(sides(draw(press, with_work(typed, title=title))))

    assert typed in text
    assert text.count(title) >= 3


def test_the_same_booklet_gives_the_same_bytes_whatever_was_drawn_before(
    press: BookletPress,
) -> None:
    cold = BookletPress.at(PAPER, theme(), "Bluff County Haulage")
    first = draw(cold, TRUCK, "a5")

    draw(press, TRUCKS[2])

    assert first == draw(press, TRUCK, "a5")
