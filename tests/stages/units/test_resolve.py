import pytest

from guidegen.finding import Findings
from guidegen.quantity.express import express
from guidegen.specs.fleet import Fleet
from guidegen.specs.model import Spec
from guidegen.specs.profile import LAW_CONCERNS, LAW_FACTS
from guidegen.specs.read import (
    read_fleet,
    read_model,
    read_profile,
    read_substances,
    read_unit,
)
from guidegen.units.model import Layer, Presence, StatedIn, Unit, WorkedOut
from guidegen.units.resolve import FleetSpecs, resolve_units

FLEET = "name: F\njurisdiction: us\nyards:\n  - {id: north, name: North Yard}\n"
PROFILE = "law:\n  name: United States\n  air_build_up_time: {value: 45 s, source: CDL manual}\n"
SUBSTANCES = "substance:\n  def_freezing_point: {value: 12 °F, quoted: -11 °C, source: ISO 22241}\n"
MODEL = """\
model: m
engine: {oil_capacity: 38 qt}
differential_lock: {highest_speed: 25 mph, control: dash switch}
tires:
  steer: {size: 11R22.5, cold_pressure: 100 psi}
  tag: not fitted
block_heater: {voltage: 120 V, power: 1000 W}
"""
UNIT = "unit: T-1\nmodel: m\nidentity: {yard: north, overall_height: 13 ft 6 in}\n"


def resolve(
    unit: str, model: str = MODEL, fleet: str = FLEET, profile: str = PROFILE
) -> tuple[Unit | None, Findings]:
    findings = Findings()
    specs = FleetSpecs(
        fleet=present(read_fleet("specs/fleet.yml", fleet.encode(), findings)),
        units={"T-1": spec(read_unit("specs/units/T-1.yml", unit.encode(), findings))},
        models={"m": spec(read_model("specs/models/m.yml", model.encode(), findings))},
        profile=spec(read_profile("profiles/us.yml", profile.encode(), findings)),
        substances=read_substances("substances.yml", SUBSTANCES.encode(), findings) or {},
    )
    return resolve_units(specs, findings).get("T-1"), findings


def present(fleet: Fleet | None) -> Fleet:
    assert fleet is not None
    return fleet


def spec(read: Spec | None) -> Spec:
    assert read is not None
    return read


def resolved(unit: str, model: str = MODEL, fleet: str = FLEET, profile: str = PROFILE) -> Unit:
    found, findings = resolve(unit, model, fleet, profile)
    assert list(findings) == []
    assert found is not None
    return found


def test_a_unit_inherits_what_its_model_states() -> None:
    fact = resolved(UNIT).facts["engine.oil_capacity"]

    assert isinstance(fact.provenance, StatedIn)
    assert fact.provenance.layer is Layer.MODEL
    assert fact.provenance.span.place == "specs/models/m.yml:2:24"


def test_the_units_own_value_goes_before_the_models() -> None:
    unit = resolved(UNIT + "tires:\n  steer: {cold_pressure: 110 psi}\n")

    fact = unit.facts["tires.steer.cold_pressure"]

    assert [express(amount) for amount in fact.shown] == ["110\u00a0psi", "760\u00a0kPa"]
    assert unit.facts["tires.steer.size"].value == "11R22.5"


def test_what_a_unit_does_not_have_takes_every_inherited_value_away() -> None:
    unit = resolved(UNIT + "differential_lock: not fitted\n")

    assert unit.sections["differential_lock"].presence is Presence.NOT_FITTED
    assert not [name for name in unit.facts if name.startswith("differential_lock.")]


def test_what_a_unit_has_that_its_model_lacks_is_fitted() -> None:
    unit = resolved(UNIT + "tires:\n  tag: {size: 10R22.5}\n")

    assert unit.sections["tires.tag"].presence is Presence.GIVEN
    assert unit.facts["tires.tag.size"].value == "10R22.5"


