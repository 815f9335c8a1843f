"""Conditions are read as typed, or told back in plain words at the very token."""

import dataclasses

import pytest
from condition_strategies import NOWHERE, conditions, read, read_sound, scalar_of
from hypothesis import given
from hypothesis import strategies as st

from guidegen.finding import Finding, Findings
from guidegen.procedures.condition import LONGEST_CONDITION, MAX_DEPTH, read_condition
from guidegen.procedures.condition_model import And, Compares, Condition, Not, Or, Relation
from guidegen.procedures.condition_value import leaves
from guidegen.procedures.condition_words import as_typed

READ = [
    ("fitted(brakes.air)", "fitted(brakes.air)"),
    ("brakes.abs", "brakes.abs"),
    ("not brakes.abs", "not brakes.abs"),
    ("not not brakes.abs", "not not brakes.abs"),
    ("on_record(law.air_build_up_time)", "on_record(law.air_build_up_time)"),
    ('engine.fuel == "diesel"', 'engine.fuel == "diesel"'),
    ('engine.fuel!="diesel"', 'engine.fuel != "diesel"'),
    ("brakes.air.tank_count<3", "brakes.air.tank_count < 3"),
    ('cruise.lowest_speed >= "25 mph"', 'cruise.lowest_speed >= "25 mph"'),
    ('"clutch" in engine_brake.drops_out', '"clutch" in engine_brake.drops_out'),
    ('"clutch" not in engine_brake.drops_out', 'not "clutch" in engine_brake.drops_out'),
    (
        'axles.configuration in ("6x4", "6x2")',
        'axles.configuration == "6x4" or axles.configuration == "6x2"',
    ),
    ('axles.configuration in ("6x4")', 'axles.configuration == "6x4"'),
    (
        'axles.configuration not in ("6x4","6x2")',
        'not (axles.configuration == "6x4" or axles.configuration == "6x2")',
    ),
    ("brakes.air.tank_count in (2, 3)", "brakes.air.tank_count == 2 or brakes.air.tank_count == 3"),
    # As in Python: `not` binds closer than `and`, `and` closer than `or`.
    (
        "not brakes.abs and fitted(pto) or fitted(clutch)",
        "(not brakes.abs and fitted(pto)) or fitted(clutch)",
    ),
    ("brakes.abs and (fitted(pto) or fitted(clutch))",) * 2,
    ("not (brakes.abs and fitted(pto))",) * 2,
    ("((brakes.abs))", "brakes.abs"),
    ('not engine.fuel == "diesel"', 'not engine.fuel == "diesel"'),
]


@pytest.mark.parametrize(("typed", "expected"), READ)
def test_condition_is_read_with_the_precedence_that_programs_have(
    typed: str, expected: str
) -> None:
    assert expected == as_typed(read_sound(typed))


@given(conditions())
def test_canonical_text_reads_back_as_the_same_condition(condition: Condition) -> None:
    typed = as_typed(condition)

    assert condition == without_places(read_sound(typed))


def without_places(condition: Condition) -> Condition:
    match condition:
        case And(of=members):
            return And(tuple(map(without_places, members)))
        case Or(of=members):
            return Or(tuple(map(without_places, members)))
        case Not(of=inner):
            return Not(without_places(inner))
        case _:
            return dataclasses.replace(condition, span=NOWHERE)


@given(conditions(), st.data())
def test_blanks_and_needless_brackets_change_nothing(
    condition: Condition, data: st.DataObject
) -> None:
    typed = as_typed(condition)
    wider = "".join(
        f" {sign} " if sign in "()" and data.draw(st.booleans()) else sign for sign in typed
    )

    assert condition == without_places(read_sound(f"  (({wider}))  "))


