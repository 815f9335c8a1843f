"""What drives the truck: engine, fluids, exhaust, transmission.

Takes in the maker's figures; gives out the fields of these sections.
Refuses to know a usual value: what the maker does not state is not on record.
"""

from typing import Annotated

from guidegen.quantity.model import Dimension, Sense
from guidegen.specs.fields import (
    AmountField,
    ChoiceField,
    ChoicesField,
    CountField,
    FlagField,
    Stated,
    TextField,
)
from guidegen.specs.section import Fitted, Section
from guidegen.specs.topics.driveline import CHECK_STATES
from guidegen.specs.topics.reached import REACHED

FUELS = {
    "diesel": "diesel fuel",
    "gasoline": "gasoline",
    "cng": "compressed natural gas (CNG)",
    "lng": "liquefied natural gas (LNG)",
    "propane": "propane",
}
SIDES = {"left": "left side", "right": "right side", "both": "both sides"}


class Engine(Section):
    """Combustion engine."""

    fuel: Annotated[Stated | None, ChoiceField("Fuel", FUELS)] = None
    """What it burns."""

    oil_grade: Annotated[Stated | None, TextField("Engine oil grade")] = None
    """Viscosity grade and category as the maker asks, such as SAE 15W-40, API CK-4."""

    oil_capacity: Annotated[
        Stated | None,
        AmountField("Engine oil capacity with filter", Dimension.VOLUME, "4 qt", "80 qt"),
    ] = None
    """Refill with filter change."""

    oil_between_marks: Annotated[
        Stated | None,
        AmountField("Engine oil from ADD to FULL", Dimension.VOLUME, "0.5 qt", "16 qt"),
    ] = None
    """How much brings the level from the lower to the upper mark."""

    oil_check_state: Annotated[
        Stated | None,
        ChoiceField("Engine oil is checked", {k: CHECK_STATES[k] for k in ("cold", "warm")}),
    ] = None
    """In which state the maker wants the dipstick read."""

    oil_check_wait: Annotated[
        Stated | None,
        AmountField(
            "Wait after stopping before the oil check",
            Dimension.TIME,
            "1 min",
            "12 h",
            Sense.AT_LEAST,
        ),
    ] = None
    """How long the oil needs to drain back."""

    dipstick_location: Annotated[Stated | None, TextField("Dipstick")] = None
    """Where the dipstick is, seen from the driver."""

    idle_speed: Annotated[
        Stated | None, AmountField("Idle speed", Dimension.ROTATION, "400 rpm", "1,200 rpm")
    ] = None
    """Curb idle, warm."""

    governed_speed: Annotated[
        Stated | None,
        AmountField(
            "Governed engine speed", Dimension.ROTATION, "1,200 rpm", "4,500 rpm", Sense.AT_MOST
        ),
    ] = None
    """Highest speed under load that the governor allows."""

    oil_pressure_idle: Annotated[
        Stated | None,
        AmountField("Oil pressure at idle", Dimension.PRESSURE, "3 psi", "60 psi", Sense.AT_LEAST),
    ] = None
    """Least pressure at idle, engine warm."""

    oil_pressure_driving: Annotated[
        Stated | None,
        AmountField(
            "Oil pressure on the road", Dimension.PRESSURE, "10 psi", "100 psi", Sense.AT_LEAST
        ),
    ] = None
    """Least pressure at driving speed, engine warm."""

    longest_crank: Annotated[
        Stated | None,
        AmountField("Longest cranking", Dimension.TIME, "3 s", "60 s", Sense.AT_MOST),
    ] = None
    """One try, before the starter must cool."""

    crank_rest: Annotated[
        Stated | None,
        AmountField("Rest between tries", Dimension.TIME, "10 s", "15 min", Sense.AT_LEAST),
    ] = None
    """For the starter to cool."""

    cooldown: Annotated[
        Stated | None,
        AmountField("Idle before shut-down", Dimension.TIME, "1 min", "10 min", Sense.AT_LEAST),
    ] = None
    """How long to idle after hard work, so that the turbocharger cools."""


