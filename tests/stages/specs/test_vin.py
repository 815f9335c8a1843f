import pytest
from vininfo import Vin  # type: ignore[import-untyped]  # the library has no types

from guidegen.specs.vin import check_digit, is_placeholder, model_years

# 49 CFR 565.15 (pre-2008 Table V sample), NHTSA's outline for new manufacturers (p. 18), and two
# widely published samples with the check digit X.
PASSING = ["1G4AH59H45G118341", "1J9RP1A36A1644345", "1M8GDM9AXKP042788", "1FACP45EXLF192944"]

# Worked by hand from the same tables: what stands in position 9, and what should.
FAILING = {
    "1M8GDM9A0KP042788": "X",
    "1M8GDM9AXKP042787": "8",
    "1M8GDM9AXKP402788": "3",
    "M18GDM9AXKP042788": "2",
    "SGZCZ43D13S812715": "X",
    "12345678901234567": "7",
}


@pytest.mark.parametrize("vin", PASSING)
def test_published_samples_pass_the_check_digit(vin: str) -> None:
    assert check_digit(vin) == vin[8]


@pytest.mark.parametrize(("vin", "expected"), FAILING.items())
def test_mistyped_samples_ask_for_another_check_digit(vin: str, expected: str) -> None:
    assert check_digit(vin) == expected
    assert check_digit(vin) != vin[8]


@pytest.mark.parametrize("vin", [*PASSING, *FAILING])
def test_check_digit_agrees_with_an_independent_library(vin: str) -> None:
    assert Vin(vin).verify_checksum() is (check_digit(vin) == vin[8])


@pytest.mark.parametrize("vin", PASSING)
def test_model_years_agree_with_an_independent_library(vin: str) -> None:
    """It settles the cycle by position 7 for cars; a truck can be of either (565.15(b))."""
    assert set(Vin(vin).years) <= set(model_years(vin))


def test_model_years_run_in_cycles_of_thirty() -> None:
    """49 CFR 565.15(d)(1) Table VII: A is 1980 and 2010, 9 is 2009 and 2039; no I O Q U Z 0."""
    sample = "1M8GDM9AX{}P042788"

    years = {code: model_years(sample.format(code)) for code in "AKY19UZ0"}

    assert years["A"] == (1980, 2010)
    assert years["K"] == (1989, 2019)
    assert years["Y"] == (2000, 2030)
    assert years["1"] == (2001, 2031)
    assert years["9"] == (2009, 2039)
    assert years["U"] == years["Z"] == years["0"] == ()


def test_one_character_over_and_over_is_a_placeholder_though_it_passes() -> None:
    vin = "1" * 17

    assert check_digit(vin) == "1"
    assert is_placeholder(vin)
