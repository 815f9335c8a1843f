"""Which values could pass for one another."""

import pytest
from sample_fleet import fact

from guidegen.training.alike import can_be_confused
from guidegen.training.fleet_values import FleetValues
from guidegen.training.lots import Lots

CONFUSED = (
    ("tires.steer.cold_pressure", "110 psi", "110 psi"),
    ("tires.steer.cold_pressure", "110 psi", "758.4 kPa"),
    ("tires.steer.cold_pressure", "110 psi", "112 psi"),
    ("cooling.highest_temperature", "222 °F", "106 °C"),
    ("cooling.highest_temperature", "222 °F", "225 °F"),
    ("cooling.working_temperature", "180 to 210 °F", "180 to 212 °F"),
    ("battery.charging_voltage", "13.5 to 14.5 V", "13.6 to 14.6 V"),
    ("battery.location", "left side, under the cab step", "left side, behind the cab"),
    ("battery.location", "left side", "left side, between cab and tank"),
    ("battery.location", "right of the cab step", "left frame rail"),
    ("engine.oil_grade", "SAE 10W-30, API CK-4", "SAE 10W-30"),
    ("fuel_tanks.side", "both", "left"),
    ("steering_column.moves", "tilt", "tilt_telescope"),
    ("mirrors.heated", "yes", "no"),
)
TOLD_APART = (
    ("tires.steer.cold_pressure", "110 psi", "115 psi"),
    ("cooling.highest_temperature", "222 °F", "228 °F"),
    ("cooling.working_temperature", "180 to 210 °F", "170 to 210 °F"),
    ("battery.voltage", "12 V", "24 V"),
    ("battery.count", "3", "4"),
    ("battery.location", "left side, under the cab step", "right side, behind the cab"),
    ("engine.dipstick_location", "right side, yellow loop", "right side, red loop"),
    ("engine.oil_grade", "SAE 10W-30, API CK-4", "SAE 15W-40, API CK-4"),
    ("fuel_tanks.side", "right", "left"),
)


@pytest.mark.parametrize(("name", "one", "other"), CONFUSED)
def test_these_could_be_confused(name: str, one: str, other: str) -> None:
    assert can_be_confused(fact(name, one), fact(name, other))
    assert can_be_confused(fact(name, other), fact(name, one))


@pytest.mark.parametrize(("name", "one", "other"), TOLD_APART)
def test_these_can_be_told_apart(name: str, one: str, other: str) -> None:
    assert not can_be_confused(fact(name, one), fact(name, other))
    assert not can_be_confused(fact(name, other), fact(name, one))


def test_wrong_values_cannot_be_confused_with_each_other() -> None:
    name = "tires.steer.cold_pressure"
    typed = ("110 psi", "95 psi", "95.5 psi", "655 kPa", "120 psi")
    values = FleetValues({name: {each: fact(name, each) for each in typed}})
    for seed in "abcdefghijkl":
        wrong = values.others(fact(name, "110 psi"), Lots(seed))
        assert len(wrong) == 2
        assert len({each.fact.value for each in wrong} & {fact(name, "120 psi").value}) == 1
