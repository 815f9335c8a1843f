"""Amounts as people type them.

Takes in one text and the dimension that it must have; gives out the quantity or range, with
every typed digit kept. Refuses whatever could be read in two ways, each fault as an exception
of its own that carries the words for a finding.
"""

import re
from decimal import Context, Decimal
from functools import lru_cache
from typing import NamedTuple

from guidegen.quantity.measures import FEET_AND_INCHES
from guidegen.quantity.model import Amount, Dimension, Measure, Quantity, QuantityRange
from guidegen.quantity.spellings import (
    find_in_any_dimension,
    find_measure,
    suggest_spelling,
    usual_spellings,
)

MOST_DIGITS = 15
"""More digits than any plate or manual states; a longer number is a slip of the keyboard."""

_INCHES_IN_A_FOOT = 12
_EXACTLY = Context(prec=4 * MOST_DIGITS)
"""Wide enough that feet and inches add up without rounding, whatever the context around us."""

# No-break, narrow no-break and thin space and the minus sign: what is printed, and what comes
# along when people copy from a document.
_AS_TYPED = str.maketrans(dict.fromkeys("\u00a0\u202f\u2009", " ") | {"\u2212": "-"})

_ONE_AMOUNT = re.compile(r"(?P<number>-?[0-9][0-9., ]*?) *(?P<symbol>[^0-9., ].*)?")
_PLAIN = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?")
_GROUPED = re.compile(r"-?[1-9][0-9]{0,2}(?:(?:,[0-9]{3})+|(?: [0-9]{3})+)(?:\.[0-9]+)?")
_FEET_AND_INCHES = re.compile(
    r"(?P<feet>-?[0-9][0-9, ]*?) *(?:(?:ft|feet|foot)\.?|['\u2032\u2019] *-?) *"
    r"(?P<inches>[0-9][0-9.]*) *(?:in|inch|inches|[\"\u2033\u201d])\.?",
    re.IGNORECASE,
)
_TO = re.compile(r" +to +", re.IGNORECASE)
_EN_DASH = re.compile(r" *\u2013 *")
# A hyphen also stands in `lb-ft`, so it makes a range only before a digit and after something.
_HYPHEN = re.compile(r"(?<!^) *- *(?=[0-9])")


class UnreadableAmount(ValueError):
    """Raised for a text that is no amount of the wanted dimension; ``text`` is all of it."""

    text: str


class NotANumber(UnreadableAmount):
    """There is no number, or one that could be read in two ways."""

    def __init__(self, text: str, reason: str, fix: str) -> None:
        super().__init__(text, reason, fix)
        self.text = text
        self.reason = reason
        """What is the matter, as a clause that goes on from the text."""
        self.fix = fix
        """What to type."""

    def __str__(self) -> str:
        return f"`{self.text}` {self.reason}"


class MissingMeasure(UnreadableAmount):
    """There is a number and nothing that says of what."""

    def __init__(self, text: str, number: str, examples: tuple[str, ...]) -> None:
        super().__init__(text, number, examples)
        self.text = text
        self.number = number
        """The number, or the numbers of a range, as typed."""
        self.examples = examples
        """The same number with each of the usual measures of the dimension."""

    def __str__(self) -> str:
        return f"`{self.number}` has no unit of measure"


class UnknownMeasure(UnreadableAmount):
    """The symbol is not in the table."""

    def __init__(self, text: str, symbol: str, suggestion: str | None) -> None:
        super().__init__(text, symbol, suggestion)
        self.text = text
        self.symbol = symbol
        self.suggestion = suggestion
        """A spelling of the wanted dimension that is near; none where that would be a guess."""

    def __str__(self) -> str:
        return f"`{self.symbol}` is no unit of measure that is known here"


class WrongDimension(UnreadableAmount):
    """The measure is known and measures something else."""

    def __init__(self, text: str, measure: Measure, expected: Dimension) -> None:
        super().__init__(text, measure, expected)
        self.text = text
        self.measure = measure
        self.expected = expected

    @property
    def examples(self) -> tuple[str, ...]:
        """The usual spellings of the dimension that is wanted."""
        return usual_spellings(self.expected)

    def __str__(self) -> str:
        return (
            f"`{self.measure.symbol}` measures {self.measure.dimension.value} "
            f"and not {self.expected.value}"
        )


class BackwardRange(UnreadableAmount):
    """The second number of a range is not greater than the first."""

    def __init__(self, text: str, low: Quantity, high: Quantity) -> None:
        super().__init__(text, low, high)
        self.text = text
        self.low = low
        """The first that was typed."""
        self.high = high
        """The second that was typed."""

    def __str__(self) -> str:
        return f"`{self.text}` does not go from less to more"


class MixedMeasures(UnreadableAmount):
    """The two ends of a range are in different measures."""

    def __init__(self, text: str, low: Quantity, high: Quantity) -> None:
        super().__init__(text, low, high)
        self.text = text
        self.low = low
        self.high = high

    def __str__(self) -> str:
        return (
            f"`{self.text}` goes from `{self.low.measure.symbol}` to `{self.high.measure.symbol}`"
        )


class _Wanted(NamedTuple):
    """What is being read, for the exceptions, and what it must measure."""

    text: str
    dimension: Dimension


