"""Batteries, heaters and high voltage.

Takes in labels and the maker's figures; gives out the fields of these sections.
Refuses a high-voltage section in which the shut-off could be left out unnoticed: the guide
of such a unit is then held back.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated

from guidegen.quantity.model import Dimension, Sense
from guidegen.specs.fields import (
    AmountField,
    ChoiceField,
    CountField,
    FlagField,
    Stated,
    TextField,
)
from guidegen.specs.section import Section
from guidegen.specs.topics.reached import REACHED

CORD_GAUGES: Mapping[str, str] = MappingProxyType(
    {
        "awg_18": "18\u00a0AWG (1\u00a0mm²)",
        "awg_16": "16\u00a0AWG (1.5\u00a0mm²)",
        "awg_14": "14\u00a0AWG (2.5\u00a0mm²)",
        "awg_12": "12\u00a0AWG (4\u00a0mm²)",
        "mm2_1": "1\u00a0mm² (18\u00a0AWG)",
        "mm2_1.5": "1.5\u00a0mm² (16\u00a0AWG)",
        "mm2_2.5": "2.5\u00a0mm² (14\u00a0AWG)",
        "mm2_4": "4\u00a0mm² (12\u00a0AWG)",
        "none": "no cord of this length",
    }
)
"""What a cord is marked with. Beside each gauge stands the next thicker size of IEC 60228 (the
sizes are stated from memory), so that a cord that is marked in either measure is thick enough."""


def _cord_gauge(of: str) -> ChoiceField:
    return ChoiceField(f"Gauge of {of}", CORD_GAUGES)


def _cord(label: str) -> AmountField:
    return AmountField(label, Dimension.LENGTH, "10 ft", "200 ft", Sense.AT_MOST)


class Battery(Section):
    """Starting or low-voltage batteries."""

    count: Annotated[Stated | None, CountField("Batteries", 1, 6)] = None
    """How many."""

    voltage: Annotated[
        Stated | None, AmountField("Electrical system", Dimension.VOLTAGE, "12 V", "24 V")
    ] = None
    """Of the system."""

    location: Annotated[Stated | None, TextField("Battery box")] = None
    """Where."""

    reached: Annotated[Stated | None, ChoiceField("Batteries are reached", REACHED)] = None
    """From where; decides where the driver is sent, and whether he opens the hood."""

    charging_voltage: Annotated[
        Stated | None,
        AmountField("Voltage while charging", Dimension.VOLTAGE, "12.8 V", "30 V", Sense.RANGE),
    ] = None
    """What the voltmeter shows while the alternator or the converter charges."""

    jump_points: Annotated[Stated | None, TextField("Jump-start points")] = None
    """Where the maker wants the cables, plus and minus."""


class BatterySwitch(Section):
    """Battery disconnect switch."""

    location: Annotated[Stated | None, TextField("Battery switch")] = None
    """Where."""

    reached: Annotated[Stated | None, ChoiceField("Battery switch is reached", REACHED)] = None
    """From where; decides where the driver is sent, and whether he opens the hood."""

    wait: Annotated[
        Stated | None,
        AmountField(
            "Wait before the battery switch is opened",
            Dimension.TIME,
            "10 s",
            "10 min",
            Sense.AT_LEAST,
        ),
    ] = None
    """After key off, so that control units and the DEF pump finish."""


class BlockHeater(Section):
    """Engine block heater."""

    voltage: Annotated[
        Stated | None, AmountField("Block heater voltage", Dimension.VOLTAGE, "100 V", "250 V")
    ] = None
    """Of the outlet."""

    power: Annotated[
        Stated | None, AmountField("Block heater power", Dimension.POWER, "200 W", "3,000 W")
    ] = None
    """On the heater's label."""

    current: Annotated[
        Stated | None,
        AmountField("Block heater current", Dimension.CURRENT, "1 A", "20 A", Sense.AT_LEAST),
    ] = None
    """Worked out from power and voltage if left out."""

    circuit: Annotated[
        Stated | None,
        AmountField("Circuit of the block heater outlet", Dimension.CURRENT, "10 A", "32 A"),
    ] = None
    """On the breaker of the outlet that this truck is plugged into."""

    plug_location: Annotated[Stated | None, TextField("Block heater plug")] = None
    """Where."""

    preheat: Annotated[
        Stated | None,
        AmountField("Block heater time", Dimension.TIME, "1 h", "12 h", Sense.RANGE),
    ] = None
    """How long before the start."""

    use_below: Annotated[
        Stated | None,
        AmountField("Block heater is used below", Dimension.TEMPERATURE, "-40 °F", "60 °F"),
    ] = None
    """Outside temperature."""

    short_cord: Annotated[Stated | None, _cord("Short cord")] = None
    """A usual length if left out."""

    short_cord_gauge: Annotated[Stated | None, _cord_gauge("a short cord")] = None
    """Worked out from current, voltage and length if left out."""

    medium_cord: Annotated[Stated | None, _cord("Medium cord")] = None
    """A usual length if left out."""

    medium_cord_gauge: Annotated[Stated | None, _cord_gauge("a medium cord")] = None
    """Worked out from current, voltage and length if left out."""

    long_cord: Annotated[Stated | None, _cord("Long cord")] = None
    """A usual length if left out."""

    long_cord_gauge: Annotated[Stated | None, _cord_gauge("a long cord")] = None
    """Worked out from current, voltage and length if left out."""

    longest_cord: Annotated[Stated | None, _cord("Longest cord")] = None
    """A usual length if left out."""

    longest_cord_gauge: Annotated[Stated | None, _cord_gauge("the longest cord")] = None
    """Worked out from current, voltage and length if left out."""


class HighVoltage(Section):
    """Traction battery and high-voltage system."""

    nominal_voltage: Annotated[
        Stated | None, AmountField("High voltage", Dimension.VOLTAGE, "60 V", "1,000 V")
    ] = None
    """Of the traction battery."""

    battery_energy: Annotated[
        Stated | None, AmountField("Traction battery", Dimension.ENERGY, "20 kWh", "1,000 kWh")
    ] = None
    """Usable."""

    shutoff: Annotated[
        Stated | None,
        ChoiceField(
            "High-voltage shut-off",
            {"switch": "shut-off switch", "plug": "service plug", "pull_handle": "pull handle"},
        ),
    ] = None
    """What the driver works."""

    shutoff_location: Annotated[Stated | None, TextField("High-voltage shut-off location")] = None
    """Where."""

    discharge_wait: Annotated[
        Stated | None,
        AmountField("Wait after shut-off", Dimension.TIME, "1 min", "30 min", Sense.AT_LEAST),
    ] = None
    """Until the capacitors have discharged."""

    charge_inlet: Annotated[Stated | None, TextField("Charging inlet")] = None
    """Where, and which connector."""

    lowest_charge: Annotated[
        Stated | None,
        AmountField(
            "Lowest charge to leave the yard with", Dimension.SHARE, "5 %", "90 %", Sense.AT_LEAST
        ),
    ] = None
    """House rule or maker's."""

    regenerative_braking: Annotated[Stated | None, FlagField("Regenerative braking")] = None
    """Whether the driver can set it."""

    regenerative_control: Annotated[Stated | None, TextField("Regenerative braking control")] = None
    """What and where the driver sets."""

    regenerative_levels: Annotated[
        Stated | None, CountField("Regenerative braking levels", 1, 6)
    ] = None
    """Steps of braking power."""
