"""Pictures as they lie in the fleet's folder, links and pipes among them."""

import os
from dataclasses import replace
from pathlib import Path

import pytest
from picture_files import corners, saved

from guidegen.build import load_photos
from guidegen.build.fleet_memory import FleetMemory
from guidegen.build.load_photos import with_photos
from guidegen.build.project import Project
from guidegen.build.store import Store
from guidegen.finding import Finding, Findings
from guidegen.photos.choose import Known
from guidegen.photos.model import FleetPhotos
from guidegen.photos.prepare import Prepared, prepare
from guidegen.source import SourceFile, Span
from guidegen.specs.fleet import Fleet
from guidegen.specs.model import Spec
from guidegen.units.resolve import FleetSpecs

KNOWN = Known(frozenset({"T-17"}), frozenset(), {"mirrors": ("look",)})
SPAN = Span(SourceFile("specs/fleet.yml", ""), 1, 1, 1, 2)
LAW = Spec("us", "us", SPAN, SPAN, {}, {}, {})


def entry(name: str, units: str = "[T-17]") -> str:
    return (
        f"  - {{file: {name}, units: {units}, procedure: mirrors, "
        f"alt: The mirror on the right of {len(name)}.}}\n"
    )


class Desk:
    """The office's folder of photos."""

    def __init__(self, root: Path) -> None:
        self.project = Project(root, root / "site_templates")
        self.folder = root / "specs" / "photos"
        self.folder.mkdir(parents=True)
        self.memory = FleetMemory(store=Store(root / "store", "this program"))

    def put(self, name: str, raw: bytes) -> Path:
        path = self.folder / name
        path.write_bytes(raw)
        return path

    def write(self, *names: str, units: str = "[T-17]") -> None:
        text = "photos:\n" + "".join(entry(name, units) for name in names)
        (self.folder / "photos.yml").write_text(text, encoding="utf-8")

    def load(self) -> tuple[FleetPhotos | None, list[Finding]]:
        findings = Findings()
        fleet = Fleet("F", "us", None, None, None, (), (), None, SPAN)  # type: ignore[arg-type]  # not looked at
        specs = FleetSpecs(fleet, {}, {}, LAW)
        found = with_photos(self.project, specs, KNOWN, self.memory, findings)
        return (None if found is None else found.photos), list(findings)

    def rules(self) -> list[str]:
        return [each.rule.name for each in self.load()[1]]


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(tmp_path)


@pytest.fixture
def prepared(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How large each picture was that was prepared."""
    sizes: list[int] = []

    def counted(raw: bytes) -> Prepared:
        sizes.append(len(raw))
        return prepare(raw)

    monkeypatch.setattr(load_photos, "prepare", counted)
    return sizes


def test_a_fleet_without_the_folder_has_no_photos(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    desk.folder.rmdir()
    photos, findings = desk.load()
    assert findings == []
    assert photos is not None
    assert photos.own("T-17") == ()


def test_a_picture_without_a_list_is_told_of(desk: Desk) -> None:
    desk.put("a.jpg", saved(corners()))
    photos, (finding,) = desk.load()
    assert photos is not None
    assert finding.rule.name == "photo-not-listed"
    assert finding.where == "specs/photos/a.jpg"
    assert "file: a.jpg" in finding.fix


def test_a_list_that_cannot_be_read_gives_nothing(desk: Desk) -> None:
    (desk.folder / "photos.yml").write_text("photos: [", encoding="utf-8")
    photos, findings = desk.load()
    assert photos is None
    assert all(each.is_error for each in findings)


@pytest.mark.skipif(os.name != "posix", reason="links and pipes are of POSIX")
def test_links_and_pipes_are_neither_followed_nor_opened(desk: Desk) -> None:
    outside = desk.folder.parents[1] / "secret.jpg"
    outside.write_bytes(saved(corners()))
    (desk.folder / "out.jpg").symlink_to(outside)
    (desk.folder / "beside.jpg").symlink_to("real.jpg")
    (desk.folder / "gone.jpg").symlink_to("nowhere.jpg")
    os.mkfifo(desk.folder / "pipe.jpg")
    (desk.folder / "folder.jpg").mkdir()
    desk.put("real.jpg", saved(corners()))
    desk.write("out.jpg", "beside.jpg", "gone.jpg", "pipe.jpg", "folder.jpg", "real.jpg")

    photos, findings = desk.load()

    assert photos is not None
    assert len(photos.own("T-17")) == 1
    assert [each.rule.name for each in findings] == ["photo-not-a-plain-file"] * 5


def test_a_file_beyond_all_measure_is_not_even_read(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, prepared: list[int]
) -> None:
    desk.put("a.jpg", saved(corners()))
    desk.write("a.jpg")
    monkeypatch.setattr(load_photos, "MOST_BYTES", 100)
    assert desk.rules() == ["photo-too-large"]
    assert prepared == []


def test_a_picture_is_prepared_once_and_again_when_it_was_written(
    desk: Desk, prepared: list[int]
) -> None:
    path = desk.put("a.jpg", saved(corners()))
    desk.write("a.jpg")
    os.utime(path, ns=(10**18, 10**18))
    first, _ = desk.load()
    second, _ = desk.load()
    store = desk.memory.store
    desk.memory = replace(desk.memory.saved(), store=store)  # another process
    third, _ = desk.load()
    assert first == second == third
    assert len(prepared) == 1

    path.write_bytes(saved(corners(400, 300)))
    fourth, _ = desk.load()
    assert fourth != first
    assert len(prepared) == 2


def test_a_truck_whose_file_has_faults_is_a_truck_all_the_same(desk: Desk) -> None:
    units = desk.project.specs / "units"
    units.mkdir()
    (units / "T-18.yml").write_text("?", encoding="utf-8")
    desk.put("a.jpg", saved(corners()))
    desk.write("a.jpg", units="[T-18]")
    assert desk.rules() == []
