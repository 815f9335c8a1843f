import pytest
from one_unit import PROFILES, look_at_fleet

from guidegen.build.project import open_project
from guidegen.build.read_specs import load_specs
from guidegen.finding import Findings, Rule, Severity
from guidegen.plausibility.check import plausible_units
from guidegen.plausibility.rulebook import RULEBOOK
from guidegen.rule_page import Example, RulePage, Standing
from guidegen.specs.fields import Stated
from guidegen.units.model import Presence, SectionState, Unit
from guidegen.units.naming import MOST_NAMED
from guidegen.units.resolve import resolve_units

WARNING = "brakes:\n  air: {cut_out: 118 psi}"
ERROR = "brakes:\n  air: {low_air_warning: 55 psi}"


def test_what_trucks_inherit_is_told_once_and_names_them() -> None:
    looked = look_at_fleet({"T-1": "", "T-2": "", "T-3": ""}, model=WARNING)
    (finding,) = looked.findings

    assert finding.unit == ""
    assert [note.text for note in finding.notes if not note.span] == [
        "this holds for T-1, T-2, T-3"
    ]
    assert list(looked.units) == ["T-1", "T-2", "T-3"]


def test_an_inherited_error_holds_all_its_trucks_back() -> None:
    looked = look_at_fleet({"T-1": "", "T-2": ""}, model=ERROR)

    assert len(looked.findings) == 1
    assert list(looked.units) == []


def test_a_truck_with_a_value_of_its_own_is_not_held_back() -> None:
    own = "brakes:\n  air: {low_air_warning: 65 psi}\n"
    looked = look_at_fleet({"T-1": "", "T-2": own}, model=ERROR)
    (finding,) = looked.findings

    assert list(looked.units) == ["T-2"]
    assert finding.unit == "T-1"


def test_of_many_trucks_the_number_is_told() -> None:
    numbers = [f"T-{number}" for number in range(1, MOST_NAMED + 2)]
    looked = look_at_fleet(dict.fromkeys(numbers, ""), model=WARNING)
    (finding,) = looked.findings

    assert f"this holds for {MOST_NAMED + 1} trucks" in [note.text for note in finding.notes]


def test_a_truck_of_which_nothing_is_known_raises_no_doubt() -> None:
    looked = look_at_fleet({"T-1": ""})

    assert list(looked.findings) == []


def demo(findings: Findings) -> tuple[dict[str, Unit], dict[str, Stated]]:
    specs = load_specs(open_project(PROFILES.parents[1]), findings)
    assert specs is not None
    return dict(resolve_units(specs, findings)), dict(specs.profile.stated)


def test_the_demo_fleet_is_plausible_to_the_last_warning() -> None:
    findings = Findings()
    units, bounds = demo(findings)

    kept = plausible_units(units, bounds, RULEBOOK, findings)

    assert [finding.what for finding in findings] == []
    assert kept == units
    assert len(kept) == 8


def test_no_rule_needs_a_fact_to_be_on_record() -> None:
    """Whatever one line is left out of a truck's files, no rule stumbles or starts to doubt."""
    findings = Findings()
    units, bounds = demo(findings)
    for unit in units.values():
        thinned = {}
        for name in unit.facts:
            facts = {other: fact for other, fact in unit.facts.items() if other != name}
            thinned[name] = Unit(unit.number, unit.model, unit.span, facts, unit.sections)
        kept = plausible_units(thinned, bounds, RULEBOOK, findings)
        assert set(kept) == set(thinned)
    # Without the stated circuit, the large heater of the two tractors is a matter to look at.
    assert {finding.rule.name for finding in findings} == {"heater-above-circuit"}


def test_no_rule_needs_a_section_to_be_on_record() -> None:
    findings = Findings()
    units, bounds = demo(findings)
    unknown = SectionState(Presence.NOT_ON_RECORD, None)
    for unit in units.values():
        thinned = {}
        for name in unit.sections:
            sections = {**unit.sections, name: unknown}
            facts = {n: f for n, f in unit.facts.items() if f.field.section != name}
            thinned[name] = Unit(unit.number, unit.model, unit.span, facts, sections)
        assert set(plausible_units(thinned, bounds, RULEBOOK, findings)) == set(thinned)
    assert list(findings) == []


@pytest.mark.parametrize("standing", [Standing.MEMORY, Standing.PRACTICE])
def test_a_rule_without_a_source_cannot_be_an_error(standing: Standing) -> None:
    error = Rule("made-up", "something happens at the truck")
    example = Example("")

    with pytest.raises(ValueError, match="made-up holds a truck back"):
        RulePage(error, "It finds.", example, example, "Nobody said.", standing)

    warning = Rule("made-up", "something happens at the truck", Severity.WARNING)
    page = RulePage(warning, "It finds.", example, example, "Nobody said.", standing)
    assert page.rule is warning
