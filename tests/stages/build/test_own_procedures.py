"""A fleet's own words reach the trucks that they are for, and a change of them is noticed."""

import shutil
from pathlib import Path

import pytest
from rebuilt_fleet import make_fleet, swap, write

from guidegen.build.load import Loaded, load_fleet
from guidegen.build.load_library import library_hash, load_library
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.guide.explain import explain_procedure

RULES = Path("specs/own/house-rules/yards.md")


@pytest.fixture(scope="module")
def made(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small fleet that nobody has edited; not to be changed."""
    return make_fleet(project_root, tmp_path_factory.mktemp("own") / "fleet")


@pytest.fixture
def fleet(made: Path, tmp_path: Path) -> Path:
    return shutil.copytree(made, tmp_path / "fleet")


def loaded(folder: Path) -> Loaded:
    findings = Findings()
    found = load_fleet(open_project(folder), findings)
    assert [each.what for each in findings] == []
    assert found is not None
    return found


def procedures_of(fleet: Loaded, unit: str) -> list[str]:
    return [each.id for chapter in fleet.guides[unit].chapters for each in chapter.procedures]


def test_house_rules_of_a_yard_reach_its_trucks_and_no_other(fleet: Path) -> None:
    write(
        fleet / RULES.with_name("ridge.md"),
        '---\napplies: identity.yard == "ridge-yard"\n---\n# Ridge\n\n- Up goes first.\n',
    )
    found = loaded(fleet)

    yards = {unit: found.units[unit].facts["identity.yard"].id for unit in found.guides}
    assert "ridge-yard" in yards.values()
    assert {unit: "rules-ridge" in procedures_of(found, unit) for unit in yards} == {
        unit: yard == "ridge-yard" for unit, yard in yards.items()
    }
    assert all("rules-yards-speed" in procedures_of(found, unit) for unit in yards)


def test_house_rules_of_one_truck_reach_it_alone(fleet: Path) -> None:
    swap(fleet / RULES, "# Rules", '---\napplies: identity.number == "T-17"\n---\n# Rules')
    found = loaded(fleet)

    assert [unit for unit in found.guides if "rules-yards-speed" in procedures_of(found, unit)] == [
        "T-17"
    ]


def test_house_rules_of_models_reach_their_trucks_and_no_other(fleet: Path) -> None:
    head = '---\napplies: identity.model in ("drumlin-72", "wren-75")\n---\n# Rules'
    swap(fleet / RULES, "# Rules", head)
    found = loaded(fleet)

    models = {unit: found.units[unit].model for unit in found.guides}
    assert set(models.values()) > {"drumlin-72"}
    assert {unit: "rules-yards-speed" in procedures_of(found, unit) for unit in models} == {
        unit: model in {"drumlin-72", "wren-75"} for unit, model in models.items()
    }
    explained = explain_procedure(found.library["rules-yards-speed"], found.units["T-17"])
    (reason,) = explained.reasons
    assert reason.words == "“Model id” is drumlin-72 or “Model id” is wren-75"
    assert [(each.answer, each.where.partition(":")[0]) for each in reason.asked] == [
        ("drumlin-72", "specs/units/T-17.yml")
    ]


@pytest.mark.parametrize(
    ("condition", "rule", "fix"),
    [
        ('identity.model == "drumlin-27"', "condition-names-no-model", '"drumlin-72"'),
        ('not identity.yard in ("ridge-yrad")', "condition-names-no-yard", '"ridge-yard"'),
    ],
)
def test_condition_on_what_the_fleet_has_not_is_told_once_with_the_nearest_name(
    fleet: Path, condition: str, rule: str, fix: str
) -> None:
    swap(fleet / RULES, "# Rules", f"---\napplies: {condition}\n---\n# Rules")
    findings = Findings()

    assert load_fleet(open_project(fleet), findings) is None
    (told,) = findings
    assert (told.rule.name, told.fix) == (rule, f"did you mean `{fix}`?")
    assert told.span is not None
    assert (told.span.file.path, told.span.line) == (RULES.as_posix(), 2)


def test_own_procedure_is_one_of_the_guide_like_those_of_the_library(fleet: Path) -> None:
    assert "leave-the-yard" in procedures_of(loaded(fleet), "T-17")


def test_every_file_of_the_fleets_own_words_is_in_the_hash_of_the_library(fleet: Path) -> None:
    project = open_project(fleet)
    first = library_hash(project)
    swap(fleet / RULES, "5 mph", "10 mph")
    second = library_hash(project)
    swap(fleet / "specs/own/procedures/leave-the-yard.yml", "repeats", "says")
    third = library_hash(project)
    write(fleet / "specs/own/house_rules.md", "# Of nobody\n")

    assert len({first, second, third, library_hash(project)}) == 4


def test_file_that_nobody_reads_is_told_of(fleet: Path) -> None:
    (fleet / "specs/own/house_rules").mkdir()
    write(fleet / "specs/own/house_rules/dock.md", "# Dock\n\n- Stop.\n")
    write(fleet / "specs/own/house-rules/dock.txt", "# Dock\n\n- Stop.\n")
    write(fleet / "specs/own/.hidden.md", "of an editor\n")
    findings = Findings()

    assert load_library(open_project(fleet), findings) is not None
    assert [(each.rule.name, each.where, each.is_error) for each in findings] == [
        ("own-file-unread", "specs/own/house-rules/dock.txt", False),
        ("own-file-unread", "specs/own/house_rules/dock.md", False),
    ]


def test_fault_in_the_fleets_own_words_holds_back_all_and_is_told_once(fleet: Path) -> None:
    swap(fleet / RULES, "People on foot", "<b>People</b> on foot")
    findings = Findings()

    assert load_library(open_project(fleet), findings) is None
    assert [(each.rule.name, each.where) for each in findings] == [
        ("house-rule-markup", f"{RULES.as_posix()}:6:3"),
        ("house-rule-markup", f"{RULES.as_posix()}:6:12"),
    ]
