"""The code that leads from a card to its truck's page."""

import io
import re
from decimal import Decimal

import pytest
import zxingcpp
from PIL import Image, ImageDraw

from guidegen.paper.code import MODULE, QUIET, code_of

# Bytes that a symbol of level Q holds, by version: ISO/IEC 18004, table 7, from memory and
# confirmed by segno's own choice of version in the tests of that library.
CAPACITY_Q = {1: 11, 2: 20, 3: 32, 4: 46, 5: 60, 6: 74, 7: 86}


def modules(svg: str) -> int:
    found = re.search(r'width="(\d+)"', svg)
    assert found
    return int(found[1])


def dark_runs(svg: str) -> Image.Image:
    """Return the symbol as a picture, ten pixels a module, from the strokes of its path."""
    side = modules(svg)
    image = Image.new("L", (side * 10, side * 10), 255)
    pen = ImageDraw.Draw(image)
    found = re.search(r' d="([^"]+)"', svg)
    assert found
    x = y = 0.0
    for command, first, second in re.findall(r"([Mmh])(-?[\d.]+)(?:[ ,]?(-?[\d.]+))?", found[1]):
        if command == "h":
            pen.rectangle(
                (x * 10, (y - 0.5) * 10, (x + float(first)) * 10 - 1, (y + 0.5) * 10 - 1), 0
            )
            x += float(first)
        else:
            x, y = (
                (float(first), float(second))
                if command == "M"
                else (x + float(first), y + float(second))
            )
    return image


@pytest.mark.parametrize(
    "address",
    [
        "https://guides.sedgewater.example/T-17/?r=fd148d51",
        "https://g.example/1/?r=00000000",
        "https://guides.a-very-long-name-of-a-county-cooperative.example/TRK-10442/?r=fd148d51",
    ],
)
def test_another_reader_reads_the_address_at_level_q(address: str) -> None:
    code = code_of(address)

    (found,) = zxingcpp.read_barcodes(dark_runs(code.svg))

    assert found.text == address
    assert found.ec_level == "Q"


@pytest.mark.parametrize("version", CAPACITY_Q)
def test_the_symbol_is_the_smallest_that_holds_the_address(version: int) -> None:
    fits = code_of("h" * CAPACITY_Q[version])
    over = code_of("h" * (CAPACITY_Q[version] + 1))

    # Side of a symbol: 17 + 4 modules a version (reference P9), and the quiet zone on two sides.
    assert modules(fits.svg) == 17 + 4 * version + 2 * QUIET
    assert modules(over.svg) == 17 + 4 * (version + 1) + 2 * QUIET


def test_modules_are_half_a_millimeter_with_four_of_them_quiet() -> None:
    code = code_of("https://guides.example.org/T-17/?r=1a2b3c4d")

    assert Decimal("0.5") == MODULE
    # ISO/IEC 18004 by reference P8.
    assert QUIET == 4
    assert code.side == modules(code.svg) * MODULE


def test_the_quiet_zone_is_white_on_all_four_sides() -> None:
    picture = dark_runs(code_of("https://guides.example.org/T-17/?r=1a2b3c4d").svg)

    dark = picture.point(lambda shade: 255 - shade).getbbox()

    side = picture.size[0]
    assert dark == (40, 40, side - 40, side - 40)


def test_the_picture_can_be_written_and_read_again() -> None:
    stored = io.BytesIO()
    dark_runs(code_of("https://g.example/").svg).save(stored, "PNG")

    assert zxingcpp.read_barcodes(Image.open(stored))[0].text == "https://g.example/"
