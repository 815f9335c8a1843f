"""The figures that a procedure can ask for, and the words that stand in them.

Takes in nothing; gives out each kind with the facts that it cannot be drawn without, and the
closed list of words and scale numbers. Refuses free words: what stands in a drawing is a value of
the truck or one of these.
"""

from collections.abc import Mapping
from types import MappingProxyType

LAMP_SYMBOL = "lamp_symbol"
"""Drawn for every lamp by itself; no procedure file asks for it."""

CORD_TABLE_ROWS = (
    *("block_heater.short_cord", "block_heater.medium_cord"),
    *("block_heater.long_cord", "block_heater.longest_cord"),
)
"""Lengths of the table of cords, shortest first; the gauge of each is the fact ``…_gauge``."""

_KINDS = {
    "air_gauge": ("brakes.air.low_air_warning", "brakes.air.cut_in", "brakes.air.cut_out"),
    "def_gauge": ("def_system.gauge_segments",),
    "fuel_gauge": ("fuel_tanks.count", "fuel_tanks.capacity_each"),
    "charge_gauge": ("high_voltage.lowest_charge",),
    "engine_dipstick": ("engine.oil_check_state",),
    "power_steering_level": ("power_steering.check_state",),
    "transmission_level": ("transmission.check", "transmission.check_state"),
    "tire_plan": (
        "axles.configuration",
        "tires.steer.count",
        "tires.steer.cold_pressure",
        "tires.drive.count",
        "tires.drive.cold_pressure",
    ),
    "parking_control": ("parking_brake.control",),
    "warning_devices_two_way": ("law.warning_device_near", "law.warning_device_far"),
    "warning_devices_one_way": (
        "law.warning_device_near",
        "law.warning_device_far",
        "law.warning_device_far_one_way",
    ),
    "warning_devices_hill": (
        "law.warning_device_obstruction_from",
        "law.warning_device_obstruction_to",
    ),
    "cord_table": (
        "block_heater.current",
        "block_heater.voltage",
        *CORD_TABLE_ROWS,
        *(f"{cord}_gauge" for cord in CORD_TABLE_ROWS),
    ),
}

FIGURE_KINDS: Mapping[str, tuple[str, ...]] = MappingProxyType(_KINDS)
"""By kind, the facts without which it is not drawn."""

FIGURE_WORDS: Mapping[str, str] = MappingProxyType(
    {
        **{str(number): str(number) for number in (0, 30, 60, 90, 120, 150)},
        **{str(number): str(number) for number in (2, 4, 6, 8, 10, 12)},
        **{str(number): str(number) for number in (200, 400, 600, 800, 1000, 1200)},
        "psi": "psi",
        "bar": "bar",
        "kPa": "kPa",
        "low_air": "low-air warning",
        "cut_in": "compressor starts",
        "cut_out": "compressor stops",
        "empty": "E",
        "full": "F",
        "bars": "bars when full",
        "tanks_of": "tanks, each of",
        "hill_or_curve": "hill or curve",
        "up_to": "to",
        "least": "at least",
        "mark_add": "ADD",
        "mark_full": "FULL",
        "mark_cold": "COLD",
        "mark_hot": "HOT",
        "level_here": "level here",
        "front": "front",
        "steer": "steer",
        "drive": "drive",
        "tag": "tag",
        "tires": "tires",
        "pulled_out": "pulled out",
        "pushed_in": "pushed in",
        "lever_locked": "lever locked",
        "lever_back": "lever back",
        "pedal_down": "pedal down",
        "pedal_up": "pedal up",
        "switch": "switch",
        "set": "SET",
        "released": "RELEASED",
        "heater": "heater",
        "cord_up_to": "cord up to",
        "as_thick_as": "at least as thick as",
        "traffic": "traffic",
        "truck": "truck",
        "stop": "STOP",
        "check": "CHECK",
        "abs": "ABS",
        "def": "DEF",
        "pto": "PTO",
        "gas": "GAS",
        "ready": "READY",
    }
)
"""What can stand in a drawing beside values, by key: marks and numbers as gauges and sticks carry
them; names and states."""
