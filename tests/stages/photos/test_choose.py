from dataclasses import dataclass, field

import pytest
from picture_files import corners, saved

from guidegen.finding import Findings
from guidegen.photos.choose import Known, choose_photos, unlisted
from guidegen.photos.model import FleetPhotos
from guidegen.photos.prepare import Prepared, prepare
from guidegen.specs.read import read_photos

PATH = "specs/photos/photos.yml"
KNOWN = Known({"T-17", "T-18", "R-12", "17"}, {"drumlin-72"}, {"washer-fluid": ("find", "fill")})
ALT = "The tank behind the right headlamp, with a blue cap."
PICTURES = {
    "tank.jpg": saved(corners()),
    "lid.png": saved(corners(400, 300), "PNG"),
    "broken.jpg": saved(corners())[:900],
}


@dataclass
class Office:
    names: tuple[str, ...] = tuple(PICTURES)
    asked: list[str] = field(default_factory=list)

    def prepare(self, name: str) -> Prepared:
        self.asked.append(name)
        return prepare(PICTURES.get(name, PICTURES["tank.jpg"]))

    def choose(self, *entries: str) -> tuple[FleetPhotos, Findings]:
        findings = Findings()
        text = "photos:\n" + "".join(f"  - {{{entry}}}\n" for entry in entries)
        stated = read_photos(PATH, text.encode(), findings)
        assert stated is not None, list(findings)
        return choose_photos(stated, self.names, self.prepare, KNOWN, findings), findings


def entry(**changed: str | None) -> str:
    fields: dict[str, str | None] = {
        "file": "tank.jpg",
        "units": "[T-17]",
        "procedure": "washer-fluid",
        "alt": f'"{ALT}"',
        **changed,
    }
    return ", ".join(f"{name}: {value}" for name, value in fields.items() if value is not None)


def test_a_photo_is_of_the_trucks_that_it_names_and_of_no_other() -> None:
    photos, findings = Office().choose(entry(units="[T-17, R-12]", step="find", caption="Blue cap"))
    assert not list(findings)
    (photo,) = photos.own("T-17")
    assert photos.own("R-12") == (photo,)
    assert photos.own("T-18") == ()
    assert (photo.step_id, photo.caption, photo.alt) == (
        "washer-fluid.steps.find",
        "Blue cap",
        ALT,
    )
    assert photo.path == f"photos/washer-fluid-{photo.sha256[:12]}.jpg"


def test_a_truck_s_own_photo_stands_in_the_place_of_its_model_s() -> None:
    of_model = entry(file="lid.png", units=None, model="drumlin-72")
    photos, findings = Office().choose(of_model, entry())
    assert not list(findings)
    assert [p.width for p in photos.inherited("T-18", "drumlin-72")] == [400]
    assert list(photos.inherited("T-17", "drumlin-72")) == []
    assert list(photos.parts("T-17", "drumlin-72")) != list(photos.parts("T-18", "drumlin-72"))


@pytest.mark.parametrize(
    ("changed", "rule", "says"),
    [
        ({"file": "tnak.jpg"}, "photo-missing", "did you mean `tank.jpg`?"),
        ({"file": "TANK.jpg"}, "photo-name-differs-in-case", "write `file: tank.jpg`"),
        ({"file": "broken.jpg"}, "photo-damaged", "copy it from the camera"),
        ({"units": None}, "photo-without-truck", "write either"),
        ({"model": "drumlin-72"}, "photo-without-truck", "write either"),
        ({"units": "[T-71]"}, "photo-of-unknown-truck", "did you mean `T-17`?"),
        ({"units": None, "model": "drumlin-27"}, "photo-of-unknown-truck", "`drumlin-72`?"),
        ({"procedure": "washer-fluids"}, "photo-of-unknown-procedure", "`washer-fluid`?"),
        ({"step": "fil"}, "photo-of-unknown-procedure", "did you mean `fill`?"),
        ({"alt": "Washer tank"}, "photo-text-says-nothing", "say where the thing is"),
        ({"alt": "a picture tank.jpg of it"}, "photo-text-says-nothing", "say where"),
        ({"alt": '"The tank of t-18, on the right"'}, "photo-names-a-truck", "`this truck`"),
        ({"caption": '"As on T-17"'}, "photo-names-a-truck", "`this truck`"),
    ],
)
def test_a_photo_with_a_fault_is_left_out_and_says_why(
    changed: dict[str, str | None], rule: str, says: str
) -> None:
    photos, findings = Office().choose(entry(**changed), entry(file="lid.png", units="[R-12]"))
    (finding,) = findings
    assert finding.rule.name == rule
    assert says in finding.fix
    assert finding.span is not None
    assert finding.span.line == 2
    assert not photos.own("T-17")
    assert photos.own("R-12")


def test_a_truck_that_is_gone_does_not_take_the_photo_from_the_others() -> None:
    photos, (finding,) = Office().choose(entry(units="[T-99, R-12]"))
    assert finding.rule.name == "photo-of-unknown-truck"
    assert not finding.is_error
    assert photos.own("R-12")


def test_an_amount_that_is_also_a_truck_s_number_may_stand_in_a_text() -> None:
    _, findings = Office().choose(entry(alt='"The tank takes 17 quarts and has a blue cap"'))
    assert not list(findings)


def test_one_picture_stands_in_a_procedure_once() -> None:
    photos, findings = Office().choose(entry(), entry(step="fill"))
    assert [each.rule.name for each in findings] == ["photo-twice"]
    assert len(photos.own("T-17")) == 1


def test_two_files_that_windows_takes_for_one_are_refused() -> None:
    _, findings = Office(("tank.jpg", "Tank.JPG")).choose(entry())
    assert [each.rule.name for each in findings] == ["photo-name-differs-in-case"]


def test_an_accent_is_the_same_however_the_system_writes_it() -> None:
    office = Office(("bo\u0301veda.jpg",))
    photos, findings = office.choose(entry(file="b\u00f3veda.jpg"))
    assert not list(findings)
    assert office.asked == ["bo\u0301veda.jpg"]
    assert photos.own("T-17")


@pytest.mark.parametrize(
    "name", ["../fleet.jpg", "/etc/tank.jpg", "a\\\\b.jpg", "C:tank.jpg", "tank", "a?.jpg"]
)
def test_a_name_that_leads_out_of_the_folder_is_no_name(name: str) -> None:
    findings = Findings()
    text = f"photos:\n  - {{{entry(file=chr(34) + name + chr(34))}}}\n"
    assert read_photos(PATH, text.encode(), findings) is None
    assert [each.rule.name for each in findings] == ["text-of-wrong-form"]


def test_a_photo_without_a_text_for_those_who_do_not_see_it_is_refused() -> None:
    findings = Findings()
    text = f"photos:\n  - {{{entry(alt=None)}}}\n"
    assert read_photos(PATH, text.encode(), findings) is None
    (finding,) = findings
    assert finding.rule.name == "field-missing"
    assert "`alt`" in finding.what


def test_a_picture_that_nobody_listed_is_told_of_and_other_files_are_not() -> None:
    names = ("tank.jpg", "IMG_0001.HEIC", "notes.txt", "Thumbs.db")
    found = unlisted((), names, "specs/photos")
    assert [each.place for each in found] == [
        "specs/photos/IMG_0001.HEIC",
        "specs/photos/tank.jpg",
    ]
    assert not any(each.is_error for each in found)
