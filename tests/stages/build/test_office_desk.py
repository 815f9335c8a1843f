"""What is missing, for the office: the same from one truck of each kind as from all of them."""

import csv
import io
import re
import shutil
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from few_trucks import keep

from guidegen.build.fleet_memory import FleetMemory
from guidegen.build.load import Loaded
from guidegen.build.missing import CSV_NAME, faulty_units, fleet_gaps
from guidegen.build.office_desk import MOST_FORMS, office_desk
from guidegen.build.prove_office import INDEX_NAME
from guidegen.build.publication import open_publication
from guidegen.build.published import Published
from guidegen.build.store import Store
from guidegen.gaps.find import Finder, find_gaps
from guidegen.gaps.model import UnitGaps
from guidegen.gaps.page import PAGE_NAME
from guidegen.gaps.shop_list import as_csv, shop_rows
from guidegen.units.model import Unit

TWINS = MOST_FORMS + 2


@pytest.fixture(scope="module")
def fleet(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three trucks and twins of one; a value of its model is off the record."""
    folder = tmp_path_factory.mktemp("desk")
    for name in ("specs", "site_templates"):
        shutil.copytree(project_root / name, folder / name)
    shutil.copy(project_root / "mkdocs.yml", folder)
    root = keep(folder)
    model = root / "specs" / "models" / "drumlin-72.yml"
    model.write_text(model.read_text("utf-8").replace("    cut_out: ", "    # "), "utf-8")
    first = (root / "specs" / "units" / "T-18.yml").read_text("utf-8")
    for number in range(TWINS):
        # Without VIN and plate, which no two trucks share.
        text = re.sub(r"(?m)^  (vin|plate):.*\n", "", first).replace("T-18", f"T-9{number:02}")
        (root / "specs" / "units" / f"T-9{number:02}.yml").write_text(text, "utf-8")
    return root


def published(root: Path, store: Store | None = None) -> tuple[Published, FleetMemory]:
    memory = FleetMemory(store=store)
    opened = open_publication(root, memory=memory)
    made = Published(
        opened.project,
        opened.loaded,
        opened.quizzes,
        has_cards=False,
        faulty=faulty_units(opened.findings),
    )
    return made, memory


@pytest.fixture(scope="module")
def loaded(fleet: Path) -> Loaded:
    return published(fleet)[0].loaded


def said(each: UnitGaps) -> list[tuple[str, object, object]]:
    """Return what is on record of a truck; where it stands may be the file of a twin."""
    return [(fact.name, fact.value, fact.shown) for fact in each.unit.facts.values()]


def test_trucks_that_state_the_same_are_told_as_if_each_was_looked_at(loaded: Loaded) -> None:
    by_group = fleet_gaps(loaded, frozenset())
    one_by_one = find_gaps(list(loaded.units.values()), loaded.library)

    assert list(by_group.units) == list(one_by_one.units)
    assert by_group.held_back == one_by_one.held_back
    assert {n: each.gaps for n, each in by_group.units.items()} == {
        n: each.gaps for n, each in one_by_one.units.items()
    }
    assert as_csv(shop_rows(by_group)) == as_csv(shop_rows(one_by_one))
    for number, each in by_group.units.items():
        assert said(each) == said(one_by_one.units[number])


def test_the_folder_holds_page_list_and_forms_of_the_trucks_that_wait(fleet: Path) -> None:
    made, memory = published(fleet)

    files = office_desk(made, memory, has_own=True).files

    forms = [name for name in files if name.startswith("forms/")]
    assert len(forms) == MOST_FORMS
    assert {Path(name).stem for name in forms} <= set(
        fleet_gaps(made.loaded, frozenset()).held_back
    )
    assert all(files[name].startswith(b"%PDF") for name in forms)
    # Spreadsheets take a file that begins with this mark for UTF-8: RFC 3629, section 6.
    assert files[CSV_NAME].startswith(b"\xef\xbb\xbf")
    lines = list(csv.DictReader(io.StringIO(files[CSV_NAME].decode("utf-8-sig"))))
    holding = {line["unit"] for line in lines if line["holds back"].startswith("holds")}
    assert holding == {n for n in made.loaded.units if n not in made.loaded.guides}
    assert b"brakes.air.cut_out" in files[PAGE_NAME]
    assert f'href="{CSV_NAME}"'.encode() in files[PAGE_NAME]
    assert f'href="{PAGE_NAME}"'.encode() in files[INDEX_NAME]


def made_files(made: Published, memory: FleetMemory) -> Mapping[str, bytes]:
    """Return the files as a build does that has found nothing wrong with them."""
    desk = office_desk(made, memory, has_own=True)
    desk.keep(memory.store or Store(None, ""))
    return desk.files


def test_what_is_not_proved_is_not_kept(fleet: Path, tmp_path: Path) -> None:
    store = Store(tmp_path / "store", "this program")
    made, memory = published(fleet, store)

    first = office_desk(made, memory, has_own=True)
    again = office_desk(made, memory, has_own=True)
    again.keep(store)

    assert first.gaps is not None
    assert again.gaps is not None
    assert office_desk(made, memory, has_own=True).gaps is None


def test_nothing_is_made_twice_of_the_same_specs_and_all_anew_of_others(
    fleet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = Path(shutil.copytree(fleet, tmp_path / "fleet"))
    store = Store(tmp_path / "store", "this program")
    fleet_file = root / "specs" / "fleet.yml"
    # Without a date there are no forms, and this is quick.
    fleet_file.write_text(
        re.sub(r"(?m)^(issued|address):.*\n", "", fleet_file.read_text("utf-8")), "utf-8"
    )
    before, memory = published(root, store)
    first = made_files(before, memory)
    with monkeypatch.context() as patch:
        # Whatever is made begins with this.
        patch.setattr("guidegen.build.office_desk.fleet_gaps", None)
        assert made_files(before, memory) == first

    unit = root / "specs" / "units" / "T-900.yml"
    unit.write_text(unit.read_text("utf-8").replace("unit: T-900", "unit: T-899"), "utf-8")
    unit.rename(unit.with_name("T-899.yml"))
    after, memory = published(root, store)
    knows_nothing = FleetMemory(base=memory.base)

    assert made_files(after, memory) == made_files(after, knows_nothing) != first
    assert b"T-899" in made_files(after, memory)[CSV_NAME]


def test_what_is_missing_is_looked_for_only_where_something_changed(
    fleet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = Path(shutil.copytree(fleet, tmp_path / "fleet"))
    before, memory = published(root)
    first = fleet_gaps(before.loaded, frozenset(), memory.known_gaps())
    remembered = FleetMemory(gaps=memory.gaps)
    unit = root / "specs" / "units" / "T-900.yml"
    unit.write_text(unit.read_text("utf-8").replace("year: ", "# year: "), "utf-8")
    opened = open_publication(root, memory=remembered)
    looked: list[str] = []
    monkeypatch.setattr(Finder, "of", watched(Finder.of, looked))

    after = fleet_gaps(opened.loaded, frozenset(), remembered.known_gaps())
    anew = fleet_gaps(opened.loaded, frozenset())

    assert looked[0] == "T-900"
    assert looked.count("T-900") == 2
    assert len(looked) == 1 + len(remembered.known_gaps())
    assert after == anew != first
    assert as_csv(shop_rows(after)) == as_csv(shop_rows(anew))


def watched(
    of: Callable[[Finder, Unit], UnitGaps], looked: list[str]
) -> Callable[[Finder, Unit], UnitGaps]:
    def looks(finder: Finder, unit: Unit) -> UnitGaps:
        looked.append(unit.number)
        return of(finder, unit)

    return looks


def test_what_was_missing_under_another_library_is_forgotten(fleet: Path) -> None:
    made, memory = published(fleet)
    fleet_gaps(made.loaded, frozenset(), memory.known_gaps())
    assert memory.known_gaps()

    memory.base = "another"

    assert memory.known_gaps() == {}
