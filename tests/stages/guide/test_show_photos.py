from dataclasses import replace

from hand_made_site import PHOTOS, T_17
from one_unit import look_at

from guidegen.finding import Findings
from guidegen.guide.model import Procedure
from guidegen.guide.show_photos import photos_of, report_not_shown, with_photos
from guidegen.photos.model import Photo
from guidegen.units.model import Unit

VALVE, TIRES = PHOTOS
TIRE_CHECK = next(
    replace(each, photos=())
    for chapter in T_17.chapters
    for each in chapter.procedures
    if each.id == "tire-check"
)


def unit(own: tuple[Photo, ...] = (), of_model: tuple[Photo, ...] = ()) -> Unit:
    found = look_at("").units["T-1"]
    return Unit("T-1", "m", found.span, found.facts, found.sections, own, of_model)


def shown(truck: Unit) -> Procedure:
    return with_photos((TIRE_CHECK, ""), photos_of(truck))[0]


def told(truck: Unit) -> list[str]:
    findings = Findings()
    report_not_shown(truck, [shown(truck)], findings)
    return [finding.what for finding in findings]


def at(step: str, photo: Photo = VALVE) -> Photo:
    says = (photo.procedure, step, photo.alt, photo.caption, photo.width, photo.height)
    return Photo(*says, photo.sha256, photo.span, photo.raw)


def test_a_truck_shows_its_own_photos_before_those_of_its_model() -> None:
    assert shown(unit((VALVE,), (TIRES,))).photos == (VALVE, TIRES)
    assert told(unit((VALVE,), (TIRES,))) == []


def test_one_picture_of_truck_and_model_is_shown_once() -> None:
    assert shown(unit((VALVE,), (at("step-1"),))).photos == (VALVE,)


def test_a_photo_of_a_step_that_the_truck_does_not_have_is_told_of_if_it_is_its_own() -> None:
    stray = at("step-9")
    assert shown(unit((stray,))).photos == ()
    assert told(unit((stray,))) == ["T-1 does not have the step `step-9` of `tire-check`"]
    assert told(unit((), (stray,))) == []
