from decimal import Decimal

import pytest

from guidegen.finding import Findings
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.specs.read import (
    read_fleet,
    read_model,
    read_profile,
    read_substances,
    read_unit,
)

UNIT = """\
unit: T-17
model: harrow-420
source: Harrow 420 handbook
identity:
  vin: 1M8GDM9AXKP042788
  year: 2019
engine:
  oil_capacity: 38.0 qt
  oil_grade: {value: SAE 15W-40, source: filler cap}
brakes:
  air:
    cut_out: 135 psi
    spring_apply: 20 to 45 psi
  hydraulic: not fitted
  abs: NO
tires:
  steer: {size: 11R22.5, cold_pressure: 110 psi}
clutch: not fitted
"""


def faults_of(text: str, name: str = "T-17") -> list[tuple[int, int, str]]:
    findings = Findings()
    read_unit(f"specs/units/{name}.yml", text.encode(), findings)
    return [(f.span.line, f.span.column, f.rule.name) for f in findings if f.span]


def changed(old: str, new: str) -> str:
    assert old in UNIT
    return UNIT.replace(old, new)


def test_values_keep_the_digits_and_the_text_that_were_typed() -> None:
    findings = Findings()

    spec = read_unit("specs/units/T-17.yml", changed("abs: NO", "abs: no").encode(), findings)

    assert spec is not None
    assert list(findings) == []
    capacity = spec.stated["engine.oil_capacity"].value
    assert isinstance(capacity, Quantity)
    assert str(capacity.amount) == "38.0"
    assert spec.stated["tires.steer.size"].value == "11R22.5"
    apply = spec.stated["brakes.air.spring_apply"].value
    assert isinstance(apply, QuantityRange)
    assert (apply.low.amount, apply.high.amount) == (Decimal(20), Decimal(45))


def test_a_section_is_given_or_not_fitted_or_absent() -> None:
    findings = Findings()

    spec = read_unit("specs/units/T-17.yml", changed("abs: NO", "abs: no").encode(), findings)

    assert spec is not None
    assert "brakes.air" in spec.given
    assert set(spec.not_fitted) == {"brakes.hydraulic", "clutch"}
    assert "cruise" not in spec.given
    assert "cruise" not in spec.not_fitted


def test_a_value_has_its_own_source_or_the_files() -> None:
    findings = Findings()

    spec = read_unit("specs/units/T-17.yml", changed("abs: NO", "abs: no").encode(), findings)

    assert spec is not None
    assert spec.stated["engine.oil_grade"].source == "filler cap"
    assert spec.stated["engine.oil_capacity"].source == "Harrow 420 handbook"


def test_every_value_knows_its_line_and_column() -> None:
    findings = Findings()

    spec = read_unit("specs/units/T-17.yml", changed("abs: NO", "abs: no").encode(), findings)

    assert spec is not None
    assert spec.stated["brakes.air.cut_out"].span.place == "specs/units/T-17.yml:12:14"


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("oil_capacity: 38.0 qt", "oil_capacity: 38.0", (8, 17, "quantity-without-measure")),
        ("oil_capacity: 38.0 qt", "oil_capacity: 38.0 qrt", (8, 17, "unknown-measure")),
        ("oil_capacity: 38.0 qt", "oil_capacity: 38.0 psi", (8, 17, "wrong-dimension")),
        ("oil_capacity: 38.0 qt", "oil_capacity: 380 qt", (8, 17, "value-out-of-range")),
        ("oil_capacity: 38.0 qt", "oil_capacity: much qt", (8, 17, "unreadable-amount")),
        ("oil_capacity: 38.0 qt", "oil_capacity: 36 to 38 qt", (8, 17, "range-where-one-value")),
        ("20 to 45 psi", "45 to 20 psi", (13, 19, "backward-range")),
        ("oil_capacity:", "oil_capasity:", (8, 3, "unknown-field")),
        ("clutch: not fitted", "clutch: none", (18, 9, "value-where-table")),
        ("  hydraulic: not fitted", "  hydrolic: not fitted", (14, 3, "unknown-field")),
        ("year: 2019", "year: nineteen", (6, 9, "not-a-count")),
        ("year: 2019", "year: 1019", (6, 9, "value-out-of-range")),
        ("1M8GDM9AXKP042788", "1M8GDM9AXKP042787", (5, 8, "vin-check-digit")),
        ("1M8GDM9AXKP042788", "1M8GDM9AXKP04278O", (5, 8, "text-of-wrong-form")),
        ("1M8GDM9AXKP042788", "1" * 17, (5, 8, "vin-placeholder")),
        ("year: 2019", "year: 2018", (6, 9, "vin-year")),
        ("oil_capacity: 38.0 qt", "oil_capacity: [38 qt, 40 qt]", (8, 17, "list-where-value")),
        ("oil_capacity: 38.0 qt", "oil_capacity: {amount: 3}", (8, 18, "table-where-value")),
        ("135 psi", "30 bar", (12, 14, "value-out-of-range")),
        ("unit: T-17", "unit: t 17", (1, 7, "text-of-wrong-form")),
    ],
)
def test_each_fault_is_reported_at_its_place(
    old: str, new: str, expected: tuple[int, int, str]
) -> None:
    faults = faults_of(changed("abs: NO", "abs: no").replace(old, new))

    assert faults == [expected]


def test_a_word_that_yaml_would_take_for_a_truth_value_stays_a_word() -> None:
    assert faults_of(UNIT) == [(15, 8, "not-yes-or-no")]


