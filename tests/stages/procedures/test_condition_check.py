"""A condition that comes to the same on every truck is found, and no other is."""

from collections.abc import Iterator
from itertools import product

import pytest
from condition_strategies import DOMAINS, NOWHERE, Truck, conditions, read_sound
from hypothesis import given, settings

from guidegen.finding import Findings
from guidegen.procedures.catalog_words import ALWAYS_THERE, section_holding, sections_around
from guidegen.procedures.condition_check import (
    Given,
    Verdict,
    check_against,
    check_condition,
    check_within,
    find_dead,
    span_of,
    verdict_on,
)
from guidegen.procedures.condition_model import And, Asks, Condition, Predicate
from guidegen.procedures.condition_value import evaluate, leaves
from guidegen.procedures.condition_words import as_typed
from guidegen.specs.equipment import Equipment
from guidegen.specs.fields import Value

NEVER, ALWAYS, SOMETIMES = Verdict.NEVER, Verdict.ALWAYS, Verdict.SOMETIMES

VERDICTS = [
    ("fitted(engine) and not fitted(engine)", NEVER),
    ("fitted(engine) or not fitted(engine)", ALWAYS),
    ("not (fitted(engine) and not fitted(engine))", ALWAYS),
    ("fitted(engine) and fitted(clutch)", SOMETIMES),
    ("fitted(brakes.air) and not fitted(brakes)", NEVER),
    ("fitted(brakes) or not fitted(brakes.air)", ALWAYS),
    ("brakes.abs and not fitted(brakes)", NEVER),
    ("brakes.air.air_dryer and not fitted(brakes)", NEVER),
    ('engine.fuel == "diesel" and engine.fuel == "cng"', NEVER),
    ('engine.fuel == "diesel" and engine.fuel != "cng"', SOMETIMES),
    ('engine.fuel != "diesel" or engine.fuel != "cng"', ALWAYS),
    ('engine.fuel in ("diesel", "cng") and engine.fuel == "lng"', NEVER),
    # All five fuels, but a truck without an engine has none.
    ('engine.fuel in ("diesel", "gasoline", "cng", "lng", "propane")', SOMETIMES),
    (
        'engine.fuel in ("diesel", "gasoline", "cng", "lng", "propane") or not fitted(engine)',
        ALWAYS,
    ),
    ('engine.fuel in ("diesel", "gasoline", "cng", "lng") or not fitted(engine)', SOMETIMES),
    ('cruise.lowest_speed > "30 mph" and cruise.lowest_speed < "20 mph"', NEVER),
    ('cruise.lowest_speed > "20 mph" and cruise.lowest_speed < "30 mph"', SOMETIMES),
    # 30 mi/h is 48.28032 km/h.
    ('cruise.lowest_speed > "30 mph" and cruise.lowest_speed < "48 km/h"', NEVER),
    ('cruise.lowest_speed > "30 mph" and cruise.lowest_speed < "49 km/h"', SOMETIMES),
    ('cruise.lowest_speed == "30 mph" and cruise.lowest_speed == "48.28032 km/h"', SOMETIMES),
    ('cruise.lowest_speed >= "30 mph" and cruise.lowest_speed <= "30 mph"', SOMETIMES),
    ('cruise.lowest_speed >= "30 mph" and cruise.lowest_speed < "30 mph"', NEVER),
    ("brakes.air.tank_count > 3 and brakes.air.tank_count < 5", SOMETIMES),
    ("brakes.air.tank_count > 3 and brakes.air.tank_count < 4", NEVER),
    ('"clutch" in engine_brake.drops_out and "abs" in engine_brake.drops_out', SOMETIMES),
    ('"clutch" in engine_brake.drops_out and "clutch" not in engine_brake.drops_out', NEVER),
    ('axles.configuration == "6x4" and axles.configuration == "6x2"', NEVER),
    ('axles.configuration != "6x4" and axles.configuration != "6x2"', SOMETIMES),
    ("on_record(engine.fuel)", SOMETIMES),
    ("on_record(engine.fuel) or not on_record(engine.fuel)", ALWAYS),
    ("on_record(engine.fuel) and not fitted(engine)", NEVER),
    ('engine.fuel == "diesel" and not on_record(engine.fuel)', NEVER),
    ('not on_record(engine.fuel) and engine.fuel != "diesel"', SOMETIMES),
    ('brakes.air.cut_out > "500 psi"', NEVER),
    ('brakes.air.cut_out >= "500 psi"', NEVER),
    ("on_record(law.air_build_up_time)", SOMETIMES),
    ("fitted(identity)", ALWAYS),
    ('identity.gvwr > "1,000,000 lb"', NEVER),
]


