"""The table that says how grave a difference is, by what it is a difference of.

Takes in the name of a fact, section, lamp or chapter; gives out its standing. Refuses to leave
anything of the catalogs out: what is not in the table has no place on a sheet. The order is
common practice, no source: what stops and holds the truck comes first.
"""

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import NamedTuple

from guidegen.differences.standing import Rank, Reason, Standing


class _Group(NamedTuple):
    """Names that stand alike."""

    rank: Rank
    reason: Reason
    names: str
    """Parted by blanks."""

    is_control: bool = False
    """Whether they say what is worked or looked at, where it is, or how it works."""


_FACTS = (
    _Group(
        Rank.BRAKES,
        Reason.STOPPING,
        "brakes.air.cut_in brakes.air.cut_out brakes.air.low_air_warning "
        "brakes.air.spring_apply brakes.air.tank_count brakes.air.air_dryer "
        "brakes.hydraulic.fluid brakes.hydraulic.reserve_pump brakes.abs engine_brake.levels "
        "engine_brake.drop_out_speed high_voltage.regenerative_braking "
        "high_voltage.regenerative_levels",
    ),
    _Group(
        Rank.BRAKES,
        Reason.STOPPING,
        "brakes.air.drain brakes.air.drain_location brakes.hydraulic.reservoir_location "
        "brakes.hydraulic.booster engine_brake.kind engine_brake.control "
        "engine_brake.drops_out brakes.traction_switch high_voltage.regenerative_control",
        is_control=True,
    ),
    _Group(
        Rank.BRAKES,
        Reason.HOLDING,
        "parking_brake.control parking_brake.location parking_brake.trailer_supply",
        is_control=True,
    ),
    _Group(
        Rank.DANGERS,
        Reason.HIGH_VOLTAGE,
        "high_voltage.nominal_voltage high_voltage.discharge_wait",
    ),
    _Group(Rank.DANGERS, Reason.GAS, "gas_fuel.full_pressure gas_fuel.detector"),
    _Group(
        Rank.DANGERS,
        Reason.SHUT_OFF,
        "high_voltage.shutoff high_voltage.shutoff_location gas_fuel.shutoff_location",
        is_control=True,
    ),
    _Group(
        Rank.CONTROLS,
        Reason.REACH,
        "transmission.selector differential_lock.control inter_axle_lock.control pto.control "
        "suspension.dump_control cruise.control idle_adjustment.control lights.control "
        "wipers.control horn.air_control fifth_wheel.release battery_switch.location "
        "aftertreatment.parked_regeneration.control "
        "aftertreatment.parked_regeneration.control_location cab_access.latch_location "
        "cab_access.pump_location fifth_wheel.slide_control lights.hazard_control lights.flash "
        "lights.turn_control aftertreatment.inhibit_location wipers.washer_control",
        is_control=True,
    ),
    _Group(
        Rank.CONTROLS,
        Reason.HANDLING,
        "transmission.kind transmission.forward_gears clutch.actuation clutch.brake "
        "differential_lock.engage inter_axle_lock.engage pto.engagement pto.drives "
        "lights.high_beam wipers.drive mirrors.adjustment suspension.kind "
        "suspension.dump_valve aftertreatment.inhibit_switch aftertreatment.outlet "
        "cab_access.kind cab_access.latches cab_access.hold_open fifth_wheel.slider "
        "lights.turn_cancels",
        is_control=True,
    ),
    _Group(
        Rank.LIMITS,
        Reason.CLEARANCE,
        "identity.overall_height identity.overall_length cab_access.tilt_clearance",
    ),
    _Group(
        Rank.LIMITS,
        Reason.WEIGHT,
        "identity.gvwr axles.front_rating axles.rear_rating axles.configuration",
    ),
    _Group(
        Rank.LIMITS,
        Reason.TIRES,
        "tires.steer.cold_pressure tires.drive.cold_pressure tires.tag.cold_pressure "
        "tires.steer.size tires.drive.size tires.tag.size tires.steer.load_range "
        "tires.drive.load_range tires.tag.load_range tires.steer.count tires.drive.count "
        "tires.tag.count wheels.mounting wheels.nut_torque tires.steer.no_fill_pressure "
        "tires.drive.no_fill_pressure tires.tag.no_fill_pressure",
    ),
    _Group(
        Rank.LIMITS,
        Reason.LIMIT,
        "engine.governed_speed differential_lock.highest_speed inter_axle_lock.highest_speed "
        "pto.highest_speed cruise.lowest_speed air_cleaner.limit high_voltage.lowest_charge "
        "idle_adjustment.speed battery.voltage block_heater.voltage block_heater.power "
        "block_heater.current cooling.highest_temperature engine.oil_pressure_idle "
        "engine.oil_pressure_driving engine.longest_crank gas_fuel.lowest_pressure "
        "block_heater.circuit block_heater.short_cord block_heater.short_cord_gauge "
        "block_heater.medium_cord block_heater.medium_cord_gauge block_heater.long_cord "
        "block_heater.long_cord_gauge block_heater.longest_cord block_heater.longest_cord_gauge",
    ),
    _Group(
        Rank.LIMITS,
        Reason.LAW,
        "law.name law.air_build_up_from law.air_build_up_to law.air_build_up_time "
        "law.air_build_up_speed law.air_static_loss_single law.air_static_loss_combination "
        "law.air_applied_loss_single law.air_applied_loss_combination law.air_loss_time "
        "law.hydraulic_pedal_hold law.warning_device_minutes law.idling_limit "
        "law.warning_device_near "
        "law.tread_depth_other law.warning_device_far law.warning_device_count "
        "law.warning_device_far_one_way law.warning_device_obstruction_from "
        "law.downhill_speed_drop law.tread_depth_steer law.warning_device_obstruction_to",
    ),
    _Group(
        Rank.LIMITS,
        Reason.WAIT,
        "engine.oil_check_wait engine.cooldown battery_switch.wait block_heater.preheat "
        "aftertreatment.parked_regeneration.duration engine.crank_rest",
    ),
    _Group(Rank.FLUIDS, Reason.FUEL, "engine.fuel"),
    _Group(
        Rank.FLUIDS,
        Reason.FLUID,
        "engine.oil_grade cooling.coolant cooling.antifreeze_share transmission.fluid "
        "clutch.fluid power_steering.fluid axles.lubricant substance.def_freezing_point "
        "substance.def_storage",
    ),
    _Group(
        Rank.WORK,
        Reason.READING,
        "engine.oil_check_state cooling.check_point air_cleaner.indicator transmission.check "
        "transmission.check_state power_steering.check_state",
        is_control=True,
    ),
    _Group(
        Rank.VALUES,
        Reason.PLACE,
        "engine.dipstick_location cooling.location air_cleaner.location air_cleaner.reached "
        "fuel_tanks.side fuel_tanks.water_separator fuel_tanks.water_separator_reached "
        "gas_fuel.tank_location def_system.fill_side "
        "def_system.cap_color high_voltage.charge_inlet power_steering.reservoir_location "
        "wipers.washer_tank wipers.washer_tank_reached battery.location battery.reached "
        "battery_switch.reached "
        "block_heater.plug_location "
        "clutch.reservoir_location identity.unit_plate gas_fuel.fill_location "
        "battery.jump_points",
        is_control=True,
    ),
    _Group(
        Rank.VALUES,
        Reason.AMOUNT,
        "engine.oil_capacity engine.oil_between_marks engine.idle_speed cooling.capacity "
        "fuel_tanks.count fuel_tanks.capacity_each gas_fuel.tank_count "
        "def_system.tank_capacity def_system.gauge_segments "
        "aftertreatment.parked_regeneration.engine_speed high_voltage.battery_energy "
        "transmission.capacity battery.count block_heater.use_below clutch.free_play "
        "cooling.working_temperature battery.charging_voltage",
    ),
    _Group(Rank.VALUES, Reason.OTHER_LAMPS, "lamps.fitted"),
    _Group(
        Rank.VALUES,
        Reason.NAME,
        "identity.year identity.make identity.model_name identity.body",
    ),
    _Group(
        Rank.CONVENIENCES,
        Reason.COMFORT,
        "lights.daytime_running mirrors.heated horn.electric horn.air seat.kind",
    ),
    _Group(
        Rank.CONVENIENCES,
        Reason.COMFORT,
        "mirrors.heat_control seat.control steering_column.moves steering_column.control "
        "mirrors.power_control",
        is_control=True,
    ),
)

