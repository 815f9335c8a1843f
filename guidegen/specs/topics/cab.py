"""What the driver sees, reaches and opens.

Takes in a walk around the cab; gives out the fields of controls, lamps and access.
Refuses a lamp that is not in the list of lamps.
"""

from typing import Annotated

from guidegen.quantity.model import Dimension
from guidegen.specs.fields import (
    AmountField,
    ChoiceField,
    ChoicesField,
    CountField,
    FlagField,
    Stated,
    TextField,
)
from guidegen.specs.section import Section
from guidegen.specs.topics.lamps import LAMPS
from guidegen.specs.topics.reached import REACHED


class CabAccess(Section):
    """How the engine compartment is opened."""

    kind: Annotated[
        Stated | None,
        ChoiceField(
            "Access for checks",
            {
                "tilt_hood": "tilt hood",
                "tilt_cab": "tilt cab",
                "fixed_hood": "hinged hood",
                "side_panels": "side panels",
            },
        ),
    ] = None
    """What opens."""

    latches: Annotated[Stated | None, CountField("Latches", 1, 4)] = None
    """How many hold it shut."""

    latch_location: Annotated[Stated | None, TextField("Latch location")] = None
    """Where."""

    hold_open: Annotated[Stated | None, TextField("Held open by")] = None
    """Prop, lock bar or strut that keeps it open."""

    pump_location: Annotated[Stated | None, TextField("Cab tilt pump")] = None
    """For a tilt cab."""

    tilt_clearance: Annotated[
        Stated | None,
        AmountField("Room needed in front to tilt", Dimension.LENGTH, "2 ft 0 in", "12 ft 0 in"),
    ] = None
    """Free room in front."""


class Lights(Section):
    """Exterior lights and their control."""

    control: Annotated[
        Stated | None,
        ChoiceField(
            "Headlamp control",
            {
                "rotary_knob": "rotary knob on the dash",
                "toggle_switches": "toggle switches on the dash",
                "stalk": "left column stalk",
                "pull_knob": "pull knob on the dash",
            },
        ),
    ] = None
    """What the driver works."""

    high_beam: Annotated[
        Stated | None,
        ChoiceField(
            "High beam",
            {
                "stalk_push_pull": "push the left stalk away; pull it back for low beam",
                "stalk_pull": "pull the left stalk to change",
                "foot_switch": "press the foot switch to change",
            },
        ),
    ] = None
    """How beams are changed."""

    daytime_running: Annotated[Stated | None, FlagField("Daytime running lamps")] = None
    """Whether fitted."""

    flash: Annotated[Stated | None, TextField("Headlamp flash")] = None
    """How the driver flashes them for a moment."""

    turn_control: Annotated[Stated | None, TextField("Turn signal control")] = None
    """What and where."""

    turn_cancels: Annotated[Stated | None, FlagField("Turn signals cancel by themselves")] = None
    """Whether they go off when the wheel turns back."""

    hazard_control: Annotated[Stated | None, TextField("Hazard flasher control")] = None
    """What and where."""


class Wipers(Section):
    """Windshield wipers and washer."""

    control: Annotated[Stated | None, TextField("Wiper control")] = None
    """What and where."""

    drive: Annotated[
        Stated | None, ChoiceField("Wiper drive", {"electric": "electric", "air": "air-driven"})
    ] = None
    """What moves them."""

    washer_control: Annotated[Stated | None, TextField("Washer control")] = None
    """What and where."""

    washer_tank: Annotated[Stated | None, TextField("Washer tank")] = None
    """Where it is filled on this truck."""

    washer_tank_reached: Annotated[Stated | None, ChoiceField("Washer tank is filled", REACHED)] = (
        None
    )
    """From where; decides where the driver is sent, and whether he opens the hood."""


class Mirrors(Section):
    """Mirrors."""

    adjustment: Annotated[
        Stated | None,
        ChoiceField(
            "Mirror adjustment",
            {
                "manual": "by hand",
                "power_both": "by switch, both",
                "power_right": "by switch, right only",
            },
        ),
    ] = None
    """How they are set."""

    power_control: Annotated[Stated | None, TextField("Mirror switch")] = None
    """What and where, if set by switch."""

    heat_control: Annotated[Stated | None, TextField("Mirror heat")] = None
    """What and where, if heated."""

    heated: Annotated[Stated | None, FlagField("Heated mirrors")] = None
    """Whether heated."""


class Seat(Section):
    """Driver's seat."""

    kind: Annotated[
        Stated | None,
        ChoiceField(
            "Driver's seat", {"air": "air suspension seat", "mechanical": "mechanical seat"}
        ),
    ] = None
    """Kind."""

    control: Annotated[Stated | None, TextField("Seat controls")] = None
    """Where."""


class SteeringColumn(Section):
    """Steering column that moves."""

    moves: Annotated[
        Stated | None,
        ChoiceField("Steering column", {"tilt": "tilts", "tilt_telescope": "tilts and telescopes"}),
    ] = None
    """How."""

    control: Annotated[Stated | None, TextField("Steering column release")] = None
    """What and where."""


class PowerSteering(Section):
    """Power steering."""

    fluid: Annotated[Stated | None, TextField("Power steering fluid")] = None
    """Kind and grade."""

    reservoir_location: Annotated[Stated | None, TextField("Power steering reservoir")] = None
    """Where."""

    check_state: Annotated[
        Stated | None,
        ChoiceField(
            "Power steering fluid is checked",
            {"cold": "cold and off", "hot": "at working temperature, engine idling"},
        ),
    ] = None
    """In which state the maker wants it read."""


class Horn(Section):
    """Horns."""

    electric: Annotated[Stated | None, FlagField("Electric horn")] = None
    """Whether fitted."""

    air: Annotated[Stated | None, FlagField("Air horn")] = None
    """Whether fitted."""

    air_control: Annotated[Stated | None, TextField("Air horn control")] = None
    """What and where."""


class WarningLamps(Section):
    """Tell-tales in the cab."""

    fitted: Annotated[
        Stated | None, ChoicesField("Lamps fitted", {key: lamp.name for key, lamp in LAMPS.items()})
    ] = None
    """Every lamp that comes on at key-on, and those that can come on later."""
