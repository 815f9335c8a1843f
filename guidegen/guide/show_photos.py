"""From the photos of a truck to the procedures that show them.

Takes in a unit and its fitted procedures; gives out the procedures with their photos.
Refuses to show a photo at a step that the truck does not have: its own photos are then reported.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace

from guidegen.finding import Findings
from guidegen.guide.fingerprint import canonical_procedure
from guidegen.guide.model import Guide, Procedure, Step
from guidegen.photos import rules
from guidegen.photos.model import Photo
from guidegen.units.model import Unit

Fitted = tuple[Procedure, str]
"""A procedure, and what its fingerprint takes in."""


def photos_of(unit: Unit) -> Mapping[str, tuple[Photo, ...]]:
    """Return the photos of *unit* by id of the procedure, each picture once, its own first."""
    found: dict[str, dict[str, Photo]] = {}
    for photo in (*unit.own_photos, *unit.model_photos):
        found.setdefault(photo.procedure, {}).setdefault(photo.id, photo)
    return {procedure: tuple(photos.values()) for procedure, photos in found.items()}


def photos_in(guide: Guide) -> Iterator[Photo]:
    """Yield the photos of *guide*, in the order of its procedures."""
    for chapter in guide.chapters:
        for procedure in chapter.procedures:
            yield from procedure.photos


def with_pictures(guide: Guide, picture: Callable[[Photo], bytes | None]) -> Guide | None:
    """Return a guide that was kept, each photo with its picture; none if one is not to be had.

    Args:
        guide: As the record tells of it.
        picture: Gives out the bytes of a photo.
    """
    raws = {photo: picture(photo) for photo in photos_in(guide)}
    if None in raws.values():
        return None

    def filled(procedure: Procedure) -> Procedure:
        photos = (replace(each, raw=raws[each] or b"") for each in procedure.photos)
        return replace(procedure, photos=tuple(photos)) if procedure.photos else procedure

    chapters = (replace(e, procedures=tuple(map(filled, e.procedures))) for e in guide.chapters)
    return replace(guide, chapters=tuple(chapters)) if raws else guide


def with_photos(fitted: Fitted, photos: Mapping[str, tuple[Photo, ...]]) -> Fitted:
    """Return *fitted* with those of *photos* that it has a place for."""
    procedure, _ = fitted
    if procedure.id not in photos:
        return fitted
    shown = tuple(photo for photo in photos[procedure.id] if _has_place(procedure, photo))
    if not shown:
        return fitted
    with_them = replace(procedure, photos=shown)
    return with_them, canonical_procedure(with_them)


def report_not_shown(unit: Unit, procedures: Iterable[Procedure], findings: Findings) -> None:
    """Report photos of the truck itself that none of its *procedures* shows."""
    if not unit.own_photos:
        return
    shown = {photo.id for procedure in procedures for photo in procedure.photos}
    for photo in unit.own_photos:
        if photo.id not in shown:
            place = (
                f"the step `{photo.step}` of `{photo.procedure}`"
                if photo.step
                else (f"the procedure `{photo.procedure}`")
            )
            findings.add(
                rules.PHOTO_NOT_SHOWN,
                photo.span,
                what=f"{unit.number} does not have {place}",
                fix="name a procedure or step of its guide: "
                f"`guidegen explain {unit.number} {photo.procedure}` says why it has it not",
                unit=unit.number,
            )


def _has_place(procedure: Procedure, photo: Photo) -> bool:
    steps = (block.id for block in procedure.blocks if isinstance(block, Step))
    return not photo.step or photo.step_id in steps
