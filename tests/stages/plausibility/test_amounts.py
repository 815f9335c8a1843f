from fractions import Fraction

import pytest
from one_unit import look_at

from guidegen.plausibility.case import Case
from guidegen.plausibility.identity.weight_class import weight_class


@pytest.mark.parametrize(
    ("pressure", "load_range", "is_high"),
    [
        ("110 psi", "G", False),
        ("111 psi", "G", True),
        ("125 psi", "H", False),
        ("126 psi", "H", True),
        ("9 bar", "L", False),
        ("760 kPa", "G", True),
        ("140 psi", "N", False),
    ],
)
def test_tire_pressure_is_compared_with_the_load_range(
    pressure: str, load_range: str, *, is_high: bool
) -> None:
    """From memory: what sidewalls of truck tires commonly print."""
    tires = f"tires:\n  steer: {{load_range: {load_range}, cold_pressure: {pressure}}}\n"

    assert ("tire-pressure-above-load-range" in look_at(tires).rules) == is_high


@pytest.mark.parametrize(
    ("configuration", "steer", "drive", "tag", "adds_up"),
    [
        ("4x2", 2, 4, 0, True),
        ("4x2", 2, 2, 0, True),
        ("4x2", 2, 8, 0, False),
        ("4x4", 2, 4, 0, True),
        ("6x2", 2, 4, 2, True),
        ("6x4", 2, 8, 0, True),
        ("6x4", 2, 4, 0, True),
        ("6x4", 2, 10, 0, False),
        ("6x6", 2, 8, 0, True),
        ("8x4", 2, 8, 2, True),
        ("8x4", 4, 8, 0, True),
        ("8x4", 2, 8, 0, False),
    ],
)
def test_tires_add_up_to_the_axle_configuration(
    configuration: str, steer: int, drive: int, tag: int, *, adds_up: bool
) -> None:
    tag_tires = f"{{count: {tag}}}" if tag else "not fitted"
    found = look_at(
        f"axles: {{configuration: {configuration}}}\n"
        f"tires:\n  steer: {{count: {steer}}}\n  drive: {{count: {drive}}}\n  tag: {tag_tires}\n"
    ).rules

    assert ("tire-count-unlike-axles" in found) != adds_up


@pytest.mark.parametrize(
    ("between", "capacity", "is_unusual"),
    [
        ("4 qt", "42 qt", False),
        ("2 L", "13.5 L", False),
        ("1 qt", "42 qt", True),
        ("4 qt", "12 qt", True),
        ("16 qt", "12 qt", True),
    ],
)
def test_oil_between_the_marks_is_a_part_of_the_whole(
    between: str, capacity: str, *, is_unusual: bool
) -> None:
    """Common practice, no source."""
    engine = f"engine: {{oil_capacity: {capacity}, oil_between_marks: {between}}}\n"

    assert ("oil-between-marks-out-of-scale" in look_at(engine).rules) == is_unusual


@pytest.mark.parametrize(
    ("tank", "count", "each", "is_unusual"),
    [
        ("21 gal", 2, "120 gal", False),
        ("7 gal", 2, "120 gal", True),
        ("25 L", 1, "140 L", False),
        ("50 gal", 1, "100 gal", True),
    ],
)
def test_the_def_tank_fits_the_fuel_tanks(
    tank: str, count: int, each: str, *, is_unusual: bool
) -> None:
    """Consumption of DEF: 2 to 6 percent of the fuel, by five pages of the trade."""
    found = look_at(
        f"fuel_tanks: {{count: {count}, capacity_each: {each}}}\n"
        f"def_system: {{tank_capacity: {tank}}}\n"
    ).rules

    assert ("def-tank-out-of-scale" in found) == is_unusual


@pytest.mark.parametrize(
    ("gvwr", "number"),
    [
        ("10,000 lb", 2),
        ("10,001 lb", 3),
        ("14,000 lb", 3),
        ("14,001 lb", 4),
        ("16,001 lb", 5),
        ("19,501 lb", 6),
        ("26,000 lb", 6),
        ("26,001 lb", 7),
        ("33,000 lb", 7),
        ("33,001 lb", 8),
        ("8,150 kg", 5),
    ],
)
def test_classes_have_the_limits_of_the_table(gvwr: str, number: int) -> None:
    """49 CFR 565.15 Table II, from memory; 10,000 lb is printed there as a limit."""
    unit = look_at(f"identity: {{gvwr: '{gvwr}'}}\n").units["T-1"]

    assert weight_class(Case(unit, {})) == number


