"""What the trucks of a fleet have on record, fact by fact.

Takes in the guides of a fleet; gives out the different values of each fact.
Refuses a value that names a truck: no quiz may print another truck's number, VIN or plate.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Self

from guidegen.guide.model import STAMPED, Guide
from guidegen.quantity.model import QuantityRange
from guidegen.specs.fields import Value
from guidegen.training.alike import can_be_confused
from guidegen.training.lots import Lots
from guidegen.training.model import TruckValue
from guidegen.units.model import Fact

MOST_WRONG = 3
FEWEST_WRONG = 2
"""Wrong answers of a question; where there are fewer, nothing is asked."""

_NAMING = ("identity.number", "identity.vin", "identity.plate")


@dataclass(frozen=True, slots=True)
class FleetValues:
    """The values of a fleet."""

    by_fact: Mapping[str, Mapping[str, Fact]]
    """Of each fact, by the value in its own spelling."""

    @classmethod
    def of(cls, guides: Iterable[Guide]) -> Self:
        """Return the values of *guides*; identities are left out."""
        seen = tuple(guides)
        names = {
            str(guide.facts[name].value).casefold()
            for guide in seen
            for name in _NAMING
            if name in guide.facts
        }
        values: dict[str, dict[str, Fact]] = {}
        for guide in seen:
            for name, fact in guide.facts.items():
                spelled = spelling(fact.value)
                if name not in STAMPED and not _names_one(spelled.casefold(), names):
                    values.setdefault(name, {}).setdefault(spelled, fact)
        return cls(values)

    def others(self, own: Fact, lots: Lots) -> tuple[TruckValue, ...]:
        """Return up to `MOST_WRONG` values that are wrong for a truck whose value is *own*.

        None can be confused with *own* or with another. Which ones, falls by lot.
        """
        values = self.by_fact.get(own.name, {})
        chosen = [own]
        for spelled in lots.shuffled(values, str, f"others of {own.name}"):
            if len(chosen) > MOST_WRONG:
                break
            fact = values[spelled]
            if not any(can_be_confused(fact, each) for each in chosen):
                chosen.append(fact)
        return tuple(TruckValue(fact) for fact in chosen[1:])


def spelling(value: Value) -> str:
    """Return *value* in letters and digits, the same for the same value typed alike."""
    if isinstance(value, QuantityRange):
        return f"{spelling(value.low)} to {spelling(value.high)}"
    if isinstance(value, tuple):
        return ", ".join(value)
    if isinstance(value, str | int):
        return str(value)
    return f"{value.amount} {value.measure.symbol}"


def _names_one(spelled: str, names: Iterable[str]) -> bool:
    return any(name in spelled for name in names)
