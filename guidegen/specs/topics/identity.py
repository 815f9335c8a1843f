"""Which truck it is, and how big.

Takes in the plate, the papers and the tape measure; gives out the fields of the identity section.
Refuses a VIN of another alphabet than ISO 3779's.
"""

from typing import Annotated

from guidegen.quantity.model import Dimension, Sense
from guidegen.specs.fields import AmountField, ChoiceField, CountField, Stated, TextField
from guidegen.specs.section import Section

BODIES = {
    "tractor": "tractor",
    "sleeper_tractor": "sleeper tractor",
    "dump": "dump truck",
    "tanker": "tank truck",
    "van": "van body truck",
    "refuse": "refuse truck",
    "yard_tractor": "yard tractor",
    "flatbed": "flatbed truck",
}


class Identity(Section):
    """Which truck it is, and how big."""

    vin: Annotated[
        Stated | None,
        TextField("VIN", r"[A-HJ-NPR-Z0-9]{17}", "17 capitals and digits without I, O and Q"),
    ] = None
    """From the unit plate in the door frame, not from the papers."""

    year: Annotated[Stated | None, CountField("Model year", 1950, 2039)] = None
    """Model year as on the unit plate."""

    make: Annotated[Stated | None, TextField("Make")] = None
    """Maker of the chassis."""

    model_name: Annotated[Stated | None, TextField("Model")] = None
    """Model as written on the cab."""

    body: Annotated[Stated | None, ChoiceField("Body", BODIES)] = None
    """What the truck is built for."""

    unit_plate: Annotated[Stated | None, TextField("Unit plate")] = None
    """Where the maker's plate with the VIN is."""

    plate: Annotated[Stated | None, TextField("Plate")] = None
    """License plate."""

    yard: Annotated[Stated | None, TextField("Yard", r"[a-z0-9-]+", "a yard of fleet.yml")] = None
    """Where the truck is kept: the yard's id in fleet.yml."""

    overall_height: Annotated[
        Stated | None,
        AmountField("Overall height", Dimension.LENGTH, "6 ft 0 in", "15 ft 0 in", Sense.AT_LEAST),
    ] = None
    """Highest point, unladen, measured at the truck; rounded up wherever it is converted."""

    overall_length: Annotated[
        Stated | None,
        AmountField("Overall length", Dimension.LENGTH, "10 ft 0 in", "75 ft 0 in", Sense.AT_LEAST),
    ] = None
    """Bumper to bumper, without a trailer."""

    gvwr: Annotated[
        Stated | None,
        AmountField(
            "Gross vehicle weight rating", Dimension.MASS, "6,000 lb", "100,000 lb", Sense.AT_MOST
        ),
    ] = None
    """GVWR from the certification label."""
