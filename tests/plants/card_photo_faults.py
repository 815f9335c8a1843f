"""Photos on a card that are gone, another truck's, moved, cut, stretched or covered.

What the template is given is changed, the template is, or the card is drawn without what it must
show; the proof is told of nothing.
"""

import io
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from photo_cards import GUIDE, OTHERS, bare, fitted
from PIL import Image
from plants.paper_press import (
    ChangingTypesetter,
    Given,
    Order,
    PaperPlant,
    pieces_in,
    with_change,
)
from printed import ISSUE, PAPER, press, theme

from guidegen.decks.model import Card
from guidegen.finding import Findings
from guidegen.paper.card import TEMPLATE, CardPress
from guidegen.paper.matter import Matter
from guidegen.paper.typeset import Typesetter
from guidegen.photos.prepare import prepare

PHOTO, SPOKEN = "paper-photo-differs", "paper-spoken-differs"
FIGURE, LEFT_OUT = "paper-figure-differs", "paper-photo-left-out"

Edit = Callable[[Given], None]


def order_of(card: Card) -> Order:
    return Order(card, GUIDE, ISSUE)


def drawn(card: Card, setter: Typesetter | None = None) -> bytes:
    """Return the PDF of *card*, typeset by *setter* if there is one."""
    findings = Findings()
    own = CardPress(theme(), "Bluff County Haulage", setter) if setter else press()
    pdf = own.draw(card, Matter(GUIDE), ISSUE, findings)
    assert pdf is not None, [each.what for each in findings]
    return pdf


def _photos(given: Given) -> list[tuple[list[Given], int]]:
    return [(given["groups"][group]["pieces"], place) for group, place in pieces_in(given, "photo")]


def _gone(number: int) -> Edit:
    def edit(given: Given) -> None:
        pieces, place = _photos(given)[number]
        del pieces[place]

    return edit


def _twice(given: Given) -> None:
    pieces, place = _photos(given)[0]
    pieces.insert(place, pieces[place])


def _exchanged(given: Given) -> None:
    (one, here), (two, there) = _photos(given)
    one[here], two[there] = two[there], one[here]


def _exchanged_part(part: str) -> Edit:
    def edit(given: Given) -> None:
        (one, here), (two, there) = _photos(given)
        first, second = one[here]["photo"], two[there]["photo"]
        first[part], second[part] = second[part], first[part]

    return edit


def _other_truck(given: Given) -> None:
    pieces, place = _photos(given)[0]
    pieces[place]["photo"]["data"] = list(prepare(OTHERS).raw)


def _other_truck_at_a_step(given: Given) -> None:
    pieces, place = _photos(given)[0]
    stray = {**pieces[place], "caption": None}
    stray["photo"] = {**stray["photo"], "data": list(prepare(OTHERS).raw)}
    given["groups"][-1]["pieces"].append(stray)


def _before_its_step(given: Given) -> None:
    pieces, place = _photos(given)[1]
    pieces[place - 1], pieces[place] = pieces[place], pieces[place - 1]


def _between_caution_and_step(given: Given) -> None:
    pieces, place = _photos(given)[1]
    moved = pieces.pop(place)
    groups = (group["pieces"] for group in given["groups"])
    next(each for each in groups if each[0]["kind"] == "caution").insert(1, moved)


def _whole_photo_behind_a_step(given: Given) -> None:
    pieces, place = _photos(given)[0]
    pieces.append(pieces.pop(place))


def _remade(change: Callable[[Image.Image], Image.Image], **how: object) -> Edit:
    def edit(given: Given) -> None:
        pieces, place = _photos(given)[1]
        photo = pieces[place]["photo"]
        image = change(Image.open(io.BytesIO(bytes(photo["data"]))))
        file = io.BytesIO()
        image.save(file, "JPEG", quality=90, **how)
        photo["data"] = list(file.getvalue())

    return edit


def _paled(image: Image.Image) -> Image.Image:
    return Image.blend(image, Image.new("RGB", image.size, "white"), 0.4)


