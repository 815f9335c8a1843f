"""Values in a stream of words.

Takes in facts and printed texts; gives out whether a text says a fact, once for each text.
Refuses to read a value as printed unless it is read back equal and converted to its safe side.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.proof.read_text import misread_value, stray_value
from guidegen.quantity.model import Amount, Quantity, QuantityRange
from guidegen.specs.fields import AmountField, ChoiceField, ChoicesField
from guidegen.units.model import Fact

_JOIN = 5
"""Letters that stand between two choices, two amounts or the ends of a range, at most."""

_SPACING = 8
"""Letters of an amount that are neither of its number nor of its measure, at most: signs, blanks
and, with feet and inches, the second number and measure."""


@dataclass(frozen=True, slots=True)
class Values:
    """The facts of a truck, with what was found of them so far."""

    facts: Mapping[str, Fact]
    _judged: dict[tuple[str, str], str] = field(default_factory=dict, repr=False)
    _proved: dict[str, list[str]] = field(default_factory=dict, repr=False)
    _longest: dict[str, int] = field(default_factory=dict, repr=False)

    def misread(self, name: str, text: str) -> str:
        """Return what *text* does not say of the fact *name*, or empty text if it says it all."""
        known = self._judged.get((name, text))
        if known is None:
            known = misread_value(self.facts[name], text) if name in self.facts else "is unknown"
            self._judged[name, text] = known
            if not known:
                self._proved.setdefault(name, []).append(text)
        return known

    def proved(self, name: str) -> list[str]:
        """Return the texts that were found to say the fact *name*."""
        return self._proved.get(name, [])

    def longest(self, name: str) -> int:
        """Return how many letters a text that says the fact *name* has at most."""
        if name not in self._longest:
            self._longest[name] = _longest(self.facts[name]) if name in self.facts else 0
        return self._longest[name]

    def judge(self, name: str, text: str) -> tuple[Rule, str]:
        """Return what is wrong with *text* for the fact *name*, and by which rule."""
        fault = self.misread(name, text)
        if fault:
            return rules.VALUE_DIFFERS, f"reads `{text}` for `{name}`, which {fault}"
        fault = stray_value(self.facts[name])
        return rules.VALUE_CONVERTED_WRONGLY, f"`{text}` for `{name}` {fault}" if fault else ""


def _longest(fact: Fact) -> int:
    """Return a number of letters that no text has which says *fact*.

    It may be too many, which costs time; were it too few, sound paper would be refused.
    """
    match fact.field.field:
        case AmountField():
            amounts = fact.shown or (fact.value,)
            return sum(
                _room(each) for each in amounts if isinstance(each, Quantity | QuantityRange)
            )
        case ChoiceField(choices=choices):
            return max(map(len, choices.values()), default=0)
        case ChoicesField(choices=choices):
            return sum(len(each) + _JOIN for each in choices.values())
        case _:
            return len(str(fact.value)) + _JOIN


def _room(amount: Amount) -> int:
    if isinstance(amount, QuantityRange):
        return _room(amount.low) + _room(amount.high) + _JOIN
    return len(f"{amount.amount:,f}") + len(amount.measure.symbol) + _SPACING + _JOIN
