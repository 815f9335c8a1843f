"""Conditions come to true, false or unknown as Kleene's logic says, and Python judges the rest."""

import functools
from fractions import Fraction
from types import SimpleNamespace

import pytest
from condition_strategies import (
    DOMAINS,
    SECTIONS,
    Truck,
    conditions,
    mph,
    read_sound,
    trucks,
)
from hypothesis import given
from hypothesis import strategies as st

from guidegen.procedures.condition_model import And, Condition, Not, Or
from guidegen.procedures.condition_value import (
    Gap,
    Truth,
    evaluate,
    leaves,
    unknowns,
)
from guidegen.procedures.condition_words import as_typed
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.specs.fields import Value

YES, NO, UNKNOWN = True, False, None

# S. C. Kleene, Introduction to Metamathematics (1952), section 64: the strong tables.
AND_TABLE: list[tuple[Truth, Truth, Truth]] = [
    (YES, YES, YES),
    (YES, NO, NO),
    (YES, UNKNOWN, UNKNOWN),
    (NO, NO, NO),
    (NO, UNKNOWN, NO),
    (UNKNOWN, UNKNOWN, UNKNOWN),
]
OR_TABLE: list[tuple[Truth, Truth, Truth]] = [
    (YES, YES, YES),
    (YES, NO, YES),
    (YES, UNKNOWN, YES),
    (NO, NO, NO),
    (NO, UNKNOWN, UNKNOWN),
    (UNKNOWN, UNKNOWN, UNKNOWN),
]


def truck_of(one: Truth, other: Truth) -> Truck:
    return Truck({"engine": one, "cruise": other})


@pytest.mark.parametrize(("one", "other", "expected"), AND_TABLE)
def test_and_follows_the_table_from_both_sides(one: Truth, other: Truth, expected: Truth) -> None:
    condition = read_sound("fitted(engine) and fitted(cruise)")

    assert expected is evaluate(condition, truck_of(one, other))
    assert expected is evaluate(condition, truck_of(other, one))


@pytest.mark.parametrize(("one", "other", "expected"), OR_TABLE)
def test_or_follows_the_table_from_both_sides(one: Truth, other: Truth, expected: Truth) -> None:
    condition = read_sound("fitted(engine) or fitted(cruise)")

    assert expected is evaluate(condition, truck_of(one, other))
    assert expected is evaluate(condition, truck_of(other, one))


@pytest.mark.parametrize(("one", "expected"), [(YES, NO), (NO, YES), (UNKNOWN, UNKNOWN)])
def test_not_follows_the_table(one: Truth, expected: Truth) -> None:
    condition = read_sound("not fitted(engine)")

    assert expected is evaluate(condition, truck_of(one, one))


DIESEL = Truck({"engine": True}, {"engine.fuel": "diesel"})
TEN_TANKS = Truck({"brakes": True, "brakes.air": True}, {"brakes.air.tank_count": 10})
CRUISER = Truck({"cruise": True}, {"cruise.lowest_speed": mph("25")})
BRAKED = Truck({"engine_brake": True}, {"engine_brake.drops_out": ("clutch", "abs")})
WITH_ABS = Truck({"brakes": True}, {"brakes.abs": True})
WITHOUT_ABS = Truck({"brakes": True}, {"brakes.abs": False})

VALUES = [
    ('engine.fuel == "diesel"', DIESEL, YES),
    ('engine.fuel == "cng"', DIESEL, NO),
    ('engine.fuel != "cng"', DIESEL, YES),
    ('engine.fuel in ("cng", "diesel")', DIESEL, YES),
    ('engine.fuel not in ("cng", "diesel")', DIESEL, NO),
    ("on_record(engine.fuel)", DIESEL, YES),
    ("on_record(engine.oil_grade)", DIESEL, NO),
    # Ten is more than nine, and not less as a text would be.
    ("brakes.air.tank_count > 9", TEN_TANKS, YES),
    ("brakes.air.tank_count <= 10", TEN_TANKS, YES),
    ("brakes.air.tank_count == 10", TEN_TANKS, YES),
    # 25 mi/h is 40.2336 km/h exactly: NIST SP 811 (2008), appendix B.8, 1 mi = 1.609 344 km.
    ('cruise.lowest_speed == "40.2336 km/h"', CRUISER, YES),
    ('cruise.lowest_speed > "40.2335 km/h"', CRUISER, YES),
    ('cruise.lowest_speed >= "40.2337 km/h"', CRUISER, NO),
    ('cruise.lowest_speed != "25.0 mph"', CRUISER, NO),
    ('"clutch" in engine_brake.drops_out', BRAKED, YES),
    ('"neutral" in engine_brake.drops_out', BRAKED, NO),
    ('"neutral" not in engine_brake.drops_out', BRAKED, YES),
    ("brakes.abs", WITH_ABS, YES),
    ("brakes.abs", WITHOUT_ABS, NO),
]


