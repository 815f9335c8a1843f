"""Photos in a booklet that are another, gone, moved, stretched, tiny, silent or once too often."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from hand_made_site import PHOTOS
from plants.booklet_faults import middle, pieces
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


def photos_changed(shop: BookletShop) -> Iterator[PaperPlant]:
    """What the template is given is changed."""
    booklet = with_photos(shop)

    def sow(what: str, edit: Callable[[Given], None], *rules: str) -> PaperPlant:
        given = shop.given(booklet)
        edit(given)
        assert given != shop.given(booklet), what
        pdf = shop.draw(booklet, replaced_by(given))
        return PaperPlant(f"{what}, {booklet.name}", booklet, pdf, frozenset(rules))

    def gone(given: Given) -> None:
        found, place = middle(given, "photo")
        del found[place]

    def twice(given: Given) -> None:
        found, place = next(pieces(given, "photo"))
        found.insert(place, found[place])

    def exchanged(given: Given) -> None:
        (one, here), (two, there) = pieces(given, "photo")
        one[here], two[there] = two[there], one[here]

    def other_picture(given: Given) -> None:
        (one, here), (two, there) = pieces(given, "photo")
        one[here]["photo"]["data"] = two[there]["photo"]["data"]

    def silent(given: Given) -> None:
        found, place = next(pieces(given, "photo"))
        found[place]["photo"]["alt"] = "A picture"

    def another_s_words(given: Given) -> None:
        (one, here), (two, there) = pieces(given, "photo")
        one[here]["photo"]["alt"] = two[there]["photo"]["alt"]

    def moved(given: Given) -> None:
        found, place = list(pieces(given, "photo"))[1]
        after = next(group for group, _ in pieces(given, "step") if group is not found)
        after.append(found.pop(place))

    def captioned(given: Given) -> None:
        found, place = list(pieces(given, "photo"))[1]
        found[place]["caption"] = [["The valve of the outer tire"]]

    yield sow("photo gone", gone, PHOTO)
    yield sow("photo twice", twice, PHOTO)
    yield sow("photos exchanged", exchanged, PHOTO)
    yield sow("picture of another photo", other_picture, PHOTO)
    yield sow("other words read aloud", silent, SPOKEN)
    yield sow("words of another photo read aloud", another_s_words, SPOKEN)
    yield sow("photo at another step", moved, PHOTO, "paper-figure-differs")
    yield sow("other caption", captioned, "paper-text-differs", "paper-text-missing")


def photos_set_otherwise(shop: BookletShop) -> Iterator[PaperPlant]:
    """The template sets them otherwise."""
    booklet = with_photos(shop)
    old = "width: wide, alt: it.photo.alt"
    for what, new in (
        ("stretched", 'width: wide, height: wide, fit: "stretch", alt: it.photo.alt'),
        ("tiny", "width: 9mm, alt: it.photo.alt"),
    ):
        pdf = shop.draw_with(booklet, "matter.typ", old, new)
        yield PaperPlant(f"photos {what}, {booklet.name}", booklet, pdf, frozenset({PHOTO}))


BOOKLET_PHOTO_KINDS: Mapping[str, Callable[[BookletShop], Iterator[PaperPlant]]] = {
    "photos_changed": photos_changed,
    "photos_set_otherwise": photos_set_otherwise,
}
