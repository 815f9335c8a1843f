"""Which extension cord carries a block heater.

Takes in the heater's current and voltage and the cord's length; gives out the thinnest gauge that
is thick enough, by ampacity and by voltage drop, and the cords of a truck as facts. Refuses a
gauge that the table of ampacities does not have: then there is no cord of that length.
"""

import decimal
from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Quantity, System
from guidegen.specs.profile import FACTS
from guidegen.units.model import Fact, Layer, Show, StatedIn, WorkedOut

AMPACITIES: Mapping[int, int] = MappingProxyType({18: 10, 16: 13, 14: 18, 12: 25})
"""In amperes, by AWG, thinnest first: copper cords with two conductors that carry current. National
Electrical Code, Table 400.5(A), as an appliance standard quotes it. Thicker cords are left out:
nothing that we have seen quotes them."""

CONTINUOUS_SHARE = Fraction(4, 5)
"""Of the ampacity that a heater may take, since it runs for hours: 125 percent of a continuous
load, as the National Electrical Code sizes circuits. From memory, and the careful side; common
practice asks for 14 AWG from 10 A up, which follows from it."""

MOST_DROP = Fraction(3, 100)
"""Of the voltage. Informational note to 210.19(A) of the National Electrical Code, as handbooks and
trade pages quote it: advice for branch circuits, and no rule. The cord alone is held to it here."""

RESISTIVITY = Fraction(1, 58)
"""Of standard annealed copper at 20 °C, in ohm square millimeters a meter (IEC 60028)."""

THINNEST_DIAMETER = Decimal("0.127")
"""Of 36 AWG in millimeters: 0.005 in. ASTM B258; n AWG has 92 ** ((36 - n) / 39) times it."""

LENGTHS: Mapping[System, tuple[str, ...]] = MappingProxyType(
    {System.US: ("25", "50", "75", "100"), System.METRIC: ("7.5", "15", "25", "30")}
)
"""Of cords, in feet and in meters; common practice, no source."""

METRIC_SIZES: Mapping[int, str] = MappingProxyType({18: "1", 16: "1.5", 14: "2.5", 12: "4"})
"""The next thicker size of IEC 60228 in square millimeters, by AWG; sizes stated from memory."""

CORDS = ("short_cord", "medium_cord", "long_cord", "longest_cord")
"""Fields of the block heater, shortest first; each has a ``…_gauge`` beside it."""

_CURRENT, _VOLTAGE = "block_heater.current", "block_heater.voltage"
_LENGTH_SOURCE = "usual lengths of cords; common practice, no source"
_LENGTH_MEASURES = {System.US: MEASURES["ft"], System.METRIC: MEASURES["m"]}
_PI = Decimal("3.141592653589793238462643383")
_STEPS, _RATIO, _LAST_GAUGE = 39, 92, 36
_WIRES = 2
"""The current flows out and back."""


@cache
def conductor_area(gauge: int) -> Fraction:
    """Return the area of a solid conductor of *gauge* AWG in square millimeters.

    ASTM B258: 0.005 in times 92 ** ((36 - gauge) / 39), to 28 digits. Stranded conductors of a
    gauge are made to the same area.

    >>> round(float(conductor_area(14)), 2)
    2.08
    """
    with decimal.localcontext(prec=28):
        ratio = Decimal(_RATIO) ** (Decimal(_LAST_GAUGE - gauge) / _STEPS)
        return Fraction(_PI * (THINNEST_DIAMETER * ratio) ** 2 / 4)


def voltage_drop(gauge: int, length: Quantity, current: Quantity) -> Fraction:
    """Return what a copper cord of *gauge* AWG takes of the voltage, in volts.

    U = I·R, with R = resistivity times twice the length over the area, at 20 °C: a cord in the
    cold takes less, one that warms up a little more (about 0.4 percent a kelvin).

    Args:
        gauge: AWG.
        length: Of the cord.
        current: Of the heater.
    """
    return current.exact * RESISTIVITY * _WIRES * length.exact / conductor_area(gauge)


def thinnest_gauge(current: Quantity, voltage: Quantity, length: Quantity) -> int | None:
    """Return the AWG of the thinnest cord that will do, or nothing if none of the table will.

    Args:
        current: Of the heater; no more than `CONTINUOUS_SHARE` of the cord's ampacity.
        voltage: Of the outlet; the cord takes no more than `MOST_DROP` of it.
        length: Of the cord.

    >>> heater = Quantity(Decimal("12.5"), MEASURES["A"]), Quantity(Decimal(120), MEASURES["V"])
    >>> thinnest_gauge(*heater, Quantity(Decimal(50), MEASURES["ft"]))
    14
    """
    for gauge, ampacity in AMPACITIES.items():
        drop = voltage_drop(gauge, length, current)
        if current.exact <= CONTINUOUS_SHARE * ampacity and drop <= MOST_DROP * voltage.exact:
            return gauge
    return None


def gauge_of(marking: str) -> int | None:
    """Return the AWG of a choice of ``CORD_GAUGES``; nothing for ``none`` and other words.

    >>> gauge_of("mm2_2.5")
    14
    """
    by_marking = {f"awg_{gauge}": gauge for gauge in AMPACITIES}
    by_marking |= {f"mm2_{size}": gauge for gauge, size in METRIC_SIZES.items()}
    return by_marking.get(marking)


def cord_facts(facts: Mapping[str, Fact], show: Show, first: System) -> Iterator[Fact]:
    """Yield the cords of the block heater and their gauges, where the office has not stated them.

    Nothing comes of a heater whose current or voltage is not on record.

    Args:
        facts: Of the truck, the heater's current among them if it follows from its power.
        show: What is printed for an amount.
        first: The measures that the fleet shows first: whose lengths its cords are sold in.
    """
    current, voltage = facts.get(_CURRENT), facts.get(_VOLTAGE)
    if current is None or voltage is None:
        return
    for cord, usual in zip(CORDS, LENGTHS[first], strict=True):
        name = f"block_heater.{cord}"
        length = facts.get(name)
        if length is None:
            length = _usual_length(name, usual, voltage, show, first)
            yield length
        if f"{name}_gauge" not in facts:
            yield _gauge(current, voltage, length, first)


def _usual_length(name: str, usual: str, voltage: Fact, show: Show, first: System) -> Fact:
    amount = Quantity(Decimal(usual), _LENGTH_MEASURES[first])
    provenance = StatedIn(Layer.LIBRARY, voltage.provenance.span, _LENGTH_SOURCE)
    return Fact(FACTS[name], amount, provenance, show(FACTS[name], amount))


def _gauge(current: Fact, voltage: Fact, length: Fact, first: System) -> Fact:
    amounts = (current.value, voltage.value, length.value)
    amps, volts, long = (each for each in amounts if isinstance(each, Quantity))
    provenance = WorkedOut(
        f"thinnest of {', '.join(map(str, AMPACITIES))} AWG of which {current.name} "
        f"is at most {CONTINUOUS_SHARE * 100} percent of the ampacity, and with a voltage drop "
        f"over {length.name} of at most {MOST_DROP * 100} percent of {voltage.name}",
        (current.name, voltage.name, length.name),
        current.provenance.span,
    )
    gauge = thinnest_gauge(amps, volts, long)
    return Fact(FACTS[f"{length.name}_gauge"], _marking(gauge, first), provenance)


def _marking(gauge: int | None, first: System) -> str:
    """Return the choice of ``CORD_GAUGES`` for *gauge*, the fleet's own measure first."""
    if gauge is None:
        return "none"
    return f"mm2_{METRIC_SIZES[gauge]}" if first is System.METRIC else f"awg_{gauge}"
