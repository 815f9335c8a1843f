"""Whether two values of one fact could both pass for the right one.

Takes in two facts of one name; says whether a driver could confuse them, after conversion too.
Refuses the benefit of the doubt: two descriptions of a place that do not contradict each other
may be of the same place, and such a value is no wrong answer.
"""

import re
from fractions import Fraction
from itertools import product

from guidegen.quantity.model import Dimension, Quantity, QuantityRange
from guidegen.specs.fields import ChoiceField
from guidegen.units.model import Fact

NEAR = Fraction(1, 50)
"""Of the greater: two amounts that are as near pass for one in the dark and after rounding. An
own choice: the conversions that guides print stray by at most 1 %."""

NEAR_KELVIN = 2

_COLORS = (
    "black blue brown gray green orange pink purple red violet white yellow",
    "left right",
)
"""Words of one line exclude one another."""

_EXCLUSIVE = tuple(frozenset(line.split()) for line in _COLORS)
_RELATIVE = re.compile(r"\b(?:left|right) of\b|\b(?:the|its) (?:left|right)\b")
"""``right of the steering wheel`` may be on the left side of the truck."""

_WORD = re.compile(r"[a-z0-9][a-z0-9/.\-]*")
_BOTH = frozenset({"both", "each"})


def can_be_confused(one: Fact, other: Fact) -> bool:
    """Whether a driver who means one of the two values could choose the other."""
    match one.value, other.value:
        case (Quantity() | QuantityRange(), Quantity() | QuantityRange()):
            return _are_near(one, other)
        case (bool(), _) | (_, bool()) | (tuple(), _) | (_, tuple()):
            return True
        case int(), int():
            return one.value == other.value
        case _:
            return not _contradict(one, other)


def _are_near(one: Fact, other: Fact) -> bool:
    if any(first == second for first, second in product(one.shown, other.shown)):
        return True
    ends = zip(_ends(one), _ends(other), strict=True)
    return all(_is_near(first, second) for first, second in ends)


def _ends(fact: Fact) -> tuple[Quantity, Quantity]:
    """Return the least and the greatest amount; of one amount it is the same."""
    match fact.value:
        case QuantityRange(low=low, high=high):
            return low, high
        case Quantity() as amount:
            return amount, amount
        case _:
            raise TypeError(fact.name)


def _is_near(one: Quantity, other: Quantity) -> bool:
    gap = abs(one.exact - other.exact)
    if one.dimension is Dimension.TEMPERATURE:
        return gap <= NEAR_KELVIN
    return gap <= NEAR * max(abs(one.exact), abs(other.exact))


def _contradict(one: Fact, other: Fact) -> bool:
    """Whether no thing can be as both words say."""
    first, second = _words(one), _words(other)
    if first <= second or second <= first or _BOTH & (first ^ second):
        return False
    if isinstance(one.field.field, ChoiceField):
        return True
    if _numbered(first) - second and _numbered(second) - first:
        return True
    texts = str(one.value).casefold(), str(other.value).casefold()
    sides = [frozenset(_WORD.findall(_RELATIVE.sub("", text))) for text in texts]
    pairs = [(sides[0] & group, sides[1] & group) for group in _EXCLUSIVE]
    return any(mine and theirs and not mine & theirs for mine, theirs in pairs)


def _words(fact: Fact) -> frozenset[str]:
    field, value = fact.field.field, str(fact.value)
    words = field.choices[value] if isinstance(field, ChoiceField) else value
    return frozenset(_WORD.findall(words.casefold()))


def _numbered(words: frozenset[str]) -> frozenset[str]:
    """Return the words with digits, such as grades and sizes."""
    return frozenset(word for word in words if any(map(str.isdigit, word)))
