"""Cards are printed on sheets in their own size, and backs lie behind fronts."""

import io
import subprocess
import time
from decimal import Decimal
from itertools import chain
from pathlib import Path

import pikepdf
import pytest
from read_sheets import (
    Edges,
    first_letter_middle,
    form_matrices,
    placed_sides,
    red_lines,
    text_within,
)
from sample_cards import sample_card

from guidegen.decks.sizes import SIDES
from guidegen.finding import Findings
from guidegen.paper.boxes import set_boxes
from guidegen.paper.impose import DrawnCard, impose
from guidegen.paper.sheet_rules import CARD_TOO_BIG_FOR_SHEET, SHEET_NOTE_UNPRINTABLE
from guidegen.paper.stock import STOCKS, Duplex, Printing

CAPTION = "T-17, revision 3f2a9c"
CUT_SIZES = ["4x6", "a6", "half-letter", "a5", "pocket"]
BOTH_SIDES = [Duplex.LONG, Duplex.SHORT]
STOCK_POINTS = {
    # ANSI/ASME Y14.1, size A: 8.5 by 11 in.
    "letter": (612.0, 792.0),
    # ISO 216: 210 by 297 mm.
    "a4": (595.276, 841.890),
}


def printing(stock: str, duplex: Duplex) -> Printing:
    return Printing(STOCKS[stock], duplex)


def imposed(cards: list[DrawnCard], stock: str, duplex: Duplex) -> bytes:
    findings = Findings()
    sheets = impose(cards, CAPTION, printing(stock, duplex), findings)
    assert list(findings) == []
    assert sheets is not None
    return sheets


def shown_by(tool: str, *options: str, pdf: bytes, folder: Path) -> str:
    path = folder / "sheets.pdf"
    path.write_bytes(pdf)
    ran = subprocess.run([tool, *options, path], check=True, capture_output=True, text=True)
    return ran.stdout


def mirrored(edges: Edges, stock: str, duplex: Duplex) -> Edges:
    width, height = (float(edge) for edge in STOCK_POINTS[stock])
    left, bottom, right, top = edges
    if duplex is Duplex.LONG:
        return width - right, bottom, width - left, top
    return left, height - top, right, height - bottom


@pytest.mark.parametrize("duplex", BOTH_SIDES)
@pytest.mark.parametrize("stock", ["letter", "a4"])
@pytest.mark.parametrize("size", CUT_SIZES)
def test_the_trim_of_each_back_lies_behind_that_of_its_front_to_a_hundredth_point(
    size: str, stock: str, duplex: Duplex
) -> None:
    pages = placed_sides(imposed([sample_card("card", size, 7)], stock, duplex), 3)
    compared = 0
    for fronts, backs in zip(pages[::2], pages[1::2], strict=True):
        by_name = {side.name: side for side in backs}
        for front in fronts:
            number = int(front.name.rpartition("-")[2])
            assert number % 2 == 0
            back = by_name.pop(front.name.replace(f"-{number}", f"-{number + 1}"), None)
            if back is not None:
                assert back.trim == pytest.approx(mirrored(front.trim, stock, duplex), abs=0.01)
                compared += 1
        assert by_name == {}
    assert compared == 3


@pytest.mark.parametrize("duplex", list(Duplex))
def test_two_readers_see_the_cards_in_the_same_places(duplex: Duplex) -> None:
    sheets = imposed([sample_card("card", "4x6", 5)], "letter", duplex)
    ours = [[side.matrix for side in page] for page in placed_sides(sheets, 3)]
    theirs = form_matrices(sheets)
    assert [len(page) for page in ours] == [len(page) for page in theirs]
    for mine, other in zip(chain(*ours), chain(*theirs), strict=True):
        assert mine == pytest.approx(other, abs=0.001)


@pytest.mark.parametrize("stock", ["letter", "a4"])
@pytest.mark.parametrize("size", CUT_SIZES)
def test_each_card_keeps_its_size_and_is_clipped_to_its_bleed(size: str, stock: str) -> None:
    side = SIDES[size]
    for page in placed_sides(imposed([sample_card("card", size, 3)], stock, Duplex.LONG), 3):
        for placed in page:
            left, bottom, right, top = placed.trim
            drawn = sorted([right - left, top - bottom])
            stated = sorted([float(side.width) / 25.4 * 72, float(side.height) / 25.4 * 72])
            assert drawn == pytest.approx(stated, abs=0.01)
            grown = [edge - inner for edge, inner in zip(placed.bled, placed.trim, strict=True)]
            # 3 mm.
            assert grown == pytest.approx([-8.504, -8.504, 8.504, 8.504], abs=0.01)