@pytest.mark.parametrize(
    ("rest", "is_unusual"),
    [
        ("axles: {configuration: 6x4}", True),
        ("axles: {configuration: 4x2}", False),
        ("brakes:\n  air: {tank_count: 3}", True),
        ("brakes:\n  hydraulic: {fluid: DOT 3}", False),
    ],
)
def test_a_light_truck_has_two_axles_and_hydraulic_brakes(rest: str, *, is_unusual: bool) -> None:
    found = look_at(f"identity: {{gvwr: '12,000 lb'}}\n{rest}\n").rules

    assert found == ({"weight-class-unusual"} if is_unusual else set())


@pytest.mark.parametrize(
    ("gvwr", "is_above"), [("52,350 lb", False), ("52,351 lb", True), ("23,745 kg", False)]
)
def test_the_axles_carry_the_gross_weight(gvwr: str, *, is_above: bool) -> None:
    """49 CFR Part 567, from memory."""
    found = look_at(
        f"identity: {{gvwr: '{gvwr}'}}\n"
        "axles: {front_rating: '12,350 lb', rear_rating: '40,000 lb'}\n"
    ).rules

    assert found == ({"gvwr-above-axle-ratings"} if is_above else set())


@pytest.mark.parametrize(
    ("power", "voltage", "current", "is_off"),
    [
        ("1,000 W", "120 V", "8.33 A", False),
        ("1,000 W", "120 V", "8.4 A", False),
        ("1,000 W", "120 V", "8.5 A", True),
        ("1,000 W", "120 V", "8.2 A", True),
        ("600 W", "120 V", "5 A", False),
        ("600 W", "240 V", "5 A", True),
    ],
)
def test_current_is_power_over_voltage(
    power: str, voltage: str, current: str, *, is_off: bool
) -> None:
    watts, volts = (Fraction(text.split()[0].replace(",", "")) for text in (power, voltage))
    amperes = Fraction(current.split(maxsplit=1)[0])
    assert (abs(amperes - watts / volts) > watts / volts / 100) == is_off

    heater = f"block_heater: {{power: '{power}', voltage: {voltage}, current: {current}}}\n"
    assert ("heater-current-off" in look_at(heater).rules) == is_off


@pytest.mark.parametrize(
    ("power", "circuit", "is_above"),
    [
        ("1,440 W", "", False),
        ("1,450 W", "", True),
        ("1,500 W", ", circuit: 15 A", True),
        ("1,500 W", ", circuit: 20 A", False),
        ("2,000 W", ", circuit: 20 A", True),
    ],
)
def test_a_heater_takes_four_fifths_of_its_circuit_at_most(
    power: str, circuit: str, *, is_above: bool
) -> None:
    """National Electrical Code, continuous loads, from memory: 12 A of 15, 16 A of 20."""
    heater = f"block_heater: {{power: '{power}', voltage: 120 V{circuit}}}\n"

    assert look_at(heater).rules == ({"heater-above-circuit"} if is_above else set())


@pytest.mark.parametrize(
    ("duration", "is_unusual"),
    [
        ("15 to 60 min", False),
        ("14 to 30 min", True),
        ("30 to 61 min", True),
        ("20 min", False),
        ("0.5 to 1 h", False),
    ],
)
def test_a_regeneration_takes_a_quarter_to_a_whole_hour(duration: str, *, is_unusual: bool) -> None:
    """Common practice, no source."""
    text = f"aftertreatment:\n  parked_regeneration: {{duration: {duration}}}\n"

    assert look_at(text).rules == ({"regeneration-time-unusual"} if is_unusual else set())


@pytest.mark.parametrize("segments", range(2, 17))
def test_a_def_gauge_has_an_even_number_of_bars(segments: int) -> None:
    """Common practice, no source."""
    found = look_at(f"def_system: {{gauge_segments: {segments}}}\n").rules

    assert (found == set()) == (segments in {4, 6, 8, 10, 12})


def test_a_year_that_the_model_states_is_compared_with_the_vin_of_the_unit() -> None:
    looked = look_at("identity: {vin: 1M8GDM9AXKP042788}\n", model="identity: {year: 2018}")

    assert looked.rules == {"vin-year"}
    assert looked.what("vin-year") == (
        "`identity.year: 2018`, and position 10 of the VIN means 1989 or 2019"
    )


def test_a_year_and_a_vin_of_one_file_are_told_of_once() -> None:
    looked = look_at("identity: {vin: 1M8GDM9AXKP042788, year: 2018}\n")

    assert len(looked.findings) == 1
