"""Pictures as people, phones and those who mean harm would drop them into the folder."""

import io
import struct
import zlib
from typing import Any

from PIL import Image, ImageCms, ImageDraw

RED, GREEN, BLUE, WHITE = (200, 30, 30), (30, 160, 60), (30, 60, 200), (240, 240, 240)


def corners(width: int = 640, height: int = 480) -> Image.Image:
    """Return a picture whose corners are red, green, blue, white, from the top left clockwise."""
    image = Image.new("RGB", (width, height), (120, 120, 120))
    draw = ImageDraw.Draw(image)
    across, down = width // 3, height // 3
    draw.rectangle((0, 0, across, down), fill=RED)
    draw.rectangle((width - across, 0, width, down), fill=GREEN)
    draw.rectangle((width - across, height - down, width, height), fill=BLUE)
    draw.rectangle((0, height - down, across, height), fill=WHITE)
    return image


def saved(image: Image.Image, form: str = "JPEG", **how: Any) -> bytes:  # noqa: ANN401 -- whatever Pillow takes
    file = io.BytesIO()
    image.save(file, form, **how)
    return file.getvalue()


def seen(raw: bytes) -> list[tuple[int, int, int]]:
    """Return the colors of the corners, from the top left clockwise, as any viewer shows them."""
    image = Image.open(io.BytesIO(raw))
    assert image.mode == "RGB"
    width, height = image.size
    places = ((20, 20), (width - 20, 20), (width - 20, height - 20), (20, height - 20))
    colors = [image.getpixel(place) for place in places]
    return [color for color in colors if isinstance(color, tuple) and len(color) == 3]


def near(one: tuple[int, ...], two: tuple[int, ...], most: int = 24) -> bool:
    return all(abs(a - b) <= most for a, b in zip(one, two, strict=True))


def held(orientation: int) -> bytes:
    """Return `corners` as a camera writes it that was held in one of the eight ways.

    CIPA DC-008 (EXIF), tag 0x0112: what its row 0 and column 0 are of the scene.
    """
    turned = {
        1: (),
        2: (Image.Transpose.FLIP_LEFT_RIGHT,),
        3: (Image.Transpose.ROTATE_180,),
        4: (Image.Transpose.FLIP_TOP_BOTTOM,),
        5: (Image.Transpose.TRANSPOSE,),
        6: (Image.Transpose.ROTATE_90,),
        7: (Image.Transpose.TRANSVERSE,),
        8: (Image.Transpose.ROTATE_270,),
    }
    image = corners()
    for step in turned[orientation]:
        image = image.transpose(step)
    exif = Image.Exif()
    exif[0x0112] = orientation
    return saved(image, quality=95, exif=exif)


def talkative() -> bytes:
    """Return a JPEG that says where, when and by whom it was taken, in every way that there is."""
    exif = Image.Exif()
    exif[0x010F], exif[0x0132] = "SECRET maker", "2026:03:02 05:00:00"
    place = exif.get_ifd(0x8825)
    place[1], place[2] = "N", (51.0, 30.0, 26.0)
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    raw = saved(corners(), quality=90, exif=exif, comment=b"SECRET comment", icc_profile=profile)
    xmp = b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>SECRET xmp</x:xmpmeta>"
    iptc = b"Photoshop 3.0\x008BIM\x04\x04\0\0\0\0\0\x0aSECRET ipt"
    more = b"".join(
        b"\xff" + bytes((code,)) + struct.pack(">H", len(body) + 2) + body
        for code, body in ((0xE1, xmp), (0xED, iptc))
    )
    return raw[:2] + more + raw[2:] + b"SECRET trailer"


def bomb(width: int, height: int) -> bytes:
    """Return a PNG of a few hundred bytes that says that it is so large."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(kind + body))
        return struct.pack(">I", len(body)) + kind + body + check

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = zlib.compress(bytes(1000))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def moving(form: str) -> bytes:
    frames = [corners(), corners().transpose(Image.Transpose.ROTATE_180)]
    return saved(frames[0], form, save_all=True, append_images=frames[1:], duration=200)


def deep_gray() -> bytes:
    """Return a PNG of 16 bits a dot, from black at the left to white at the right."""
    image = Image.new("I;16", (400, 300))
    for across in range(400):
        for down in range(300):
            image.putpixel((across, down), across * 65535 // 399)
    return saved(image, "PNG")