@pytest.mark.parametrize("duplex", list(Duplex))
@pytest.mark.parametrize("size", ["4x6", "pocket"])
def test_each_side_stands_as_text_in_its_own_place_and_nowhere_else(
    size: str, duplex: Duplex
) -> None:
    cards = [sample_card("air", size, 5), sample_card("lamps", size, 4)]
    sheets = imposed(cards, "letter", duplex)
    seen = []
    for page, sides in enumerate(placed_sides(sheets, 3)):
        for placed in sides:
            stack, number = (int(part) for part in placed.name.removeprefix("/Side").split("-"))
            read = text_within(sheets, page, placed.trim)
            head, line = f"{cards[stack].name} side {number + 1}", "Read 120 psi."
            # Of lines that stand on end, the reader tells neither breaks nor which comes first.
            assert head in read
            assert read.replace(head, "", 1).strip() == line
            seen.append((stack, number))
    assert sorted(seen) == [(0, side) for side in range(5)] + [(1, side) for side in range(4)]


@pytest.mark.parametrize("duplex", BOTH_SIDES)
@pytest.mark.parametrize("size", ["4x6", "half-letter", "pocket"])
def test_a_cut_card_is_turned_like_a_page_of_a_book(size: str, duplex: Duplex) -> None:
    sheets = imposed([sample_card("card", size, 2)], "letter", duplex)
    (front,), (back,) = placed_sides(sheets, 3)
    x, y = first_letter_middle(sheets, 0, "card side 1")
    behind_x, behind_y = first_letter_middle(sheets, 1, "card side 2")
    # Seen through the sheet from the front.
    seen = mirrored((behind_x, behind_y, behind_x, behind_y), "letter", duplex)[:2]
    left, bottom, right, top = front.trim
    middle = ((left + right) / 2, (bottom + top) / 2)
    upright = front.matrix[0] == 1
    # Both begin near the top of the card, so the letters lie behind each other along its height,
    # and mirrored to the other edge along its width.
    same, turned = (1, 0) if upright else (0, 1)
    assert seen[same] == pytest.approx((x, y)[same], abs=0.5)
    assert seen[turned] - middle[turned] == pytest.approx(
        -((x, y)[turned] - middle[turned]), abs=0.5
    )
    assert abs((x, y)[turned] - middle[turned]) > 20
    assert back.matrix[0] in (front.matrix[0], -front.matrix[0])


@pytest.mark.parametrize("duplex", BOTH_SIDES)
@pytest.mark.parametrize("size", ["4x6", "pocket"])
def test_crosses_on_the_corners_lie_behind_each_other_on_pictures_of_both_faces(
    size: str, duplex: Duplex
) -> None:
    sheets = imposed([sample_card("card", size, 4)], "letter", duplex)
    across, up = red_lines(sheets, 0, 200)
    behind_across, behind_up = red_lines(sheets, 1, 200)
    width, height = STOCK_POINTS["letter"]
    if duplex is Duplex.LONG:
        behind_across = sorted(width - x for x in behind_across)
    else:
        behind_up = sorted(height - y for y in behind_up)
    # A dot is 0.36 points wide.
    assert across == pytest.approx(behind_across, abs=0.36)
    assert up == pytest.approx(behind_up, abs=0.36)
    trims = [side.trim for side in placed_sides(sheets, 3)[0]]
    assert across == pytest.approx(sorted({x for trim in trims for x in trim[::2]}), abs=0.36)
    assert up == pytest.approx(
        sorted({round(y, 2) for trim in trims for y in trim[1::2]}), abs=0.36
    )


