"""Limits that differ by place: what a jurisdiction profile holds.

Takes in a profile file of the library; gives out ``law.…`` facts, each with its source, and the
catalog of all facts.
Refuses a value without a source: a limit of the law that nobody can look up is hearsay.
"""

import copyreg
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated

from guidegen.quantity.model import Dimension, Sense
from guidegen.specs.bounds import Bounds
from guidegen.specs.equipment import (
    EQUIPMENT_FACTS,
    EQUIPMENT_SECTIONS,
    MODEL_ID,
    UNIT_NUMBER,
    FactField,
    catalog_facts,
)
from guidegen.specs.fields import AmountField, CountField, Stated, TextField
from guidegen.specs.section import Section
from guidegen.specs.substances import SUBSTANCE_CARRIERS, SUBSTANCE_FACTS

PSI = Dimension.PRESSURE
LENGTH = Dimension.LENGTH


@dataclass(frozen=True, slots=True)
class Concerns:
    """Which trucks a limit is about: others do not have it on record, whatever the place."""

    section: str
    """Dotted name of a section of `guidegen.specs.equipment.Equipment`."""


AIR, HYDRAULIC = Concerns("brakes.air"), Concerns("brakes.hydraulic")


class Law(Section):
    """Limits of one jurisdiction for the driver's own checks."""

    name: Annotated[Stated | None, TextField("Jurisdiction")] = None
    """As printed."""

    air_build_up_from: Annotated[
        Stated | None, AmountField("Air build-up is timed from", PSI, "40 psi", "100 psi"), AIR
    ] = None
    """Start of the timed build-up."""

    air_build_up_to: Annotated[
        Stated | None, AmountField("Air build-up is timed to", PSI, "80 psi", "120 psi"), AIR
    ] = None
    """End of the timed build-up."""

    air_build_up_time: Annotated[
        Stated | None,
        AmountField("Air build-up takes at most", Dimension.TIME, "10 s", "5 min", Sense.AT_MOST),
        AIR,
    ] = None
    """Longest time."""

    air_build_up_speed: Annotated[
        Stated | None, TextField("Engine during the air build-up"), AIR
    ] = None
    """Engine speed that the rule asks for, in words."""

    air_static_loss_single: Annotated[
        Stated | None,
        AmountField(
            "Air loss a minute, released, truck alone", PSI, "1 psi", "10 psi", Sense.AT_MOST
        ),
        AIR,
    ] = None
    """Brakes released, engine off."""

    air_static_loss_combination: Annotated[
        Stated | None,
        AmountField(
            "Air loss a minute, released, with a trailer", PSI, "1 psi", "10 psi", Sense.AT_MOST
        ),
        AIR,
    ] = None
    """Brakes released, engine off, one trailer."""

    air_applied_loss_single: Annotated[
        Stated | None,
        AmountField(
            "Air loss a minute, applied, truck alone", PSI, "1 psi", "10 psi", Sense.AT_MOST
        ),
        AIR,
    ] = None
    """Brake pedal held down, after the first drop."""

    air_applied_loss_combination: Annotated[
        Stated | None,
        AmountField(
            "Air loss a minute, applied, with a trailer", PSI, "1 psi", "10 psi", Sense.AT_MOST
        ),
        AIR,
    ] = None
    """Brake pedal held down, after the first drop, one trailer."""

    air_loss_time: Annotated[
        Stated | None, AmountField("Air loss is watched for", Dimension.TIME, "30 s", "5 min"), AIR
    ] = None
    """Time that the four limits of air loss are for."""

    hydraulic_pedal_hold: Annotated[
        Stated | None,
        AmountField("Brake pedal is held for", Dimension.TIME, "2 s", "30 s"),
        HYDRAULIC,
    ] = None
    """Hydraulic brakes: pressed down firmly, the pedal must not move for so long."""

    warning_device_minutes: Annotated[
        Stated | None,
        AmountField(
            "Warning devices are out within", Dimension.TIME, "1 min", "30 min", Sense.AT_MOST
        ),
    ] = None
    """After stopping."""

    warning_device_count: Annotated[
        Stated | None, CountField("Warning triangles on board", 1, 6)
    ] = None
    """Least number of triangles; other devices may be counted otherwise."""

    warning_device_near: Annotated[
        Stated | None, AmountField("Nearest warning device", LENGTH, "3 ft", "150 ft")
    ] = None
    """On the traffic side of the truck, toward the traffic that comes up behind."""

    warning_device_far: Annotated[
        Stated | None, AmountField("Far warning device", LENGTH, "50 ft", "1,000 ft")
    ] = None
    """On a two-way road, one in each direction; elsewhere the second one."""

    warning_device_far_one_way: Annotated[
        Stated | None,
        AmountField("Farthest warning device, one-way road", LENGTH, "50 ft", "1,000 ft"),
    ] = None
    """On a one-way or divided road, the third one, toward the traffic."""

    warning_device_obstruction_from: Annotated[
        Stated | None,
        AmountField("Warning device before a hill or curve, from", LENGTH, "50 ft", "1,000 ft"),
    ] = None
    """Nearest place for the one that a hill, curve or other obstruction would hide."""

    warning_device_obstruction_to: Annotated[
        Stated | None,
        AmountField("Warning device before a hill or curve, to", LENGTH, "50 ft", "1,000 ft"),
    ] = None
    """Farthest place for it; an obstruction within this distance of the truck calls for it."""

    tread_depth_steer: Annotated[
        Stated | None,
        AmountField(
            "Least tread depth, steer tires", LENGTH, "1/32 in", "10/32 in", Sense.AT_LEAST
        ),
    ] = None
    """In any major groove, not at a tie bar, hump or fillet."""

    tread_depth_other: Annotated[
        Stated | None,
        AmountField(
            "Least tread depth, other tires", LENGTH, "1/32 in", "10/32 in", Sense.AT_LEAST
        ),
    ] = None
    """In any major groove, not at a tie bar, hump or fillet."""

    idling_limit: Annotated[
        Stated | None,
        AmountField("Longest idling", Dimension.TIME, "30 s", "60 min", Sense.AT_MOST),
        Concerns("engine"),
    ] = None
    """At one place; rules have exceptions, which stand in the rule."""

    downhill_speed_drop: Annotated[
        Stated | None,
        AmountField(
            "Downhill, brake to below the safe speed by", Dimension.SPEED, "1 mph", "15 mph"
        ),
    ] = None
    """Then the brakes are let go until the safe speed is reached again."""


