"""Values as text that keeps every digit.

Takes in a value; gives out text that two values share if and only if they were typed alike: 3.7 qt
and 3.70 qt are the same amount and are printed otherwise. Refuses nothing.
"""

from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.specs.fields import Value


def spelled(value: Value) -> str:
    """Return *value* to the letter."""
    match value:
        case Quantity():
            return f"<{value.amount} {value.measure.symbol}>"
        case QuantityRange(low=low, high=high):
            return f"<{spelled(low)} {spelled(high)}>"
        case _:
            return repr(value)
