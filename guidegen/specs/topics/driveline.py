"""What carries the power on: clutch, transmission, power take-off.

Takes in the maker's figures; gives out the fields of these sections.
Refuses a fluid check without the state in which the maker wants it read.
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
from guidegen.specs.section import Section

CHECK_STATES = {
    "cold": "engine off and cold",
    "warm": "engine warm, then off",
    "idling": "engine warm and idling",
}
TRANSMISSIONS = {
    "manual": "manual",
    "automated_manual": "automated manual",
    "automatic": "automatic",
    "single_speed": "single-speed reduction",
}
SELECTORS = {
    "shift_lever": "shift lever",
    "push_buttons": "push-button selector",
    "column_stalk": "column stalk",
    "dash_knob": "dash selector knob",
}


class Transmission(Section):
    """Transmission."""

    kind: Annotated[Stated | None, ChoiceField("Transmission", TRANSMISSIONS)] = None
    """Kind."""

    forward_gears: Annotated[Stated | None, CountField("Forward gears", 1, 18)] = None
    """How many."""

    selector: Annotated[Stated | None, ChoiceField("Selector", SELECTORS)] = None
    """What the driver selects with."""

    fluid: Annotated[Stated | None, TextField("Transmission fluid")] = None
    """Kind and grade."""

    capacity: Annotated[
        Stated | None, AmountField("Transmission fluid capacity", Dimension.VOLUME, "1 qt", "60 qt")
    ] = None
    """Refill."""

    check: Annotated[
        Stated | None,
        ChoiceField(
            "Transmission fluid is checked by",
            {
                "dipstick": "dipstick",
                "display": "selector display",
                "sight_glass": "sight glass",
                "shop": "the shop only",
            },
        ),
    ] = None
    """How; many are for the shop only."""

    check_state: Annotated[
        Stated | None, ChoiceField("Transmission fluid is checked", CHECK_STATES)
    ] = None
    """In which state the maker wants it read."""


class Clutch(Section):
    """Clutch with a pedal."""

    actuation: Annotated[
        Stated | None,
        ChoiceField("Clutch actuation", {"hydraulic": "hydraulic", "mechanical": "mechanical"}),
    ] = None
    """How the pedal works the clutch."""

    fluid: Annotated[Stated | None, TextField("Clutch fluid")] = None
    """For a hydraulic clutch."""

    reservoir_location: Annotated[Stated | None, TextField("Clutch fluid reservoir")] = None
    """Where; for a hydraulic clutch."""

    free_play: Annotated[
        Stated | None,
        AmountField("Clutch pedal free play", Dimension.LENGTH, "0.25 in", "4 in", Sense.RANGE),
    ] = None
    """How far the pedal moves before it meets resistance."""

    brake: Annotated[Stated | None, FlagField("Clutch brake")] = None
    """Whether pressing the pedal to the floor stops the input shaft."""


class Pto(Section):
    """Power take-off."""

    control: Annotated[Stated | None, TextField("PTO control")] = None
    """What and where."""

    drives: Annotated[Stated | None, TextField("PTO drives")] = None
    """What it turns."""

    engagement: Annotated[
        Stated | None,
        ChoiceField(
            "PTO is engaged",
            {
                "clutch": "with the clutch pedal down and the engine idling",
                "idle": "with the engine idling",
            },
        ),
    ] = None
    """In which state."""

    highest_speed: Annotated[
        Stated | None,
        AmountField(
            "Engine speed with PTO", Dimension.ROTATION, "600 rpm", "2,500 rpm", Sense.AT_MOST
        ),
    ] = None
    """Engine speed limit while engaged."""