UNREAD = [
    # typed, stretch that is shown, rule, words of the cure
    ("fitted(brake.air)", "brake.air", "unknown-section", "did you mean `brakes.air`?"),
    ("fitted(air)", "air", "unknown-section", "did you mean `brakes.air`?"),
    ("fitted(law)", "law", "unknown-section", "the sections are"),
    ("fitted(brakes.abs)", "brakes.abs", "unknown-section", "`fitted(brakes)`"),
    ("on_record(brakes)", "brakes", "unknown-fact", "name one of its facts: `brakes.abs`"),
    ("brakes.ab", "brakes.ab", "unknown-fact", "did you mean `brakes.abs`?"),
    ("Brakes.ABS", "Brakes.ABS", "unknown-fact", "did you mean `brakes.abs`?"),
    ("brakes.air.zzz", "brakes.air.zzz", "unknown-fact", "`brakes.air` has `cut_in`, `cut_out`"),
    ('zzz.zzz == "a"', "zzz.zzz", "unknown-fact", "the sections are `identity`, `engine`"),
    ("zzz.zzz in (1, 2, 3)", "zzz.zzz", "unknown-fact", "a fact is named by its section"),
    ('"clutch" in zzz.zzz', "zzz.zzz", "unknown-fact", "a fact is named by its section"),
    ("engine.fuel", "engine.fuel", "yes-or-no-expected", 'engine.fuel == "diesel"'),
    ("brakes.air.spring_apply", "brakes.air.spring_apply", "yes-or-no-expected", "on_record("),
    ("engine.oil_grade", "engine.oil_grade", "yes-or-no-expected", "on_record("),
    ("brakes.air.tank_count", "brakes.air.tank_count", "yes-or-no-expected", "tank_count == 1"),
    ('engine.fuel == "petrol"', '"petrol"', "literal-of-wrong-kind", "its choices are `diesel`"),
    ("engine.fuel == 3", "3", "literal-of-wrong-kind", "its choices are `diesel`"),
    ('engine.fuel >= "diesel"', '"diesel"', "literal-of-wrong-kind", 'engine.fuel == "diesel"'),
    ('brakes.abs != "no"', '"no"', "literal-of-wrong-kind", "`not brakes.abs` for no"),
    ('brakes.air.cut_out > "25 mph"', '"25 mph"', "literal-of-wrong-kind", '>= "95 psi"'),
    ("brakes.air.cut_out > 100", "100", "literal-of-wrong-kind", '>= "95 psi"'),
    ('brakes.air.cut_out > "100 pis"', '"100 pis"', "literal-of-wrong-kind", "mean `psi`"),
    ('brakes.air.cut_out > "1,00 psi"', '"1,00 psi"', "literal-of-wrong-kind", '>= "95 psi"'),
    ("brakes.air.tank_count > 1.5", "1.5", "literal-of-wrong-kind", "tank_count == 1"),
    ('brakes.air.tank_count > "2"', '"2"', "literal-of-wrong-kind", "tank_count == 1"),
    ('engine_brake.drops_out == "abs"', '"abs"', "literal-of-wrong-kind", '"abs" in engine_brake'),
    ('"diesel" in engine.fuel', '"diesel"', "literal-of-wrong-kind", 'engine.fuel == "diesel"'),
    ('"abz" in engine_brake.drops_out', '"abz"', "literal-of-wrong-kind", 'did you mean `"abs"`?'),
    ('axles.configuration == "six"', '"six"', "literal-of-wrong-kind", "wheels by driven wheels"),
    ('axles.configuration < "6x4"', '"6x4"', "literal-of-wrong-kind", "`==` or `!=`"),
    ('engine.oil_grade == "15W-40"', '"15W-40"', "text-compared", "on_record(engine.oil_grade)"),
    ('brakes.air.spring_apply > "30 psi"', '"30 psi"', "range-compared", "compare another fact"),
    ('brakes.air.cut_out > "90-100 psi"', '"90-100 psi"', "range-compared", "each end"),
    ("engine.fuel = 3", "=", "unreadable-condition", "write `==` instead of `=`"),
    ("brakes.abs & brakes.abs", "&", "unreadable-condition", "write `and` instead of `&`"),
    ("brakes.abs || brakes.abs", "||", "unreadable-condition", "write `or` instead of `||`"),
    ("!brakes.abs", "!", "unreadable-condition", "write `not` instead of `!`"),
    ('cruise.lowest_speed ≥ "25 mph"', "≥", "unreadable-condition", "write `>=`"),
    ("engine.fuel == “diesel”", "“", "unreadable-condition", "straight double quotes"),
    ('engine.fuel == "diesel', '"', "unreadable-condition", "close the double quotes"),
    ("brakes.air.tank_count + 1 > 2", "+", "unreadable-condition", "does not count"),
    ("brakes.abs ? brakes.abs", "?", "unreadable-condition", "write names, values and `and`"),
    ("engine.fuel == diesel", "diesel", "unreadable-condition", '`"diesel"`'),
    ("brakes.abs == true", "true", "unreadable-condition", "`not brakes.abs`"),
    ("engine.fuel == engine.fuel", "engine.fuel", "unreadable-condition", "write it as in"),
    ("brakes.abs AND brakes.abs", "AND", "unreadable-condition", "`and` in small letters"),
    ('engine.fuel is "diesel"', "is", "unreadable-condition", "write `==` instead of `is`"),
    ("brakes.air.cut_out > 100 psi", "100 psi", "unreadable-condition", '`"100 psi"`'),
    ('"100 psi" < brakes.air.cut_out', '"100 psi"', "unreadable-condition", "put the fact first"),
    ('"100 psi"', "", "unreadable-condition", "write it as in"),
    ('"abs" in "abs"', '"abs"', "unreadable-condition", "write it as in"),
    ("has(brakes)", "has", "unreadable-condition", "`fitted(…)` of a section"),
    ("fitted", "", "unreadable-condition", "write it as in"),
    ("fitted()", ")", "unreadable-condition", "write it as in"),
    ('fitted("brakes")', '"brakes"', "unreadable-condition", "write it as in"),
    ("fitted(brakes, engine)", ",", "unreadable-condition", "write it as in"),
    ("(fitted(brakes)", "", "unreadable-condition", "write `)` here"),
    ("fitted(brakes))", ")", "unreadable-condition", "write it as in"),
    ("brakes.abs and", "", "unreadable-condition", "write it as in"),
    ("and brakes.abs", "and", "unreadable-condition", "write it as in"),
    ('brakes.abs "and" brakes.abs', '"and"', "unreadable-condition", "write it as in"),
    ('"in" in engine_brake.drops_out', '"in"', "literal-of-wrong-kind", "choices are"),
    ("brakes.abs not", "", "unreadable-condition", "write it as in"),
    ('axles.configuration in "6x4"', '"6x4"', "unreadable-condition", "write it as in"),
    ("axles.configuration in ()", ")", "unreadable-condition", "write it as in"),
    ('cruise.lowest_speed < "3 mph" < "9 mph"', "<", "unreadable-condition", "write it as in"),
]


