"""The cord of a block heater is thick enough, by ampacity and by voltage drop."""

import itertools
import math
from decimal import Decimal

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from one_unit import HEAD, PROFILES

from guidegen.finding import Findings
from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Quantity
from guidegen.specs.read import read_fleet, read_model, read_profile, read_unit
from guidegen.specs.topics.electric import CORD_GAUGES
from guidegen.units.cords import (
    AMPACITIES,
    CORDS,
    LENGTHS,
    METRIC_SIZES,
    conductor_area,
    thinnest_gauge,
    voltage_drop,
)
from guidegen.units.model import Unit, WorkedOut
from guidegen.units.resolve import FleetSpecs, resolve_units
from guidegen.wording import value_words

US = "measures: {first: us, second: metric}\n"
METRIC = "measures: {first: metric, second: us}\n"
HEATER = "block_heater: {voltage: 120 V, power: '1,500 W'}\n"


def amount(number: str, measure: str) -> Quantity:
    return Quantity(Decimal(number), MEASURES[measure])


def truck(text: str, measures: str = US) -> Unit:
    findings = Findings()
    fleet_text = f"name: F\njurisdiction: us\n{measures}"
    fleet = read_fleet("specs/fleet.yml", fleet_text.encode(), findings)
    unit = read_unit("specs/units/T-1.yml", f"{HEAD}{text}".encode(), findings)
    model = read_model("specs/models/m.yml", b"model: m\nidentity: {make: Corvane}\n", findings)
    law = read_profile("us.yml", (PROFILES / "us.yml").read_bytes(), findings)
    assert fleet is not None
    assert unit is not None
    assert model is not None
    assert law is not None
    found = resolve_units(FleetSpecs(fleet, {"T-1": unit}, {"m": model}, law), findings)
    assert list(findings) == []
    return found["T-1"]


def table(unit: Unit) -> list[tuple[str, str]]:
    """Return the words for each length and its gauge, with plain spaces."""
    names = [f"block_heater.{cord}" for cord in CORDS]
    return [
        (
            value_words(unit.facts[name]).replace("\u00a0", " "),
            value_words(unit.facts[f"{name}_gauge"]).replace("\u00a0", " "),
        )
        for name in names
    ]


# The areas that the appliance standard prints beside the ampacities of NEC Table 400.5(A).
@pytest.mark.parametrize(
    ("gauge", "area"), [(18, "0.82"), (16, "1.31"), (14, "2.08"), (12, "3.31")]
)
def test_a_conductor_has_the_area_that_tables_of_ampacities_print(gauge: int, area: str) -> None:
    assert f"{float(conductor_area(gauge)):.2f}" == area


# Worked out by others for 12.5 A (1,500 W at 120 V) in copper, in percent of 120 V.
@pytest.mark.parametrize(
    ("feet", "gauge", "percent"),
    [
        *[("50", 16, 4.2), ("50", 14, 2.6), ("50", 12, 1.7)],
        *[("100", 16, 8.4), ("100", 14, 5.3), ("100", 12, 3.3)],
    ],
)
def test_the_voltage_drop_is_that_of_published_reckonings(
    feet: str, gauge: int, percent: float
) -> None:
    drop = voltage_drop(gauge, amount(feet, "ft"), amount("12.5", "A"))

    assert round(float(drop) / 120 * 100, 1) == percent


@pytest.mark.parametrize("gauge", AMPACITIES)
def test_the_voltage_drop_agrees_with_the_electricians_constant(gauge: int) -> None:
    """10.371 ohm circular mils a foot at 20 °C: the copper wire tables of the Bureau of Standards.

    The value is stated from memory; it is 1/58 ohm square millimeters a meter in other measures.
    """
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    mils = 5 * 92 ** ((36 - gauge) / 39)
    resistance = registry.Quantity(10.371 * 2 * 75 / mils**2, "ohm")
    expected = (resistance * registry.Quantity(9.3, "ampere")).to("volt").magnitude

    drop = voltage_drop(gauge, amount("75", "ft"), amount("9.3", "A"))

    assert float(drop) == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize("volts", [110, 120, 208, 230, 240])
def test_each_gauge_is_the_one_that_a_plain_search_in_floats_finds(volts: int) -> None:
    ampacities = {18: 10.0, 16: 13.0, 14: 18.0, 12: 25.0}
    found = []
    for tenths, feet in itertools.product(range(5, 301, 7), range(10, 201, 5)):
        amps, meters = tenths / 10, feet * 0.3048
        fits = [
            gauge
            for gauge, most in ampacities.items()
            if tenths * 10 <= 80 * most
            and amps * 2 * meters / 58 / (math.pi / 4 * (0.127 * 92 ** ((36 - gauge) / 39)) ** 2)
            <= 0.03 * volts
        ]
        expected = max(fits, default=None)
        heater = amount(str(amps), "A"), amount(str(volts), "V")
        found.append(thinnest_gauge(*heater, amount(str(feet), "ft")) == expected)

    assert len(found) > 1000
    assert all(found)


