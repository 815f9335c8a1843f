"""A unit as rules of plausibility see it.

Takes in a unit and what its jurisdiction asks of such trucks; gives out amounts, words and
presences by name. Refuses to guess: what is not on record is none, and raises no doubt.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from guidegen.finding import Note
from guidegen.quantity.express import NO_BREAK_SPACE, express
from guidegen.quantity.model import Amount, Quantity, QuantityRange
from guidegen.source import Span
from guidegen.specs.fields import Stated, Value
from guidegen.units.model import Presence, Unit, WorkedOut


@dataclass(frozen=True, slots=True)
class Bound:
    """What the jurisdiction asks: one amount, or a range."""

    low: Fraction
    """In the base measure; of one amount the same as ``high``."""

    high: Fraction
    words: str
    """The amount and where it is from, as in ``60 psi of FMVSS 121``."""

    span: Span

    @property
    def note(self) -> Note:
        """Where it stands, for a finding."""
        return Note("the rule stands at", self.span)


@dataclass(frozen=True, slots=True)
class Case:
    """One unit beside what its jurisdiction states."""

    unit: Unit
    bounds: Mapping[str, Stated]
    """What the jurisdiction's profile states, by dotted name: ``bounds.cut_out_most``."""

    def has(self, section: str) -> bool:
        """Whether the truck is known to have the thing."""
        return self._presence(section) is Presence.GIVEN

    def lacks(self, section: str) -> bool:
        """Whether the truck is known not to have the thing."""
        return self._presence(section) is Presence.NOT_FITTED

    def section_span(self, section: str) -> Span:
        """Return where *section* is stated; the unit's number if it is stated nowhere."""
        state = self.unit.sections.get(section)
        return state.span if state and state.span else self.unit.span

    def value(self, fact: str) -> Value | None:
        """Return the value of *fact*; none if it is not on record."""
        known = self.unit.facts.get(fact)
        return None if known is None else known.value

    def word(self, fact: str) -> str:
        """Return the choice or text of *fact*; empty if it is not on record."""
        value = self.value(fact)
        return value if isinstance(value, str) else ""

    def chosen(self, fact: str) -> tuple[str, ...]:
        """Return the choices of *fact*; none of them if it is not on record."""
        value = self.value(fact)
        return value if isinstance(value, tuple) else ()

    def count(self, fact: str) -> int | None:
        """Return the whole number of *fact*; none if it is not on record."""
        value = self.value(fact)
        return value if isinstance(value, int) and not isinstance(value, bool) else None

    def low(self, fact: str) -> Fraction | None:
        """Return the amount of *fact*, its low end if it is a range, in the base measure."""
        return least(self.value(fact))

    def high(self, fact: str) -> Fraction | None:
        """Return the amount of *fact*, its high end if it is a range, in the base measure."""
        return most(self.value(fact))

    def bound(self, name: str) -> Bound | None:
        """Return what the jurisdiction states as ``bounds.`` *name*; none if it states nothing."""
        stated = self.bounds.get(f"bounds.{name}")
        if stated is None:
            return None
        low, high = least(stated.value), most(stated.value)
        if low is None or high is None:
            return None
        return Bound(low, high, f"{in_words(stated.value)} of {stated.source}", stated.span)

    def span(self, fact: str) -> Span:
        """Return where *fact*, which must be on record, is stated."""
        return self.unit.facts[fact].provenance.span

    def is_worked_out(self, fact: str) -> bool:
        """Whether *fact*, which must be on record, follows from others and nobody stated it."""
        return isinstance(self.unit.facts[fact].provenance, WorkedOut)

    def said(self, fact: str) -> str:
        """Return *fact*, which must be on record, as a file would state it, in backticks."""
        return f"`{fact}: {in_words(self.unit.facts[fact].value)}`"

    def _presence(self, section: str) -> Presence:
        state = self.unit.sections.get(section)
        return state.presence if state else Presence.NOT_ON_RECORD


def least(value: Value | None) -> Fraction | None:
    """Return the low end of an amount in its base measure; none of anything else."""
    match value:
        case QuantityRange(low=low):
            return low.exact
        case Quantity():
            return value.exact
        case _:
            return None


def most(value: Value | None) -> Fraction | None:
    """Return the high end of an amount in its base measure; none of anything else."""
    match value:
        case QuantityRange(high=high):
            return high.exact
        case Quantity():
            return value.exact
        case _:
            return None


def in_words(value: Value) -> str:
    """Return *value* as a file states it."""
    match value:
        case bool():
            return "yes" if value else "no"
        case Quantity() | QuantityRange():
            return plain(value)
        case tuple():
            return f"[{', '.join(value)}]"
        case _:
            return str(value)


def plain(amount: Amount) -> str:
    """Return *amount* with plain blanks, for the words of a finding."""
    return express(amount).replace(NO_BREAK_SPACE, " ")