@pytest.mark.parametrize(("typed", "stretch", "rule", "cure"), UNREAD)
def test_condition_that_says_nothing_is_told_back_at_its_token(
    typed: str, stretch: str, rule: str, cure: str
) -> None:
    condition, findings = read(typed)

    (finding,) = findings
    assert condition is None
    assert (rule, stretch) == (finding.rule.name, shown_at(finding))
    assert cure in finding.fix


def shown_at(finding: Finding) -> str:
    span = finding.span
    assert span is not None
    assert span.line == span.end_line
    return span.file.line(span.line)[span.column - 1 : span.end_column - 1]


def test_all_names_and_literals_at_fault_are_told_at_once() -> None:
    _, findings = read('brakes.ab and fitted(brake) and (engine.fuel == "x" or not engine.fuel)')

    expected = [
        ("unknown-fact", "brakes.ab"),
        ("unknown-section", "brake"),
        ("literal-of-wrong-kind", '"x"'),
        ("yes-or-no-expected", "engine.fuel"),
    ]
    assert expected == [(finding.rule.name, shown_at(finding)) for finding in findings]


@pytest.mark.parametrize("opening", ["(", "not ", "not ("])
def test_depth_is_bounded_before_our_own_stack_is(opening: str) -> None:
    closing = ")" * opening.count("(")
    times = MAX_DEPTH // len(opening.split()) - 1
    within = opening * times + "brakes.abs" + closing * times
    beyond = opening * (LONGEST_CONDITION // 8) + "brakes.abs"

    read_sound(within)
    _, findings = read(beyond)

    (finding,) = findings
    assert "deep in one another" in finding.what


def test_questions_in_a_row_are_not_deep() -> None:
    count = MAX_DEPTH + 5

    condition = read_sound(" and ".join(["not (brakes.abs)"] * count))

    assert count == len(leaves(condition))


def test_condition_longer_than_anybody_reads_is_refused() -> None:
    _, findings = read(" and ".join(["brakes.abs"] * LONGEST_CONDITION))

    (finding,) = findings
    assert "more than 1000 characters" in finding.what


def test_missing_condition_has_its_finding_from_the_yaml_reader_alone() -> None:
    findings = Findings()
    blank = dataclasses.replace(scalar_of("x"), text="")

    assert read_condition(blank, findings) is None
    assert not list(findings)


def test_each_question_knows_its_place_through_lines_of_a_block() -> None:
    scalar = scalar_of('|\n  fitted(engine) and\n    not engine.fuel == "diesel"')

    condition = read_condition(scalar, Findings())

    assert condition is not None
    places = [
        (leaf.span.line, leaf.span.column, leaf.span.end_column) for leaf in leaves(condition)
    ]
    expected = [(2, 3, 17), (3, 9, 32)]
    assert expected == places


def test_literal_keeps_the_measure_that_was_typed() -> None:
    (leaf,) = leaves(read_sound('cruise.lowest_speed >= "40 km/h"'))

    assert isinstance(leaf, Compares)
    expected = (Relation.AT_LEAST, "40 km/h")
    assert expected == (leaf.relation, leaf.literal)


@given(st.text(alphabet="abens.()\"<>=!, 019'“\n", max_size=60))
def test_any_text_is_read_or_has_a_finding_inside_it(typed: str) -> None:
    scalar = dataclasses.replace(scalar_of("'x'"), text=typed)
    findings = Findings()

    condition = read_condition(scalar, findings)

    assert (condition is None) == findings.has_errors