@pytest.mark.parametrize("stock", ["letter", "a4"])
def test_each_page_is_exactly_as_big_as_the_stock(stock: str, tmp_path: Path) -> None:
    cards = [sample_card("card", "4x6", 3), sample_card("whole", stock, 3)]
    sheets = imposed(cards, stock, Duplex.LONG)
    width, height = STOCK_POINTS[stock]
    with pikepdf.open(io.BytesIO(sheets)) as pdf:
        assert len(pdf.pages) == 6
        for page in pdf.pages:
            for box in (page.mediabox, page.cropbox):
                left, bottom, right, top = (float(edge) for edge in box.as_list())
                assert [right - left, top - bottom] == pytest.approx([width, height], abs=0.001)
    said = shown_by("pdfinfo", "-f", "1", "-l", "6", pdf=sheets, folder=tmp_path).splitlines()
    sizes = [
        line.split(":")[1].strip() for line in said if line.startswith("Page ") and "size" in line
    ]
    named = {"letter": "612 x 792 pts (letter)", "a4": "595.276 x 841.89 pts (A4)"}
    assert sizes == [named[stock]] * 6


def test_the_trim_box_of_a_sheet_is_the_block_of_its_cards() -> None:
    sheets = imposed([sample_card("card", "4x6", 4)], "letter", Duplex.LONG)
    with pikepdf.open(io.BytesIO(sheets)) as pdf:
        for page, sides in zip(pdf.pages, placed_sides(sheets, 3), strict=True):
            for box, edges in (
                (page.trimbox, [side.trim for side in sides]),
                (pikepdf.Array(page.obj["/BleedBox"]), [side.bled for side in sides]),
            ):
                left, bottom, right, top = zip(*edges, strict=True)
                block = [min(left), min(bottom), max(right), max(top)]
                assert [float(edge) for edge in box.as_list()] == pytest.approx(block, abs=0.01)


@pytest.mark.parametrize("bleed", ["0", "3"])
def test_a_card_as_big_as_the_sheet_is_printed_as_it_is(bleed: str) -> None:
    card = sample_card("whole", "letter", 3, bleed)
    sheets = imposed([card], "letter", Duplex.LONG)
    with pikepdf.open(io.BytesIO(sheets)) as pdf, pikepdf.open(io.BytesIO(card.pdf)) as drawn:
        assert len(pdf.pages) == 4
        for page, source in zip(pdf.pages[:3], drawn.pages, strict=True):
            assert page.obj["/Contents"].read_bytes() == source.obj["/Contents"].read_bytes()
            edge = float(bleed) / 25.4 * 72
            box = [float(str(number)) for number in page.mediabox.as_list()]
            assert box == pytest.approx([edge, edge, edge + 612, edge + 792], abs=0.01)
            assert page.mediabox.as_list() == page.trimbox.as_list()
            assert page.rotation == 0
        assert pdf.pages[3].obj["/Contents"].read_bytes() == b""


def test_backs_as_big_as_the_sheet_turn_about_when_the_printer_flips_on_the_short_edge() -> None:
    sheets = imposed([sample_card("whole", "letter", 4)], "letter", Duplex.SHORT)
    with pikepdf.open(io.BytesIO(sheets)) as pdf:
        assert [page.rotation for page in pdf.pages] == [0, 180, 0, 180]


@pytest.mark.parametrize(
    ("duplex", "how", "faces"),
    [
        (Duplex.SIMPLEX, "Print at 100 %, on one side.", ["1 of 2", "2 of 2"]),
        (
            Duplex.LONG,
            "Print at 100 %, on both sides, flip on the long edge.",
            ["1 of 1, front", "1 of 1, back"],
        ),
        (
            Duplex.SHORT,
            "Print at 100 %, on both sides, flip on the short edge.",
            ["1 of 1, front", "1 of 1, back"],
        ),
    ],
)
def test_the_foot_says_what_it_is_and_how_to_print_it(
    duplex: Duplex, how: str, faces: list[str]
) -> None:
    sheets = imposed([sample_card("card", "half-letter", 2)], "letter", duplex)
    for page, which in enumerate(faces):
        # 6 to 14 mm from the lower edge, left of the measuring lines.
        foot = text_within(sheets, page, (17, 17, 400, 40))
        then = "Measure the two lines before you cut."
        assert foot == f"{CAPTION}: sheet {which} {how} {then}"


@pytest.mark.parametrize("stock", ["letter", "a4"])
def test_the_measuring_lines_are_50_millimeters_and_2_inches_long(stock: str) -> None:
    sheets = imposed([sample_card("card", "a6", 1)], stock, Duplex.SIMPLEX)
    with pikepdf.open(io.BytesIO(sheets)) as pdf:
        level: list[float] = []
        start: list[float] = []
        for instruction in pikepdf.parse_content_stream(pdf.pages[0]):
            operator = str(instruction.operator)
            if operator not in ("m", "l"):
                continue
            at = [float(str(operand)) for operand in instruction.operands]
            # Below 14 mm; the marks lie higher.
            if operator == "l" and at[1] == start[1] and at[1] < 40:
                level.append(at[0] - start[0])
            start = at
    # An inch is 25.4 mm by definition, and 72 points.
    assert level == pytest.approx([50 / 25.4 * 72, 144], abs=0.001)