_SECTIONS = (
    _Group(Rank.BRAKES, Reason.STOPPING, "brakes brakes.air brakes.hydraulic engine_brake"),
    _Group(Rank.BRAKES, Reason.HOLDING, "parking_brake"),
    _Group(Rank.DANGERS, Reason.HIGH_VOLTAGE, "high_voltage"),
    _Group(Rank.DANGERS, Reason.GAS, "gas_fuel"),
    _Group(Rank.DANGERS, Reason.RED_LAMPS, "lamps"),
    _Group(
        Rank.CONTROLS,
        Reason.HANDLING,
        "transmission clutch differential_lock inter_axle_lock fifth_wheel pto suspension "
        "aftertreatment aftertreatment.parked_regeneration cruise idle_adjustment lights "
        "wipers cab_access battery_switch power_steering",
    ),
    _Group(Rank.LIMITS, Reason.CLEARANCE, "identity"),
    _Group(Rank.LIMITS, Reason.WEIGHT, "axles"),
    _Group(Rank.LIMITS, Reason.TIRES, "tires tires.steer tires.drive tires.tag wheels"),
    _Group(Rank.FLUIDS, Reason.FUEL, "engine fuel_tanks def_system"),
    _Group(Rank.FLUIDS, Reason.FLUID, "cooling"),
    _Group(Rank.WORK, Reason.READING, "air_cleaner battery block_heater"),
    _Group(Rank.CONVENIENCES, Reason.COMFORT, "mirrors seat steering_column horn"),
)

