"""Amounts that rules compare with.

Takes in an amount as typed; gives out the quantity.
Refuses a range: a rule compares with one end at a time.
"""

from guidegen.quantity.model import Dimension, Quantity
from guidegen.quantity.parse import parse_amount


def yardstick(text: str, dimension: Dimension) -> Quantity:
    """Return the quantity that *text* states.

    >>> yardstick("40 psi", Dimension.PRESSURE).measure.symbol
    'psi'

    Raises:
        TypeError: *text* is a range.
    """
    amount = parse_amount(text, dimension)
    if not isinstance(amount, Quantity):
        raise TypeError(text)
    return amount
