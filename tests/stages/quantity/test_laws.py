"""What must hold for every amount, not only for those that somebody thought of."""

import itertools
from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from guidegen.quantity.convert import convert, typed_resolution
from guidegen.quantity.express import express
from guidegen.quantity.measures import MEASURES, MEASURES_BY_DIMENSION
from guidegen.quantity.model import Amount, Dimension, Measure, Quantity, QuantityRange, Sense
from guidegen.quantity.parse import UnreadableAmount, parse_amount

STEPS = st.sampled_from([Decimal(step) for step in ("0.01", "0.05", "0.5", "1", "2", "25", "100")])
PAIRS = st.sampled_from(
    [
        (own, other)
        for dimension in Dimension
        for own, other in itertools.permutations(MEASURES_BY_DIMENSION[dimension], 2)
    ]
)


def typed_decimals(places: st.SearchStrategy[int]) -> st.SearchStrategy[Decimal]:
    """Decimals of up to 12 digits as people type them: no exponent, no minus before zero."""
    digits = st.one_of(st.integers(-999, 999), st.integers(-(10**12) + 1, 10**12 - 1))
    return st.builds(lambda whole, count: Decimal(f"{whole}E-{count}"), digits, places)


DECIMALS = typed_decimals(st.integers(0, 6))
POSITIVE = DECIMALS.filter(lambda amount: amount > 0)


ALL_MEASURES = st.sampled_from(list(MEASURES.values()))


def ranges(measures: st.SearchStrategy[Measure]) -> st.SearchStrategy[QuantityRange]:
    ends = st.tuples(DECIMALS, DECIMALS).filter(lambda pair: pair[0] != pair[1]).map(sorted)
    return st.builds(
        lambda pair, measure: QuantityRange(Quantity(pair[0], measure), Quantity(pair[1], measure)),
        ends,
        measures,
    )


def digits_of(amount: Amount) -> list[str]:
    if isinstance(amount, QuantityRange):
        return [f"{end.amount:f}" for end in (amount.low, amount.high)]
    return [f"{amount.amount:f}"]


def single(amount: Amount) -> Quantity:
    assert isinstance(amount, Quantity)
    return amount


@given(st.one_of(st.builds(Quantity, DECIMALS, ALL_MEASURES), ranges(ALL_MEASURES)))
def test_printed_text_is_read_back_as_the_very_same_amount(amount: Amount) -> None:
    read = parse_amount(express(amount), amount.dimension)

    assert amount == read
    assert digits_of(amount) == digits_of(read)


@given(PAIRS, DECIMALS, st.sampled_from(Sense))
def test_converted_amount_is_read_back_too(
    pair: tuple[Measure, Measure], amount: Decimal, sense: Sense
) -> None:
    own, other = pair
    converted = convert(Quantity(amount, own), other, sense)
    if sum(character.isdigit() for character in digits_of(converted)[0]) > 15:
        return  # more digits than anyone types, from a billion liters and more

    read = parse_amount(express(converted), own.dimension)

    assert digits_of(converted) == digits_of(read)


@given(PAIRS, DECIMALS, st.one_of(st.none(), STEPS))
def test_limit_is_never_rounded_to_its_unsafe_side(
    pair: tuple[Measure, Measure], amount: Decimal, step: Decimal | None
) -> None:
    typed, other = Quantity(amount, pair[0]), pair[1]

    most = single(convert(typed, other, Sense.AT_MOST, step=step))
    least = single(convert(typed, other, Sense.AT_LEAST, step=step))

    assert most.exact <= typed.exact <= least.exact
    assert len({most.exact, least.exact}) == 1 or most.exact < typed.exact < least.exact


@given(PAIRS, DECIMALS, DECIMALS, STEPS, st.sampled_from(Sense))
def test_order_is_kept_at_one_step(
    pair: tuple[Measure, Measure], one: Decimal, two: Decimal, step: Decimal, sense: Sense
) -> None:
    less, more = (Quantity(amount, pair[0]) for amount in sorted([one, two]))

    converted = [single(convert(end, pair[1], sense, step=step)) for end in (less, more)]

    assert converted[0].amount <= converted[1].amount