@lru_cache(maxsize=4_000)
def parse_amount(text: str, dimension: Dimension) -> Amount:
    """Read one amount, or a range from one amount to a greater one.

    Reads everything that ``express`` prints, and what people type: ``54,000 lb``,
    ``54 000 lb``, ``13 ft 6 in``, ``13' 6"``, ``15-20 min``, ``15 to 20 min``. A comma groups
    digits by threes and is never a decimal sign.

    Args:
        text: The amount and its measure; spaces around it do not count.
        dimension: What it must measure. It also tells a temperature from a difference.

    Returns:
        The amount with its digits as typed; a range in one measure.

    Raises:
        UnreadableAmount: As one of its subclasses, which say what is the matter.

    >>> parse_amount("3.70 qt", Dimension.VOLUME).amount
    Decimal('3.70')
    >>> parse_amount("13 ft 6 in", Dimension.LENGTH).amount
    Decimal('162')
    """
    wanted = _Wanted(text.strip(), dimension)
    typed = text.translate(_AS_TYPED).strip()
    feet_and_inches = _FEET_AND_INCHES.fullmatch(typed)
    if feet_and_inches:  # before any hyphen is taken for a range: `13'-6"`
        return _read_feet_and_inches(feet_and_inches, wanted)
    for separator in (_TO, _EN_DASH, _HYPHEN):
        ends = separator.split(typed, maxsplit=1)
        if len(ends) > 1:
            return _read_range(ends[0], ends[1], separator, wanted)
    return _read_single(typed, wanted)


def _read_range(
    first: str, second: str, separator: re.Pattern[str], wanted: _Wanted
) -> QuantityRange:
    if separator is not _TO and "-" in (first[:1], second[:1]):
        raise NotANumber(
            wanted.text,
            "has a minus sign beside the dash of a range",
            "write the range with the word `to`: `-40 to -20 F`",
        )
    low_number, low_symbol = _split(first, wanted)
    if not low_symbol and not _split(second, wanted)[1]:
        raise _missing_measure(wanted.text, wanted)
    high = _read_one(second, wanted)
    if low_symbol or high.measure is FEET_AND_INCHES:
        low = _read_one(first, wanted)
    else:
        low = Quantity(_read_number(low_number, wanted), high.measure)
    if low.measure is not high.measure:
        raise MixedMeasures(wanted.text, low, high)
    if low.amount >= high.amount:
        raise BackwardRange(wanted.text, low, high)
    return QuantityRange(low, high)


def _read_one(typed: str, wanted: _Wanted) -> Quantity:
    feet_and_inches = _FEET_AND_INCHES.fullmatch(typed)
    if feet_and_inches:
        return _read_feet_and_inches(feet_and_inches, wanted)
    return _read_single(typed, wanted)


def _read_single(typed: str, wanted: _Wanted) -> Quantity:
    number, symbol = _split(typed, wanted)
    measure = _read_measure(symbol, wanted) if symbol else None
    amount = _read_number(number, wanted)
    if measure is None:
        raise _missing_measure(number, wanted)
    return Quantity(amount, measure)


def _read_feet_and_inches(match: re.Match[str], wanted: _Wanted) -> Quantity:
    if wanted.dimension is not Dimension.LENGTH:
        raise WrongDimension(wanted.text, FEET_AND_INCHES, wanted.dimension)
    feet = _read_number(match["feet"].removeprefix("-"), wanted)
    inches = _read_number(match["inches"], wanted)
    if inches >= _INCHES_IN_A_FOOT:
        raise NotANumber(
            wanted.text,
            "has 12 inches or more beside its feet",
            "carry the inches over into the feet, or write all of it in inches",
        )
    amount = _EXACTLY.fma(feet, Decimal(_INCHES_IN_A_FOOT), inches)
    _refuse_too_many_digits(f"{amount:f}", wanted)
    return Quantity(_signed(amount, match["feet"]), FEET_AND_INCHES)


def _split(typed: str, wanted: _Wanted) -> tuple[str, str]:
    match = _ONE_AMOUNT.fullmatch(typed)
    if match is None:
        raise NotANumber(
            wanted.text,
            "does not start with a number",
            "write the number in digits 0 to 9, then the measure: `0.5 psi`",
        )
    return match["number"], match["symbol"] or ""


def _read_measure(symbol: str, wanted: _Wanted) -> Measure:
    measure = find_measure(symbol, wanted.dimension)
    if measure is not None:
        return measure
    elsewhere = find_in_any_dimension(symbol)
    if elsewhere is not None:
        raise WrongDimension(wanted.text, elsewhere, wanted.dimension)
    if any(character.isnumeric() for character in symbol):
        raise NotANumber(
            wanted.text,
            "holds more digits after its number",
            "write one decimal number and one measure, without a fraction or an exponent",
        )
    raise UnknownMeasure(wanted.text, symbol, suggest_spelling(symbol, wanted.dimension))


def _read_number(number: str, wanted: _Wanted) -> Decimal:
    if not (_PLAIN.fullmatch(number) or _GROUPED.fullmatch(number)):
        raise NotANumber(
            wanted.text,
            f"holds `{number}`, which can be read in more than one way",
            "write a point before the decimals, a digit before the point, no zero in front of "
            "other digits, and commas only to group by threes: `54,000` or `0.35`",
        )
    _refuse_too_many_digits(number, wanted)
    return _signed(
        Decimal(number.translate({ord(","): None, ord(" "): None, ord("-"): None})), number
    )


def _signed(amount: Decimal, typed: str) -> Decimal:
    # A minus before zero says nothing and would be printed on a card as if it did.
    return amount.copy_negate() if typed.startswith("-") and amount else amount


def _refuse_too_many_digits(number: str, wanted: _Wanted) -> None:
    if sum(character.isdigit() for character in number) > MOST_DIGITS:
        raise NotANumber(
            wanted.text,
            f"has more than {MOST_DIGITS} digits",
            "copy the number again from the plate or the manual",
        )


def _missing_measure(number: str, wanted: _Wanted) -> MissingMeasure:
    examples = tuple(f"{number} {spelling}" for spelling in usual_spellings(wanted.dimension))
    return MissingMeasure(wanted.text, number, examples)
