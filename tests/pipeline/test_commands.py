import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from few_trucks import keep, without_cards
from run_in_fork import Ran

from guidegen.build.schemas import schemas

Run = Callable[..., Any]
"""`run_guidegen` of this folder's conftest."""


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_build_says_how_much_was_proved_and_leaves_with_zero(demo_ran: Ran) -> None:
    assert demo_ran.code == 0
    assert demo_ran.err == ""
    assert demo_ran.out.startswith("site: 8 units, ")
    assert "0 failures" in demo_ran.out


def test_build_as_json_is_one_value(again_ran: Ran) -> None:
    result = json.loads(again_ran.out)

    assert result["published"] is True
    assert result["units"] == 3
    assert result["failures"] == 0
    assert result["cautions"] > 100
    assert result["findings"] == []


def test_a_proved_site_passes_the_proof_run_alone(run: Run, few_built_once: Path) -> None:
    ran = run("prove", folder=few_built_once)

    assert ran.code == 0
    assert "0 failures" in ran.out


def test_one_changed_digit_in_a_published_page_fails_the_proof(run: Run, few_built: Path) -> None:
    edit(few_built / "site" / "T-17" / "air-brakes.html", "130", "150")

    ran = run("prove", folder=few_built)

    assert ran.code == 1
    assert "value-not-read-back" in ran.err
    assert "brakes.air.cut_out" in ran.err


def test_proving_with_changed_specs_names_the_spec(run: Run, few_built: Path) -> None:
    model = few_built / "specs" / "models" / "drumlin-72.yml"
    edit(model, "cut_out: 130 psi", "cut_out: 135 psi")

    ran = run("prove", folder=few_built)

    assert ran.code == 1
    assert "specs/models/drumlin-72.yml" in ran.err


def test_check_reports_every_fault_and_leaves_with_one(run: Run, project: Path) -> None:
    edit(project / "specs" / "models" / "drumlin-72.yml", "cut_out: 130 psi", "cut_out: 130")
    edit(project / "specs" / "units" / "E-02.yml", "vin:", "vim:")

    ran = run("check", folder=project)

    assert ran.code == 1
    assert "error[quantity-without-measure]" in ran.err
    assert "error[unknown-field]" in ran.err
    assert "did you mean `vin`?" in ran.err


def test_a_unit_with_a_fault_is_held_back_and_the_others_are_published(run: Run, few: Path) -> None:
    edit(few / "specs" / "units" / "E-02.yml", "vin:", "vim:")

    ran = run("build", folder=without_cards(few))

    assert ran.code == 1
    assert "2 units" in ran.out
    assert not (few / "site" / "E-02").exists()
    assert (few / "site" / "T-17" / "index.html").exists()
    assert "E-02" in (few / "site" / "index.html").read_text(encoding="utf-8")


def test_a_value_not_on_record_holds_back_only_the_trucks_that_need_it(
    run: Run, project: Path
) -> None:
    without_cards(keep(project, ("D-31", "E-02", "T-17")))
    path = project / "specs" / "models" / "quarryhand-8.yml"
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    path.write_text("".join(line for line in lines if "cut_out:" not in line), encoding="utf-8")

    ran = run("build", folder=project)

    assert ran.code == 1
    assert "fact-not-on-record" in ran.err
    assert "2 units" in ran.out
    assert not (project / "site" / "D-31").exists()


def test_explain_gives_the_condition_each_fact_and_its_place(run: Run, demo: Path) -> None:
    ran = run("explain", "T-17", "parked-regeneration", folder=demo)

    assert ran.code == 0
    assert "is in the guide of T-17" in ran.out
    assert "specs/models/drumlin-72.yml:" in ran.out


def test_explain_of_what_does_not_apply_says_why(run: Run, demo: Path) -> None:
    ran = run("explain", "E-02", "air-build-up", "--format", "json", folder=demo)

    explained = json.loads(ran.out)
    assert explained["applies"] is False
    asked = {entry["name"]: entry["answer"] for entry in explained["reasons"][0]["asked"]}
    assert asked["brakes.air"] == "not fitted"


def test_a_unit_that_is_not_there_is_wrong_usage_with_a_guess(run: Run, demo: Path) -> None:
    ran = run("explain", "T-71", "tires", folder=demo)

    assert ran.code == 2
    assert "did you mean `T-17`?" in ran.err


def test_an_unknown_command_is_wrong_usage(run: Run, demo: Path) -> None:
    assert run("biuld", folder=demo).code == 2


def test_a_folder_without_a_fleet_is_a_finding_not_a_traceback(run: Run, tmp_path: Path) -> None:
    ran = run("build", folder=tmp_path)

    assert ran.code == 1
    assert "there is no `specs/fleet.yml`" in ran.err
    assert "Traceback" not in ran.err


