"""Which thing a warning lamp needs, and which lamp a thing needs.

Takes in nothing; gives out both tables.
Refuses a lamp that may have another reason: a trailer lamp on a truck that tows is no fault.
"""

from dataclasses import dataclass
from types import MappingProxyType

from guidegen.plausibility.case import Case


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that a truck can have: a section, a yes-or-no fact, or one choice of a fact."""

    words: str
    """What the thing is called in a finding."""

    section: str = ""
    fact: str = ""
    choice: str = ""

    def is_on(self, case: Case) -> bool | None:
        """Return whether *case* has the thing; none if that is not on record."""
        if self.section:
            return True if case.has(self.section) else (False if case.lacks(self.section) else None)
        holder = self.fact.rpartition(".")[0]
        if case.lacks(holder):
            return False
        value = case.value(self.fact)
        if value is None:
            return None
        return value == self.choice if self.choice else value is True


_ENGINE = Thing("an engine", section="engine")
_FILTER = Thing("a particulate filter", section="aftertreatment")
_FUEL_TANKS = Thing("fuel tanks", section="fuel_tanks")
_GAS = Thing("gas fuel", section="gas_fuel")
_HIGH_VOLTAGE = Thing("high voltage", section="high_voltage")
_TRANSMISSION = Thing("a transmission", section="transmission")
_AIR_BRAKES = Thing("air brakes", section="brakes.air")
_HYDRAULIC_BRAKES = Thing("hydraulic brakes", section="brakes.hydraulic")
_ANTI_LOCK = Thing("anti-lock brakes", fact="brakes.abs")
_DIFFERENTIAL_LOCK = Thing("a differential lock", section="differential_lock")
_INTER_AXLE_LOCK = Thing("an inter-axle lock", section="inter_axle_lock")
_PTO = Thing("a power take-off", section="pto")
_DEF = Thing("a DEF system", section="def_system")
_DUMP_VALVE = Thing("an air suspension dump valve", fact="suspension.dump_valve")
_TILT_CAB = Thing("a tilt cab", fact="cab_access.kind", choice="tilt_cab")
_GAS_DETECTOR = Thing("a gas detector", fact="gas_fuel.detector")
_INHIBIT_SWITCH = Thing("a regeneration inhibit switch", fact="aftertreatment.inhibit_switch")

NEEDED_BY_LAMP = MappingProxyType(
    {
        "low_air": _AIR_BRAKES,
        "abs": _ANTI_LOCK,
        "parking_brake": Thing("a parking brake", section="parking_brake"),
        "stop_engine": _ENGINE,
        "check_engine": _ENGINE,
        "oil_pressure": _ENGINE,
        "wait_to_start": _ENGINE,
        "coolant_temperature": Thing("a cooling system", section="cooling"),
        "coolant_level": Thing("a cooling system", section="cooling"),
        "filter_regeneration": _FILTER,
        "high_exhaust_temperature": _FILTER,
        "regeneration_inhibited": _INHIBIT_SWITCH,
        "def_level": _DEF,
        "def_fault": _DEF,
        "power_steering": Thing("power steering", section="power_steering"),
        "low_fuel": _FUEL_TANKS,
        "water_in_fuel": _FUEL_TANKS,
        "differential_lock": _DIFFERENTIAL_LOCK,
        "inter_axle_lock": _INTER_AXLE_LOCK,
        "pto": _PTO,
        "transmission_temperature": _TRANSMISSION,
        "check_transmission": _TRANSMISSION,
        "air_restriction": Thing("an air cleaner", section="air_cleaner"),
        "washer_low": Thing("wipers and washer", section="wipers"),
        "suspension_dump": _DUMP_VALVE,
        "cab_lock": _TILT_CAB,
        "engine_brake": Thing("an engine brake", section="engine_brake"),
        "cruise": Thing("cruise control", section="cruise"),
        "gas_leak": _GAS,
        "gas_fuel_low": _GAS,
        "high_voltage_fault": _HIGH_VOLTAGE,
        "insulation_fault": _HIGH_VOLTAGE,
        "battery_temperature": _HIGH_VOLTAGE,
        "low_charge": _HIGH_VOLTAGE,
        "ready": _HIGH_VOLTAGE,
        "charging_cable": _HIGH_VOLTAGE,
    }
)
"""By lamp: without the thing, the lamp has nothing to warn of."""

NEEDED_BY_THING = (
    # FMVSS 121 S5.1.5 (a signal besides the gauge) and S5.1.6 (in-cab lamp of anti-lock brakes),
    # 49 CFR 393.51(b) (lamp of hydraulic brakes); the others are common practice, no source.
    (_AIR_BRAKES, "low_air"),
    (_ANTI_LOCK, "abs"),
    (_HYDRAULIC_BRAKES, "brake_system"),
    (_DIFFERENTIAL_LOCK, "differential_lock"),
    (_INTER_AXLE_LOCK, "inter_axle_lock"),
    (_PTO, "pto"),
    (_DEF, "def_level"),
    (_FILTER, "filter_regeneration"),
    (_DUMP_VALVE, "suspension_dump"),
    (_TILT_CAB, "cab_lock"),
    (_GAS_DETECTOR, "gas_leak"),
    (_HIGH_VOLTAGE, "ready"),
    (_HIGH_VOLTAGE, "high_voltage_fault"),
)
"""Things whose lamp a driver is taught to look for."""
