"""The numbers that a driver asks for first.

Takes in nothing; gives out fact names in the order of the start page.
Refuses values that are of use only in one procedure: those stand there.
"""

from collections import Counter

from guidegen.specs.profile import FACTS

KEY_NUMBERS = (
    "identity.overall_height",
    "identity.gvwr",
    "identity.overall_length",
    "brakes.air.cut_out",
    "brakes.air.low_air_warning",
    "brakes.hydraulic.fluid",
    "tires.steer.cold_pressure",
    "tires.drive.cold_pressure",
    "tires.tag.cold_pressure",
    "high_voltage.nominal_voltage",
    "high_voltage.lowest_charge",
    "high_voltage.discharge_wait",
    "engine.fuel",
    "fuel_tanks.capacity_each",
    "gas_fuel.full_pressure",
    "def_system.tank_capacity",
    "engine.oil_grade",
    "engine.oil_capacity",
    "cooling.coolant",
)
"""Height and weight come first: a bridge does not wait."""

_LABEL_COUNTS = Counter(fact.label for fact in FACTS.values())


def needs_section(fact: str) -> bool:
    """Say whether the label of *fact* alone could mean another fact, as with tire pressures."""
    return _LABEL_COUNTS[FACTS[fact].label] > 1
