import errno

import pytest
from clerk import at_desk, files_of
from faulty_disk import FaultyDisk
from spec_office import Office

from guidegen.build.workbook_import import write_import
from guidegen.finding import Findings


def test_an_export_that_nobody_touched_changes_nothing(office: Office) -> None:
    before = files_of(office.specs)

    plan = office.take(office.export())

    assert plan.lines == ()
    assert files_of(office.specs) == before


def test_one_cell_changes_the_text_of_one_value_and_nothing_else(office: Office) -> None:
    desk = office.desk()
    place = desk.type("T-18", "tires.steer.cold_pressure", "110 psi")
    before = office.text("units/T-18.yml")

    plan = office.take(desk.save())

    assert plan.lines == (
        f"T-18 tires.steer.cold_pressure 115 → 110 psi, sheet Tires, cell {place.split('!')[1]}",
    )
    wanted = before.replace("cold_pressure: 115 psi", "cold_pressure: 110 psi")
    assert office.text("units/T-18.yml") == wanted


def test_a_value_of_the_model_tells_which_trucks_follow(office: Office) -> None:
    desk = office.desk()
    desk.type("drumlin-72", "tires.steer.cold_pressure", "105 psi")

    plan = office.take(desk.save())

    # T-18 has tires of its own.
    assert plan.lines[0].endswith("; also for T-17")
    assert "cold_pressure: 105 psi" in office.text("models/drumlin-72.yml")


def test_a_value_over_an_inherited_one_becomes_the_trucks_own(office: Office) -> None:
    desk = office.desk()
    assert desk.read("T-17", "engine.oil_capacity") == "42 qt"
    desk.type("T-17", "engine.oil_capacity", "3.70 gal")

    plan = office.take(desk.save())

    assert "42 qt (of the model) → 3.70 gal" in plan.lines[0]
    assert "\nengine:\n  oil_capacity: 3.70 gal\n" in office.text("units/T-17.yml")
    assert at_desk(office.export()).read("T-17", "engine.oil_capacity") == "3.70 gal"


def test_a_cleared_cell_takes_the_trucks_own_value_out(office: Office) -> None:
    desk = office.desk()
    desk.type("T-18", "identity.overall_height", None)

    office.take(desk.save())

    assert "overall_height" not in office.text("units/T-18.yml")
    assert at_desk(office.export()).read("T-18", "identity.overall_height") == "12 ft 11 in"


def test_the_last_value_of_a_section_takes_the_section_with_it(office: Office) -> None:
    desk = office.desk()
    desk.type("T-17", "block_heater.circuit", None)

    office.take(desk.save())

    assert "block_heater" not in office.text("units/T-17.yml")
    assert "# The heater takes 12.5 A" in office.text("units/T-17.yml")


def test_a_cleared_inherited_cell_changes_nothing(office: Office) -> None:
    desk = office.desk()
    desk.type("T-17", "engine.oil_capacity", None)

    assert office.take(desk.save()).lines == ()


def test_not_fitted_takes_the_place_of_a_sections_values(office: Office) -> None:
    desk = office.desk()
    desk.type("T-18", "differential_lock", "not fitted")
    lamps = str(desk.read("T-18", "lamps.fitted"))
    desk.type("T-18", "lamps.fitted", lamps.replace("differential_lock, ", ""))

    office.take(desk.save())

    text = office.text("units/T-18.yml")
    assert "\ndifferential_lock: not fitted\n" in text
    assert "highest_speed: 20 mph" not in text
    assert "# The differential lock took the place of the idle switch." in text


def test_a_thing_that_was_not_fitted_becomes_fitted_with_its_values(office: Office) -> None:
    desk = office.desk()
    desk.type("T-18", "idle_adjustment", "fitted")
    desk.type("T-18", "idle_adjustment.speed", "700 to 1,100 rpm")

    office.take(desk.save())

    assert "\nidle_adjustment:\n  speed: 700 to 1,100 rpm\n" in office.text("units/T-18.yml")


def test_taking_back_not_fitted_lets_the_truck_inherit_again(office: Office) -> None:
    desk = office.desk()
    desk.type("T-18", "idle_adjustment", None)

    office.take(desk.save())

    assert "idle_adjustment" not in office.text("units/T-18.yml")
    assert at_desk(office.export()).read("T-18", "idle_adjustment") == "fitted"


def test_a_lamp_more_is_a_line_more(office: Office) -> None:
    desk = office.desk()
    lamps = str(desk.read("drumlin-72", "lamps.fitted"))
    lamps = lamps.replace("charging,", "charging, body_up,")
    desk.type("drumlin-72", "lamps.fitted", lamps)
    before = office.text("models/drumlin-72.yml")

    plan, findings = office.plan(desk.save())

    assert plan is not None, list(findings)
    new = plan.files[0].new.decode()
    assert new == before.replace("    - charging\n", "    - charging\n    - body_up\n")


