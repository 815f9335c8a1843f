"""The lamps that a cab can have.

Takes in nothing; gives out each lamp's name and color by the word that a spec types for it.
Refuses a lamp without a color. Colors follow the general sense of ISO 2575 (red: danger, act
now; amber: caution; green: on; blue: high beam), stated from memory: a truck's own handbook
comes first.
"""

from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Lamp:
    """A tell-tale."""

    name: str
    color: str
    """red, amber, green, blue or white."""


LAMPS = MappingProxyType(
    {
        "low_air": Lamp("low air pressure", "red"),
        "parking_brake": Lamp("parking brake on", "red"),
        "brake_system": Lamp("brake system", "red"),
        "stop_engine": Lamp("stop engine", "red"),
        "oil_pressure": Lamp("engine oil pressure", "red"),
        "coolant_temperature": Lamp("coolant temperature", "red"),
        "coolant_level": Lamp("coolant level", "amber"),
        "power_steering": Lamp("power steering", "red"),
        "charging": Lamp("battery charging", "red"),
        "seat_belt": Lamp("seat belt", "red"),
        "check_engine": Lamp("check engine", "amber"),
        "malfunction_indicator": Lamp("emissions malfunction", "amber"),
        "abs": Lamp("anti-lock brakes", "amber"),
        "trailer_abs": Lamp("trailer anti-lock brakes", "amber"),
        "traction_control": Lamp("traction control", "amber"),
        "stability_control": Lamp("stability control", "amber"),
        "filter_regeneration": Lamp("particulate filter", "amber"),
        "high_exhaust_temperature": Lamp("high exhaust temperature", "amber"),
        "regeneration_inhibited": Lamp("regeneration inhibited", "amber"),
        "def_level": Lamp("DEF level", "amber"),
        "def_fault": Lamp("DEF system fault", "amber"),
        "low_fuel": Lamp("low fuel", "amber"),
        "water_in_fuel": Lamp("water in fuel", "amber"),
        "wait_to_start": Lamp("wait to start", "amber"),
        "differential_lock": Lamp("differential lock on", "amber"),
        "inter_axle_lock": Lamp("inter-axle lock on", "amber"),
        "pto": Lamp("power take-off on", "amber"),
        "transmission_temperature": Lamp("transmission temperature", "amber"),
        "check_transmission": Lamp("check transmission", "amber"),
        "air_restriction": Lamp("air cleaner restriction", "amber"),
        "tire_pressure": Lamp("tire pressure", "amber"),
        "washer_low": Lamp("washer fluid low", "amber"),
        "suspension_dump": Lamp("air suspension dumped", "amber"),
        "body_up": Lamp("body up", "red"),
        "cab_lock": Lamp("cab not locked", "red"),
        "engine_brake": Lamp("engine brake on", "green"),
        "cruise": Lamp("cruise control on", "green"),
        "turn_left": Lamp("left turn signal", "green"),
        "turn_right": Lamp("right turn signal", "green"),
        "hazard": Lamp("hazard warning on", "red"),
        "low_beam": Lamp("headlamps on", "green"),
        "high_beam": Lamp("high beam on", "blue"),
        "gas_leak": Lamp("gas leak", "red"),
        "gas_fuel_low": Lamp("gas fuel low", "amber"),
        "high_voltage_fault": Lamp("high-voltage fault", "red"),
        "insulation_fault": Lamp("insulation fault", "red"),
        "battery_temperature": Lamp("traction battery temperature", "red"),
        "low_charge": Lamp("traction battery low", "amber"),
        "reduced_power": Lamp("reduced power", "amber"),
        "ready": Lamp("ready to drive", "green"),
        "charging_cable": Lamp("charging cable connected", "amber"),
    }
)