def test_a_section_in_no_file_is_not_on_record() -> None:
    assert resolved(UNIT).sections["cruise"].presence is Presence.NOT_ON_RECORD


def test_an_inner_section_of_a_thing_not_fitted_is_not_fitted() -> None:
    unit = resolved(UNIT + "tires: not fitted\n")

    assert unit.sections["tires.steer"].presence is Presence.NOT_FITTED


def test_overall_height_is_rounded_up_and_a_speed_limit_down() -> None:
    unit = resolved(UNIT)

    height = [express(amount) for amount in unit.facts["identity.overall_height"].shown]
    speed = [express(amount) for amount in unit.facts["differential_lock.highest_speed"].shown]

    assert height == ["13\u00a0ft\u00a06\u00a0in", "4.12\u00a0m"]
    assert speed == ["25\u00a0mph", "40\u00a0km/h"]


def test_a_fleet_chooses_which_measure_comes_first() -> None:
    fleet = FLEET + "measures: {first: metric, second: us, pressure: bar}\n"

    shown = resolved(UNIT, fleet=fleet).facts["tires.steer.cold_pressure"].shown

    assert [express(amount) for amount in shown] == ["6.9\u00a0bar", "100\u00a0psi"]


def test_the_heaters_current_is_worked_out_and_rounded_up() -> None:
    fact = resolved(UNIT).facts["block_heater.current"]

    # 1000 W / 120 V = 8.33 A (P = U·I)
    assert [express(amount) for amount in fact.shown] == ["8.4\u00a0A"]
    assert isinstance(fact.provenance, WorkedOut)
    assert fact.provenance.of == ("block_heater.power", "block_heater.voltage")


def test_pressure_below_which_nobody_adds_air_is_worked_out_for_each_position() -> None:
    """29 CFR 1910.177(f): 80 percent of the recommended pressure; CCOHS, split rims, says the same.

    110 psi gives 88 psi; 102 psi gives 81.6 psi, and a driver is not to fill at 81 psi either.
    """
    unit = resolved(
        UNIT + "tires:\n  steer: {cold_pressure: 110 psi}\n  drive: {cold_pressure: 102 psi}\n"
    )

    steer, drive = (unit.facts[f"tires.{at}.no_fill_pressure"] for at in ("steer", "drive"))

    assert [express(amount) for amount in steer.shown] == ["88\u00a0psi", "610\u00a0kPa"]
    assert [express(amount) for amount in drive.shown] == ["82\u00a0psi", "570\u00a0kPa"]
    assert isinstance(steer.provenance, WorkedOut)
    assert steer.provenance.of == ("tires.steer.cold_pressure",)
    assert "tires.tag.no_fill_pressure" not in unit.facts


@pytest.mark.parametrize(
    ("cold", "expected"),
    [("650 kPa", "520\u00a0kPa"), ("655 kPa", "530\u00a0kPa"), ("8.3 bar", "6.7\u00a0bar")],
)
def test_pressure_for_no_more_air_is_rounded_up_in_metric_measures_too(
    cold: str, expected: str
) -> None:
    unit = resolved(UNIT + f"tires:\n  steer: {{cold_pressure: {cold}}}\n")

    assert expected in [express(a) for a in unit.facts["tires.steer.no_fill_pressure"].shown]


def test_pressure_for_no_more_air_that_the_office_states_is_kept() -> None:
    unit = resolved(UNIT + "tires:\n  steer: {cold_pressure: 110 psi, no_fill_pressure: 95 psi}\n")

    fact = unit.facts["tires.steer.no_fill_pressure"]

    assert isinstance(fact.provenance, StatedIn)
    assert express(fact.shown[0]) == "95\u00a0psi"


