"""Conditions in plain English: with the guide's labels, and with brackets where they matter."""

import pytest
from condition_strategies import conditions, read_sound
from hypothesis import given

from guidegen.procedures.condition_model import Condition
from guidegen.procedures.condition_words import in_words
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.profile import FACTS

WORDS = [
    ("fitted(aftertreatment)", "the truck has “Exhaust aftertreatment”"),
    ("not fitted(aftertreatment)", "the truck does not have “Exhaust aftertreatment”"),
    ("brakes.abs", "the truck has “Anti-lock brakes (ABS)”"),
    ("not brakes.abs", "the truck does not have “Anti-lock brakes (ABS)”"),
    ("on_record(engine.idle_speed)", "“Idle speed” is on record"),
    ("not on_record(engine.idle_speed)", "“Idle speed” is not on record"),
    ('engine.oil_check_state == "cold"', "engine oil is checked: “engine off and cold”"),
    ('engine.oil_check_state != "cold"', "engine oil is not checked: “engine off and cold”"),
    ('not engine.oil_check_state == "cold"', "engine oil is not checked: “engine off and cold”"),
    ('brakes.air.drain == "pull_cords"', "“Air tank drains” is “pull cords”"),
    ('axles.configuration == "6x4"', "“Axle configuration” is 6x4"),
    ("brakes.air.tank_count >= 3", "“Air tanks” is at least 3"),
    ("not brakes.air.tank_count >= 3", "“Air tanks” is not at least 3"),
    ('cruise.lowest_speed < "25 mph"', "“Cruise works from” is less than 25 mph"),
    (
        'differential_lock.highest_speed <= "25 mph"',
        "“Highest speed with the lock on (differential lock)” is at most 25 mph",
    ),
    (
        '"abs" in engine_brake.drops_out',
        "“the ABS acts” is listed under “Engine brake drops out when”",
    ),
    (
        '"abs" not in engine_brake.drops_out',
        "“the ABS acts” is not listed under “Engine brake drops out when”",
    ),
    (
        "fitted(pto) and fitted(clutch) and (brakes.abs or fitted(horn))",
        (
            "the truck has “Power take-off”, the truck has “Clutch” and (the truck has “Anti-lock"
            " brakes (ABS)” or the truck has “Horns”)"
        ),
    ),
    (
        "not (fitted(pto) or fitted(clutch))",
        "it is not so that (the truck has “Power take-off” or the truck has “Clutch”)",
    ),
]


@pytest.mark.parametrize(("typed", "expected"), WORDS)
def test_condition_is_said_with_the_labels_of_the_guide(typed: str, expected: str) -> None:
    assert expected == in_words(read_sound(typed))


@given(conditions())
def test_words_hold_no_dotted_name_and_balanced_brackets(condition: Condition) -> None:
    words = in_words(condition)

    assert not [name for name in FACTS if name in words]
    assert not [name for name in EQUIPMENT_SECTIONS if f"({name})" in words]
    assert words.count("(") == words.count(")")