class Cooling(Section):
    """Cooling system of the engine, or of the traction battery and motor."""

    coolant: Annotated[Stated | None, TextField("Coolant")] = None
    """Kind and color, as on the label."""

    antifreeze_share: Annotated[
        Stated | None, AmountField("Antifreeze by volume", Dimension.SHARE, "20 %", "80 %")
    ] = None
    """Share of antifreeze by volume."""

    capacity: Annotated[
        Stated | None, AmountField("Cooling system capacity", Dimension.VOLUME, "4 qt", "100 qt")
    ] = None
    """Whole system."""

    working_temperature: Annotated[
        Stated | None,
        AmountField(
            "Coolant temperature at work", Dimension.TEMPERATURE, "40 °F", "240 °F", Sense.RANGE
        ),
    ] = None
    """What the gauge shows when all is well."""

    highest_temperature: Annotated[
        Stated | None,
        AmountField(
            "Highest coolant temperature", Dimension.TEMPERATURE, "90 °F", "260 °F", Sense.AT_MOST
        ),
    ] = None
    """Above this the maker wants the truck stopped."""

    check_point: Annotated[
        Stated | None,
        ChoiceField(
            "Coolant is checked",
            {
                "sight_glass": "at the sight glass of the surge tank",
                "surge_tank_marks": "at the marks on the surge tank",
                "recovery_bottle_marks": "at the marks on the recovery bottle",
            },
        ),
    ] = None
    """Where the level is read without opening the system."""

    location: Annotated[Stated | None, TextField("Coolant tank")] = None
    """Where that tank is."""


class FuelTanks(Section):
    """Tanks for liquid fuel."""

    count: Annotated[Stated | None, CountField("Fuel tanks", 1, 4)] = None
    """How many."""

    capacity_each: Annotated[
        Stated | None,
        AmountField("Capacity of each fuel tank", Dimension.VOLUME, "10 gal", "200 gal"),
    ] = None
    """Usable, each."""

    side: Annotated[Stated | None, ChoiceField("Fuel tank side", SIDES)] = None
    """Where the filler is, seen from the driver."""

    water_separator: Annotated[Stated | None, TextField("Fuel/water separator")] = None
    """Where the fuel/water separator and its drain are."""

    water_separator_reached: Annotated[
        Stated | None, ChoiceField("Fuel/water separator is drained", REACHED)
    ] = None
    """From where its drain is reached; decides where the driver is sent."""


class DefSystem(Section):
    """Diesel exhaust fluid (ISO 22241 AUS 32)."""

    tank_capacity: Annotated[
        Stated | None, AmountField("DEF tank capacity", Dimension.VOLUME, "2 gal", "60 gal")
    ] = None
    """Usable."""

    gauge_segments: Annotated[Stated | None, CountField("DEF gauge segments", 2, 16)] = None
    """How many bars the gauge has when full."""

    fill_side: Annotated[Stated | None, ChoiceField("DEF filler", SIDES)] = None
    """Where the filler is, seen from the driver."""

    cap_color: Annotated[Stated | None, TextField("DEF cap color")] = None
    """As it is on the truck."""


REGENERATION_CONTROLS = {
    "switch": "dash switch",
    "menu": "dash display menu",
}


class ParkedRegeneration(Section):
    """Parked regeneration of the particulate filter, started by the driver."""

    control: Annotated[
        Stated | None, ChoiceField("Parked regeneration is started by", REGENERATION_CONTROLS)
    ] = None
    """What the driver works."""

    control_location: Annotated[Stated | None, TextField("Regeneration control")] = None
    """Where it is."""

    duration: Annotated[
        Stated | None,
        AmountField("Parked regeneration takes", Dimension.TIME, "5 min", "120 min", Sense.RANGE),
    ] = None
    """From the maker; it varies with soot and weather."""

    engine_speed: Annotated[
        Stated | None,
        AmountField("Engine speed in regeneration", Dimension.ROTATION, "700 rpm", "1,800 rpm"),
    ] = None
    """What the engine goes to by itself."""


class Aftertreatment(Section):
    """Exhaust aftertreatment with a diesel particulate filter."""

    outlet: Annotated[Stated | None, TextField("Exhaust outlet")] = None
    """Where hot exhaust leaves the truck."""

    inhibit_switch: Annotated[Stated | None, FlagField("Regeneration inhibit switch")] = None
    """Whether the driver can hold regeneration off."""

    inhibit_location: Annotated[
        Stated | None, TextField("Regeneration inhibit switch location")
    ] = None
    """Where that switch is."""

    parked_regeneration: Annotated[Fitted[ParkedRegeneration] | None, "section"] = None
    """Parked regeneration, started by the driver."""