def test_fluid_that_a_truck_carries_is_known_to_the_library_with_its_source() -> None:
    fact = resolved(UNIT + "def_system: {tank_capacity: 20 gal}\n").facts[
        "substance.def_freezing_point"
    ]

    assert isinstance(fact.provenance, StatedIn)
    assert (fact.provenance.layer, fact.provenance.source) == (Layer.LIBRARY, "ISO 22241")
    # ISO 22241: -11 °C, printed as 12 °F by the API program.
    assert [express(amount) for amount in fact.shown] == ["12\u00a0°F", "\u221211\u00a0°C"]


@pytest.mark.parametrize("stated", ["def_system: not fitted\n", ""])
def test_fluid_that_a_truck_does_not_carry_is_not_among_its_facts(stated: str) -> None:
    assert "substance.def_freezing_point" not in resolved(UNIT + stated).facts


@pytest.mark.parametrize(
    ("stated", "is_known"),
    [
        ("brakes: {air: not fitted}\n", False),
        ("brakes: {air: {cut_in: 105 psi}}\n", True),
        ("", True),
    ],
)
def test_limit_for_brakes_that_a_truck_has_not_is_not_among_its_facts(
    stated: str, *, is_known: bool
) -> None:
    assert ("law.air_build_up_time" in resolved(UNIT + stated).facts) is is_known


def test_every_limit_for_one_kind_of_brakes_is_said_to_be() -> None:
    of_air = {name for name, fact in LAW_FACTS.items() if "air " in fact.field.label.lower()}
    stated = {section: set[str]() for section in LAW_CONCERNS.values()}
    for name, section in LAW_CONCERNS.items():
        stated[section].add(name)

    assert stated["brakes.air"] == of_air
    assert stated["brakes.hydraulic"] == {"law.hydraulic_pedal_hold"}


def test_pair_of_a_rule_is_shown_as_the_rule_prints_it() -> None:
    """49 CFR 392.22(b): 10 ft (3 m), 100 ft (30 m); 100 ft exactly would be 30.48 m."""
    profile = PROFILE + (
        "  warning_device_far: {value: 100 ft, quoted: 30 m, source: 49 CFR 392.22}\n"
    )

    fact = resolved(UNIT, profile=profile).facts["law.warning_device_far"]

    assert [express(amount) for amount in fact.shown] == ["100\u00a0ft", "30\u00a0m"]
    assert fact.is_quoted


def test_pair_of_a_rule_keeps_the_order_of_the_fleet() -> None:
    fleet = FLEET + "measures: {first: metric, second: us}\n"
    profile = PROFILE + (
        "  warning_device_far: {value: 100 ft, quoted: 30 m, source: 49 CFR 392.22}\n"
    )

    fact = resolved(UNIT, fleet=fleet, profile=profile).facts["law.warning_device_far"]

    assert [express(amount) for amount in fact.shown] == ["30\u00a0m", "100\u00a0ft"]


def test_limits_of_the_law_come_from_the_profile_with_their_source() -> None:
    fact = resolved(UNIT).facts["law.air_build_up_time"]

    assert isinstance(fact.provenance, StatedIn)
    assert (fact.provenance.layer, fact.provenance.source) == (Layer.PROFILE, "CDL manual")


def test_a_unit_of_an_unknown_model_is_held_back_with_the_nearest_name() -> None:
    unit, findings = resolve(UNIT.replace("model: m", "model: mm"))

    assert unit is None
    assert [(f.rule.name, f.unit) for f in findings] == [("unknown-model", "T-1")]


def test_a_yard_that_the_fleet_does_not_list_is_reported() -> None:
    unit, findings = resolve(UNIT.replace("yard: north", "yard: nort"))

    assert unit is None
    assert [f.fix for f in findings] == ["did you mean `north`?"]


def test_pressures_that_disagree_across_files_are_reported() -> None:
    model = MODEL + "brakes:\n  air: {cut_out: 120 psi}\n"
    unit, findings = resolve(UNIT + "brakes:\n  air: {cut_in: 125 psi}\n", model)

    assert unit is None
    assert [f.rule.name for f in findings] == ["pressures-out-of-order"]