def _part_painted(image: Image.Image) -> Image.Image:
    image.paste((120, 120, 120), (0, 0, image.width // 6, image.height // 6))
    return image


_EDITS: Mapping[str, tuple[Edit, str]] = {
    "photo of the procedure gone": (_gone(0), PHOTO),
    "photo of the step gone": (_gone(1), PHOTO),
    "photo twice": (_twice, PHOTO),
    "photos exchanged": (_exchanged, PHOTO),
    "pictures exchanged": (_exchanged_part("data"), PHOTO),
    "words that are read aloud exchanged": (_exchanged_part("alt"), SPOKEN),
    "picture of another truck": (_other_truck, PHOTO),
    "picture of another truck at another step": (_other_truck_at_a_step, FIGURE),
    "photo before its step": (_before_its_step, PHOTO),
    "photo between a caution and its step": (_between_caution_and_step, PHOTO),
    "photo of the procedure behind its first step": (_whole_photo_behind_a_step, PHOTO),
    "mirrored before": (
        _remade(lambda each: each.transpose(Image.Transpose.FLIP_LEFT_RIGHT)), PHOTO),
    "an edge cut off before": (
        _remade(lambda each: each.crop((0, 0, each.width - each.width // 20, each.height))), PHOTO),
    "stretched before": (
        _remade(lambda each: each.resize((each.width, each.height * 9 // 10))), PHOTO),
    "blue and red exchanged": (
        _remade(lambda each: Image.merge("RGB", each.split()[::-1])), PHOTO),
    "paled": (_remade(_paled), PHOTO),
    "one corner painted over": (_remade(_part_painted), PHOTO),
    "too few dots": (_remade(lambda each: each.resize((160, 120))), PHOTO),
    "with a comment": (_remade(lambda each: each, comment=b"taken at home"), PHOTO),
}  # fmt: skip

_IMAGE = 'let picture = image(bytes(it.photo.data), format: "jpg", width: wide, alt: it.photo.alt)'
_RAW = 'image(bytes(it.photo.data), format: "jpg", width: wide, alt: it.photo.alt)'
_PATCH = "place(top + left, dx: 5mm, dy: 5mm, rect(width: 12mm, height: 12mm, fill: white))"
_TEMPLATES: Mapping[str, tuple[str, frozenset[str]]] = {
    "stretched": (
        _RAW.replace("width: wide,", 'width: wide, height: 20mm, fit: "stretch",'),
        frozenset({PHOTO})),
    "cropped": (
        _RAW.replace("width: wide,", 'width: wide, height: 20mm, fit: "cover",'),
        frozenset({PHOTO})),
    "cut by a mask": (f"box(clip: true, height: 15mm, {_RAW})", frozenset({PHOTO})),
    "tiny": (_RAW.replace("width: wide", "width: 24mm"), frozenset({PHOTO})),
    "over the words of its step": (f"move(dy: -14pt, {_RAW})", frozenset({PHOTO})),
    "over what comes after": (f"move(dy: 30pt, {_RAW})", frozenset({PHOTO})),
    "far below, on white": (f"move(dy: 60mm, {_RAW})", frozenset({PHOTO})),
    "over the edge of the card": (
        f"move(dx: -30mm, {_RAW})", frozenset({"paper-outside-safe-area"})),
    "under a white patch": (
        f"{_RAW}\n  picture = box({{ picture; {_PATCH} }})", frozenset({PHOTO})),
    "mirrored": (f"scale(x: -100%, {_RAW})", frozenset({PHOTO})),
}  # fmt: skip


def given_changed() -> Iterator[PaperPlant]:
    """What the template is given is changed."""
    order = order_of(fitted())
    edits = iter(_EDITS.values())

    def change(given: Given) -> Given:
        next(edits)[0](given)
        return given

    setter = ChangingTypesetter(PAPER / TEMPLATE, theme().as_file(), change)
    for what, (_, rule) in _EDITS.items():
        yield PaperPlant(what, order, drawn(order.card, setter), frozenset({rule}))


def template_changed(folder: Path) -> Iterator[PaperPlant]:
    """The template sets photos otherwise."""
    order = order_of(fitted())
    for number, (what, (new, rules)) in enumerate(_TEMPLATES.items()):
        place = with_change(
            PAPER, folder / str(number), "matter.typ", _IMAGE, f"let picture = {new}"
        )
        setter = Typesetter(place / TEMPLATE, theme().as_file())
        yield PaperPlant(what, order, drawn(order.card, setter), rules)


def left_out() -> Iterator[PaperPlant]:
    """The press leaves photos out for which there is plainly room, or shows what is left out."""
    for size in ("a5", "4x6"):
        whole = fitted(size)
        for kept in ((), whole.photos[:1], whole.photos[1:]):
            card = replace(whole, photos=kept)
            if size == "4x6" and kept:
                continue
            what = f"{len(kept)} of two photos, {size}"
            yield PaperPlant(what, order_of(card), drawn(card), frozenset({LEFT_OUT}))
    shown = fitted()
    yield PaperPlant(
        "photos that the card must not show",
        order_of(bare()),
        drawn(shown),
        frozenset({PHOTO}),
    )
