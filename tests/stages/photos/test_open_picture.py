import hashlib
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_files import (
    BLUE,
    GREEN,
    RED,
    WHITE,
    bomb,
    corners,
    deep_gray,
    held,
    moving,
    near,
    saved,
    seen,
    talkative,
)
from PIL import Image, ImageCms

from guidegen.photos import open_picture
from guidegen.photos.no_picture import NoPicture
from guidegen.photos.prepare import LONGEST_EDGE, MOST_PUBLISHED, prepare
from guidegen.proof.read_jpeg import NotReadable, read_jpeg

CORNERS = [RED, GREEN, BLUE, WHITE]
HEIC = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + bytes(100)


def refusal(raw: bytes) -> NoPicture:
    with pytest.raises(NoPicture) as caught:
        prepare(raw)
    return caught.value


def is_upright(raw: bytes) -> bool:
    return all(near(one, two) for one, two in zip(seen(raw), CORNERS, strict=True))


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_picture_is_turned_upright_however_the_camera_was_held(orientation: int) -> None:
    made = prepare(held(orientation))
    assert is_upright(made.raw)
    assert (made.width, made.height) == (640, 480)


def test_nothing_but_the_picture_is_left_of_a_file() -> None:
    raw = talkative()
    assert raw.count(b"SECRET") == 5

    made = prepare(raw)

    assert b"SECRET" not in made.raw
    assert read_jpeg(made.raw) == (640, 480, ())
    again = Image.open(io.BytesIO(made.raw))
    assert not again.getexif()
    assert set(again.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


def test_the_reader_of_the_proof_sees_all_that_a_camera_adds() -> None:
    raw = talkative().removesuffix(b"SECRET trailer")
    assert set(read_jpeg(raw).more_than_picture) == {
        *("EXIF or XMP", "IPTC", "a comment", "a color profile"),
    }
    with pytest.raises(NotReadable, match="follows behind"):
        read_jpeg(talkative())


@pytest.mark.parametrize("form", ["PNG", "WEBP"])
def test_each_kind_that_is_read_becomes_a_jpeg(form: str) -> None:
    made = prepare(saved(corners(), form))
    assert made.raw.startswith(b"\xff\xd8\xff")
    assert is_upright(made.raw)


def test_a_png_that_says_how_it_was_held_is_turned_too() -> None:
    exif = Image.Exif()
    exif[0x0112] = 3
    upside_down = corners().transpose(Image.Transpose.ROTATE_180)
    assert is_upright(prepare(saved(upside_down, "PNG", exif=exif)).raw)


def test_inks_of_a_press_become_the_colors_of_a_screen() -> None:
    assert is_upright(prepare(saved(corners().convert("CMYK"), quality=95)).raw)


def test_a_color_profile_is_put_into_the_colors() -> None:
    # A profile whose red and blue are exchanged: whoever leaves it out shows the wrong color.
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    head = {srgb[i : i + 4]: i for i in range(132, 132 + 12 * srgb[131], 12)}
    red, blue = head[b"rXYZ"], head[b"bXYZ"]
    swapped = bytearray(srgb)
    swapped[red : red + 4], swapped[blue : blue + 4] = b"bXYZ", b"rXYZ"
    raw = saved(corners(), quality=95, icc_profile=bytes(swapped))

    first, _, third, _ = seen(prepare(raw).raw)

    assert near(first, BLUE[:1] + RED[1:2] + RED[:1], 40)
    assert near(third, BLUE[2:] + BLUE[1:2] + BLUE[:1], 40)


def test_a_profile_that_is_damaged_or_of_other_colors_is_left_out() -> None:
    assert is_upright(prepare(saved(corners(), icc_profile=b"no profile", quality=95)).raw)
    lab = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB")).tobytes()
    assert is_upright(prepare(saved(corners(), icc_profile=lab, quality=95)).raw)


def test_sixteen_bits_of_gray_are_neither_black_nor_white_throughout() -> None:
    left, right, *_ = seen(prepare(deep_gray()).raw)
    assert near(left, (13, 13, 13), 8)
    assert near(right, (242, 242, 242), 8)


@pytest.mark.parametrize("mode", ["RGBA", "LA", "P"])
def test_what_can_be_seen_through_stands_on_white(mode: str) -> None:
    clear = Image.new("RGBA", (400, 300), (0, 0, 0, 0)).convert(mode)
    how = {"transparency": 0} if mode == "P" else {}
    if mode == "P":
        clear = Image.new("P", (400, 300), 0)
    assert all(
        near(each, (255, 255, 255), 3) for each in seen(prepare(saved(clear, "PNG", **how)).raw)
    )


@pytest.mark.parametrize("mode", ["1", "L", "P"])
def test_pictures_of_few_colors_are_read(mode: str) -> None:
    made = prepare(saved(corners().convert(mode), "PNG"))
    assert made.width * 3 == made.height * 4


def test_a_large_picture_becomes_small_and_keeps_its_shape() -> None:
    noise = Image.effect_noise((2400, 1800), 90).convert("RGB")  # the worst that can be packed
    made = prepare(saved(noise, quality=85))
    assert len(made.raw) <= MOST_PUBLISHED
    assert max(made.width, made.height) <= LONGEST_EDGE
    assert abs(made.width / made.height - 4 / 3) < 0.01
    assert prepare(saved(corners(2000, 1500))).width == LONGEST_EDGE


def test_a_small_picture_is_not_enlarged() -> None:
    assert prepare(saved(corners(400, 300))).width == 400


def test_the_same_file_gives_the_same_bytes_with_this_pillow() -> None:
    # Of Pillow 13.0.0 on x86-64; another Pillow may pack otherwise, and all photos are then new.
    made = prepare(held(6))
    assert made == prepare(held(6))
    assert made.sha256 == hashlib.sha256(made.raw).hexdigest()


@pytest.mark.parametrize("form", ["PNG", "WEBP"])
def test_a_picture_that_moves_is_refused(form: str) -> None:
    assert refusal(moving(form)).rule.name == "photo-moves"


def test_the_second_picture_that_phones_put_into_a_jpeg_is_left_out() -> None:
    raw = saved(corners(), "MPO", save_all=True, append_images=[Image.new("RGB", (640, 480))])
    assert Image.open(io.BytesIO(raw)).format == "MPO"
    assert is_upright(prepare(raw).raw)


def test_a_heic_is_refused_with_what_to_do_even_under_another_name() -> None:
    fault = refusal(HEIC)
    assert fault.rule.name == "photo-of-unread-kind"
    assert "phone" in fault.fix
    assert "JPEG" in fault.fix


@pytest.mark.parametrize(
    ("raw", "rule"),
    [
        (b"", "photo-not-an-image"),
        (b"MZ this is a program", "photo-not-an-image"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "photo-not-an-image"),
        (b"%PDF-1.7", "photo-of-unread-kind"),
        (b"GIF89a" + bytes(20), "photo-of-unread-kind"),
        (b"II*\0" + bytes(20), "photo-of-unread-kind"),
        (b"\0\0\0\x1cftypavif" + bytes(20), "photo-of-unread-kind"),
        (b"\0\0\0\x18ftypmp42" + bytes(20), "photo-of-unread-kind"),
        (b"\xff\xd8\xff\xe0" + bytes(20), "photo-damaged"),
        (bomb(60_000, 60_000), "photo-too-large"),
        (bomb(10_000, 9_500), "photo-too-large"),
        (bomb(9_000, 7_500), "photo-too-large"),
        (bomb(2_000, 2_000), "photo-damaged"),
        (saved(corners(200, 150)), "photo-too-small"),
    ],
)
def test_what_is_no_picture_for_a_driver_is_refused_for_what_it_is(raw: bytes, rule: str) -> None:
    assert refusal(raw).rule.name == rule


def test_a_file_beyond_all_measure_is_not_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(open_picture, "MOST_BYTES", 100)
    assert refusal(saved(corners())).rule.name == "photo-too-large"


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("share", [0.3, 0.9])
def test_a_picture_that_is_cut_short_is_refused(form: str, share: float) -> None:
    raw = saved(Image.effect_noise((640, 480), 60).convert("RGB"), form)
    assert refusal(raw[: int(len(raw) * share)]).rule.name == "photo-damaged"


@given(st.binary(max_size=60), st.integers(0, 4000), st.sampled_from(["JPEG", "PNG", "WEBP"]))
@settings(max_examples=60, deadline=None)
def test_no_damage_does_more_than_refuse_a_picture(damage: bytes, place: int, form: str) -> None:
    raw = bytearray(saved(corners(400, 300), form))
    raw[place : place + len(damage)] = damage
    try:
        made = prepare(bytes(raw))
    except NoPicture:
        return
    assert read_jpeg(made.raw).more_than_picture == ()
