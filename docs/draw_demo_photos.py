"""Draw the pictures of the demo fleet.

Takes in nothing; gives out pictures that show no real truck, as a camera would write them: one
lies on its side and says so, all say where and when they were taken. What is published of them
has none of that. Run it in the repository: ``python docs/draw_demo_photos.py``.
"""

from pathlib import Path

from PIL import Image, ImageDraw, ImageFilter

FOLDER = Path(__file__).resolve().parents[1] / "specs" / "photos"
SIZE = (1200, 900)
_ORIENTATION, _ON_ITS_SIDE = 0x0112, 6
_MADE_BY, _GPS = 0x010F, 0x8825
_NOTE = b"A drawing for a demo: no real truck"


def washer_tank() -> Image.Image:
    """Return an engine bay with a washer tank behind the right headlamp."""
    image = Image.new("RGB", SIZE, (58, 62, 66))
    draw = ImageDraw.Draw(image)
    draw.polygon([(0, 0), (1200, 0), (1050, 190), (150, 190)], fill=(122, 32, 36))
    draw.rectangle((330, 250, 860, 760), fill=(92, 98, 104), outline=(30, 32, 34), width=8)
    for place in range(370, 830, 76):
        draw.rounded_rectangle((place, 300, place + 44, 560), 16, fill=(70, 75, 80))
    draw.ellipse((60, 560, 320, 820), fill=(205, 208, 210), outline=(30, 32, 34), width=8)
    draw.rounded_rectangle((900, 360, 1130, 790), 46, fill=(226, 232, 236))
    draw.rectangle((908, 560, 1122, 780), fill=(92, 150, 205))
    draw.rounded_rectangle((955, 290, 1075, 372), 22, fill=(32, 92, 168))
    draw.arc((978, 305, 1052, 360), 200, 340, fill=(240, 240, 240), width=9)
    draw.line((600, 560, 600, 700, 700, 740), fill=(24, 25, 26), width=30, joint="curve")
    return image.filter(ImageFilter.GaussianBlur(1.2))


def battery_switch() -> Image.Image:
    """Return a battery box with a red switch behind the left step."""
    image = Image.new("RGB", SIZE, (96, 100, 104))
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, 640, 1200, 900), fill=(70, 66, 60))
    draw.rectangle((70, 120, 1130, 600), fill=(150, 156, 160), outline=(40, 42, 44), width=10)
    for place in range(90, 1130, 52):
        draw.line((place, 132, place + 40, 176), fill=(120, 126, 130), width=7)
    draw.rounded_rectangle((760, 250, 1040, 530), 20, fill=(40, 42, 44))
    draw.ellipse((800, 290, 1000, 490), fill=(176, 28, 30))
    draw.rounded_rectangle((872, 300, 928, 480), 18, fill=(222, 58, 52))
    draw.rectangle((150, 300, 640, 420), fill=(28, 30, 32))
    for place in range(160, 640, 40):
        draw.line((place, 310, place, 410), fill=(62, 66, 70), width=8)
    return image.filter(ImageFilter.GaussianBlur(1.2))


def high_voltage_switch() -> Image.Image:
    """Return an open flap below a cab door, and the orange handle behind it."""
    image = Image.new("RGB", SIZE, (38, 84, 110))
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, 700, 1200, 900), fill=(60, 62, 64))
    draw.line((0, 120, 1200, 120), fill=(20, 44, 60), width=10)
    draw.rounded_rectangle((700, 40, 980, 84), 20, fill=(28, 30, 32))
    draw.rectangle((380, 260, 860, 680), fill=(24, 26, 28), outline=(16, 34, 46), width=12)
    draw.polygon([(380, 260), (860, 260), (800, 150), (440, 150)], fill=(58, 110, 138))
    draw.line((440, 150, 800, 150), fill=(16, 34, 46), width=8)
    draw.rounded_rectangle((470, 350, 770, 610), 24, fill=(92, 96, 100))
    draw.ellipse((540, 400, 700, 560), fill=(52, 54, 56))
    draw.rounded_rectangle((590, 370, 650, 600), 24, fill=(240, 124, 20))
    draw.line((620, 610, 620, 680), fill=(240, 124, 20), width=34)
    return image.filter(ImageFilter.GaussianBlur(1.2))


def write(image: Image.Image, name: str, *, is_on_its_side: bool) -> None:
    """Write *image* as a camera would: with a place, a maker and a comment."""
    exif = Image.Exif()
    exif[_MADE_BY] = "Invented"
    place = exif.get_ifd(_GPS)
    place[1], place[2] = "N", (1.0, 2.0, 3.0)
    place[3], place[4] = "E", (1.0, 2.0, 3.0)
    if is_on_its_side:
        exif[_ORIENTATION] = _ON_ITS_SIDE
        image = image.rotate(90, expand=True)
    image.save(FOLDER / name, "JPEG", quality=70, optimize=True, exif=exif, comment=_NOTE)


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    write(washer_tank(), "washer-tank.jpg", is_on_its_side=True)
    write(battery_switch(), "battery-switch-T-17.jpg", is_on_its_side=False)
    write(high_voltage_switch(), "high-voltage-switch.jpg", is_on_its_side=False)
