"""Limits that differ by place: what a jurisdiction profile holds.

Takes in a profile file of the library; gives out ``law.…`` facts, each with its source.
Refuses a value without a source: a limit of the law that nobody can look up is hearsay.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated

from guidegen.quantity.model import Dimension, Sense
from guidegen.specs.bounds import Bounds
from guidegen.specs.equipment import EQUIPMENT_FACTS, UNIT_NUMBER, FactField, catalog_facts
from guidegen.specs.fields import AmountField, Stated, TextField
from guidegen.specs.section import Section

PSI = Dimension.PRESSURE


class Law(Section):
    """Limits of one jurisdiction for the driver's own checks."""

    name: Annotated[Stated | None, TextField("Jurisdiction")] = None
    """As printed."""

    air_build_up_from: Annotated[
        Stated | None, AmountField("Air build-up is timed from", PSI, "40 psi", "100 psi")
    ] = None
    """Start of the timed build-up."""

    air_build_up_to: Annotated[
        Stated | None, AmountField("Air build-up is timed to", PSI, "80 psi", "120 psi")
    ] = None
    """End of the timed build-up."""

    air_build_up_time: Annotated[
        Stated | None,
        AmountField("Air build-up takes at most", Dimension.TIME, "10 s", "5 min", Sense.AT_MOST),
    ] = None
    """Longest time."""

    air_build_up_speed: Annotated[Stated | None, TextField("Engine during the air build-up")] = None
    """Engine speed that the rule asks for, in words."""

    air_static_loss_single: Annotated[
        Stated | None,
        AmountField(
            "Air loss a minute, released, truck alone", PSI, "1 psi", "10 psi", Sense.AT_MOST
        ),
    ] = None
    """Brakes released, engine off."""

    air_static_loss_combination: Annotated[
        Stated | None,
        AmountField(
            "Air loss a minute, released, with a trailer", PSI, "1 psi", "10 psi", Sense.AT_MOST
        ),
    ] = None
    """Brakes released, engine off, one trailer."""

    air_applied_loss_single: Annotated[
        Stated | None,
        AmountField(
            "Air loss a minute, applied, truck alone", PSI, "1 psi", "10 psi", Sense.AT_MOST
        ),
    ] = None
    """Brake pedal held down, after the first drop."""

    air_applied_loss_combination: Annotated[
        Stated | None,
        AmountField(
            "Air loss a minute, applied, with a trailer", PSI, "1 psi", "10 psi", Sense.AT_MOST
        ),
    ] = None
    """Brake pedal held down, after the first drop, one trailer."""

    warning_device_minutes: Annotated[
        Stated | None,
        AmountField(
            "Warning devices are out within", Dimension.TIME, "1 min", "30 min", Sense.AT_MOST
        ),
    ] = None
    """After stopping."""


class ProfileFile(Section):
    """A jurisdiction profile."""

    law: Law
    """Its limits."""

    bounds: Bounds | None = None
    """What specs are checked against; not printed."""


NUMBER = FactField("identity.number", UNIT_NUMBER, "identity", "Number on the door.")
LAW_FACTS = catalog_facts(Law, "law.")
FACTS: Mapping[str, FactField] = MappingProxyType(
    {NUMBER.name: NUMBER, **EQUIPMENT_FACTS, **LAW_FACTS}
)
"""Every fact that a procedure may name, by dotted name, in the order of the data page."""
