"""Cards, and the proof of them, held against programs and standards from outside."""

import re
import subprocess
from pathlib import Path

import pytest
import segno
import wcag_contrast_ratio  # type: ignore[import-untyped]  # it has no hints
import zxingcpp
from plants.paper_press import Shop

from guidegen.paper_proof.compare_code import read_code
from guidegen.paper_proof.read_pdf import PdfRead
from guidegen.paper_proof.sheet_model import Box
from guidegen.proof.contrast import WHITE, contrast

POINTS = 72 / 25.4
KINDS = ("start-up", "round", "brakes", "fluids", "lamps", "end-of-day", "emergency", "visor")


def run(*command: str | Path) -> str:
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


@pytest.fixture(params=KINDS)
def file(request: pytest.FixtureRequest, shop: Shop, tmp_path: Path) -> tuple[Path, int, str]:
    """A card of every kind, with the count of its sides and its title."""
    order = shop.order("T-17", request.param)
    assert order is not None
    raw = shop.whole(order)
    path = tmp_path / "card.pdf"
    path.write_bytes(raw)
    return path, order.prove(raw).counts.sides, f"T-17: {order.card.kind.title}"


def test_poppler_sees_the_same_sides_of_the_same_size(
    file: tuple[Path, int, str], shop: Shop, request: pytest.FixtureRequest
) -> None:
    """``pdfinfo`` of Poppler."""
    path, sides, title = file
    kind = request.node.callspec.params["file"]
    said = run("pdfinfo", "-box", "-l", str(sides), path)
    boxes = {
        name: [
            tuple(map(float, each))
            for each in re.findall(rf"{name}Box: +([\d.]+) +([\d.]+) +([\d.]+) +([\d.]+)", said)
        ]
        for name in ("Media", "Trim", "Crop")
    }
    side = shop.kinds[kind].side
    width, height = (float(each + 6) * POINTS for each in (side.width, side.height))
    bleed = 3 * POINTS

    assert f"Pages:           {sides}\n" in said
    assert f"Title:           {title}\n" in said
    assert "JavaScript:      no\n" in said
    for name, edge in (("Media", 0.0), ("Trim", bleed), ("Crop", bleed)):
        wanted = (edge, edge, width - edge, height - edge)
        assert boxes[name] == [pytest.approx(wanted, abs=0.01)] * sides


def test_poppler_finds_every_font_in_the_file(file: tuple[Path, int, str]) -> None:
    """``pdffonts`` of Poppler: columns emb, sub and uni."""
    rows = run("pdffonts", file[0]).splitlines()[2:]

    assert rows
    assert all(re.search(r" yes yes yes +\d+ +\d+$", row) for row in rows)


def test_poppler_reads_the_same_words(file: tuple[Path, int, str]) -> None:
    """``pdftotext -raw`` of Poppler, side by side: letters in the order of the file."""
    path, sides, _ = file
    with PdfRead(path.read_bytes()) as pdf:
        for number in range(sides):
            ours = "".join(text.text for text in pdf.side(number).texts)
            page = str(number + 1)
            theirs = run("pdftotext", "-raw", "-f", page, "-l", page, path, "-")
            assert sorted("".join(ours.split())) == sorted("".join(theirs.split()))


def test_a_code_is_as_large_as_its_version_says() -> None:
    """Side of 17 + 4 times the version in modules: ISO/IEC 18004."""
    for version in (3, 5, 7, 10):
        made = segno.make_qr("0", version=version, error="q", boost_error=False)
        modules, _ = made.symbol_size(border=0)

        assert modules == 17 + 4 * version


def test_an_address_of_31_letters_makes_a_code_of_version_3_at_level_q() -> None:
    """Capacity of a code in bytes, counted once by hand with ISO/IEC 18004's tables."""
    address = "https://example.org/T-17/?r=abc"
    made = segno.make_qr(address, error="q", boost_error=False)

    assert len(address) == 31
    assert (made.version, made.error) == (3, "Q")


def test_the_printed_code_is_of_level_q_with_modules_of_half_a_millimeter(shop: Shop) -> None:
    """Read by ``zxing-cpp``, which shares nothing with what drew it; ISO/IEC 18004."""
    order = shop.order("T-17", "visor")
    assert order is not None
    with PdfRead(shop.whole(order)) as pdf:
        side = pdf.side(0)
        picture = pdf.picture(0, side.visible, 300)
    found = zxingcpp.read_barcodes(picture)
    read = read_code(picture)
    assert read is not None
    drawn = max(side.drawn, key=lambda each: len(each.ends) + each.box.height)

    assert [each.text for each in found] == [order.issue.link]
    assert found[0].ec_level == "Q"
    assert read.modules == 17 + 4 * int(segno.make_qr(order.issue.link, error="q").version)
    assert read.side / read.modules / 300 * 25.4 == pytest.approx(0.5, abs=0.01)
    assert drawn.box.height / POINTS == pytest.approx(read.modules * 0.5, abs=0.01)


def test_a_reader_reads_a_code_without_its_quiet_zone_too(shop: Shop) -> None:
    """So that it reads is no proof of the zone, which the proof measures instead."""
    order = shop.order("T-17", "visor")
    assert order is not None
    with PdfRead(shop.whole(order)) as pdf:
        side = pdf.side(0)
        code = next(each for each in side.drawn if each.box.height > 40)
        across = (code.box.left + code.box.right) / 2
        half = code.box.height / 2
        tight = Box(across - half, code.box.bottom, across + half, code.box.top)
        read = read_code(pdf.picture(0, tight, 150))

    assert read is not None
    assert read.says == order.issue.link


def test_contrast_on_paper_is_what_wcag_says(shop: Shop) -> None:
    """``wcag-contrast-ratio``, for every color of type and ground on a card."""
    order = shop.order("T-17", "emergency")
    assert order is not None
    with PdfRead(shop.whole(order)) as pdf:
        sides = [pdf.side(number) for number in range(len(pdf))]
    colors = {each.color for side in sides for each in side.objects}

    assert len(colors) > 2
    for color in colors:
        parts = tuple(each / 255 for each in color)
        ours = contrast((*parts, 1.0), WHITE)  # type: ignore[arg-type]  # three parts
        assert ours == pytest.approx(wcag_contrast_ratio.rgb(parts, (1.0, 1.0, 1.0)), abs=1e-3)