@pytest.mark.parametrize(("typed", "truck", "expected"), VALUES)
def test_fact_on_record_is_compared_exactly(typed: str, truck: Truck, expected: Truth) -> None:
    assert expected is evaluate(read_sound(typed), truck)


# What a condition asks, and what it comes to where the section is not fitted, and where neither
# section nor fact is on record.
ABSENT = [
    ('engine.fuel == "diesel"', NO, UNKNOWN),
    ('engine.fuel != "diesel"', YES, UNKNOWN),
    ('engine.fuel in ("diesel", "cng")', NO, UNKNOWN),
    ('cruise.lowest_speed < "25 mph"', NO, UNKNOWN),
    ('cruise.lowest_speed >= "25 mph"', NO, UNKNOWN),
    ("brakes.air.tank_count <= 3", NO, UNKNOWN),
    ("brakes.air.air_dryer", NO, UNKNOWN),
    ("not brakes.air.air_dryer", YES, UNKNOWN),
    ('"clutch" in engine_brake.drops_out', NO, UNKNOWN),
    ("fitted(brakes.air)", NO, UNKNOWN),
    ("on_record(engine.fuel)", NO, NO),
    ("not on_record(engine.fuel)", YES, YES),
    ('fitted(engine) and engine.fuel == "diesel"', NO, UNKNOWN),
    ("on_record(brakes.abs) and brakes.abs", NO, NO),
]


@pytest.mark.parametrize(("typed", "not_fitted", "unknown"), ABSENT)
def test_fact_of_a_thing_that_is_not_fitted_differs_from_one_not_on_record(
    typed: str, not_fitted: Truth, unknown: Truth
) -> None:
    condition = read_sound(typed)

    assert not_fitted is evaluate(condition, Truck(dict.fromkeys(SECTIONS, False)))
    assert unknown is evaluate(condition, Truck())


def test_what_stands_inside_a_thing_that_is_not_fitted_is_not_fitted() -> None:
    truck = Truck({"brakes": False})

    assert evaluate(read_sound("fitted(brakes.air)"), truck) is False
    assert evaluate(read_sound("brakes.air.tank_count > 1"), truck) is False


def test_limit_of_the_law_is_never_not_fitted() -> None:
    condition = read_sound('law.air_build_up_time <= "45 s"')

    (unanswered,) = unknowns(condition, Truck())

    expected = (Gap.FACT_NOT_ON_RECORD, "law.air_build_up_time")
    assert expected == (unanswered.gap, unanswered.name)


class Absent:
    """A fact of a thing that is not fitted, as Python sees it."""

    __hash__ = object.__hash__

    def __eq__(self, other: object) -> bool:
        return False

    def __ne__(self, other: object) -> bool:
        return True

    def __lt__(self, other: object) -> bool:
        return False

    __le__ = __gt__ = __ge__ = __contains__ = __lt__

    def __bool__(self) -> bool:
        return False


@functools.total_ordering
class Speed:
    """A speed, compared with texts such as ``25 mph``."""

    def __init__(self, text: str) -> None:
        amount, measure = text.split()
        # 1 mi = 1.609344 km: NIST SP 811 (2008), appendix B.8.
        factor = {"mph": Fraction("1.609344"), "km/h": Fraction(1)}[measure]
        self.kilometers_an_hour = Fraction(amount) * factor

    def __eq__(self, other: object) -> bool:
        return self.kilometers_an_hour == Speed(str(other)).kilometers_an_hour

    def __lt__(self, other: object) -> bool:
        return self.kilometers_an_hour < Speed(str(other)).kilometers_an_hour

    __hash__ = object.__hash__


def judged_by_python(condition: Condition, truck: Truck) -> bool:
    """Run the canonical text of *condition* as Python over objects that know the truck."""
    names = {section: SimpleNamespace(is_fitted=truck.sections[section]) for section in SECTIONS}
    for section in SECTIONS:
        outer, _, own = section.rpartition(".")
        if outer:
            setattr(names[outer], own, names[section])
    for fact, domain in DOMAINS.items():
        section, _, own = fact.rpartition(".")
        value = truck.values[fact] if truck.sections[section] else Absent()
        assert value in domain or isinstance(value, Absent)
        setattr(names[section], own, seen_by_python(value))
    questions = {
        "fitted": lambda section: bool(section.is_fitted),
        "on_record": lambda value: not isinstance(value, Absent),
    }
    return bool(eval(as_typed(condition), questions | names))  # noqa: S307 -- our own text


def seen_by_python(value: object) -> object:
    if isinstance(value, Quantity):
        return Speed(f"{value.amount} {value.measure.symbol}")
    return value


@given(conditions(), trucks(is_complete=True))
def test_python_agrees_on_every_truck_with_nothing_unknown(
    condition: Condition, truck: Truck
) -> None:
    assert judged_by_python(condition, truck) is evaluate(condition, truck)