@pytest.mark.parametrize(("typed", "expected"), VERDICTS)
def test_verdict_knows_what_values_can_be(typed: str, expected: Verdict) -> None:
    assert expected is verdict_on(read_sound(typed))


def all_trucks(condition: Condition) -> Iterator[Truck]:
    """Every truck there is, over whole domains and with any fact left off the record."""
    facts = {
        leaf.name if isinstance(leaf, Asks) else leaf.fact: None
        for leaf in leaves(condition)
        if not isinstance(leaf, Asks) or leaf.name in DOMAINS
    }
    named = [section_holding(fact) for fact in facts]
    named += [leaf.name for leaf in leaves(condition) if isinstance(leaf, Asks)]
    named = [name for name in named if name not in facts]
    sections = list(dict.fromkeys(around for name in named for around in sections_around(name)))
    for answers in product((True, False), repeat=len(sections)):
        fitted: dict[str, bool | None] = dict(zip(sections, answers, strict=True))
        if any(fitted[name] and not fitted[sections_around(name)[0]] for name in sections):
            continue
        there = [fact for fact in facts if fitted[section_holding(fact)]]
        for values in product(*((*DOMAINS[fact], None) for fact in there)):
            known: dict[str, Value | None] = dict(zip(there, values, strict=True))
            yield Truck(fitted, known)


@settings(max_examples=150, deadline=None)
@given(conditions(most=4))
def test_verdict_is_that_of_trying_every_truck(condition: Condition) -> None:
    truths = {evaluate(condition, truck) for truck in all_trucks(condition)}

    expected = SOMETIMES
    if True not in truths:
        expected = NEVER
    elif False not in truths:
        expected = ALWAYS
    assert expected is verdict_on(condition)


DEAD_PARTS = [
    # typed, the part that is dead, the two members that make it so
    ("fitted(pto) and fitted(clutch)", []),
    (
        "fitted(pto) and fitted(clutch) and not fitted(pto)",
        [
            (
                "fitted(pto) and fitted(clutch) and not fitted(pto)",
                ["fitted(pto)", "not fitted(pto)"],
            )
        ],
    ),
    (
        "fitted(pto) or (fitted(clutch) and not fitted(clutch))",
        [("fitted(clutch) and not fitted(clutch)", ["fitted(clutch)", "not fitted(clutch)"])],
    ),
    (
        'fitted(cruise) and cruise.lowest_speed <= "200 mph"',
        [('cruise.lowest_speed <= "200 mph"', [])],
    ),
    (
        'not (fitted(pto) and cruise.lowest_speed > "200 mph")',
        [('not (fitted(pto) and cruise.lowest_speed > "200 mph")', [])],
    ),
    # No two of the three exclude one another, all three do.
    (
        "(fitted(pto) or fitted(horn)) and not fitted(pto) and not fitted(horn)",
        [("(fitted(pto) or fitted(horn)) and not fitted(pto) and not fitted(horn)", [])],
    ),
]


@pytest.mark.parametrize(("typed", "expected"), DEAD_PARTS)
def test_largest_dead_part_is_named_with_the_two_that_exclude_one_another(
    typed: str, expected: list[tuple[str, list[str]]]
) -> None:
    dead = find_dead(read_sound(typed))

    assert expected == [
        (as_typed(part.part), [as_typed(one) for one in part.because]) for part in dead
    ]


def test_condition_is_found_dead_at_its_own_place() -> None:
    condition = read_sound("fitted(pto) or (brakes.abs and not brakes.abs)")
    findings = Findings()

    is_alive = check_condition(condition, findings)

    (finding,) = findings
    assert not is_alive
    assert finding.span is not None
    # `brakes.abs and not brakes.abs`: 29 characters, after the 23 of `when: 'fitted(pto) or (`.
    expected = ("dead-condition", 24, 53)
    assert expected == (finding.rule.name, finding.span.column, finding.span.end_column)


