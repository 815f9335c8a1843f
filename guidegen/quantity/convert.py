"""One amount in another measure.

Takes in an amount, the measure that is wanted and which side of the value is safe; gives out
the exact conversion, rounded once. Refuses to round a limit to its unsafe side, and to print
more or fewer digits than the typed amount is good for.
"""

from decimal import Decimal
from fractions import Fraction
from typing import assert_never

from guidegen.quantity.measures import COUNTERPARTS, MEASURES
from guidegen.quantity.model import (
    Amount,
    Dimension,
    Measure,
    Quantity,
    QuantityRange,
    Sense,
    System,
)

_MOST_ZEROS = Fraction(1, 100)
"""Trailing zeros are never read as coarser than this share: 20 lb is not 20 lb to the ten."""

_MOST_LOST = Fraction(1, 20)
"""No step is coarser than this share of the amount, unless digits or measure allow nothing finer.

Otherwise 2 in, typed to the inch, would be printed as 60 mm, and 6 kPa at most as 0 psi.
"""

# Common practice, no source: crankcases are filled by the quart and tanks by the gallon; the
# truck is measured in feet and inches and the road in feet.
_GALLONS_FROM = Fraction("0.060")
"""In m³: from 60 L."""

_FEET_FROM = Fraction(15)
"""In m."""

_TEN = 10
_LEADING = (50, 20, 10, 5, 2, 1)


def convert(
    amount: Amount, measure: Measure, sense: Sense, *, step: Decimal | None = None
) -> Amount:
    """Return *amount* in *measure*, converted exactly and then rounded once.

    What is at most rounds down, what is at least up, what is nominal to the nearest with exact
    halves to even. The ends of a range both round so, but for ``Sense.RANGE``, which rounds
    them inward; a single amount of that sense has no inside and rounds to the nearest. If the
    ends of a range would meet or cross, the step becomes finer until they do not.

    Args:
        amount: What was typed.
        measure: What to convert to, of the same dimension.
        sense: Which side is safe.
        step: What to round to a multiple of, in *measure*. By default as coarse as the typed
            digits allow (see ``default_step``).

    Returns:
        The rounded amount with the decimals of the step, so ``11.0 m`` and not ``11 m``; the
        amount itself if it already is in *measure* and no step is given.

    Raises:
        ValueError: The dimensions differ, the step is not positive, or a range is backward.

    >>> clearance = Quantity(Decimal(36), MEASURES["ft"])
    >>> convert(clearance, MEASURES["m"], Sense.NOMINAL).amount
    Decimal('11.0')
    """
    if amount.dimension is not measure.dimension:
        raise ValueError(f"{amount.dimension.value} cannot be given in {measure.symbol}")
    if step is None and measure_of(amount) == measure:
        return amount
    match amount:
        case Quantity():
            value = _exact_in(amount, measure)
            chosen = step if step is not None else _default_step(amount, measure, value)
            return Quantity(round_to_step(value, chosen, sense), measure)
        case QuantityRange():
            return _convert_range(amount, measure, sense, step)
        case _:
            assert_never(amount)


def show_pair(  # noqa: PLR0913 -- what the fleet, the field and the amount each decide
    amount: Amount,
    sense: Sense,
    first: System,
    second: System | None,
    pressure: Measure = MEASURES["kPa"],
    *,
    usual: Measure | None = None,
) -> tuple[Amount, ...]:
    """Return what to show for *amount*, in the order in which to show it.

    The typed amount is always among them, exactly as typed and in its own measure, even if
    the fleet wants only the other system. Seconds, volts and the like are shown alone.

    Args:
        amount: What was typed.
        sense: Which side of it is safe.
        first: The system that the fleet shows first.
        second: The system that comes second; none to show only one.
        pressure: The metric measure of pressure that the fleet's gauges have, kPa or bar.
        usual: The measure in which the trade reads this value in the other system, such as
            inH2O for an air cleaner; used if the amount was not typed in its system.

    Returns:
        One or two amounts.

    Raises:
        ValueError: ``System.BOTH`` is asked for.
    """
    if System.BOTH in (first, second):
        raise ValueError("a fleet shows us or metric measures first")
    own = measure_of(amount).system
    other = counterpart_of(amount, pressure)
    if other is not None and usual is not None and usual.system is other.system:
        other = usual
    if other is None or (own is first and second in (None, own)):
        return (amount,)
    converted = convert(amount, other, sense)
    return (amount, converted) if own is first else (converted, amount)


def counterpart_of(amount: Amount, pressure: Measure = MEASURES["kPa"]) -> Measure | None:
    """Return the measure of the other system to show *amount* in, or nothing if both share it.

    *pressure* is what psi is shown in: kPa or bar.
    """
    own = measure_of(amount)
    greatest = amount.high.exact if isinstance(amount, QuantityRange) else amount.exact
    if own == MEASURES["psi"]:
        return pressure
    if own == MEASURES["L"] and greatest >= _GALLONS_FROM:
        return MEASURES["gal"]
    if own == MEASURES["m"] and greatest >= _FEET_FROM:
        return MEASURES["ft"]
    return COUNTERPARTS.get(own)


