"""What is true of a fluid on every truck: what the library knows of substances.

Takes in the library's file of fluids; gives out ``substance.…`` facts, each with its source and
the section whose trucks carry the fluid. Refuses a value of one brand: only what a standard or
an association states of the fluid belongs here.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated

from guidegen.quantity.model import Dimension, Sense
from guidegen.specs.equipment import catalog_facts
from guidegen.specs.fields import AmountField, Stated
from guidegen.specs.section import Section


@dataclass(frozen=True, slots=True)
class CarriedBy:
    """Which trucks have the fluid on board."""

    section: str
    """Dotted name of a section of `guidegen.specs.equipment.Equipment`."""


class Substances(Section):
    """Fluids."""

    def_freezing_point: Annotated[
        Stated | None,
        AmountField("DEF freezes at", Dimension.TEMPERATURE, "0 °F", "20 °F"),
        CarriedBy("def_system"),
    ] = None
    """Of a solution of the strength that the standard asks for."""

    def_storage: Annotated[
        Stated | None,
        AmountField("DEF is stored at", Dimension.TEMPERATURE, "0 °F", "110 °F", Sense.RANGE),
        CarriedBy("def_system"),
    ] = None
    """Sealed, out of the sun."""


class SubstancesFile(Section):
    """The library's file of fluids."""

    substance: Substances
    """What is known of them."""


SUBSTANCE_FACTS = catalog_facts(Substances, "substance.")
SUBSTANCE_CARRIERS: Mapping[str, str] = MappingProxyType(
    {
        f"substance.{name}": mark.section
        for name, field in Substances.model_fields.items()
        for mark in field.metadata
        if isinstance(mark, CarriedBy)
    }
)
"""For each fact of a fluid, the section that a truck with that fluid has."""
