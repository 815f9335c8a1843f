import pytest
from one_unit import look_at

from guidegen.plausibility.fluids.kinds import BELONGS, Kind, kinds_of
from guidegen.plausibility.fluids.standards import (
    DOT_NUMBERS,
    OIL_CATEGORIES,
    SUMMER_GRADES,
    WINTER_GRADES,
    dot_numbers,
    oil_categories,
    viscosity_grades,
)
from guidegen.rule_page import Standing
from guidegen.specs.profile import FACTS


def oil(grade: str, more: str = "") -> set[str]:
    return look_at(f"engine: {{oil_grade: '{grade}'{more}}}\n").rules


def test_viscosity_numbers_are_those_of_the_standard() -> None:
    """SAE J300, editions of 1999 to 2021, as four tables of the trade agree."""
    assert WINTER_GRADES == (0, 5, 10, 15, 20, 25)
    assert SUMMER_GRADES == (8, 12, 16, 20, 30, 40, 50, 60)


@pytest.mark.parametrize("winter", [0, 5, 10, 15, 20, 25])
@pytest.mark.parametrize("summer", [8, 12, 16, 20, 30, 40, 50, 60])
def test_every_grade_of_the_standard_is_let_pass(winter: int, summer: int) -> None:
    assert oil(f"SAE {winter}W-{summer}") == set()


@pytest.mark.parametrize(
    "grade", ["12W-40", "15W-45", "30W-40", "15W-4", "15W-400", "75W-90", "150W-40", "15 W 45"]
)
def test_a_grade_that_the_standard_lacks_is_found(grade: str) -> None:
    assert oil(f"SAE {grade}") == {"viscosity-grade-not-in-sae-j300"}


@pytest.mark.parametrize(
    ("text", "grades"),
    [
        ("SAE 15W-40, API CK-4", (("15W-40", 15, 40),)),
        ("SAE 5W-30 or 10W-30", (("5W-30", 5, 30), ("10W-30", 10, 30))),
        ("SAE 15W40", (("15W40", 15, 40),)),
        ("SAE 10W", (("10W", 10, None),)),
        ("SAE 40", ()),
        ("SAE 15W-40, never 10W-30", (("15W-40", 15, 40),)),
        ("block heater of 1500 W", ()),
    ],
)
def test_grades_are_read_as_people_type_them(
    text: str, grades: tuple[tuple[str, int, int | None], ...]
) -> None:
    assert viscosity_grades(text) == grades


def test_ck_4_takes_the_place_of_older_categories_and_fa_4_of_none() -> None:
    """American Petroleum Institute on CK-4 and FA-4, as the trade press prints it."""
    assert OIL_CATEGORIES["CK-4"].stands_in_for == ("CJ-4", "CI-4 PLUS", "CI-4", "CH-4")
    assert OIL_CATEGORIES["FA-4"].stands_in_for == ()
    assert OIL_CATEGORIES["FA-4"].only_grade == "30"
    secondary = {n for n, c in OIL_CATEGORIES.items() if c.standing is Standing.SECONDARY}
    assert secondary == {"CK-4", "FA-4"}


def test_standing_in_passes_on_down_the_list() -> None:
    """What takes the place of a category takes the place of all that it took the place of."""
    for category in OIL_CATEGORIES.values():
        for older in category.stands_in_for:
            assert set(OIL_CATEGORIES[older].stands_in_for) <= set(category.stands_in_for)
            assert category.name not in OIL_CATEGORIES[older].stands_in_for


@pytest.mark.parametrize("category", ["CJ-4", "CI-4", "CI-4 PLUS", "CH-4"])
def test_ck_4_may_stand_beside_what_it_takes_the_place_of(category: str) -> None:
    assert oil(f"SAE 15W-40, API CK-4 or {category}") == set()


@pytest.mark.parametrize("category", ["CK-4", "CJ-4", "CI-4", "CH-4"])
def test_fa_4_may_stand_beside_none_of_them(category: str) -> None:
    found = oil(f"SAE 10W-30, API FA-4 or {category}")

    assert found == {"oil-categories-not-interchangeable"}


@pytest.mark.parametrize(
    ("text", "categories"),
    [
        ("SAE 10W-30, API CK-4", ("CK-4",)),
        ("SAE 10W-30, API CK-4 or CJ-4 (SAE J300)", ("CK-4", "CJ-4")),
        ("SAE 15W-40, API CI-4 PLUS", ("CI-4 PLUS",)),
        ("SAE 5W-30, API SN PLUS", ("SN PLUS",)),
        ("SAE 5W-30, API CK-4/SN", ("CK-4", "SN")),
        ("SAE 15W-40, API CK-4, not FA-4", ("CK-4",)),
        ("SAE 15W-40, API CK-4 (never FA-4)", ("CK-4",)),
        ("SAE 15W-40 CK-4", ("CK-4",)),
        ("15W-40, no API mark, SN", ()),
        ("SAE 15W-40", ()),
        ("gear oil, API GL-5", ()),
        ("SAE 75W-90, SN-9 additive", ()),
    ],
)
def test_categories_are_read_as_people_type_them(text: str, categories: tuple[str, ...]) -> None:
    assert oil_categories(text) == categories


@pytest.mark.parametrize(
    ("grade", "fuel", "rules"),
    [
        ("SAE 5W-30, API SP", "diesel", {"oil-category-for-another-fuel"}),
        ("SAE 5W-30, API CK-4", "gasoline", {"oil-category-for-another-fuel"}),
        ("SAE 5W-30, API CK-4/SN", "gasoline", set()),
        ("SAE 5W-30, API CK-4/SN", "diesel", set()),
        ("SAE 5W-30, API SP", "cng", set()),
        ("SAE 5W-30", "diesel", set()),
        ("SAE 5W-30, API CX-9", "diesel", {"oil-category-unknown"}),
    ],
)
def test_oil_is_for_the_engine_that_it_goes_into(grade: str, fuel: str, rules: set[str]) -> None:
    assert oil(grade, f", fuel: {fuel}") == rules