def measure_of(amount: Amount) -> Measure:
    """Return the measure that *amount* was typed in."""
    return amount.low.measure if isinstance(amount, QuantityRange) else amount.measure


def default_step(amount: Quantity, measure: Measure) -> Decimal:
    """Return the step that *amount* is rounded to in *measure*: 1, 2 or 5 times a power of ten.

    It is the middle one of three: the largest that is not coarser than the typed amount, as
    in NIST SP 811 (2008) B.7.2 (36 ft is good to 1 ft, which is 0.3 m, so 0.2 m); the finest
    of *measure*; and the largest that is not more than a twentieth of the amount. The last
    does not count for zero, nor for temperatures, whose zero is no natural one.

    >>> default_step(Quantity(Decimal(135), MEASURES["psi"]), MEASURES["kPa"])
    Decimal('5')
    """
    return _default_step(amount, measure, _exact_in(amount, measure))


def _default_step(amount: Quantity, measure: Measure, value: Fraction) -> Decimal:
    by_digits = _step_not_above(typed_resolution(amount) * amount.measure.factor / measure.factor)
    if not value or measure.dimension is Dimension.TEMPERATURE:
        return max(by_digits, measure.finest)
    by_size = _step_not_above(abs(value) * _MOST_LOST)
    return sorted((by_digits, measure.finest, by_size))[1]


def typed_resolution(amount: Quantity) -> Fraction:
    """Return how fine *amount* was typed, in its own measure.

    With decimals, the last of them. Of a whole number the trailing zeros, but not beyond what
    the measure holds for exact, nor beyond a hundredth of the amount.

    >>> typed_resolution(Quantity(Decimal("3.70"), MEASURES["qt"]))
    Fraction(1, 100)
    >>> typed_resolution(Quantity(Decimal(54000), MEASURES["lb"]))
    Fraction(25, 1)
    """
    decimals = _decimals(amount.amount)
    if decimals:
        return Fraction(1, 10**decimals)
    whole = abs(int(amount.amount))
    digits = str(whole)
    zeros = len(digits) - len(digits.rstrip("0")) if whole else 0
    by_zeros = Fraction(min(Decimal(10**zeros), amount.measure.coarsest))
    return min(by_zeros, max(Fraction(1), whole * _MOST_ZEROS)) if by_zeros > 1 else by_zeros


def round_to_step(value: Fraction, step: Decimal, sense: Sense) -> Decimal:
    """Return the multiple of *step* that *value* rounds to, with the decimals of the step.

    >>> round_to_step(Fraction("1.625"), Decimal("0.01"), Sense.NOMINAL)
    Decimal('1.62')
    """
    if step <= 0:
        raise ValueError(f"a step must be positive, not {step}")
    decimals = _decimals(step)
    units = int(f"{step:f}".replace(".", ""))
    # How many steps there are in the value, as a ratio of whole numbers.
    numerator, denominator = value.numerator * 10**decimals, value.denominator * units
    match sense:
        case Sense.AT_MOST:
            count = numerator // denominator
        case Sense.AT_LEAST:
            count = -(-numerator // denominator)
        case Sense.NOMINAL | Sense.RANGE:
            count = round(Fraction(numerator, denominator))
        case _:
            assert_never(sense)
    # From text, because arithmetic on Decimals rounds to the context of whoever calls.
    return Decimal(f"{count * units}E-{decimals}")


def _convert_range(
    amount: QuantityRange, measure: Measure, sense: Sense, step: Decimal | None
) -> QuantityRange:
    low, high = _exact_in(amount.low, measure), _exact_in(amount.high, measure)
    if low >= high:
        raise ValueError("a range must go from less to more")
    low_sense, high_sense = (
        (Sense.AT_LEAST, Sense.AT_MOST) if sense is Sense.RANGE else (sense, sense)
    )
    if step is None:
        ends = ((amount.low, low), (amount.high, high))
        step = min(_default_step(end, measure, value) for end, value in ends)
    while True:
        least, most = round_to_step(low, step, low_sense), round_to_step(high, step, high_sense)
        if least < most:
            return QuantityRange(Quantity(least, measure), Quantity(most, measure))
        step = _next_finer(step)


def _exact_in(amount: Quantity, measure: Measure) -> Fraction:
    return (amount.exact - measure.offset) / measure.factor


def _decimals(amount: Decimal) -> int:
    return len(f"{amount:f}".partition(".")[2])


def _step_not_above(limit: Fraction) -> Decimal:
    numerator, denominator = limit.numerator, limit.denominator
    # By their lengths, the limit is between 1 and 100 times this power of ten.
    power = len(str(numerator)) - len(str(denominator)) - 1
    if power < 0:
        numerator *= 10**-power
    else:
        denominator *= 10**power
    leading = next(digit for digit in _LEADING if digit * denominator <= numerator)
    if leading >= _TEN:
        leading, power = leading // _TEN, power + 1
    return Decimal(f"{leading}E{power}") if power < 0 else Decimal(leading * 10**power)


def _next_finer(step: Decimal) -> Decimal:
    size = Fraction(step)
    finer = _step_not_above(size)
    # Half of a 1 is a 5, half of a 5 is a 2, half of a 2 is a 1.
    return finer if finer < step else _step_not_above(size / 2)
