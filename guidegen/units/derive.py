"""Facts that follow from other facts.

Takes in the stated facts of a unit; gives out the ones worked out, with formula and source.
Refuses to work out what the office has stated itself.
"""

from collections.abc import Mapping
from decimal import ROUND_CEILING, Decimal

from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Quantity
from guidegen.specs.profile import FACTS
from guidegen.units.model import Fact, WorkedOut

_STEP = Decimal("0.1")
"""Of an ampere: what a cord's label gives."""


def derive_facts(facts: Mapping[str, Fact]) -> dict[str, Fact]:
    """Return the facts that follow from *facts*, by name."""
    current = _heater_current(facts)
    return {} if current is None else {current.name: current}


def _heater_current(facts: Mapping[str, Fact]) -> Fact | None:
    """Current of the block heater: power over voltage (P = U·I), rounded up for the cord."""
    name = "block_heater.current"
    power, voltage = facts.get("block_heater.power"), facts.get("block_heater.voltage")
    if name in facts or power is None or voltage is None:
        return None
    watts, volts = power.value, voltage.value
    if not isinstance(watts, Quantity) or not isinstance(volts, Quantity):
        return None
    exact = watts.exact / volts.exact
    tenths = (Decimal(exact.numerator) / Decimal(exact.denominator)).quantize(_STEP, ROUND_CEILING)
    amount = Quantity(tenths, MEASURES["A"])
    provenance = WorkedOut(
        "block_heater.power / block_heater.voltage",
        (power.name, voltage.name),
        power.provenance.span,
    )
    return Fact(FACTS[name], amount, provenance, (amount,))
