import io

import pytest
from picture_files import corners, saved
from PIL import Image, ImageDraw

from guidegen.paper_proof.photo_likeness import fault_of_picture
from guidegen.photos.prepare import prepare
from guidegen.photos.print_size import print_size

FIELD = 16


def checkered(width: int, height: int) -> bytes:
    """Return black and white fields, of which half a dot more or less changes most."""
    across, down = width // FIELD, height // FIELD
    dots = bytes(255 * ((each // across + each % across) % 2) for each in range(across * down))
    fields = Image.frombytes("L", (across, down), dots)
    return saved(fields.resize((width, height), Image.Resampling.NEAREST).convert("RGB"))


@pytest.mark.parametrize("size", [(960, 720), (960, 160), (200, 960), (320, 240)])
@pytest.mark.parametrize("edge", [60, 34])
def test_a_photo_in_the_size_of_print_is_that_photo(size: tuple[int, int], edge: int) -> None:
    photo = checkered(*size)

    assert fault_of_picture(photo, print_size(photo, edge), edge / 25.4) == ""


def test_a_small_thing_at_another_place_makes_it_another_picture() -> None:
    image = corners(960, 720)
    photo = prepare(saved(image, quality=92)).raw
    ImageDraw.Draw(image).ellipse((470, 350, 510, 390), fill="red")
    other = prepare(saved(image, quality=92)).raw

    assert fault_of_picture(photo, print_size(other, 42), 42 / 25.4) == "is another picture"


def test_what_is_no_jpeg_is_another_picture() -> None:
    photo = prepare(saved(corners())).raw
    file = io.BytesIO()
    Image.open(io.BytesIO(photo)).save(file, "PNG")

    assert fault_of_picture(photo, file.getvalue(), 1) == "is another picture"