@given(PAIRS, st.data(), st.integers(1, 3), st.sampled_from(Sense))
def test_order_is_kept_between_amounts_typed_equally_fine(
    pair: tuple[Measure, Measure], data: st.DataObject, places: int, sense: Sense
) -> None:
    amounts = typed_decimals(st.just(places))
    if pair[0].dimension is not Dimension.TEMPERATURE:
        amounts = amounts.map(abs)
    less, more = (
        Quantity(amount, pair[0]) for amount in sorted([data.draw(amounts), data.draw(amounts)])
    )

    converted = [single(convert(end, pair[1], sense)) for end in (less, more)]

    assert converted[0].amount <= converted[1].amount


@given(PAIRS, DECIMALS)
def test_rounding_error_is_not_greater_than_that_of_the_typed_digits(
    pair: tuple[Measure, Measure], amount: Decimal
) -> None:
    # NIST SP 811 (2008) B.7.2. Both errors are absolute here, which is the same comparison.
    typed, other = Quantity(amount, pair[0]), pair[1]
    last_digit = Fraction(1, 10 ** len(f"{amount:f}".partition(".")[2]))
    if last_digit == 1 and amount:
        last_digit = Fraction(10 ** (len(str(amount)) - len(str(amount).rstrip("0"))))
    worst = max(last_digit * typed.measure.factor, Fraction(other.finest) * other.factor)

    nominal = single(convert(typed, other, Sense.NOMINAL))
    limits = [single(convert(typed, other, s)) for s in (Sense.AT_MOST, Sense.AT_LEAST)]

    assert abs(nominal.exact - typed.exact) <= worst / 2
    assert all(abs(limit.exact - typed.exact) < worst for limit in limits)


@given(PAIRS, POSITIVE)
def test_no_amount_vanishes_and_no_step_is_coarse_beside_it(
    pair: tuple[Measure, Measure], amount: Decimal
) -> None:
    typed, other = Quantity(amount, pair[0]), pair[1]
    if typed.dimension is Dimension.TEMPERATURE:
        return  # 33 °F is 0.5 °C, and rounds to 0 where half degrees do not fit

    most = single(convert(typed, other, Sense.AT_MOST))

    as_typed = typed_resolution(typed) / Fraction(amount)
    lost = (typed.exact - most.exact) / typed.exact
    finest = Fraction(other.finest) * other.factor / typed.exact
    assert most.amount > 0
    assert lost <= max(Fraction(1, 20), min(as_typed, finest))


@given(PAIRS, st.data(), st.sampled_from(Sense), st.one_of(st.none(), STEPS))
def test_range_stays_a_range_and_an_inward_one_lies_within(
    pair: tuple[Measure, Measure], data: st.DataObject, sense: Sense, step: Decimal | None
) -> None:
    typed = data.draw(ranges(st.just(pair[0])))

    converted = convert(typed, pair[1], sense, step=step)

    assert isinstance(converted, QuantityRange)
    assert converted.low.amount < converted.high.amount
    if sense is Sense.RANGE:
        assert typed.low.exact <= converted.low.exact
        assert converted.high.exact <= typed.high.exact


@given(PAIRS, DECIMALS)
def test_there_and_back_is_the_identity(pair: tuple[Measure, Measure], amount: Decimal) -> None:
    typed, other = Quantity(amount, pair[0]), pair[1]

    last_digit = Decimal(1).scaleb(-len(f"{amount:f}".partition(".")[2]))

    there = convert(typed, other, Sense.NOMINAL, step=Decimal("1E-18"))
    back = convert(there, typed.measure, Sense.NOMINAL, step=last_digit)

    assert typed == back
    assert digits_of(typed) == digits_of(back)


def read_or_refuse(text: str, dimension: Dimension) -> Amount | UnreadableAmount:
    try:
        return parse_amount(text, dimension)
    except UnreadableAmount as refusal:
        return refusal


@given(
    st.one_of(
        st.text(),
        st.text("0123456789., -\u2212\u2013'\"\u00a0eE/toftinpsi%°F½²\uff11\u0660"),
    ),
    st.sampled_from(Dimension),
)
def test_any_text_is_read_or_refused_with_a_reason(text: str, dimension: Dimension) -> None:
    answer = read_or_refuse(text, dimension)

    if isinstance(answer, UnreadableAmount):
        assert text.strip() == answer.text
        assert str(answer)
    else:
        assert dimension is answer.dimension
        assert answer == parse_amount(express(answer), dimension)
