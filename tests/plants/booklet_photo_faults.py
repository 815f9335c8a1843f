"""Photos in a booklet that are another, gone, moved, stretched, tiny, silent or once too often."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from hand_made_site import PHOTOS
from plants.booklet_faults import Edit, middle, pieces
from plants.booklet_press import BookletShop, BookletToProve
from plants.paper_press import Given, PaperPlant, replaced_by

from guidegen.guide.model import Guide, Procedure, Step
from guidegen.photos.model import Photo

PHOTO = "paper-photo-differs"
SPOKEN = "paper-spoken-differs"


def with_photos(shop: BookletShop) -> BookletToProve:
    """Return a booklet with photos of a whole procedure and of two of its steps."""
    booklet = shop.short_guide("T-17", "letter")
    guide = booklet.order.guide
    chapter = next(each for each in guide.chapters if each.id == "air-brakes")
    first, *others = chapter.procedures
    chapter = replace(chapter, procedures=(_shown(first), *others))
    shown: Guide = replace(guide, chapters=(chapter,))
    return BookletToProve(replace(booklet.order, guide=shown))


def _shown(procedure: Procedure) -> Procedure:
    steps = [each.id.rpartition(".")[2] for each in procedure.blocks if isinstance(each, Step)]
    valve, tires = PHOTOS

    def at(photo: Photo, step: str) -> Photo:
        return replace(photo, procedure=procedure.id, step=step)

    # Of the same picture at two steps one would do: each photo has a picture of its own.
    return replace(procedure, photos=(at(tires, ""), at(valve, steps[1])))


def _gone(given: Given) -> None:
    found, place = middle(given, "photo")
    del found[place]


def _twice(given: Given) -> None:
    found, place = next(pieces(given, "photo"))
    found.insert(place, found[place])


def _exchanged(given: Given) -> None:
    (one, here), (two, there) = pieces(given, "photo")
    one[here], two[there] = two[there], one[here]


def _exchanged_in_part(part: str) -> Edit:
    def edit(given: Given) -> None:
        (one, here), (two, there) = pieces(given, "photo")
        one[here]["photo"][part] = two[there]["photo"][part]

    return edit


def _said_otherwise(given: Given) -> None:
    found, place = next(pieces(given, "photo"))
    found[place]["photo"]["alt"] = "A picture"


def _moved(given: Given) -> None:
    found, place = list(pieces(given, "photo"))[1]
    after = next(group for group, _ in pieces(given, "step") if group is not found)
    after.append(found.pop(place))


def _captioned_otherwise(given: Given) -> None:
    found, place = list(pieces(given, "photo"))[1]
    found[place]["caption"] = [["The valve of the outer tire"]]


_EDITS: tuple[tuple[str, Edit, tuple[str, ...]], ...] = (
    ("photo gone", _gone, (PHOTO,)),
    ("photo twice", _twice, (PHOTO,)),
    ("photos exchanged", _exchanged, (PHOTO,)),
    ("picture of another photo", _exchanged_in_part("data"), (PHOTO,)),
    ("other words read aloud", _said_otherwise, (SPOKEN,)),
    ("words of another photo read aloud", _exchanged_in_part("alt"), (SPOKEN,)),
    ("photo at another step", _moved, (PHOTO, "paper-figure-differs")),
    ("other caption", _captioned_otherwise, ("paper-text-differs", "paper-text-missing")),
)


def photos_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    """What the template is given is changed."""
    booklet = with_photos(shop)
    for what, edit, rules in _EDITS:
        given = shop.given(booklet)
        edit(given)
        assert given != shop.given(booklet), what
        pdf = shop.draw(booklet, replaced_by(given))
        yield PaperPlant(f"{what}, {booklet.name}", booklet, pdf, frozenset(rules))


def photos_set_otherwise(shop: BookletShop) -> Iterator[PaperPlant]:
    """The template sets them otherwise."""
    booklet = with_photos(shop)
    # A card sets them apart from this.
    end = ")\n  if it.caption != none { block"
    old = f"width: wide, alt: it.photo.alt{end}"
    for what, new in (
        ("stretched", 'width: wide, height: wide, fit: "stretch", alt: it.photo.alt'),
        ("tiny", "width: 9mm, alt: it.photo.alt"),
    ):
        pdf = shop.draw_with(booklet, "matter.typ", old, new + end)
        yield PaperPlant(f"photos {what}, {booklet.name}", booklet, pdf, frozenset({PHOTO}))


BOOKLET_PHOTO_KINDS: Mapping[str, Callable[[BookletShop], Iterator[PaperPlant]]] = {
    "photos_changed": photos_changed,
    "photos_set_otherwise": photos_set_otherwise,
}
