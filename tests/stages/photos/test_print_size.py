import pytest
from picture_files import corners, near, saved, seen, talkative
from PIL import Image

from guidegen.photos.prepare import prepare
from guidegen.photos.print_size import print_size
from guidegen.proof.read_jpeg import read_jpeg

PHOTO = prepare(saved(corners(1600, 1200), quality=95)).raw


@pytest.mark.parametrize("edge", [60, 50, 42, 34])
def test_a_photo_in_print_has_three_hundred_dots_an_inch_and_looks_the_same(edge: int) -> None:
    raw = print_size(PHOTO, edge)

    read = read_jpeg(raw)
    assert abs(read.width / (edge / 25.4) - 300) < 1
    assert abs(read.width / read.height - 4 / 3) < 0.01
    assert all(near(one, two) for one, two in zip(seen(raw), seen(PHOTO), strict=True))


def test_a_photo_of_fewer_dots_is_not_enlarged() -> None:
    small = prepare(saved(corners(320, 240))).raw

    assert print_size(small, 60) == small


def test_one_photo_gives_the_same_bytes_and_nothing_but_the_picture() -> None:
    photo = prepare(talkative()).raw

    made = print_size(photo, 34)

    print_size.cache_clear()
    assert print_size(photo, 34) == made
    assert read_jpeg(made).more_than_picture == ()
    assert b"SECRET" not in made


def test_fine_grain_takes_no_more_room_in_fewer_dots() -> None:
    photo = saved(Image.effect_noise((720, 540), 90).convert("RGB"), quality=50)

    assert print_size(photo, 60) == photo
