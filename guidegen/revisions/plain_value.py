"""A value of a fact as JSON holds it.

Takes in a value; gives out what JSON can hold, and from that the same value again, every digit as
the office typed it. Refuses to keep an amount without its measure.
"""

from decimal import Decimal
from typing import Any

from guidegen.quantity.measures import MEASURES_BY_DIMENSION
from guidegen.quantity.model import Dimension, Quantity, QuantityRange
from guidegen.specs.fields import Value

Plain = Any
"""Whatever JSON holds."""


def plain_value(value: Value) -> Plain:
    """Return *value* as JSON holds it."""
    match value:
        case Quantity():
            return {"of": value.dimension.value, "is": _plain_quantity(value)}
        case QuantityRange():
            ends = [_plain_quantity(value.low), _plain_quantity(value.high)]
            return {"of": value.dimension.value, "from": ends[0], "to": ends[1]}
        case tuple():
            return list(value)
        case _:
            return value


def read_value(plain: Plain) -> Value:
    """Return the value that `plain_value` has made *plain* of.

    Raises:
        ValueError, KeyError, StopIteration: If it was made of none.
    """
    if isinstance(plain, dict):
        dimension = Dimension(plain["of"])
        if "is" in plain:
            return _quantity(plain["is"], dimension)
        return QuantityRange(_quantity(plain["from"], dimension), _quantity(plain["to"], dimension))
    value: Value = tuple(plain) if isinstance(plain, list) else plain
    return value


def _plain_quantity(quantity: Quantity) -> list[str]:
    return [str(quantity.amount), quantity.measure.symbol]


def _quantity(plain: Plain, dimension: Dimension) -> Quantity:
    amount, symbol = plain
    measures = MEASURES_BY_DIMENSION[dimension]
    return Quantity(Decimal(amount), next(each for each in measures if each.symbol == symbol))
