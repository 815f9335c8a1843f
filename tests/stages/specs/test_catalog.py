"""The catalog of facts, and who holds them."""

from pathlib import Path

from guidegen.finding import Findings
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fleet import JURISDICTIONS
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.specs.read import read_profile, read_substances
from guidegen.specs.substances import SUBSTANCE_CARRIERS, SUBSTANCE_FACTS


def test_every_fact_has_a_holder_with_a_label() -> None:
    assert {fact.section for fact in FACTS.values()} <= set(HOLDER_LABELS)
    assert all(HOLDER_LABELS.values())


def test_every_fluid_is_carried_by_trucks_with_some_section() -> None:
    assert set(SUBSTANCE_CARRIERS) == set(SUBSTANCE_FACTS)
    assert set(SUBSTANCE_CARRIERS.values()) <= set(EQUIPMENT_SECTIONS)


def test_what_the_library_knows_of_fluids_is_sound_and_complete(project_root: Path) -> None:
    findings = Findings()
    path = project_root / "site_templates" / "substances.yml"

    stated = read_substances(path.name, path.read_bytes(), findings)

    assert list(findings) == []
    assert stated is not None
    assert set(stated) == set(SUBSTANCE_FACTS)


def test_every_jurisdiction_has_a_profile_whose_values_name_their_source(
    project_root: Path,
) -> None:
    folder = project_root / "site_templates" / "profiles"

    assert {path.stem for path in folder.iterdir()} == set(JURISDICTIONS)
    for path in folder.iterdir():
        findings = Findings()
        assert read_profile(path.name, path.read_bytes(), findings) is not None
        assert list(findings) == []