def by_numbers(condition: Condition, truck: Truck) -> int:
    """Kleene's logic as least and greatest of false 0, unknown 1 and true 2."""
    match condition:
        case And(of=members):
            return min(by_numbers(member, truck) for member in members)
        case Or(of=members):
            return max(by_numbers(member, truck) for member in members)
        case Not(of=inner):
            return 2 - by_numbers(inner, truck)
        case _:
            return {False: 0, None: 1, True: 2}[evaluate(condition, truck)]


@given(conditions(), trucks())
def test_truth_is_least_and_greatest_of_its_parts(condition: Condition, truck: Truck) -> None:
    expected = {0: False, 1: None, 2: True}[by_numbers(condition, truck)]

    assert expected is evaluate(condition, truck)


@given(conditions(), conditions(), trucks())
def test_de_morgan_and_double_negation_hold_with_unknowns(
    one: Condition, other: Condition, truck: Truck
) -> None:
    both_fail = And((Not(one), Not(other)))
    not_either = Not(Or((one, other)))

    assert evaluate(not_either, truck) is evaluate(both_fail, truck)
    assert evaluate(one, truck) is evaluate(Not(Not(one)), truck)


@given(conditions(with_on_record=False), trucks(), st.data())
def test_answer_that_is_given_early_stays_when_the_record_is_filled(
    condition: Condition, truck: Truck, data: st.DataObject
) -> None:
    early = evaluate(condition, truck)

    late = evaluate(condition, filled(truck, data))

    assert late is not None
    assert early in (None, late)


def filled(truck: Truck, data: st.DataObject) -> Truck:
    sections: dict[str, bool | None] = {}
    values: dict[str, Value | None] = {}
    for section in SECTIONS:
        outer = section.rpartition(".")[0]
        known = truck.sections[section]
        answer = data.draw(st.booleans()) if known is None else known
        sections[section] = answer and (not outer or sections[outer])
    for fact, domain in DOMAINS.items():
        if sections[fact.rpartition(".")[0]]:
            known_value = truck.values.get(fact)
            values[fact] = (
                data.draw(st.sampled_from(domain)) if known_value is None else known_value
            )
    return Truck(sections, values)


@given(conditions(), trucks())
def test_questions_are_unanswered_if_and_only_if_the_whole_is_unknown(
    condition: Condition, truck: Truck
) -> None:
    unanswered = unknowns(condition, truck)

    assert (evaluate(condition, truck) is None) == bool(unanswered)
    assert all(evaluate(question.leaf, truck) is None for question in unanswered)
    assert {question.leaf for question in unanswered} <= set(leaves(condition))


@given(conditions(with_on_record=False), trucks(), st.data())
def test_answering_the_unanswered_settles_the_whole(
    condition: Condition, truck: Truck, data: st.DataObject
) -> None:
    # A question about a fact can be open twice: first its section, then the fact.
    for _ in range(3):
        for question in unknowns(condition, truck):
            answer(question.name, truck, data)

    assert evaluate(condition, truck) is not None


def answer(name: str, truck: Truck, data: st.DataObject) -> None:
    if name in DOMAINS:
        truck.values[name] = data.draw(st.sampled_from(DOMAINS[name]))
    else:
        truck.sections[name] = data.draw(st.booleans())


def test_question_whose_answer_cannot_matter_is_not_asked() -> None:
    truck = Truck({"clutch": False, "brakes": True})

    condition = read_sound(
        'brakes.abs or (fitted(clutch) and clutch.brake) or engine.fuel == "cng"'
    )

    expected = [
        ("brakes.abs", Gap.FACT_NOT_ON_RECORD, "brakes.abs"),
        ('engine.fuel == "cng"', Gap.SECTION_NOT_ON_RECORD, "engine"),
    ]
    assert expected == [
        (as_typed(found.leaf), found.gap, found.name) for found in unknowns(condition, truck)
    ]


def test_question_that_stands_twice_is_asked_once() -> None:
    condition = read_sound("(brakes.abs and fitted(pto)) or (brakes.abs and fitted(clutch))")

    names = [found.name for found in unknowns(condition, Truck({"brakes": True}))]

    expected = ["brakes.abs", "pto", "clutch"]
    assert expected == names


def test_leaves_come_in_the_order_typed() -> None:
    condition = read_sound("not (fitted(pto) or brakes.abs) and fitted(clutch)")

    expected = ["fitted(pto)", "brakes.abs", "fitted(clutch)"]
    assert expected == [as_typed(leaf) for leaf in leaves(condition)]


def test_range_in_a_hand_made_condition_is_a_fault_of_ours() -> None:
    (low,) = leaves(read_sound('brakes.air.cut_out > "100 psi"'))
    truck = Truck({"brakes.air": True}, {"brakes.air.cut_out": QuantityRange(mph("1"), mph("2"))})

    with pytest.raises(TypeError, match="compare a range"):
        evaluate(low, truck)
