"""Whether a side that is laid on a sheet looks as it does alone.

Takes in pictures of the side and of its slot, dot by dot in one place; records what is covered,
cut off or drawn over, and a code that a reader of codes no longer reads.
Refuses to take what the file says for what is seen.
"""

from PIL import Image, ImageChops, ImageFilter

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.compare_code import DOTS_PER_INCH, read_code
from guidegen.paper_proof.face_model import Turn
from guidegen.paper_proof.read_pdf import PdfRead
from guidegen.paper_proof.sheet_model import Box

_BLACK = 255
_FAINT = 96
"""Of 255, that a dot may differ by: what smoothing makes of an edge."""

_MOST = 4
"""Dots of one picture that may differ by more: a stroke or letter is larger."""

_REACH = 3
"""Dots, of a square around each: a hairline may come out on the next dot when it is turned."""

_EDGE = 2
"""Dots along the edge that are not looked at: a mark on a cut that two cards share is half on
either."""


def picture_of(pdf: PdfRead, number: int, turn: Turn, height: float, trim: Box) -> Image.Image:
    """Return what is seen of a trimmed side, upright.

    Args:
        pdf: The card, or sheets with it.
        number: Of the page, from 0.
        turn: From points of the card's page to points of this page as it is seen, from its lower
            left corner.
        height: Of this page as it is seen, in points.
        trim: On the card's page.
    """
    scale = DOTS_PER_INCH / 72
    downward = Turn(1, 0, 0, -1, 0, height)
    dots = Turn(scale, 0, 0, -scale, -trim.left * scale, trim.top * scale)
    whole = downward.then(turn.back()).then(dots)
    size = round(trim.width * scale), round(trim.height * scale)
    return pdf.turned_picture(number, whole, *size)


def compare_sight(alone: Image.Image, laid: Image.Image, link: str) -> list[tuple[Rule, str]]:
    """Return what is wrong with the picture *laid* of a slot, beside that of the side *alone*."""
    found = list[tuple[Rule, str]]()
    differing = ImageChops.lighter(_darker_by(laid, alone), _darker_by(alone, laid))
    box = differing.getbbox()
    if box is not None and differing.histogram()[_BLACK] > _MOST:
        left, top = (edge / DOTS_PER_INCH for edge in box[:2])
        at = f"{left:.1f} in from its left and {top:.1f} in from its top"
        found.append((rules.SHEET_SIDE_CUT, f"is covered, cut off or drawn over, {at}"))
    code = read_code(laid)
    if link and (code is None or code.says != link):
        said = f"says `{code.says}`" if code else "cannot be read"
        found.append((rules.CODE_DIFFERS, f"has on the sheet a code that {said}"))
    return found


def _darker_by(one: Image.Image, other: Image.Image) -> Image.Image:
    """Return the dots of *one* that are darker than all of *other* around them."""
    lighter = ImageChops.subtract(other.filter(ImageFilter.MinFilter(_REACH)), one)
    marked = lighter.point(lambda dot: _BLACK if dot > _FAINT else 0)
    inner = (_EDGE, _EDGE, one.width - _EDGE, one.height - _EDGE)
    cropped = Image.new("L", one.size)
    cropped.paste(marked.crop(inner), inner[:2])
    return cropped