def test_needless_condition_is_a_warning_and_a_dead_one_an_error() -> None:
    findings = Findings()

    check_condition(read_sound("brakes.abs or not brakes.abs"), findings)
    check_condition(read_sound("brakes.abs and not brakes.abs"), findings)

    expected = [("needless-condition", False), ("dead-condition", True)]
    assert expected == [(found.rule.name, found.is_error) for found in findings._all]  # noqa: SLF001 -- in the order they came


WITHIN = [
    ("fitted(brakes.air)", "fitted(brakes)", "needless-condition"),
    ("fitted(brakes.air)", "not fitted(brakes)", "dead-condition"),
    ("fitted(brakes.air)", "fitted(clutch)", ""),
    ('engine.fuel == "diesel"', 'engine.fuel == "cng"', "dead-condition"),
    ('engine.fuel == "diesel"', "fitted(engine)", "needless-condition"),
    ('engine.fuel == "diesel"', "on_record(engine.fuel)", "needless-condition"),
    ('cruise.lowest_speed > "30 mph"', 'cruise.lowest_speed > "20 mph"', "needless-condition"),
    ('cruise.lowest_speed > "20 mph"', 'cruise.lowest_speed > "30 mph"', ""),
    # The fault is in the procedure's own condition, which has a finding of its own.
    ("fitted(clutch) and not fitted(clutch)", "brakes.abs", ""),
    # Dead by itself, which is a finding of its own.
    ("fitted(clutch)", "brakes.abs and not brakes.abs", ""),
]


@pytest.mark.parametrize(("applies", "when", "rule"), WITHIN)
def test_condition_is_looked_at_where_its_procedure_applies(
    applies: str, when: str, rule: str
) -> None:
    findings = Findings()

    given = Given((read_sound(applies),), "the procedure applies")
    check_within(read_sound(when), given, findings)

    assert ([rule] if rule else []) == [found.rule.name for found in findings]


def test_caution_may_repeat_the_condition_of_its_step_and_not_deny_it() -> None:
    step = Given((read_sound("fitted(pto)"), read_sound("brakes.abs")), "step `drain` stands")
    repeated, denied = Findings(), Findings()

    check_against(read_sound("brakes.abs"), step, repeated)
    check_against(read_sound("not brakes.abs"), step, denied)

    assert not list(repeated)
    (finding,) = denied
    assert finding.what == "`not brakes.abs` can never be true where step `drain` stands"
    assert [note.text for note in finding.notes] == ["given `fitted(pto)`", "given `brakes.abs`"]


TWELVE = (
    *("pto", "clutch", "cruise", "horn", "seat", "lights", "wipers"),
    *("mirrors", "wheels", "axles", "battery", "lamps", "engine", "suspension"),
)


def test_condition_with_more_parts_than_can_be_tried_is_refused_and_not_passed() -> None:
    all_fitted = And(tuple(Asks(Predicate.FITTED, name, NOWHERE) for name in TWELVE))
    denied = And((*all_fitted.of, read_sound("not fitted(suspension)")))
    findings = Findings()

    check_condition(denied, findings)

    assert [found.rule.name for found in findings] == ["condition-too-large"]


def test_large_condition_that_is_soon_seen_to_depend_on_the_truck_passes() -> None:
    all_fitted = " and ".join(f"fitted({name})" for name in TWELVE)

    assert verdict_on(read_sound(all_fitted)) is SOMETIMES


def test_place_of_a_condition_runs_from_its_first_to_its_last_question() -> None:
    span = span_of(read_sound("(fitted(pto) or brakes.abs)"))

    expected = (1, 9, 34)
    assert expected == (span.line, span.column, span.end_column)


def test_place_of_parts_from_two_files_is_that_of_the_first() -> None:
    here = read_sound("fitted(pto)")
    there = Asks(Predicate.FITTED, "pto", NOWHERE)

    (leaf,) = leaves(here)
    assert leaf.span == span_of(And((here, there)))


def test_sections_that_no_file_can_deny_are_those_of_the_schema() -> None:
    deniable = {
        name for name, field in Equipment.model_fields.items() if "section" in field.metadata
    }

    # The holders of the law's limits and of what is known of fluids are no sections of a unit.
    assert {*Equipment.model_fields} - deniable | {"law", "substance"} == ALWAYS_THERE
