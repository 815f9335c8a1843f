"""Facts that follow from other facts.

Takes in the stated facts of a unit; gives out the ones worked out, with formula and source.
Refuses to work out what the office has stated itself.
"""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction

from guidegen.quantity.convert import round_to_step
from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Measure, Quantity, Sense, System
from guidegen.specs.profile import FACTS
from guidegen.units.cords import cord_facts
from guidegen.units.model import Fact, Show, WorkedOut

_TENTH = Decimal("0.1")
"""Of an ampere: what a cord's label gives."""

_GAUGE_STEPS = {"kPa": Decimal(10), "bar": _TENTH}
"""What a tire gauge shows, where that is not one of its measure. Common practice, no source."""

NO_FILL_SHARE = Fraction(4, 5)
"""Of the cold pressure. 29 CFR 1910.177(f): a tire that ran at 80 percent or less of its pressure
is taken off and taken apart, and only above that it may be topped up on the truck."""


def derive_facts(facts: Mapping[str, Fact], show: Show, first: System) -> dict[str, Fact]:
    """Return the facts that follow from *facts*, by name.

    Args:
        facts: What is stated.
        show: What is printed for an amount.
        first: The measures that the fleet shows first.
    """
    current = _heater_current(facts, show)
    derived = {} if current is None else {current.name: current}
    derived |= {fact.name: fact for fact in _no_fill_pressures(facts, show)}
    return derived | {fact.name: fact for fact in cord_facts({**facts, **derived}, show, first)}


def _heater_current(facts: Mapping[str, Fact], show: Show) -> Fact | None:
    """Current of the block heater: power over voltage (P = U·I), rounded up for the cord."""
    name = "block_heater.current"
    power, voltage = facts.get("block_heater.power"), facts.get("block_heater.voltage")
    if name in facts or power is None or voltage is None:
        return None
    watts, volts = power.value, voltage.value
    if not isinstance(watts, Quantity) or not isinstance(volts, Quantity):
        return None
    tenths = round_to_step(watts.exact / volts.exact, _TENTH, Sense.AT_LEAST)
    amount = Quantity(tenths, MEASURES["A"])
    provenance = WorkedOut(
        "block_heater.power / block_heater.voltage",
        (power.name, voltage.name),
        power.provenance.span,
    )
    return Fact(FACTS[name], amount, provenance, show(FACTS[name], amount))


def _no_fill_pressures(facts: Mapping[str, Fact], show: Show) -> Iterator[Fact]:
    """For each position, the pressure at which nobody may add air any more, rounded up."""
    for name, field in FACTS.items():
        if not name.startswith("tires.") or not name.endswith(".no_fill_pressure"):
            continue
        cold = facts.get(f"{field.section}.cold_pressure")
        if name in facts or cold is None or not isinstance(cold.value, Quantity):
            continue
        measure = cold.value.measure
        share = Fraction(cold.value.amount) * NO_FILL_SHARE
        amount = Quantity(round_to_step(share, _gauge_step(measure), Sense.AT_LEAST), measure)
        provenance = WorkedOut(
            f"{NO_FILL_SHARE} of {cold.name}", (cold.name,), cold.provenance.span
        )
        yield Fact(field, amount, provenance, show(field, amount))


def _gauge_step(measure: Measure) -> Decimal:
    return _GAUGE_STEPS.get(measure.symbol, Decimal(1))