@pytest.mark.parametrize(
    ("grade", "rules"),
    [
        ("SAE 10W-30, API FA-4", set()),
        ("SAE 10W-40, API FA-4", {"viscosity-outside-category"}),
        ("SAE 15W-40, API CK-4", set()),
    ],
)
def test_fa_4_comes_in_one_thickness(grade: str, rules: set[str]) -> None:
    assert oil(grade) == rules


def test_the_nearest_category_is_suggested() -> None:
    (finding,) = look_at("engine: {oil_grade: 'SAE 15W-40, API CL-4'}\n").findings

    assert "`CL-4`" in finding.what
    assert "did you mean" in finding.fix


def test_dot_numbers_are_those_of_the_standard() -> None:
    """FMVSS 116 S5.1."""
    assert DOT_NUMBERS == ("3", "4", "5", "5.1")


@pytest.mark.parametrize(
    ("fluid", "rules"),
    [
        ("brake fluid DOT 3", set()),
        ("brake fluid DOT 3 or DOT 4", set()),
        ("brake fluid DOT 4, DOT 5.1", set()),
        ("brake fluid DOT 5", set()),
        ("brake fluid DOT 5 or DOT 5.1", {"brake-fluids-mixed"}),
        ("brake fluid DOT 3 or DOT 5", {"brake-fluids-mixed"}),
        ("brake fluid DOT 4, never DOT 5", set()),
        ("brake fluid DOT 6", {"dot-number-unknown"}),
        ("mineral oil", set()),
        ("automatic transmission fluid", {"fluid-of-wrong-kind"}),
        ("blue, as on the cap", set()),
    ],
)
def test_silicone_and_glycol_brake_fluid_are_kept_apart(fluid: str, rules: set[str]) -> None:
    clutch = f"clutch: {{actuation: hydraulic, fluid: '{fluid}'}}\n"

    assert look_at(clutch).rules == rules


def test_dot_5_and_dot_5_1_are_two_fluids() -> None:
    assert dot_numbers("DOT 5 or DOT 5.1") == ("5", "5.1")


@pytest.mark.parametrize(
    ("where", "fluid", "is_wrong"),
    [
        ("power_steering: {fluid: '%s'}", "brake fluid DOT 3", True),
        ("power_steering: {fluid: '%s'}", "coolant", True),
        ("power_steering: {fluid: '%s'}", "engine oil, SAE 15W-40", False),
        ("power_steering: {fluid: '%s'}", "automatic transmission fluid, not brake fluid", False),
        ("transmission: {fluid: '%s'}", "DEF", True),
        ("transmission: {fluid: '%s'}", "gear oil SAE 75W-90, API GL-4", False),
        ("axles: {lubricant: '%s'}", "brake fluid", True),
        ("axles: {lubricant: '%s'}", "gear oil SAE 85W-140, API GL-5", False),
        ("engine: {oil_grade: '%s'}", "gear oil, API GL-5", True),
        ("engine: {oil_grade: '%s'}", "diesel fuel", True),
        ("cooling: {coolant: '%s'}", "hydraulic oil with nitrite", True),
    ],
)
def test_a_fluid_is_of_a_kind_that_belongs_there(where: str, fluid: str, *, is_wrong: bool) -> None:
    found = look_at(where % fluid + "\n").rules

    assert ("fluid-of-wrong-kind" in found) == is_wrong


def test_kinds_belong_to_facts_that_there_are() -> None:
    assert set(BELONGS) <= set(FACTS)
    assert all(kinds_of(kind.value) for kind in Kind)


@pytest.mark.parametrize(
    ("coolant", "is_named"),
    [
        ("red coolant", False),
        ("green", False),
        ("ethylene glycol, green", True),
        ("extended-life coolant, red", True),
        ("nitrite-free coolant, blue", True),
        ("ASTM D6210 coolant", True),
    ],
)
def test_a_color_does_not_name_a_coolant(coolant: str, *, is_named: bool) -> None:
    found = look_at(f"cooling: {{coolant: '{coolant}'}}\n").rules

    assert ("coolant-kind-not-named" in found) != is_named


@pytest.mark.parametrize(
    ("share", "is_unusual"),
    [("39 %", True), ("40 %", False), ("60 %", False), ("61 %", True)],
)
def test_antifreeze_is_forty_to_sixty_percent(share: str, *, is_unusual: bool) -> None:
    """Sellers of coolants: protection worsens above some 60 to 70 percent."""
    found = look_at(f"cooling: {{antifreeze_share: {share}}}\n").rules

    assert found == ({"antifreeze-share-unusual"} if is_unusual else set())


@pytest.mark.parametrize(
    ("category", "is_old"), [("CI-4", True), ("CH-4", True), ("CJ-4", False), ("FA-4", False)]
)
def test_old_oil_does_not_go_with_a_particulate_filter(category: str, *, is_old: bool) -> None:
    """From memory: CJ-4 was the first category for engines with a filter."""
    text = f"engine: {{oil_grade: 'SAE 10W-30, API {category}'}}\n"

    assert look_at(text + "aftertreatment: not fitted\n").rules == set()
    found = look_at(text + "aftertreatment: {outlet: stack}\n").rules
    assert found == ({"oil-older-than-filter"} if is_old else set())