# Colors follow the general sense of ISO 2575, stated from memory, as with the lamps themselves.
_LAMPS = (
    _Group(Rank.BRAKES, Reason.BRAKE_LAMPS, "low_air parking_brake brake_system abs trailer_abs"),
    _Group(
        Rank.DANGERS,
        Reason.RED_LAMPS,
        "stop_engine oil_pressure coolant_temperature charging body_up cab_lock gas_leak "
        "high_voltage_fault insulation_fault battery_temperature power_steering",
    ),
    _Group(
        Rank.VALUES,
        Reason.OTHER_LAMPS,
        "coolant_level seat_belt check_engine malfunction_indicator traction_control "
        "stability_control filter_regeneration high_exhaust_temperature regeneration_inhibited "
        "def_level low_fuel water_in_fuel wait_to_start differential_lock inter_axle_lock pto "
        "transmission_temperature check_transmission air_restriction washer_low "
        "suspension_dump engine_brake cruise turn_left turn_right hazard low_beam high_beam "
        "gas_fuel_low low_charge reduced_power ready charging_cable def_fault tire_pressure",
    ),
)

_CHAPTERS = (
    _Group(Rank.BRAKES, Reason.WORK, "air-brakes hydraulic-brakes"),
    _Group(Rank.DANGERS, Reason.WORK, "warning-lamps when-something-is-wrong"),
    _Group(Rank.CONTROLS, Reason.WORK, "in-the-cab on-the-road"),
    _Group(Rank.WORK, Reason.WORK, "before-the-day engine-warm end-of-day house-rules"),
)


def _by_name(groups: Iterable[_Group]) -> Mapping[str, Standing]:
    table: dict[str, Standing] = {}
    for group in groups:
        for name in group.names.split():
            if name in table:
                raise ValueError(f"{name} stands in the table twice")
            table[name] = Standing(group.rank, group.reason)
    return MappingProxyType(table)


FACT_STANDINGS = _by_name(_FACTS)
"""Of every fact of the catalog but those that are stamped, by dotted name."""

SECTION_STANDINGS = _by_name(_SECTIONS)
"""Of every thing that a truck can have, by dotted name."""

LAMP_STANDINGS = _by_name(_LAMPS)
"""Of every lamp, by the word that a spec types for it."""

CHAPTER_STANDINGS = _by_name(_CHAPTERS)
"""Of the procedures of every chapter, by its id."""

CONTROLS = frozenset(name for group in _FACTS if group.is_control for name in group.names.split())
"""Facts that say what is worked or looked at, where it is, or how it works."""