def test_all_faults_of_a_file_are_reported_together() -> None:
    text = changed("abs: NO", "abs: no").replace("38.0 qt", "38.0").replace("135 psi", "135")

    assert [rule for _, _, rule in faults_of(text)] == ["quantity-without-measure"] * 2


def test_air_pressures_rise_in_the_order_in_which_things_happen() -> None:
    """Spring brakes < warning < cut-in < cut-out: FMVSS 121 and the CDL manual, section 5."""
    text = changed("abs: NO", "abs: no").replace("cut_out: 135 psi", "cut_out: 100 psi")
    text = text.replace("    spring_apply", "    cut_in: 110 psi\n    spring_apply")

    assert faults_of(text) == [(12, 14, "pressures-out-of-order")]


def test_a_file_is_named_for_its_truck() -> None:
    assert (1, 7, "file-name-differs") in faults_of(changed("abs: NO", "abs: no"), name="T-18")


def test_a_missing_unit_number_is_named() -> None:
    findings = Findings()

    read_unit("specs/units/T-17.yml", b"model: harrow-420\n", findings)

    assert [f.what for f in findings] == ["`unit` is missing"]


def test_a_misspelled_field_is_answered_with_the_nearest_one() -> None:
    findings = Findings()

    read_model("specs/models/m.yml", b"model: m\nengine:\n  oil_capasity: 3 qt\n", findings)

    assert [f.fix for f in findings] == ["did you mean `oil_capacity`?"]


def test_a_fleet_has_a_name_a_place_and_measures() -> None:
    text = (
        "name: Millbrook\njurisdiction: ontario\n"
        "measures: {first: metric, second: none, pressure: bar}\n"
        "yards:\n  - {id: north, name: North Yard}\n"
        "contacts:\n  - {role: Shop, phone: 555-0101}\n"
    )
    findings = Findings()

    fleet = read_fleet("specs/fleet.yml", text.encode(), findings)

    assert list(findings) == []
    assert fleet is not None
    assert fleet.jurisdiction == "ontario"
    assert fleet.second is None
    assert fleet.pressure.symbol == "bar"
    assert fleet.yard_name("north") == "North Yard"


def test_a_fault_in_a_list_entry_is_reported_at_the_entry() -> None:
    text = "name: M\njurisdiction: us\nyards:\n  - {id: north, nmae: North Yard}\n"
    findings = Findings()

    read_fleet("specs/fleet.yml", text.encode(), findings)

    places = sorted((f.span.line, f.span.column, f.rule.name) for f in findings if f.span)
    assert places == [(4, 5, "field-missing"), (4, 17, "unknown-field")]


def profile_faults(law: str) -> list[tuple[int, int, str]]:
    findings = Findings()
    text = f"law:\n  name: United States\n  warning_device_far: {law}\n"
    read_profile("profiles/us.yml", text.encode(), findings)
    return [(f.span.line, f.span.column, f.rule.name) for f in findings if f.span]


def test_pair_that_a_rule_prints_is_kept_as_the_rule_prints_it() -> None:
    findings = Findings()
    text = (
        "law:\n  name: US\n"
        "  warning_device_far: {value: 100 ft, quoted: 30 m, source: 49 CFR 392.22(b)}\n"
    )

    profile = read_profile("profiles/us.yml", text.encode(), findings)

    assert list(findings) == []
    assert profile is not None
    quoted = profile.stated["law.warning_device_far"].quoted
    assert isinstance(quoted, Quantity)
    assert (str(quoted.amount), quoted.measure.symbol) == ("30", "m")


@pytest.mark.parametrize(
    ("law", "rule"),
    [
        ("100 ft", "value-without-source"),
        ("{value: 100 ft}", "value-without-source"),
        ("{value: 100 ft, quoted: 3 m, source: rule}", "value-out-of-range"),
        ("{value: 100 ft, quoted: 20 m, source: rule}", "quoted-pair-differs"),
        ("{value: 100 ft, quoted: 33 yd, source: rule}", "unknown-measure"),
        ("{value: 100 ft, quoted: 100 ft, source: rule}", "quoted-pair-differs"),
        ("{value: 100 ft, quoted: 30 kPa, source: rule}", "wrong-dimension"),
        ("{value: 100 ft, quotet: 30 m, source: rule}", "table-where-value"),
    ],
)
def test_limit_of_the_law_that_cannot_be_looked_up_or_contradicts_itself_is_refused(
    law: str, rule: str
) -> None:
    assert [found for _, _, found in profile_faults(law)] == [rule]


def test_quoted_pair_of_a_unit_names_its_document_too() -> None:
    spec = "unit: T-17\nmodel: m\nidentity: {overall_height: {value: 13 ft 6 in, quoted: 4.1 m}}\n"

    assert [rule for _, _, rule in faults_of(spec)] == ["value-without-source"]


@pytest.mark.parametrize(
    ("quoted", "rules"), [("-11 °C", []), ("-12 °C", []), ("-13 °C", ["quoted-pair-differs"])]
)
def test_quoted_temperature_is_near_by_degrees_and_not_by_share(
    quoted: str, rules: list[str]
) -> None:
    """12 °F is -11.1 °C (NIST SP 811): a twentieth of that on the absolute scale is 13 degrees."""
    findings = Findings()
    text = f"substance:\n  def_freezing_point: {{value: 12 °F, quoted: {quoted}, source: ISO}}\n"

    stated = read_substances("substances.yml", text.encode(), findings)

    assert [f.rule.name for f in findings] == rules
    assert (stated is None) is bool(rules)