def test_init_refuses_a_folder_that_holds_anything(run: Run, tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")

    ran = run("init", str(tmp_path), folder=tmp_path)

    assert ran.code == 1
    assert [path.name for path in tmp_path.iterdir()] == ["notes.txt"]


def test_schema_writes_a_schema_for_each_kind_of_file(run: Run, project: Path) -> None:
    run("schema", folder=project)

    schemas = {
        path.name: json.loads(path.read_text(encoding="utf-8"))
        for path in (project / "schema").iterdir()
    }
    assert set(schemas) == {
        "cards.schema.json",
        "fleet.schema.json",
        "model.schema.json",
        "own-lamp.schema.json",
        "own-procedure.schema.json",
        "own-steps.schema.json",
        "photos.schema.json",
        "procedure.schema.json",
        "theme.schema.json",
        "unit.schema.json",
    }
    assert "engine" in schemas["unit.schema.json"]["properties"]
    assert schemas["unit.schema.json"]["additionalProperties"] is False


@pytest.mark.parametrize("value", ["1", "yes"])
def test_no_color_is_honored(run: Run, project: Path, value: str) -> None:
    edit(project / "specs" / "units" / "E-02.yml", "vin:", "vim:")

    assert "\x1b[" not in run("check", folder=project, NO_COLOR=value).err


def test_spec_files_carry_a_modeline_whose_schema_is_there(seed: Path) -> None:
    for path in (seed / "specs").rglob("*.yml"):
        first = path.read_text(encoding="utf-8").splitlines()[0]
        assert first.startswith("# yaml-language-server: $schema=")
        assert (path.parent / first.partition("=")[2]).resolve().is_file(), path


def test_an_implausible_value_holds_its_trucks_back_and_is_told_once(
    run: Run, project: Path
) -> None:
    edit(
        project / "specs" / "models" / "drumlin-72.yml",
        "low_air_warning: 65 psi",
        "low_air_warning: 55 psi",
    )

    ran = run("check", folder=project)

    assert ran.code == 1
    assert ran.err.count("error[low-air-warning-outside-rule]") == 1
    assert "this holds for T-17, T-18" in ran.err
    assert "6 of 8 guides are ready" in ran.out


def test_an_unusual_value_is_told_and_published(run: Run, project: Path) -> None:
    without_cards(keep(project, ("K-22", "T-17")))
    edit(
        project / "specs" / "models" / "creamer-35.yml",
        "duration: 25 to 40 min",
        "duration: 5 to 10 min",
    )

    ran = run("build", folder=project)

    assert ran.code == 0
    assert "warning[regeneration-time-unusual]" in ran.err
    assert "site: 2 units" in ran.out


def test_a_rule_is_explained(run: Run, project: Path) -> None:
    ran = run("rules", "governor-gap-unusual", folder=project)

    assert ran.code == 0
    assert ran.out.startswith("# governor-gap-unusual\n")
    assert "Common practice, no source" in ran.out


def test_a_rule_that_there_is_not_is_wrong_usage(run: Run, project: Path) -> None:
    ran = run("rules", "governor-gap-unusal", folder=project)

    assert ran.code == 2
    assert "did you mean `governor-gap-unusual`?" in ran.err


def test_coverage_shows_each_item_of_the_law(run: Run, project: Path) -> None:
    ran = run("coverage", "--unit", "V-08", folder=project)

    assert ran.code == 0
    assert "49 CFR 396.11(a)(1)" in ran.out
    assert "V-08: 10 of 11 items met, 1 of things not fitted" in ran.out
    assert "T-17" not in ran.out


def test_coverage_as_json_is_one_value(run: Run, project: Path) -> None:
    result = json.loads(run("coverage", "--format", "json", folder=project).out)

    assert len(result["units"]) == 8
    assert {unit["gaps"] for unit in result["units"]} == {0}
    assert result["findings"] == []


def test_a_gap_fails_the_check_and_names_the_trucks(run: Run, project: Path) -> None:
    model = project / "specs" / "models" / "drumlin-72.yml"
    edit(model, "horn:\n  electric: yes\n  air: yes\n", "horn: not fitted\n")
    edit(model, "  air_control: cord above the driver's door\n", "")

    ran = run("check", folder=project)

    assert ran.code == 1
    assert "error[coverage-gap]" in ran.err
    assert "in the guide of T-17, T-18" in ran.err
    assert run("coverage", folder=project).code == 1


def test_coverage_of_a_unit_that_there_is_not_is_wrong_usage(run: Run, project: Path) -> None:
    assert run("coverage", "--unit", "T-99", folder=project).code == 2


def test_the_schemas_in_the_repository_are_fresh(project_root: Path) -> None:
    for name, schema in schemas().items():
        written = json.loads((project_root / "schema" / name).read_text(encoding="utf-8"))
        assert written == schema, f"renew it with `guidegen schema`: {name}"


def test_the_round_of_a_truck_is_printed_with_the_why_of_each_stop(
    run: Run, demo: Path, tmp_path: Path
) -> None:
    ran = run("round", "V-08", "--plan", str(tmp_path / "plan.svg"), folder=demo)

    assert ran.code == 0
    assert " 1. Read the last driver's report" in ran.out
    assert " 2. Secure the truck for the checks" in ran.out
    stops = [line for line in ran.out.splitlines() if line.lstrip()[:1].isdigit()]
    assert ran.out.count("why: ") >= len(stops) > 10
    plan = (tmp_path / "plan.svg").read_text(encoding="utf-8")
    assert plan.startswith("<svg")
    assert "<title" in plan


def test_no_cold_check_of_a_round_comes_after_the_first_start(run: Run, demo: Path) -> None:
    stops = json.loads(run("round", "T-17", "--format", "json", folder=demo).out)["stops"]
    order = [stop["procedure"] for stop in stops]

    assert order[:2] == ["last-report", "park-for-checks"]
    assert order.index("engine-oil-cold") < order.index("start-up")
    assert order.index("coolant-level") < order.index("start-up")


def test_coverage_of_the_demo_fleet_has_no_gap(run: Run, demo: Path) -> None:
    """49 CFR 396.11(a)(1): eleven items, each met by a procedure or of a thing not fitted."""
    ran = run("coverage", folder=demo)

    assert ran.code == 0
    assert ran.out.count(" of 11 items met") == 8
