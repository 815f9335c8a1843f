"""Amounts as they are printed.

Takes in an amount; gives out the text that the driver reads, every digit of it.
Refuses to round: what is printed is read back by ``parse`` as the very same amount.
"""

from decimal import Decimal
from typing import assert_never

from guidegen.quantity.measures import FEET_AND_INCHES
from guidegen.quantity.model import Amount, Quantity, QuantityRange

NO_BREAK_SPACE = "\u00a0"
MINUS = "\u2212"
EN_DASH = "\u2013"

_INCHES_IN_A_FOOT = 12


def express(amount: Amount) -> str:
    """Return *amount* as printed text, in which every space is a no-break space.

    Thousands are grouped by commas, a minus is a minus sign and a range has an en dash, or
    the word ``to`` where a dash could be misread.

    >>> from guidegen.quantity.measures import MEASURES
    >>> express(Quantity(Decimal(54000), MEASURES["lb"])).split(NO_BREAK_SPACE)
    ['54,000', 'lb']
    """
    match amount:
        case Quantity():
            return _express_single(amount)
        case QuantityRange():
            return _express_range(amount)
        case _:
            assert_never(amount)


def _express_single(quantity: Quantity) -> str:
    if quantity.measure == FEET_AND_INCHES:
        return _express_feet_and_inches(quantity.amount)
    symbol = quantity.measure.symbol
    # `4/32 in`: the measure goes on where the number ends.
    joint = "" if symbol.startswith("/") else " "
    return f"{_express_number(quantity.amount)}{joint}{symbol}".replace(" ", NO_BREAK_SPACE)


def _express_range(amount: QuantityRange) -> str:
    low, high = amount.low, amount.high
    to = f"{NO_BREAK_SPACE}to{NO_BREAK_SPACE}"
    if low.measure == FEET_AND_INCHES:
        return f"{_express_single(low)}{to}{_express_single(high)}"
    # A dash beside a minus sign is misread.
    joint = to if low.amount < 0 else EN_DASH
    return f"{_express_number(low.amount)}{joint}{_express_single(high)}"


def _express_feet_and_inches(amount: Decimal) -> str:
    # In whole counts of the last typed digit, so that nothing is rounded to a context.
    whole, _, decimals = f"{amount.copy_abs():f}".partition(".")
    last_digits = 10 ** len(decimals)
    feet, rest = divmod(int(whole + decimals), _INCHES_IN_A_FOOT * last_digits)
    inches = Decimal(f"{rest}E-{len(decimals)}")
    sign = MINUS if amount < 0 else ""
    return f"{sign}{feet:,} ft {inches:f} in".replace(" ", NO_BREAK_SPACE)


def _express_number(amount: Decimal) -> str:
    sign = MINUS if amount < 0 else ""
    # The `f` format of a Decimal keeps every digit and never goes over to an exponent.
    return f"{sign}{amount.copy_abs():,f}"
