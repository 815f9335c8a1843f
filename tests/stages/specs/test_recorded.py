import json

from guidegen.build.schemas import schemas
from guidegen.finding import Findings
from guidegen.specs.fields import Recorded
from guidegen.specs.model import Spec
from guidegen.specs.read import read_fleet, read_unit

UNIT = """\
unit: T-17
model: harrow-420
source: Harrow 420 handbook
recorded: {on: 2026-03-02, by: Orla Vint}
identity:
  year: 2019
engine:
  oil_capacity: 38 qt
  oil_grade: {value: SAE 15W-40, source: filler cap, recorded: {on: 2025-10-20}}
"""


def read(text: str = UNIT) -> Spec:
    findings = Findings()
    spec = read_unit("specs/units/T-17.yml", text.encode(), findings)
    assert spec is not None, [finding.what for finding in findings]
    return spec


def faults_of(text: str) -> list[tuple[int, int, str]]:
    findings = Findings()
    read_unit("specs/units/T-17.yml", text.encode(), findings)
    return [(f.span.line, f.span.column, f.rule.name) for f in findings if f.span]


def said(spec: Spec, name: str) -> tuple[str, str] | None:
    recorded = spec.stated[name].recorded
    return None if recorded is None else (recorded.on, recorded.by)


def test_a_value_has_the_day_and_the_name_of_its_file() -> None:
    assert said(read(), "engine.oil_capacity") == ("2026-03-02", "Orla Vint")


def test_a_value_that_says_its_own_day_keeps_it() -> None:
    assert said(read(), "engine.oil_grade") == ("2025-10-20", "")


def test_a_file_that_says_no_day_leaves_it_open() -> None:
    spec = read(UNIT.replace("recorded: {on: 2026-03-02, by: Orla Vint}\n", ""))

    assert said(spec, "engine.oil_capacity") is None
    assert said(spec, "engine.oil_grade") == ("2025-10-20", "")


def test_what_is_recorded_is_no_fact_and_no_section() -> None:
    spec = read()

    assert not any(name.startswith("recorded") for name in (*spec.stated, *spec.given))


def test_the_place_of_a_record_is_its_day() -> None:
    recorded = read().stated["engine.oil_grade"].recorded

    assert isinstance(recorded, Recorded)
    assert (recorded.span.line, recorded.span.column) == (9, 69)


def test_a_day_that_is_none_is_refused_at_its_place() -> None:
    assert faults_of(UNIT.replace("2025-10-20", "20 October")) == [(9, 69, "not-a-date")]
    assert faults_of(UNIT.replace("on: 2026-03-02", "on: 2026-02-30")) == [(4, 16, "not-a-date")]


def test_a_record_without_a_day_is_refused() -> None:
    for instead in ("{by: Orla Vint}", "2025-10-20", "{on: 2025-10-20, at: noon}", "[2025-10-20]"):
        text = UNIT.replace("{on: 2025-10-20}", instead)
        assert [rule for _, _, rule in faults_of(text)] == ["recorded-without-day"], instead


def test_a_file_whose_record_has_no_day_is_refused() -> None:
    text = UNIT.replace("{on: 2026-03-02, by: Orla Vint}", "{by: Orla Vint}")

    assert [rule for _, _, rule in faults_of(text)] == ["field-missing"]


def test_a_fleet_says_when_values_are_to_be_checked_again() -> None:
    def months(line: str) -> int | None:
        fleet = read_fleet("fleet.yml", f"name: F\njurisdiction: us\n{line}".encode(), Findings())
        assert fleet is not None
        return fleet.recheck_months

    assert months("") is None
    assert months("recheck_after: 18 months\n") == 18
    assert months("recheck_after: 1 month\n") == 1
    assert months("recheck_after: 2 years\n") == 24


def test_an_age_without_months_or_years_is_refused() -> None:
    for typed in ("24", "0 months", "90 days", "two years"):
        findings = Findings()
        text = f"name: F\njurisdiction: us\nrecheck_after: {typed}\n"
        assert read_fleet("fleet.yml", text.encode(), findings) is None
        assert [finding.rule.name for finding in findings] == ["text-of-wrong-form"]


def test_editors_are_told_of_records_once_in_each_schema() -> None:
    for name in ("unit.schema.json", "model.schema.json"):
        schema = schemas()[name]
        text = json.dumps(schema)
        assert schema["$defs"]["Recorded"]["required"] == ["on"]
        # Of a value; and of the file, as a bare day, one with a source and one quoted.
        assert text.count('"format": "date"') == 1 + 3
        assert "#/$defs/Recorded" in text
