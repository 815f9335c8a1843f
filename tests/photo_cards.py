"""A truck whose cards show photos, and the picture of another truck."""

from dataclasses import replace
from functools import cache

from picture_files import corners, saved
from PIL import Image
from printed import ISSUE, kind, press
from sample_fleet import SPAN, T_17, Warn, procedure

from guidegen.decks.model import Card, CardKind
from guidegen.guide.fingerprint import fingerprint
from guidegen.guide.model import Chapter, Guide, Procedure
from guidegen.paper.matter import Matter
from guidegen.photos.model import Photo
from guidegen.photos.prepare import prepare
from guidegen.procedures.model import Signal

WARNING = Warn(
    Signal.WARNING,
    "The hood is heavy and can fall.",
    "It can crush your hand.",
    "Lock the prop before you reach in.",
)


def photo(raw: bytes, id_: str, step: str = "", caption: str = "") -> Photo:
    """Return the picture *raw* as a photo of the procedure *id_*."""
    made = prepare(raw)
    alt = f"Where it is, {len(raw)} bytes of it."
    size = made.width, made.height, made.sha256
    return Photo(id_, step, alt, caption, *size, SPAN, made.raw)


TANK, SWITCH, OTHERS = (
    saved(corners(1200, 900), quality=90),
    saved(corners(1200, 900).transpose(Image.Transpose.ROTATE_180), quality=91),
    saved(corners(1200, 900).transpose(Image.Transpose.FLIP_LEFT_RIGHT), quality=92),
)
"""Of this truck, and one of another."""

PLAIN = procedure(
    "fill-tank",
    "Fill the tank",
    ["Open the hood.", "Find the tank.", WARNING, "Fill the tank."],
    expect=("The tank is full.",),
)
FILL = replace(
    PLAIN,
    photos=(
        photo(SWITCH, "fill-tank"),
        photo(TANK, "fill-tank", "step-2", "Only the blue cap takes it."),
    ),
)
TURN = procedure("turn-switch", "Turn the switch", [WARNING, "Turn it.", "Wait."])


def guide_with(*procedures: Procedure) -> Guide:
    """Return a guide of *procedures*."""
    chapters = (Chapter("air-brakes", procedures),)
    edition = fingerprint(T_17.facts, T_17.sections, chapters)
    return replace(T_17, chapters=chapters, edition=edition)


GUIDE = guide_with(FILL, TURN)


def kind_of(size: str = "a5") -> CardKind:
    return kind(size, id="tank", title="Tank", chapters=("air-brakes",))


def bare(guide: Guide = GUIDE, size: str = "a5") -> Card:
    """Return the card of all that *guide* holds, to which no photo was fitted."""
    return Card(kind_of(size), None, guide.chapters[0].procedures, (), ())


@cache
def fitted(size: str = "a5") -> Card:
    return press().fitted(bare(size=size), Matter(GUIDE), ISSUE)