class AirCleaner(Section):
    """Engine air cleaner."""

    indicator: Annotated[
        Stated | None,
        ChoiceField(
            "Air restriction indicator",
            {"gauge": "gauge", "window": "indicator window", "lamp": "dash lamp"},
        ),
    ] = None
    """What shows that the element is clogged."""

    limit: Annotated[
        Stated | None,
        AmountField(
            "Air restriction limit", Dimension.PRESSURE, "10 inH2O", "40 inH2O", Sense.AT_MOST
        ),
    ] = None
    """At which the element is changed."""

    location: Annotated[Stated | None, TextField("Air restriction indicator location")] = None
    """Where the indicator is."""

    reached: Annotated[Stated | None, ChoiceField("Air restriction indicator is read", REACHED)] = (
        None
    )
    """From where it is seen; decides where the driver is sent."""


DROP_OUTS = {
    "accelerator": "you press the accelerator",
    "clutch": "you press the clutch pedal",
    "low_engine_speed": "the engine speed falls below the drop-out speed",
    "abs": "the ABS acts",
    "neutral": "the transmission is in neutral",
    "switch": "you turn its switch off",
    "cruise": "cruise control is holding speed",
}


class EngineBrake(Section):
    """Engine or exhaust brake."""

    kind: Annotated[
        Stated | None,
        ChoiceField(
            "Engine braking",
            {"exhaust": "exhaust brake", "compression": "engine compression brake"},
        ),
    ] = None
    """Kind."""

    control: Annotated[Stated | None, TextField("Engine brake control")] = None
    """What and where the driver switches."""

    levels: Annotated[Stated | None, CountField("Engine brake levels", 1, 6)] = None
    """Steps of braking power."""

    drops_out: Annotated[Stated | None, ChoicesField("Engine brake drops out when", DROP_OUTS)] = (
        None
    )
    """All that makes it stop braking."""

    drop_out_speed: Annotated[
        Stated | None,
        AmountField("Engine brake drop-out speed", Dimension.ROTATION, "500 rpm", "1,500 rpm"),
    ] = None
    """Engine speed under which it stops braking."""


class Cruise(Section):
    """Cruise control."""

    control: Annotated[Stated | None, TextField("Cruise control switches")] = None
    """Where."""

    lowest_speed: Annotated[
        Stated | None,
        AmountField("Cruise works from", Dimension.SPEED, "10 mph", "50 mph", Sense.AT_LEAST),
    ] = None
    """Least road speed."""


class IdleAdjustment(Section):
    """Idle speed that the driver can raise."""

    control: Annotated[Stated | None, TextField("Idle adjustment control")] = None
    """What and where."""

    speed: Annotated[
        Stated | None,
        AmountField(
            "Idle adjustment range", Dimension.ROTATION, "500 rpm", "1,800 rpm", Sense.RANGE
        ),
    ] = None
    """From lowest to highest."""


class GasFuel(Section):
    """Gas fuel system."""

    tank_count: Annotated[Stated | None, CountField("Gas tanks", 1, 12)] = None
    """How many."""

    tank_location: Annotated[Stated | None, TextField("Gas tanks location")] = None
    """Where."""

    full_pressure: Annotated[
        Stated | None,
        AmountField("Full gas pressure", Dimension.PRESSURE, "50 psi", "5,500 psi", Sense.AT_MOST),
    ] = None
    """At 70 °F."""

    lowest_pressure: Annotated[
        Stated | None,
        AmountField(
            "Refuel at gas pressure", Dimension.PRESSURE, "20 psi", "1,500 psi", Sense.AT_LEAST
        ),
    ] = None
    """Least pressure to drive on with."""

    fill_location: Annotated[Stated | None, TextField("Gas fill receptacle")] = None
    """Where the nozzle goes."""

    shutoff_location: Annotated[Stated | None, TextField("Manual gas shut-off")] = None
    """Where the quarter-turn valve is."""

    detector: Annotated[Stated | None, FlagField("Gas detector")] = None
    """Whether a detector warns of a leak."""
