"""What a quantity is.

Takes in decimal amounts as typed; gives out frozen values that compare by what they measure.
Refuses floats: 0.1 qt on a dipstick is not a binary fraction.
"""

import enum
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from guidegen.pickling import numerous


class Dimension(enum.Enum):
    """What is measured."""

    PRESSURE = "pressure"
    VOLUME = "volume"
    LENGTH = "length"
    SPEED = "speed"
    MASS = "mass"
    TORQUE = "torque"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature difference"
    TIME = "time"
    VOLTAGE = "voltage"
    CURRENT = "current"
    POWER = "power"
    ENERGY = "energy"
    ROTATION = "rotational speed"
    SHARE = "share"
    """Percent, as of antifreeze in the coolant."""


class Sense(enum.Enum):
    """Which side of a value is safe, and so which way a conversion rounds."""

    NOMINAL = "nominal"
    """Neither side: to the nearest, exact halves to even."""

    AT_MOST = "at most"
    """Less is safe, as with a speed limit: down."""

    AT_LEAST = "at least"
    """More is safe, as with a low-air warning pressure: up."""

    RANGE = "range"
    """Low end rounds up, high end rounds down, so that the printed range lies within."""


class System(enum.Enum):
    """Which family of measures."""

    US = "us"
    METRIC = "metric"
    BOTH = "both"
    """Seconds, volts, rpm: nobody converts these."""


@dataclass(frozen=True, slots=True)
class Measure:
    """A unit of measurement. Never called a unit: a unit is a truck."""

    symbol: str
    """As printed: ``psi``, ``km/h``, ``°F``."""

    dimension: Dimension
    factor: Fraction
    """How many of the dimension's base measure (Pa, m³, m, m/s, kg, N·m, K, s, V, A, W, J,
    rev/s, ratio) make one of this. Exact."""

    system: System = System.BOTH
    offset: Fraction = Fraction(0)
    """Added after the factor, in the base measure; only absolute temperatures have one."""

    finest: Decimal = Decimal("0.01")
    """The smallest step that is worth printing in this measure."""

    coarsest: Decimal = Decimal(1)
    """Trailing zeros of a typed whole number count as exact from this step on: ``100 psi`` is
    read as good to 1 psi, not to 100."""

    def __hash__(self) -> int:
        """Hash the symbol, which no other measure has; fractions take their time."""
        return hash(self.symbol)


@numerous
@dataclass(frozen=True, slots=True)
class Quantity:
    """An amount and its measure; the amount keeps the digits that were typed."""

    amount: Decimal
    measure: Measure

    @property
    def exact(self) -> Fraction:
        """The amount in the dimension's base measure."""
        return Fraction(self.amount) * self.measure.factor + self.measure.offset

    @property
    def dimension(self) -> Dimension:
        """What is measured."""
        return self.measure.dimension

    def same_as(self, other: "Quantity") -> bool:
        """Whether both measure exactly the same, in whatever measures."""
        return self.dimension is other.dimension and self.exact == other.exact


@dataclass(frozen=True, slots=True)
class QuantityRange:
    """From one quantity to a greater one, both in the same measure."""

    low: Quantity
    high: Quantity

    @property
    def dimension(self) -> Dimension:
        """What is measured."""
        return self.low.dimension


Amount = Quantity | QuantityRange
