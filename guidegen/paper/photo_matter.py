"""From a photo of a guide to what the typesetter is given.

Takes in photos; gives out pieces with the picture, its caption and what is read aloud for it, and
groups that hold them. Refuses to put a picture between a caution and the step that it guards.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from guidegen.decks.model import ShownPhoto
from guidegen.guide.model import Procedure, Step
from guidegen.paper.matter import Group, Piece, Written
from guidegen.photos.model import Photo
from guidegen.photos.print_size import print_size

OPENING = ("title", "stance")
"""Kinds of pieces that a procedure begins with, before any caution."""


def photo_piece(photo: Photo) -> Piece:
    """Return *photo* with what is read aloud for it, and what is printed below it."""
    return _piece(photo, photo.raw)


def card_photo_piece(shown: ShownPhoto) -> Piece:
    """Return the photo *shown* as a card prints it: in its size, with the caption beside it."""
    photo = shown.photo
    ratio = photo.width / photo.height
    piece = _piece(photo, print_size(photo.raw, shown.edge))
    width = shown.edge * min(1.0, ratio)
    return {**piece, "photo": {**piece["photo"], "width": width, "is_of_step": bool(photo.step)}}


def _piece(photo: Photo, raw: bytes) -> Piece:
    return {
        "kind": "photo",
        "photo": {
            # As numbers, since the typesetter takes no files but those of text.
            "data": list(raw),
            "sha256": photo.sha256,
            "alt": photo.alt,
            "ratio": photo.width / photo.height,
        },
        "caption": Written([(photo.caption,)]) if photo.caption else None,
    }


def behind_steps(
    group: Group, procedure: Procedure, photos: Iterable[tuple[Photo, Piece]]
) -> Group:
    """Return *group* of *procedure* with those of *photos* that are of a step right behind it."""
    of_steps = [(photo, piece) for photo, piece in photos if photo.step]
    if not of_steps:
        return group
    steps = {str(b.number): b.id for b in procedure.blocks if isinstance(b, Step)}
    pieces: list[Piece] = []
    for piece in group.pieces:
        pieces.append(piece)
        if piece["kind"] == "step":
            step = steps[piece["number"]]
            pieces += [shown for photo, shown in of_steps if photo.step_id == step]
    return replace(group, pieces=tuple(pieces))


def with_card_photos(
    groups: Iterable[Group], procedure: Procedure, shown: Sequence[ShownPhoto]
) -> Iterator[Group]:
    """Yield the *groups* of *procedure* with its photos among *shown*.

    A photo of a step stands behind it, and one of the whole procedure behind its title; each in
    the group that is there without it, so that no side parts what belongs together.
    """
    ids = {photo.id for photo in procedure.photos}
    own = [(each.photo, card_photo_piece(each)) for each in shown if each.photo.id in ids]
    for group in groups:
        with_steps = behind_steps(group, procedure, own)
        whole = [piece for photo, piece in own if not photo.step]
        if not group.opens or not whole:
            yield with_steps
            continue
        opening = [piece for piece in with_steps.pieces if piece["kind"] in OPENING]
        rest = [piece for piece in with_steps.pieces if piece["kind"] not in OPENING]
        yield replace(with_steps, pieces=(*opening, *whole, *rest))
