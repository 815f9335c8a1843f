"""What holds and stops the truck.

Takes in the maker's pressures and fluids; gives out the fields of the brake sections.
Refuses a parking brake without a kind of control, since its steps depend on it.
"""

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
from guidegen.specs.section import Fitted, Section

PSI = Dimension.PRESSURE


class AirBrakes(Section):
    """Air brake system."""

    cut_in: Annotated[
        Stated | None,
        AmountField("Governor cut-in pressure", PSI, "70 psi", "135 psi", Sense.NOMINAL),
    ] = None
    """The compressor starts pumping again here."""

    cut_out: Annotated[
        Stated | None,
        AmountField("Governed (cut-out) pressure", PSI, "95 psi", "190 psi", Sense.NOMINAL),
    ] = None
    """The compressor stops pumping here."""

    low_air_warning: Annotated[
        Stated | None,
        AmountField("Low-air warning pressure", PSI, "50 psi", "80 psi", Sense.AT_LEAST),
    ] = None
    """Lamp and buzzer come on at or above this."""

    spring_apply: Annotated[
        Stated | None,
        AmountField("Spring brakes apply", PSI, "15 psi", "50 psi", Sense.RANGE),
    ] = None
    """Between these pressures the spring brakes come on by themselves."""

    tank_count: Annotated[Stated | None, CountField("Air tanks", 1, 8)] = None
    """How many, the wet tank included."""

    drain: Annotated[
        Stated | None,
        ChoiceField(
            "Air tank drains",
            {
                "pull_cords": "pull cords",
                "drain_cocks": "drain cocks",
                "automatic": "automatic drain valves",
            },
        ),
    ] = None
    """What lets the water out."""

    drain_location: Annotated[Stated | None, TextField("Air tank drain location")] = None
    """Where they are worked, wet tank first."""

    air_dryer: Annotated[Stated | None, FlagField("Air dryer")] = None
    """Whether a dryer cleans the air."""


class HydraulicBrakes(Section):
    """Hydraulic brake system."""

    fluid: Annotated[
        Stated | None,
        ChoiceField(
            "Brake fluid",
            {"DOT 3": "DOT 3", "DOT 4": "DOT 4", "DOT 5": "DOT 5 (silicone)", "DOT 5.1": "DOT 5.1"},
        ),
    ] = None
    """The DOT number on the reservoir cap."""

    reservoir_location: Annotated[Stated | None, TextField("Brake fluid reservoir")] = None
    """Where."""

    booster: Annotated[
        Stated | None,
        ChoiceField(
            "Brake booster",
            {
                "vacuum": "vacuum booster",
                "hydraulic": "hydraulic booster",
                "electric": "electric booster",
            },
        ),
    ] = None
    """What helps the foot."""

    reserve_pump: Annotated[Stated | None, FlagField("Electric reserve pump")] = None
    """Whether an electric pump helps when the engine stops."""


PARKING_CONTROLS = {
    "push_pull_knob": "push-pull knob",
    "hand_lever": "hand lever",
    "pedal": "parking brake pedal",
    "electric_switch": "electric switch",
}


class ParkingBrake(Section):
    """Parking brake."""

    control: Annotated[Stated | None, ChoiceField("Parking brake control", PARKING_CONTROLS)] = None
    """What the driver works."""

    location: Annotated[Stated | None, TextField("Parking brake control location")] = None
    """Where, seen from the driver."""

    trailer_supply: Annotated[Stated | None, FlagField("Trailer air supply knob")] = None
    """Whether there is a knob for the trailer's air."""


class Brakes(Section):
    """Service brakes."""

    air: Annotated[Fitted[AirBrakes] | None, "section"] = None
    """Air brake system."""

    hydraulic: Annotated[Fitted[HydraulicBrakes] | None, "section"] = None
    """Hydraulic brake system."""

    abs: Annotated[Stated | None, FlagField("Anti-lock brakes (ABS)")] = None
    """Whether fitted."""

    traction_switch: Annotated[Stated | None, TextField("Traction control switch")] = None
    """What and where, if the driver can hold traction control back for mud or deep snow."""
