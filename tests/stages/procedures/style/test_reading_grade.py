"""Readability by formula, on published and on counted examples."""

import pytest

from guidegen.procedures.style.reading_grade import Counts, count, grade, reading_ease
from guidegen.procedures.style.syllables import syllables

CAT = "The cat sat on the mat."
PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."
PARK = "Park the truck on level ground. Set the parking brake. Stop the engine."


@pytest.mark.parametrize(
    ("counts", "ease", "years"),
    [
        (Counts(words=6, sentences=1, syllables=6), 116.145, -1.45),
        (Counts(words=13, sentences=1, syllables=24), 37.455, 11.265),
        (Counts(words=100, sentences=5, syllables=150), 59.635, 9.91),
        (Counts(words=13, sentences=3, syllables=16), 98.31, 0.62),
    ],
)
def test_formulas_give_the_published_values_for_given_counts(
    counts: Counts, ease: float, years: float
) -> None:
    """US Navy 1975 and Flesch 1948; the first pair stands on a public calculator's page."""
    assert reading_ease(counts) == pytest.approx(ease, abs=0.005)
    assert grade(counts) == pytest.approx(years, abs=0.005)


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        (CAT, Counts(6, 1, 6)),
        (PLATYPUS, Counts(13, 1, 24)),
        (PARK, Counts(13, 3, 16)),
    ],
)
def test_texts_are_counted_as_by_hand(text: str, counts: Counts) -> None:
    assert count([text]) == counts


def test_counts_from_texts_stay_within_the_tolerance_of_other_counters() -> None:
    """Libraries differ by up to 3 points of reading ease on such texts."""
    assert reading_ease(count([PLATYPUS])) == pytest.approx(37.455, abs=3)
    assert reading_ease(count([PARK])) == pytest.approx(98.31, abs=3)


def test_a_text_without_a_full_stop_is_one_sentence() -> None:
    assert count(["Start the engine", "Stop it."]) == Counts(5, 2, 6)


def test_a_value_is_one_word() -> None:
    assert count(["Wait \ufffc."]) == Counts(2, 1, 3)


def test_a_decimal_point_ends_no_sentence() -> None:
    assert count(["Wait 1.5 hours."]).sentences == 1


COUNTED_BY_HAND = {
    1: "a brake clothes does fire gauge hinged hours hoist lamp latched owned pressed scale shaft "
    "stopped strength through tire tongue trailed used valve washed weighed wheel",
    2: "able axle axles bottle bridges bubbles cable cargo clearance closely coolant couple damage "
    "diesel dipstick dirty driver every engine failure fluid fluids frozen gauges going handle "
    "hazard hoses ladder landing lever loosely loosened minute needle neutral people poison power "
    "pressure quickly quiet ruin safely safety settle sideways signal someone something sometimes "
    "special steering taken throttle tighten towing trailer traction trying uses vapor washer "
    "within",
    3: "additive already another antifreeze anything battery cigarette compressor condition "
    "connection department everyone everything evenly following fuel-gauge gasoline hydraulic "
    "injury liquefied manual opposite overnight position procedure qualified radio reflector "
    "remember reservoir serious somebody transmission triangle uncouple usual vehicle's voltmeter",
    4: "aftertreatment automatic electrical electrician emergency everybody extinguisher indicator "
    "insulation material operator particulate receptacle recovery separator temperature "
    "turbocharger",
    5: "accelerator regeneration regenerative",
}


@pytest.mark.parametrize(
    ("word", "number"),
    [(word, number) for number, words in COUNTED_BY_HAND.items() for word in words.split()],
)
def test_words_of_the_trade_have_the_syllables_that_people_hear(word: str, number: int) -> None:
    assert syllables(word) == number


@pytest.mark.parametrize(
    ("word", "number"),
    [("DEF", 3), ("GFCI", 4), ("def", 1), ("FULL", 1), ("911", 3), ("low-air", 2)],
)
def test_capitals_are_read_letter_by_letter_where_people_do(word: str, number: int) -> None:
    assert syllables(word) == number