def test_the_printing_dialog_is_asked_for_full_size_and_the_right_edge() -> None:
    # ISO 32000-1, table 150.
    names = {
        Duplex.SIMPLEX: "/Simplex",
        Duplex.LONG: "/DuplexFlipLongEdge",
        Duplex.SHORT: "/DuplexFlipShortEdge",
    }
    for duplex, name in names.items():
        sheets = imposed([sample_card("card", "a6", 1)], "a4", duplex)
        with pikepdf.open(io.BytesIO(sheets)) as pdf:
            assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
            assert pdf.Root.ViewerPreferences.Duplex == name


def test_all_fonts_are_embedded_and_nothing_became_a_picture(tmp_path: Path) -> None:
    cards = [sample_card("card", "4x6", 3), sample_card("whole", "letter", 1)]
    sheets = imposed(cards, "letter", Duplex.LONG)
    fonts = shown_by("pdffonts", pdf=sheets, folder=tmp_path).splitlines()[2:]
    assert len(fonts) >= 3
    for font in fonts:
        # From the right: object and its generation, Unicode map, subset, embedded.
        embedded, _, mapped = font.split()[-5:-2]
        assert (embedded, mapped) == ("yes", "yes")
    assert shown_by("pdfimages", "-list", pdf=sheets, folder=tmp_path).splitlines()[2:] == []


def test_the_same_cards_give_the_same_bytes_without_a_date() -> None:
    cards = [sample_card("card", "4x6", 3), sample_card("whole", "letter", 3)]
    sheets = imposed(cards, "letter", Duplex.LONG)
    # An id that is made from the clock differs from one second to the next only.
    time.sleep(1.1)
    assert imposed(cards, "letter", Duplex.LONG) == sheets
    with pikepdf.open(io.BytesIO(sheets)) as pdf:
        assert {name: str(value) for name, value in pdf.docinfo.items()} == {"/Title": CAPTION}


def test_boxes_on_a_drawn_card_do_not_change_its_sheets() -> None:
    card = sample_card("card", "4x6", 3)
    boxed = DrawnCard(
        name=card.name, side=card.side, bleed=card.bleed, pdf=set_boxes(card.pdf, card.bleed)
    )
    plain, other = (imposed([each], "letter", Duplex.LONG) for each in (card, boxed))
    assert placed_sides(plain, 3) == placed_sides(other, 3)


def test_nothing_is_printed_if_one_card_is_bigger_than_the_sheet() -> None:
    findings = Findings()
    cards = [sample_card("card", "4x6", 2), sample_card("big", "a4", 2)]
    assert impose(cards, CAPTION, printing("letter", Duplex.LONG), findings) is None
    assert [(finding.rule, finding.place) for finding in findings] == [
        (CARD_TOO_BIG_FOR_SHEET, "big")
    ]


@pytest.mark.parametrize(
    ("caption", "what"),
    [
        ("T-17 气", "the sheets' font has no `气`, which `T-17 气` needs"),
        ("T-17 " * 30, f"`{'T-17 ' * 30}` is too long for the foot of a `letter` sheet"),
    ],
)
def test_a_caption_that_the_foot_cannot_hold_is_reported(caption: str, what: str) -> None:
    findings = Findings()
    cards = [sample_card("card", "4x6", 2)]
    assert impose(cards, caption, printing("letter", Duplex.LONG), findings) is None
    assert [(finding.rule, finding.what) for finding in findings] == [
        (SHEET_NOTE_UNPRINTABLE, what)
    ]


def test_a_page_that_is_not_as_big_as_its_card_is_a_bug() -> None:
    card = sample_card("card", "4x6", 2)
    other = DrawnCard(name="card", side=card.side, bleed=Decimal(2), pdf=card.pdf)
    with pytest.raises(ValueError, match="page 1 of card is"):
        impose([other], CAPTION, printing("letter", Duplex.LONG), Findings())