class ProfileFile(Section):
    """A jurisdiction profile."""

    law: Law
    """Its limits."""

    bounds: Bounds | None = None
    """What specs are checked against; not printed."""


NUMBER = FactField("identity.number", UNIT_NUMBER, "identity", "Number on the door.")
LAW_FACTS = catalog_facts(Law, "law.")
LAW_CONCERNS: Mapping[str, str] = MappingProxyType(
    {
        f"law.{name}": mark.section
        for name, field in Law.model_fields.items()
        for mark in field.metadata
        if isinstance(mark, Concerns)
    }
)
"""For each limit that is about some trucks only, the section that these have."""

COMES_WITH: Mapping[str, str] = MappingProxyType({**SUBSTANCE_CARRIERS, **LAW_CONCERNS})
"""For each fact of the library that only some trucks have, the section that these have."""

FACTS: Mapping[str, FactField] = MappingProxyType(
    {NUMBER.name: NUMBER, **EQUIPMENT_FACTS, **SUBSTANCE_FACTS, **LAW_FACTS}
)
"""Every fact that a procedure may name, by dotted name, in the order of the data page."""

MODEL = FactField("identity.model", MODEL_ID, "identity", "Name of the file in `specs/models`.")
ASKED: Mapping[str, FactField] = MappingProxyType({NUMBER.name: NUMBER, MODEL.name: MODEL, **FACTS})
"""Every fact that a condition may ask for: those of `FACTS`, and the model that a unit file names.
That one is printed nowhere; guides print the model's name as it stands on the cab."""


def fact_field(name: str) -> FactField:
    """Return the fact called *name*.

    Raises:
        KeyError: There is none.
    """
    return FACTS[name]


def _by_name(field: FactField) -> tuple[object, ...]:
    """Tell pickle that a fact of the catalog is the same in every process."""
    if FACTS.get(field.name) is field:
        return fact_field, (field.name,)
    return FactField, (field.name, field.field, field.section, field.description)


copyreg.pickle(FactField, _by_name)  # type: ignore[arg-type]  # typed for other makers

HOLDER_LABELS: Mapping[str, str] = MappingProxyType(
    {
        **{name: section.label for name, section in EQUIPMENT_SECTIONS.items()},
        "substance": "Fluids",
        "law": LAW_FACTS["law.name"].label,
    }
)
"""What the data page calls whatever holds facts: sections of the truck, fluids, the law."""