@given(
    tenths=st.integers(10, 300),
    volts=st.integers(100, 250),
    feet=st.integers(10, 199),
    more=st.integers(1, 50),
)
def test_more_current_or_a_longer_cord_never_makes_it_thinner(
    tenths: int, volts: int, feet: int, more: int
) -> None:
    def area(tenths: int, feet: int) -> float:
        amps = Quantity(Decimal(tenths) / 10, MEASURES["A"])
        gauge = thinnest_gauge(amps, amount(str(volts), "V"), amount(str(feet), "ft"))
        return math.inf if gauge is None else float(conductor_area(gauge))

    assert area(tenths, feet) <= area(tenths + more, feet)
    assert area(tenths, feet) <= area(tenths, feet + more)


# Four fifths of NEC Table 400.5(A) as the appliance standard quotes it: 10, 13, 18 and 25 A. A
# cord of no length drops nothing.
@pytest.mark.parametrize(
    ("amps", "gauge"),
    [
        *[("8", 18), ("8.1", 16), ("10.4", 16), ("10.5", 14), ("14.4", 14)],
        *[("14.5", 12), ("20", 12), ("20.1", None)],
    ],
)
def test_the_ampacity_alone_decides_for_the_shortest_cord(amps: str, gauge: int | None) -> None:
    assert thinnest_gauge(amount(amps, "A"), amount("240", "V"), amount("1", "ft")) == gauge


def test_a_truck_has_a_gauge_for_each_usual_length() -> None:
    # 12.5 A is 96 percent of what 16 AWG carries, and a heater runs for hours; in 100 ft of
    # 12 AWG it drops 3.3 percent, which is too much.
    assert table(truck(HEATER)) == [
        ("25 ft (7.6 m)", "14 AWG (2.5 mm²)"),
        ("50 ft (15.2 m)", "14 AWG (2.5 mm²)"),
        ("75 ft (22.8 m)", "12 AWG (4 mm²)"),
        ("100 ft (30.4 m)", "no cord of this length"),
    ]


def test_a_metric_fleet_reads_metric_lengths_and_sizes_first() -> None:
    # 1,500 W at 230 V, 6.6 A: 1.8 percent in 15 m of 18 AWG, 3.006 percent in 25 m of it.
    heater = "block_heater: {voltage: 230 V, power: '1,500 W'}\n"

    assert table(truck(heater, METRIC)) == [
        ("7.5 m (24 ft)", "1 mm² (18 AWG)"),
        ("15 m (49 ft)", "1 mm² (18 AWG)"),
        ("25 m (82 ft)", "1.5 mm² (16 AWG)"),
        ("30 m (98 ft)", "1.5 mm² (16 AWG)"),
    ]


def test_a_metric_size_is_never_thinner_than_the_gauge_beside_it() -> None:
    assert all(float(size) >= conductor_area(gauge) for gauge, size in METRIC_SIZES.items())
    assert {f"awg_{gauge}" for gauge in AMPACITIES} <= CORD_GAUGES.keys()
    assert {f"mm2_{size}" for size in METRIC_SIZES.values()} <= CORD_GAUGES.keys()
    assert [len(lengths) for lengths in LENGTHS.values()] == [len(CORDS)] * 2


def test_what_a_gauge_is_worked_out_from_is_told() -> None:
    fact = truck(HEATER).facts["block_heater.long_cord_gauge"]

    assert isinstance(fact.provenance, WorkedOut)
    assert fact.provenance.of == (
        *("block_heater.current", "block_heater.voltage", "block_heater.long_cord"),
    )
    assert "at most 3 percent of block_heater.voltage" in fact.provenance.formula


def test_the_offices_own_length_and_gauge_go_before_ours() -> None:
    own = HEATER.replace("}", ", medium_cord: 40 ft, long_cord_gauge: none}")

    assert table(truck(own))[1:3] == [
        ("40 ft (12.0 m)", "14 AWG (2.5 mm²)"),
        ("75 ft (22.8 m)", "no cord of this length"),
    ]


@pytest.mark.parametrize(
    "heater",
    ["{voltage: 120 V}", "{power: 900 W}", "{current: 8 A}", "not fitted", "{preheat: 2 to 4 h}"],
)
def test_a_heater_without_current_or_voltage_gets_no_cord(heater: str) -> None:
    unit = truck(f"block_heater: {heater}\n")

    assert not [name for name in unit.facts if "cord" in name]
