"""What the trucks of a fleet have on record, fact by fact.

Takes in the guides of a fleet, one of each edition, and what names its trucks; gives out the
different values of each fact, whatever the order in which they come.
Refuses a value that names a truck: no quiz may print another truck's number, VIN or plate.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Self

from guidegen.guide.model import STAMPED, Guide
from guidegen.quantity.model import QuantityRange
from guidegen.source import SourceFile, Span
from guidegen.specs.fields import Value
from guidegen.specs.spelled import spelled
from guidegen.training.alike import can_be_confused
from guidegen.training.lots import Lots
from guidegen.training.model import TruckValue
from guidegen.units.model import Fact, Layer, StatedIn

MOST_WRONG = 3
FEWEST_WRONG = 2
"""Wrong answers of a question; where there are fewer, nothing is asked."""

NAMING = ("identity.number", "identity.vin", "identity.plate")
"""Facts that name a truck."""

ValuesByFact = Mapping[str, Mapping[str, Fact]]
"""Of each fact, by the value in its own spelling."""

# A wrong answer is of no truck in particular: a line that moves in one truck's file changes no
# quiz of another.
_OF_THE_FLEET = StatedIn(Layer.FLEET, Span(SourceFile("specs/units", ""), 1, 1, 1, 1), "")


@dataclass(frozen=True, slots=True)
class FleetValues:
    """The values of a fleet."""

    by_fact: ValuesByFact
    """No value names a truck."""

    @classmethod
    def of(cls, guides: Iterable[Guide]) -> Self:
        """Return the values of *guides*; identities are left out."""
        seen = tuple(guides)
        return cls.of_parts([values_on_record(seen)], naming(seen))

    @classmethod
    def of_parts(cls, parts: Iterable[ValuesByFact], names: Iterable[str]) -> Self:
        """Return the values of all *parts* of a fleet.

        Args:
            parts: As `values_on_record` gives them, in any order.
            names: Numbers, VINs and plates of all trucks, as `naming` gives them.
        """
        found: dict[str, dict[str, Fact]] = {}
        for part in parts:
            for name, values in part.items():
                _gather(found.setdefault(name, {}), values.items())
        names_of_trucks = _Names(names)
        kept = {
            name: {spelling: e for spelling, e in values.items() if not names_of_trucks.in_(e)}
            for name, values in found.items()
        }
        return cls({name: values for name, values in kept.items() if values})

    def others(self, own: Fact, lots: Lots) -> tuple[TruckValue, ...]:
        """Return up to `MOST_WRONG` values that are wrong for a truck whose value is *own*.

        None can be confused with *own* or with another. Which ones, falls by lot.
        """
        values = self.by_fact.get(own.name, {})
        chosen = [own]
        for candidate in lots.shuffled(values, str, f"others of {own.name}"):
            if len(chosen) > MOST_WRONG:
                break
            fact = values[candidate]
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


def values_on_record(guides: Iterable[Guide]) -> ValuesByFact:
    """Return the values of *guides*, of which one for each edition will do.

    Identities are left out, and what one truck's own file states: a driver knows the values of
    other models, hardly that of one other truck, and what is measured on one truck changes no
    quiz of the others. Of values that are spelled alike, which one is kept does not hang on the
    order of the guides.
    """
    found: dict[str, dict[str, Fact]] = {}
    for guide in guides:
        for name, fact in guide.facts.items():
            if name not in STAMPED and not _is_of_one_truck(fact, guide):
                own = replace(fact, provenance=_OF_THE_FLEET)
                _gather(found.setdefault(name, {}), [(spelling(fact.value), own)])
    return MappingProxyType(found)


def naming(guides: Iterable[Guide]) -> frozenset[str]:
    """Return what names the trucks of *guides*: their numbers, VINs and plates."""
    facts = (guide.facts.get(name) for guide in guides for name in NAMING)
    return frozenset(str(fact.value) for fact in facts if fact is not None)


def _is_of_one_truck(fact: Fact, guide: Guide) -> bool:
    """Whether the file of a unit states it, or a value that it is worked out from."""
    origin = fact.provenance
    if isinstance(origin, StatedIn):
        return origin.layer is Layer.UNIT
    named = (guide.facts.get(name) for name in origin.of)
    return any(each is None or _is_of_one_truck(each, guide) for each in named)


def _gather(found: dict[str, Fact], values: Iterable[tuple[str, Fact]]) -> None:
    for spelling_, fact in values:
        known = found.setdefault(spelling_, fact)
        if known is not fact and _shown_first(fact) < _shown_first(known):
            found[spelling_] = fact


def _shown_first(fact: Fact) -> tuple[bool, list[str]]:
    """Return what a converted value comes before a quoted one by, and then by what is shown."""
    return fact.is_quoted, [spelled(amount) for amount in fact.shown]


class _Names:
    """Names that are looked for in texts, all at once."""

    def __init__(self, names: Iterable[str]) -> None:
        self._names = frozenset(name.casefold() for name in names)
        self._lengths = sorted({len(name) for name in self._names if name})

    def in_(self, fact: Fact) -> bool:
        """Whether the value of *fact*, as it is spelled, holds any of the names."""
        text = spelling(fact.value).casefold()
        return any(
            text[start : start + length] in self._names
            for length in self._lengths
            for start in range(len(text) - length + 1)
        )
