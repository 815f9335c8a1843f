"""Whatever was changed, deleted or damaged before: a rebuild is a clean build, byte for byte."""

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from rebuilt_fleet import Builder, made_again, make_fleet, swap, times, write

from guidegen.build.fleet_memory import FleetMemory
from guidegen.finding import Findings
from guidegen.procedures.own.digest import digest_of
from guidegen.specs.vin import check_digit
from guidegen.yaml_nodes import read_yaml

Edit = Callable[[Builder], object]


@pytest.fixture(scope="module")
def built(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Builder:
    """A fleet as nobody has edited it, with its site built once; not to be changed."""
    made = Builder(make_fleet(project_root, tmp_path_factory.mktemp("built") / "fleet"))
    made.build()
    return made


@pytest.fixture
def fresh(built: Builder, tmp_path: Path) -> Builder:
    return built.copy(tmp_path)


def file_of(builder: Builder, *numbers: str) -> Path:
    """Return the file of a truck that other edits rename or take away."""
    places = (folder / f"{n}.yml" for folder in (builder.units, builder.root) for n in numbers)
    return next(path for path in places if path.exists())


def change_a_value(builder: Builder) -> None:
    swap(file_of(builder, "T-18", "T-81"), "highest_speed: 20 mph", "highest_speed: 25 mph")


def take_a_value_off_the_record(builder: Builder) -> None:
    swap(
        builder.root / "specs" / "models" / "drumlin-72.yml",
        "    cut_out: ",
        "    # nobody has read it: ",
    )


def change_a_value_of_the_model(builder: Builder) -> None:
    model = builder.root / "specs" / "models" / "drumlin-72.yml"
    swap(model, "oil_capacity: 42 qt", "oil_capacity: 43 qt")


def rename_the_file_of_a_model(builder: Builder) -> None:
    models = builder.root / "specs" / "models"
    old, new = models / "hush-26.yml", models / "hush.yml"
    if new.exists():
        old, new = new, old
    old.rename(new)


def add_a_truck(builder: Builder) -> None:
    add(builder, "T-19", "7Z9DT72S3MBDV4219", "SRC 419")


def add(builder: Builder, number: str, vin: str, plate: str) -> None:
    """Add a truck like T-18 but for what tells them apart."""
    like = file_of(builder, "T-18", "T-81")
    right = vin[:8] + check_digit(vin) + vin[9:]
    text = like.read_text(encoding="utf-8").replace(f"unit: {like.stem}", f"unit: {number}")
    text = text.replace("7Z9DT72S3MBDV4214", right).replace("SRC 418", plate)
    write(builder.units / f"{number}.yml", text)


def take_a_truck_away(builder: Builder) -> None:
    there, away = builder.units / "E-02.yml", builder.root / "E-02.yml"
    if there.exists():
        there.rename(away)
    else:
        away.rename(there)


def rename_a_truck(builder: Builder) -> None:
    old, new = ("T-18", "T-81") if (builder.units / "T-18.yml").exists() else ("T-81", "T-18")
    swap(builder.units / f"{old}.yml", f"unit: {old}", f"unit: {new}")
    (builder.units / f"{old}.yml").rename(builder.units / f"{new}.yml")


def move_a_truck_to_another_yard(builder: Builder) -> None:
    swap(file_of(builder, "E-02"), "mill-yard", "depot-yard")


def copy_the_plate_from_another_document(builder: Builder) -> None:
    swap(builder.units / "T-17.yml", "registration card", "registration of 2026")


def give_a_plate_that_is_no_plain_word(builder: Builder) -> None:
    swap(file_of(builder, "E-02"), "{value: SRC 102,", '{value: "SRC/102",', '{value: "SRC/103",')


def name_other_trucks_that_drivers_know(builder: Builder) -> None:
    fleet = builder.root / "specs" / "fleet.yml"
    swap(fleet, "trained_on: [T-17]", "trained_on: [T-17, E-02]", "# nobody has said")


def rename_the_fleet(builder: Builder) -> None:
    swap(builder.root / "specs" / "fleet.yml", "Rural Cooperative", "Cooperative")


def change_a_contact(builder: Builder) -> None:
    swap(builder.root / "specs" / "fleet.yml", "555-0111", "555-0118")


def change_the_text_of_a_procedure(builder: Builder) -> None:
    procedure = builder.root / "site_templates" / "procedures" / "tires.yml"
    swap(procedure, "with a long hose, and", "with a hose, and")


def change_the_order_of_procedures(builder: Builder) -> None:
    order = builder.root / "site_templates" / "procedure-order.yml"
    swap(order, "  - tires\n  - wheels\n", "  - wheels\n  - tires\n")


def change_a_house_rule(builder: Builder) -> None:
    swap(builder.root / "specs" / "own" / "house-rules" / "yards.md", "5 mph", "10 mph")


def keep_house_rules_for_one_yard(builder: Builder) -> None:
    head = '---\napplies: identity.yard == "mill-yard"\n---\n'
    swap(builder.root / "specs" / "own" / "house-rules" / "yards.md", "# Rules", f"{head}# Rules")


def replace_a_step(builder: Builder) -> None:
    original = (builder.root / "site_templates" / "procedures" / "horn.yml").read_bytes()
    table = read_yaml("horn.yml", original, Findings())
    assert table is not None
    file = builder.root / "specs" / "own" / "steps" / "horn.yml"
    file.parent.mkdir(exist_ok=True)
    replaces = f"replaces: {{procedure: horn, digest: '{digest_of(table)}'}}\n"
    step = "{id: walk, before: sound, text: Look around the truck.}"
    write(file, f"{replaces}steps:\n  - {step}\n")


def change_a_page_template(builder: Builder) -> None:
    page = builder.root / "site_templates" / "pages" / "start.html.j2"
    write(page, page.read_text(encoding="utf-8") + "{# of no effect #}")


def make_a_file_faulty(builder: Builder) -> None:
    swap(builder.units / "T-17.yml", "model: drumlin-72", "model: drumlin-7?")


def add_a_faulty_file(builder: Builder) -> None:
    write(builder.units / "X-99.yml", "unit: X-99\n")


def give_a_photo_to_another_truck(builder: Builder) -> None:
    swap(photos_of(builder), "units: [E-02]", "units: [E-02, T-18]")


def say_otherwise_what_is_on_a_photo(builder: Builder) -> None:
    swap(photos_of(builder), "with its heater", "with its heated glass")


def take_a_photo_anew(builder: Builder) -> None:
    folder = photos_of(builder).parent
    there, spare = folder / "washer-tank.jpg", folder / "battery-switch-T-17.jpg"
    one, two = there.read_bytes(), spare.read_bytes()
    there.write_bytes(two)
    spare.write_bytes(one)


def damage_a_photo(builder: Builder) -> None:
    photo = photos_of(builder).parent / "battery-switch-T-17.jpg"
    photo.write_bytes(photo.read_bytes()[:-4000])


def photos_of(builder: Builder) -> Path:
    return builder.root / "specs" / "photos" / "photos.yml"


def release(builder: Builder) -> None:
    builder.release("2026-11-30")


def some_unit(builder: Builder) -> Path:
    return max(builder.site.glob("*/pack.json")).parent


def delete_a_page(builder: Builder) -> None:
    (some_unit(builder) / "data.html").unlink()


def delete_a_page_of_the_fleet(builder: Builder) -> None:
    (builder.site / "index.html").unlink()


def overwrite_a_page(builder: Builder) -> None:
    page = some_unit(builder) / "index.html"
    page.write_bytes(b"?" * page.stat().st_size)


def leave_a_stray_file_with_a_truck(builder: Builder) -> None:
    write(some_unit(builder) / "stray.html", "stray")


def leave_stray_files_in_the_root(builder: Builder) -> None:
    write(builder.site / "stray.html", "stray")
    (builder.site / "strays").mkdir(exist_ok=True)
    write(builder.site / "strays" / "stray.html", "stray")
    if os.name == "posix" and not (builder.site / "nowhere").is_symlink():
        (builder.site / "nowhere").symlink_to("gone")


def put_a_folder_in_the_place_of_a_file(builder: Builder) -> None:
    (builder.site / "sw.js").unlink()
    (builder.site / "sw.js").mkdir()
    write(builder.site / "sw.js" / "stray.js", "stray")


def put_a_file_in_the_place_of_a_truck(builder: Builder) -> None:
    unit = some_unit(builder)
    shutil.rmtree(unit)
    write(unit, "stray")


def damage_the_report_of_the_proof(builder: Builder) -> None:
    write(builder.site / "office" / "proof.json", "{}")
    write(builder.site / "office" / "stray.txt", "stray")


def delete_the_site(builder: Builder) -> None:
    shutil.rmtree(builder.site)


def delete_the_store(builder: Builder) -> None:
    shutil.rmtree(builder.root / "store")


def damage_the_store(builder: Builder) -> None:
    for path in (builder.root / "store").glob("??/*"):
        path.write_bytes(path.read_bytes()[:-7])


def do_nothing(builder: Builder) -> None:
    pass


EDITS: tuple[Edit, ...] = (
    *(
        change_a_value,
        take_a_value_off_the_record,
        change_a_value_of_the_model,
        rename_the_file_of_a_model,
        add_a_truck,
    ),
    *(take_a_truck_away, rename_a_truck, move_a_truck_to_another_yard),
    *(copy_the_plate_from_another_document, give_a_plate_that_is_no_plain_word),
    *(name_other_trucks_that_drivers_know, rename_the_fleet, change_a_contact),
    *(change_the_text_of_a_procedure, change_the_order_of_procedures, change_a_page_template),
    *(give_a_photo_to_another_truck, take_a_photo_anew, damage_a_photo),
    *(change_a_house_rule, keep_house_rules_for_one_yard, replace_a_step),
    *(make_a_file_faulty, add_a_faulty_file, release),
    *(delete_a_page, delete_a_page_of_the_fleet, overwrite_a_page),
    *(leave_a_stray_file_with_a_truck, leave_stray_files_in_the_root),
    *(put_a_folder_in_the_place_of_a_file, put_a_file_in_the_place_of_a_truck),
    *(damage_the_report_of_the_proof, delete_the_site, delete_the_store, damage_the_store),
    do_nothing,
)


def same(builder: Builder, edit: str) -> None:
    again, anew = builder.build(), builder.build_anew()
    assert again.published, (edit, again.found)
    assert set(again.files) == set(anew.files), edit
    assert [name for name, raw in anew.files.items() if again.files[name] != raw] == [], edit
    assert again.found == anew.found, edit
    assert again.counts == anew.counts, edit


# Every edit once, in an order by lot: each meets what others have left.
@settings(
    max_examples=1,
    derandomize=True,
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)
@given(order=st.randoms(use_true_random=False).map(lambda lots: lots.sample(EDITS, len(EDITS))))
def test_a_rebuild_after_any_edits_is_a_clean_build(
    built: Builder, tmp_path_factory: pytest.TempPathFactory, order: list[Edit]
) -> None:
    builder = built.copy(tmp_path_factory.mktemp("edited"))
    for edit in order:
        edit(builder)
        same(builder, edit.__name__)


def again(builder: Builder, *edits: Edit) -> set[str]:
    """Return the units that are made again after *edits*."""
    before = times(builder.site)
    for edit in edits:
        edit(builder)
    builder.build()
    return set(made_again(before, times(builder.site)))


def test_only_trucks_that_come_out_otherwise_are_made_again(fresh: Builder) -> None:
    assert again(fresh, do_nothing) == set()
    assert again(fresh, move_a_truck_to_another_yard) == {"E-02"}
    assert again(fresh, copy_the_plate_from_another_document) >= {"T-17"}
    assert again(fresh, change_a_value) == {"T-18"}
    assert again(fresh, add_a_truck) == {"T-19"}
    assert again(fresh, overwrite_a_page) == {"T-19"}
    assert again(fresh, leave_stray_files_in_the_root, delete_a_page_of_the_fleet) == set()
    assert again(fresh, rename_a_truck) == {"T-81"}
    assert again(fresh, lambda _: (fresh.units / "T-81.yml").unlink()) == set()
    same(fresh, "all of these")


def test_a_photo_makes_its_own_trucks_again(fresh: Builder) -> None:
    assert again(fresh, say_otherwise_what_is_on_a_photo) == {"E-02"}
    assert again(fresh, give_a_photo_to_another_truck) == {"T-18"}


LENGTHS = "overall_length: 30 ft 5 in", "overall_length: 30 ft 6 in"


def test_a_value_of_a_model_makes_its_trucks_again(fresh: Builder) -> None:
    model = fresh.root / "specs" / "models" / "hush-26.yml"

    assert again(fresh, lambda _: swap(model, "source:", "# a remark\nsource:")) == set()
    assert again(fresh, lambda _: swap(model, LENGTHS[0], LENGTHS[1])) == {"E-02"}
    same(fresh, "a value of a model")


@pytest.mark.parametrize("plates", [("SRC/102", "SRC/103"), ("SRÇ 102", "SRÇ 103")])
def test_a_plate_that_is_no_plain_word_is_printed_as_it_is_now(
    fresh: Builder, plates: tuple[str, str]
) -> None:
    file = fresh.units / "E-02.yml"
    swap(file, "value: SRC 102,", f'value: "{plates[0]}",')
    fresh.build()

    assert again(fresh, lambda _: swap(file, *plates)) == {"E-02"}
    assert plates[1].encode() in (fresh.site / "E-02" / "data.html").read_bytes()
    same(fresh, plates[1])


def test_a_page_written_over_within_the_same_second_and_of_the_same_size_is_noticed(
    fresh: Builder,
) -> None:
    page = fresh.site / "T-18" / "index.html"
    left = page.stat()
    page.write_bytes(page.read_bytes()[::-1])
    # The next nanosecond that the file system tells apart; the second stays the same.
    within = left.st_mtime_ns + (100 if left.st_mtime_ns % 10**9 < 10**9 - 100 else -100)
    os.utime(page, ns=(within, within))

    assert again(fresh) == {"T-18"}
    same(fresh, "within the same second")


def test_a_number_that_is_held_back_is_looked_for_in_trucks_that_stand(fresh: Builder) -> None:
    # Until now a word of the text; now the number of a truck whose file has faults.
    write(fresh.units / "70R19.yml", "unit: 70R19\n")
    again_, anew = fresh.build(), fresh.publish(fresh.root.with_name("other"), FleetMemory())

    assert not anew.published
    assert not again_.published
    assert again_.found == anew.found


def test_a_spec_written_within_the_tick_of_the_last_build_is_noticed(fresh: Builder) -> None:
    file = fresh.units / "T-18.yml"
    text = file.read_text(encoding="utf-8")
    write(file, text)  # as new as the build that reads it
    fresh.build()
    at = file.stat().st_mtime_ns
    with file.open("r+", encoding="utf-8", newline="\n") as open_file:
        open_file.write(text.replace("highest_speed: 20 mph", "highest_speed: 25 mph"))
    # A clock of coarse steps shows the same time for both.
    os.utime(file, ns=(at, at))

    assert again(fresh) == {"T-18"}
    same(fresh, "within the tick")


def test_a_settled_spec_is_not_read_again_and_a_touched_one_is(fresh: Builder) -> None:
    for path in fresh.units.iterdir():
        os.utime(path, ns=(10**18, 10**18))
    memory = FleetMemory()
    fresh.publish(fresh.site, memory)
    known = {name: record for name, (_, record) in memory.records.items()}
    os.utime(fresh.units / "T-18.yml", ns=(10**18 + 1, 10**18 + 1))
    fresh.publish(fresh.site, memory)

    read = {name for name, (_, record) in memory.records.items() if record is not known[name]}
    assert read == {"specs/units/T-18.yml"}


def test_every_run_tells_what_was_found_and_not_only_the_first(fresh: Builder) -> None:
    # Each holds its own truck back.
    swap(fresh.units / "T-18.yml", "7Z9DT72S3MBDV4214", "7Z9DT72S4MBDV4214")
    write(fresh.units / "X-99.yml", "unit: X-99\n")
    first, second, third = fresh.build(), fresh.build(), fresh.build()

    assert first.published
    assert {line.split()[0] for line in first.found} >= {"vin-check-digit"}
    assert first.found == second.found == third.found == fresh.build_anew().found