def test_a_new_truck_gets_its_file(office: Office) -> None:
    desk = office.desk()
    desk.enter(
        "Trucks",
        unit="T-99",
        model="drumlin-72",
        source="unit plate, read 2026-11-30",
        identity__vin="7Z9DT72S8MBDV4208",
        identity__yard="mill-yard",
    )
    desk.enter("Tires", kind="truck", key="T-99", tires__steer__cold_pressure="100 psi")

    plan = office.take(desk.save())

    assert plan.lines[0].startswith("T-99 is new: a truck of model drumlin-72, sheet Trucks, cell")
    text = office.text("units/T-99.yml")
    assert text == (
        "# yaml-language-server: $schema=../../schema/unit.schema.json\n"
        "unit: T-99\nmodel: drumlin-72\nsource: unit plate, read 2026-11-30\n"
        "\nidentity:\n  vin: 7Z9DT72S8MBDV4208\n  yard: mill-yard\n"
        "\ntires:\n  steer:\n    cold_pressure: 100 psi\n"
    )


def test_a_new_model_and_its_first_truck_come_in_one_workbook(office: Office) -> None:
    desk = office.desk()
    desk.enter("Models", model="larch-4", source="handbook, edition 1", identity__make="Larch")
    desk.enter("Trucks", unit="L-01", model="larch-4")
    desk.enter("Fuel and exhaust", kind="model", key="larch-4", gas_fuel="not fitted")

    office.take(desk.save())

    assert "\ngas_fuel: not fitted\n" in office.text("models/larch-4.yml")
    assert office.text("units/L-01.yml").endswith("unit: L-01\nmodel: larch-4\n")


def test_two_clerks_with_one_export_both_succeed_in_different_cells(office: Office) -> None:
    first, second = office.desk(), office.desk()
    first.type("T-18", "tires.steer.cold_pressure", "110 psi")
    second.type("T-18", "tires.drive.cold_pressure", "105 psi")
    second.type("T-18", "fifth_wheel.release", "pull handle on the right side")

    office.take(first.save())
    office.take(second.save())

    text = office.text("units/T-18.yml")
    assert "cold_pressure: 110 psi" in text
    assert "cold_pressure: 105 psi" in text
    assert "release: pull handle on the right side" in text


def test_two_clerks_in_one_cell_are_told_apart_at_the_cell(office: Office) -> None:
    first, second = office.desk(), office.desk()
    first.type("T-18", "tires.steer.cold_pressure", "110 psi")
    place = second.type("T-18", "tires.steer.cold_pressure", "105 psi")
    office.take(first.save())

    assert office.refused(second.save()) == [(f"fleet.xlsx:{place}", "changed-on-both-sides")]


def test_two_clerks_with_the_same_value_agree(office: Office) -> None:
    desk = office.desk()
    desk.type("T-18", "tires.steer.cold_pressure", "110 psi")
    office.take(desk.save())

    assert office.take(desk.save()).lines == ()


def test_a_value_in_a_thing_that_somebody_took_out_is_a_conflict(office: Office) -> None:
    first, second = office.desk(), office.desk()
    first.type("T-18", "differential_lock", "not fitted")
    lamps = str(first.read("T-18", "lamps.fitted"))
    first.type("T-18", "lamps.fitted", lamps.replace("differential_lock, ", ""))
    place = second.type("T-18", "differential_lock.highest_speed", "15 mph")
    office.take(first.save())

    assert office.refused(second.save()) == [(f"fleet.xlsx:{place}", "changed-on-both-sides")]


def test_taking_out_a_thing_in_which_somebody_changed_a_value_is_a_conflict(office: Office) -> None:
    first, second = office.desk(), office.desk()
    first.type("T-18", "differential_lock.highest_speed", "15 mph")
    place = second.type("T-18", "differential_lock", "not fitted")
    office.take(first.save())

    assert office.refused(second.save()) == [(f"fleet.xlsx:{place}", "changed-on-both-sides")]


def test_a_truck_that_is_gone_does_not_come_back(office: Office) -> None:
    desk = office.desk()
    place = desk.type("T-18", "tires.steer.cold_pressure", "110 psi")
    (office.specs / "units" / "T-18.yml").unlink()

    assert office.refused(desk.save()) == [(f"fleet.xlsx:{place}", "record-gone")]


