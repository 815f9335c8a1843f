"""Which air pressures and heights each jurisdiction takes.

Sources: FMVSS 121 S5.1.5 (low-air signal at 60 psi), 61 FR 6173 (cut-in at 100 psi), CDL manual
sections 5.1 and 5.3 (safety valve about 150 psi, cut-out 120 to 140 psi, spring brakes 20 to 45
psi); California Vehicle Code 26506(b) (warning 55 to 75 psi) and 26503 (safety valve 150 psi);
Ontario Air Brake Handbook (warning 55 psi, cut-in 80 psi, cut-out 145 psi); British Columbia
commercial driver manual, page 218 (warning 60, cut-in 80, cut-out 105 to 135, 20 to 45 psi).
"""

import pytest
from one_unit import look_at


@pytest.mark.parametrize(
    ("jurisdiction", "pressure", "rules"),
    [
        ("us", "low_air_warning: 60 psi", set()),
        ("us", "low_air_warning: 59 psi", {"low-air-warning-outside-rule"}),
        ("us", "low_air_warning: 4.2 bar", set()),
        ("us", "low_air_warning: 4.1 bar", {"low-air-warning-outside-rule"}),
        ("us-california", "low_air_warning: 55 psi", set()),
        ("us-california", "low_air_warning: 54 psi", {"low-air-warning-outside-rule"}),
        ("us-california", "low_air_warning: 75 psi", set()),
        ("us-california", "low_air_warning: 76 psi", {"low-air-warning-outside-rule"}),
        ("us", "low_air_warning: 76 psi", set()),
        ("ontario", "low_air_warning: 55 psi", set()),
        ("ontario", "low_air_warning: 54 psi", {"low-air-warning-outside-rule"}),
        ("british-columbia", "low_air_warning: 59 psi", {"low-air-warning-outside-rule"}),
        ("uk", "low_air_warning: 50 psi", set()),
        ("us", "cut_in: 100 psi", set()),
        ("us", "cut_in: 99 psi", {"cut-in-below-rule"}),
        ("ontario", "cut_in: 80 psi", set()),
        ("ontario", "cut_in: 79 psi", {"cut-in-below-rule"}),
        ("us", "cut_out: 120 psi", set()),
        ("us", "cut_out: 140 psi", set()),
        ("us", "cut_out: 119 psi", {"cut-out-unusual"}),
        ("us", "cut_out: 149 psi", {"cut-out-unusual"}),
        ("us", "cut_out: 150 psi", {"cut-out-unusual", "cut-out-outside-rule"}),
        ("us-california", "cut_out: 149 psi", set()),
        ("us-california", "cut_out: 150 psi", {"cut-out-outside-rule"}),
        ("ontario", "cut_out: 145 psi", set()),
        ("ontario", "cut_out: 146 psi", {"cut-out-outside-rule"}),
        ("british-columbia", "cut_out: 104 psi", {"cut-out-outside-rule"}),
        ("british-columbia", "cut_out: 105 psi", set()),
        ("british-columbia", "cut_out: 136 psi", {"cut-out-outside-rule"}),
        ("uk", "cut_out: 12.5 bar", set()),
        ("us", "spring_apply: 20 to 45 psi", set()),
        ("us", "spring_apply: 19 to 45 psi", {"spring-apply-outside-rule"}),
        ("us", "spring_apply: 25 to 46 psi", {"spring-apply-outside-rule"}),
        ("us", "spring_apply: 46 psi", {"spring-apply-outside-rule"}),
        ("british-columbia", "spring_apply: 15 to 30 psi", {"spring-apply-outside-rule"}),
        ("ontario", "spring_apply: 15 to 30 psi", set()),
    ],
)
def test_pressure_is_compared_with_the_rule_of_its_own_place(
    jurisdiction: str, pressure: str, rules: set[str]
) -> None:
    assert look_at(f"brakes:\n  air: {{{pressure}}}\n", jurisdiction).rules == rules


@pytest.mark.parametrize(
    ("jurisdiction", "height", "is_too_high"),
    [
        ("us", "13 ft 6 in", False),
        ("us", "13 ft 7 in", True),
        ("us", "4.11 m", False),
        ("us", "4.12 m", True),
        ("us-california", "14 ft", False),
        ("us-california", "14 ft 1 in", True),
        ("ontario", "4.15 m", False),
        ("ontario", "4.16 m", True),
        ("uk", "4.5 m", False),
    ],
)
def test_height_is_compared_with_the_roads_of_its_own_place(
    jurisdiction: str, height: str, *, is_too_high: bool
) -> None:
    found = look_at(f"identity: {{overall_height: {height}}}\n", jurisdiction).rules

    assert found == ({"height-above-roads"} if is_too_high else set())


def test_the_finding_names_value_rule_and_source() -> None:
    looked = look_at("brakes:\n  air: {low_air_warning: 55 psi}\n")
    (finding,) = looked.findings

    assert finding.what == (
        "`brakes.air.low_air_warning: 55 psi` is below the 60 psi of FMVSS 121 S5.1.5, a signal "
        "below this"
    )
    assert [note.span.file.path for note in finding.notes if note.span] == ["us.yml"]


@pytest.mark.parametrize(
    ("cut_in", "cut_out", "is_unusual"),
    [
        (110, 120, False),
        (111, 120, True),
        (100, 140, False),
        (100, 141, True),
    ],
)
def test_gap_of_the_governor_is_ten_to_forty_psi(
    cut_in: int, cut_out: int, *, is_unusual: bool
) -> None:
    """Common practice, no source."""
    air = f"brakes:\n  air: {{cut_in: {cut_in} psi, cut_out: {cut_out} psi}}\n"

    assert ("governor-gap-unusual" in look_at(air).rules) == is_unusual
