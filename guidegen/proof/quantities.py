"""Values as printed, read back.

Takes in a fact and the text that a person sees for it; gives out what the text does not say of
the fact. Refuses other spellings of the same amount, and a converted amount on the unsafe side
of the typed one or further from it than its digits allow.
"""

import re
from fractions import Fraction
from functools import lru_cache

from guidegen.quantity.model import Amount, Dimension, Measure, Quantity, QuantityRange, Sense
from guidegen.quantity.parse import UnreadableAmount, parse_amount

_PAIR = re.compile(r"(?P<first>[^()]+?)(?: \((?P<second>[^()]+)\))?")
_NUMBER = re.compile(r"(?<![A-Za-z])\u2212?(?:0|[1-9][0-9]{0,2}(?:,[0-9]{3})*)(?:\.[0-9]+)?")
"""As printed: thousands by commas, a true minus sign, no zero too many."""

_WIDEST_SHARE = Fraction(1, 100)
_WIDEST_LOSS = Fraction(1, 20)


def misread_amount(shown: tuple[Amount, ...], text: str, dimension: Dimension) -> str:
    """Return what the printed *text* does not say of *shown*, or empty text if it says it all.

    Args:
        shown: One amount, or two of which the second stands in parentheses.
        text: What a person sees, white space folded.
        dimension: What is measured.
    """
    pair = _PAIR.fullmatch(text)
    if pair is None:
        return "is no amount with at most one other in parentheses"
    printed = [part for part in (pair["first"], pair["second"]) if part is not None]
    if len(printed) != len(shown):
        return f"shows {len(printed)} amounts, and the guide {len(shown)}"
    for part, amount in zip(printed, shown, strict=True):
        fault = _misread_one(part, amount, dimension)
        if fault:
            return fault
    return ""


def _misread_one(text: str, amount: Amount, dimension: Dimension) -> str:
    try:
        read = _amount_in(text, dimension)
    except UnreadableAmount as fault:
        return f"cannot be read back: {fault}"
    if not _is_same(read, amount):
        return f"reads back as another amount: `{text}`"
    if _NUMBER.sub("#", text) not in _spellings(amount):
        return f"is spelled otherwise than amounts are printed: `{text}`"
    return ""


@lru_cache(maxsize=4096)  # the trucks of a fleet print the same few amounts
def _amount_in(text: str, dimension: Dimension) -> Amount:
    return parse_amount(text, dimension)


def _is_same(read: Amount, amount: Amount) -> bool:
    match read, amount:
        case Quantity(), Quantity():
            same_digits = _decimals(read) == _decimals(amount)
            return read.measure == amount.measure and read.amount == amount.amount and same_digits
        case QuantityRange(), QuantityRange():
            return _is_same(read.low, amount.low) and _is_same(read.high, amount.high)
        case _:
            return False


def _decimals(quantity: Quantity) -> int:
    exponent = quantity.amount.as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0


def _spellings(amount: Amount) -> tuple[str, ...]:
    if isinstance(amount, Quantity):
        return (_spelling(amount.measure.symbol),)
    one = _spelling(amount.high.measure.symbol)
    if one.count("#") > 1:
        return (f"{one} to {one}",)
    return (f"#\u2013{one}", f"# to {one}")


@lru_cache
def _spelling(symbol: str) -> str:
    if symbol == "ft in":
        return "# ft # in"
    printed = f"#{symbol}" if symbol.startswith("/") else f"# {symbol}"
    # Measures have digits too: `inH2O`, `/32 in`.
    return _NUMBER.sub("#", printed)


def strays(typed: Amount, shown: tuple[Amount, ...], sense: Sense) -> str:
    """Return in what way *shown* is not a fair conversion of *typed*, or empty text.

    Reckons on its own in exact fractions: one of the amounts must be the typed one to the digit,
    the other within one step of it on the safe side, or within half a step if neither is safer.
    A step is at most as coarse as the typed digits, or as the finest step of the other measure
    where the typed digits are finer still, and never above a twentieth of the amount.
    """
    others = [amount for amount in shown if not _is_same(amount, typed)]
    if len(others) == len(shown) and shown:
        return "does not show the amount as it was typed"
    for other in others:
        fault = _strays_one(typed, other, sense)
        if fault:
            return fault
    return ""


def strays_quoted(typed: Amount, shown: tuple[Amount, ...]) -> str:
    """Return in what way *shown* is no fair pair of a rule's own amounts, or empty text.

    One must be the typed one to the digit; the other, which its source prints beside it, must be
    within a twentieth of it, or within one kelvin of a temperature.
    """
    others = [amount for amount in shown if not _is_same(amount, typed)]
    if len(others) == len(shown):
        return "does not show the amount as it was typed"
    is_far = any(_is_far(typed, other) for other in others)
    return "is quoted beside an amount that it is not near to" if is_far else ""


def _is_far(typed: Amount, other: Amount) -> bool:
    match typed, other:
        case Quantity(), Quantity():
            is_temperature = typed.dimension is Dimension.TEMPERATURE
            allowed = Fraction(1) if is_temperature else abs(typed.exact) * _WIDEST_LOSS
            return abs(other.exact - typed.exact) > allowed
        case QuantityRange(), QuantityRange():
            return _is_far(typed.low, other.low) or _is_far(typed.high, other.high)
        case _:
            return True


def _strays_one(typed: Amount, other: Amount, sense: Sense) -> str:
    match typed, other:
        case Quantity(), Quantity():
            return _strays_quantity(typed, other, Sense.NOMINAL if sense is Sense.RANGE else sense)
        case QuantityRange(), QuantityRange():
            low, high = (Sense.AT_LEAST, Sense.AT_MOST) if sense is Sense.RANGE else (sense, sense)
            return _strays_quantity(typed.low, other.low, low) or _strays_quantity(
                typed.high, other.high, high
            )
        case _:
            return "shows a range where one value was typed, or the other way round"


def _strays_quantity(typed: Quantity, other: Quantity, sense: Sense) -> str:
    if typed.dimension is not other.dimension:
        return f"gives a {typed.dimension.value} as a {other.dimension.value}"
    above = other.exact - typed.exact
    step = _widest_step(typed, other.measure)
    if sense is Sense.AT_MOST and above > 0:
        return "is rounded up, and it is an upper limit"
    if sense is Sense.AT_LEAST and above < 0:
        return "is rounded down, and it is a lower limit"
    allowed = step if sense in (Sense.AT_MOST, Sense.AT_LEAST) else step / 2
    return "is further from the typed amount than rounding takes it" if abs(above) > allowed else ""


def _widest_step(typed: Quantity, measure: Measure) -> Fraction:
    """Return the coarsest step that *typed* may be rounded to, in the dimension's base measure."""
    by_digits = _typed_step(typed) * typed.measure.factor
    finest = Fraction(measure.finest) * measure.factor
    size = abs(typed.exact)
    if size and typed.dimension is not Dimension.TEMPERATURE:
        finest = min(finest, size * _WIDEST_LOSS)
    return max(by_digits, finest)


def _typed_step(typed: Quantity) -> Fraction:
    decimals = _decimals(typed)
    if decimals:
        return Fraction(1, 10**decimals)
    whole = abs(int(typed.amount))
    step = 1
    while whole and whole % (step * 10) == 0:
        step *= 10
    widest = min(Fraction(typed.measure.coarsest), whole * _WIDEST_SHARE)
    return max(Fraction(1), min(Fraction(step), widest))