@pytest.mark.parametrize(
    ("name", "typed", "rule"),
    [
        ("tires.steer.cold_pressure", "1100 psi", "value-out-of-range"),
        ("tires.steer.cold_pressure", "110", "quantity-without-measure"),
        ("tires.steer.cold_pressure", 110, "quantity-without-measure"),
        ("tires.steer.cold_pressure", 110.5, "not-typed-as-text"),
        ("tires.steer.cold_pressure", "42 qt", "wrong-dimension"),
        ("tires.steer.count", "two", "not-a-count"),
        ("tires.steer.load_range", "Z", "text-of-wrong-form"),
        ("tires.steer.size", 11, "not-typed-as-text"),
        ("tires.steer.size", "x" * 32_000, "text-of-wrong-form"),
        ("tires.steer.size", "11\u202e5.22R", "not-typed-as-text"),
        ("tires.steer.size", "not fitted", "not-fitted-in-value"),
        ("tires.steer", "maybe", "fitted-unclear"),
        ("wheels.mounting", "glued", "unknown-choice"),
        ("identity.yard", "nowhere-yard", "unknown-yard"),
        ("identity.vin", "7Z9DT72S8MBDV4209", "vin-check-digit"),
        ("idle_adjustment.speed", "700 to 1,100 rpm", "value-not-fitted"),
        ("pto", "fitted", "fitted-without-value"),
        ("lamps.fitted", "low_air, low_air", "choice-twice"),
        ("brakes.air.cut_in", "135 psi", "pressures-out-of-order"),
    ],
)
def test_a_faulty_cell_is_named_and_nothing_is_planned(
    office: Office, name: str, typed: object, rule: str
) -> None:
    desk = office.desk()
    place = desk.type("T-18", name, typed)

    found = office.refused(desk.save())

    assert (f"fleet.xlsx:{place}", rule) in found, found


def test_all_faults_of_a_workbook_are_told_together(office: Office) -> None:
    desk = office.desk()
    desk.type("T-18", "tires.steer.cold_pressure", "110")
    desk.type("T-17", "wheels.mounting", "glued")
    desk.type("drumlin-72", "engine.oil_capacity", "9 psi")

    assert len(office.refused(desk.save())) == 3


def test_a_changed_value_that_keeps_its_source_is_warned_of(office: Office) -> None:
    desk = office.desk()
    desk.type("T-17", "block_heater.circuit", "15 A")

    plan, findings = office.plan(desk.save())

    assert plan is not None
    assert "old-source-kept" in [finding.rule.name for finding in findings]


def test_line_ends_and_byte_order_mark_of_a_file_stay(office: Office) -> None:
    path = office.specs / "units" / "T-18.yml"
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n").rstrip())
    before = path.read_bytes()
    desk = office.desk()
    desk.type("T-18", "tires.steer.cold_pressure", "110 psi")

    office.take(desk.save())

    assert path.read_bytes() == before.replace(b"115 psi", b"110 psi")


@pytest.mark.parametrize("fault", [errno.ENOSPC, errno.EROFS, errno.EACCES])
def test_a_full_disk_or_a_read_only_folder_is_told_and_changes_nothing(
    office: Office, fault: int
) -> None:
    desk = office.desk()
    desk.type("T-18", "tires.steer.cold_pressure", "110 psi")
    desk.type("T-17", "tires.steer.cold_pressure", "100 psi")
    plan, _ = office.plan(desk.save())
    assert plan is not None
    before = files_of(office.specs)
    for call in range(6):
        findings = Findings()

        assert not write_import(office.project, plan, findings, FaultyDisk(call, fault=fault))

        assert [finding.rule.name for finding in findings] == ["cannot-write"]
        assert files_of(office.specs) == before


def test_a_file_saved_between_plan_and_writing_is_told_and_kept(office: Office) -> None:
    desk = office.desk()
    desk.type("T-18", "tires.steer.cold_pressure", "110 psi")
    plan, _ = office.plan(desk.save())
    assert plan is not None
    path = office.specs / "units" / "T-18.yml"
    path.write_bytes(path.read_bytes() + b"# saved meanwhile\n")
    findings = Findings()

    assert not write_import(office.project, plan, findings)

    assert [finding.where for finding in findings] == ["specs/units/T-18.yml"]
    assert path.read_bytes().endswith(b"# saved meanwhile\n")


def test_a_comment_added_to_a_file_since_the_export_stays(office: Office) -> None:
    desk = office.desk()
    desk.type("T-18", "tires.steer.cold_pressure", "110 psi")
    path = office.specs / "units" / "T-18.yml"
    path.write_bytes(b"# Newer than the export.\n" + path.read_bytes())

    office.take(desk.save())

    assert office.text("units/T-18.yml").startswith("# Newer than the export.\n")
    assert "cold_pressure: 110 psi" in office.text("units/T-18.yml")
