"""The units that drivers are signed off on, as the fleet file lists them."""

import json

import pytest

from guidegen.build.load import check_trained_on
from guidegen.finding import Findings
from guidegen.specs.fleet import Fleet, FleetFile
from guidegen.specs.read import read_fleet


def read(trained_on: str, findings: Findings) -> Fleet | None:
    raw = f"name: Sedgewater\njurisdiction: us\n{trained_on}\n"
    return read_fleet("specs/fleet.yml", raw.encode(), findings)


def listed(trained_on: str) -> list[object] | None:
    fleet = read(trained_on, Findings())
    assert fleet is not None
    return None if fleet.trained_on is None else [each.value for each in fleet.trained_on]


def test_numbers_are_kept_as_typed_with_their_places() -> None:
    fleet = read("trained_on: [T-17, E-02]", Findings())
    assert fleet is not None
    assert fleet.trained_on is not None
    assert [(each.value, each.span.column) for each in fleet.trained_on] == [
        ("T-17", 14),
        ("E-02", 20),
    ]


def test_a_number_of_digits_only_is_a_number_of_a_unit() -> None:
    assert listed("trained_on: [017, 12]") == ["017", "12"]


def test_left_out_is_not_the_same_as_none() -> None:
    assert listed("") is None
    assert listed("trained_on: []") == []


def test_one_number_may_stand_without_a_list() -> None:
    assert listed("trained_on: T-17") == ["T-17"]


@pytest.mark.parametrize(
    ("typed", "rule", "what"),
    [
        (
            "trained_on: [t-17]",
            "text-of-wrong-form",
            "`trained_on: t-17` is not capitals, digits and single hyphens, as T-17",
        ),
        ("trained_on: [T-17, T-17]", "choice-twice", "`trained_on` names `T-17` twice"),
        (
            "trained_on: {unit: T-17}",
            "not-a-unit-list",
            "`trained_on` holds something else than unit numbers",
        ),
        (
            "trained_on: [[T-17]]",
            "not-a-unit-list",
            "`trained_on` holds something else than unit numbers",
        ),
    ],
)
def test_what_is_no_list_of_numbers_is_refused(typed: str, rule: str, what: str) -> None:
    findings = Findings()
    assert read(typed, findings) is None
    assert [(each.rule.name, each.what) for each in findings] == [(rule, what)]


def test_a_number_without_a_unit_file_is_reported_at_its_place_with_a_guess() -> None:
    findings = Findings()
    fleet = read("trained_on: [T-17, T-71]", findings)
    assert fleet is not None
    check_trained_on(fleet, ["T-17", "E-02"], findings)
    (finding,) = findings
    assert finding.rule.name == "trained-on-unknown-unit"
    assert finding.where == "specs/fleet.yml:3:20"
    assert finding.what == "`trained_on` names `T-71`, and no unit file has that number"
    assert finding.fix == "did you mean `T-17`?"


def test_editors_are_told_what_a_number_looks_like() -> None:
    schema = json.dumps(FleetFile.model_json_schema()["properties"]["trained_on"])
    assert '"uniqueItems": true' in schema
    assert "^[A-Z0-9]+(-[A-Z0-9]+)*$" in schema
