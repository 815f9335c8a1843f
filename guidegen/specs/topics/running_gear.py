"""What the truck stands and rolls on.

Takes in tags, sidewalls and the maker's figures; gives out the fields of axles, tires, locks
and suspension. Refuses a tire pressure without a position: steer and drive differ.
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


class Axles(Section):
    """Axles and their ratings."""

    configuration: Annotated[
        Stated | None,
        TextField(
            "Axle configuration", r"[0-9]{1,2}x[0-9]{1,2}", "wheels by driven wheels, as 6x4"
        ),
    ] = None
    """Wheel positions by driven ones, such as 6x4."""

    front_rating: Annotated[
        Stated | None,
        AmountField(
            "Front axle rating (GAWR)", Dimension.MASS, "2,000 lb", "24,000 lb", Sense.AT_MOST
        ),
    ] = None
    """From the certification label."""

    rear_rating: Annotated[
        Stated | None,
        AmountField(
            "Rear axle rating (GAWR), all rear axles",
            Dimension.MASS,
            "3,000 lb",
            "70,000 lb",
            Sense.AT_MOST,
        ),
    ] = None
    """From the certification label, all rear axles together."""

    lubricant: Annotated[Stated | None, TextField("Axle lubricant")] = None
    """Drive axle lubricant."""


class Tires(Section):
    """Tires of one position."""

    size: Annotated[Stated | None, TextField("Tire size")] = None
    """As on the sidewall: 11R22.5, 225/70R19.5."""

    load_range: Annotated[
        Stated | None, TextField("Load range", r"[A-N]", "a letter from A to N")
    ] = None
    """As on the sidewall."""

    cold_pressure: Annotated[
        Stated | None, AmountField("Cold tire pressure", Dimension.PRESSURE, "40 psi", "140 psi")
    ] = None
    """For the load this truck carries, cold."""

    no_fill_pressure: Annotated[
        Stated | None,
        AmountField(
            "Add no air at or below", Dimension.PRESSURE, "30 psi", "120 psi", Sense.AT_LEAST
        ),
    ] = None
    """Worked out from the cold pressure if left out: four fifths of it (29 CFR 1910.177(f))."""

    count: Annotated[Stated | None, CountField("Tires", 1, 16)] = None
    """How many in this position."""


class TirePositions(Section):
    """Tires by position."""

    steer: Annotated[Fitted[Tires] | None, "section"] = None
    """Steer axle tires."""

    drive: Annotated[Fitted[Tires] | None, "section"] = None
    """Drive axle tires."""

    tag: Annotated[Fitted[Tires] | None, "section"] = None
    """Tires of a tag, pusher or lift axle."""


class Wheels(Section):
    """Wheels and their nuts."""

    mounting: Annotated[
        Stated | None,
        ChoiceField(
            "Wheel mounting",
            {"hub_piloted": "hub-piloted", "stud_piloted": "stud-piloted", "lug": "cone nuts"},
        ),
    ] = None
    """How the wheels are centered."""

    nut_torque: Annotated[
        Stated | None,
        AmountField("Wheel nut torque", Dimension.TORQUE, "80 lb·ft", "600 lb·ft", Sense.RANGE),
    ] = None
    """From the maker; for the shop."""


class Suspension(Section):
    """Rear suspension."""

    kind: Annotated[
        Stated | None,
        ChoiceField("Rear suspension", {"air": "air suspension", "springs": "steel springs"}),
    ] = None
    """Kind."""

    dump_valve: Annotated[Stated | None, FlagField("Air suspension dump valve")] = None
    """Whether the driver can let the air out."""

    dump_control: Annotated[Stated | None, TextField("Suspension dump control")] = None
    """What and where."""


class AxleLock(Section):
    """A lock of a differential."""

    control: Annotated[Stated | None, TextField("Lock control")] = None
    """What and where."""

    highest_speed: Annotated[
        Stated | None,
        AmountField(
            "Highest speed with the lock on", Dimension.SPEED, "2 mph", "40 mph", Sense.AT_MOST
        ),
    ] = None
    """Road speed limit while locked."""

    engage: Annotated[
        Stated | None,
        ChoiceField(
            "Lock is engaged",
            {"stopped": "standing still", "creeping": "at a steady crawl with no wheel spinning"},
        ),
    ] = None
    """In which state the maker allows it."""


class FifthWheel(Section):
    """Fifth wheel and trailer connections."""

    slider: Annotated[Stated | None, FlagField("Sliding fifth wheel")] = None
    """Whether it slides."""

    slide_control: Annotated[Stated | None, TextField("Fifth wheel slide control")] = None
    """What and where, if it slides."""

    release: Annotated[Stated | None, TextField("Fifth wheel release")] = None
    """What and where."""
