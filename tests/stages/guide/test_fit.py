from collections.abc import Mapping
from typing import TypeVar

from guidegen.finding import Findings
from guidegen.guide.assemble import Assembly, assemble_guide
from guidegen.guide.explain import explain_procedure
from guidegen.guide.model import Caution, FactRef, Guide, Step
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.read import read_procedure
from guidegen.specs.fleet import Fleet
from guidegen.specs.model import Spec
from guidegen.specs.read import read_fleet, read_model, read_profile, read_unit
from guidegen.units.model import Unit
from guidegen.units.resolve import FleetSpecs, resolve_units

PROCEDURE = """\
id: tank-drain
title: Drain the air tanks
chapter: end-of-day
applies: fitted(brakes.air)
state: {parking_brake: set, wheels: chocked}
station: left_side
cautions:
  - id: roll
    signal: WARNING
    guards: open
    hazard: The truck can roll when its air is gone.
    consequence: It can crush you.
    avoid: Chock the wheels first.
  - id: noise
    signal: CAUTION
    guards: open
    hazard: Air comes out with noise.
    consequence: It can hurt your ears.
    avoid: Wear ear protection.
    when: brakes.air.drain == "drain_cocks"
  - id: freeze
    signal: NOTICE
    guards: pull
    hazard: Water can freeze in the valves.
    consequence: The brakes can stick.
    avoid: Drain every tank.
steps:
  - {id: look, text: Look at the tanks.}
  - {id: open, text: Open each drain., when: not fitted(aftertreatment)}
  - {id: pull, text: Pull each cord., when: brakes.air.drain == "pull_cords"}
  - {id: watch, text: 'Watch the gauge fall from {{ brakes.air.cut_out }}.'}
expect: [No water comes out.]
if_not: [Report it to the shop.]
references: ["Common practice, no source"]
"""
UNIT = """\
unit: T-1
model: m
brakes:
  air: {cut_out: 125 psi, drain: drain_cocks}
aftertreatment: not fitted
"""


T = TypeVar("T")


def must(value: T | None) -> T:
    assert value is not None
    return value


def procedure(text: str = PROCEDURE) -> ProcedureTemplate:
    findings = Findings()
    template = read_procedure("procedures/tank-drain.yml", text.encode(), findings)
    assert [f.what for f in findings] == []
    return must(template)


def unit(text: str = UNIT) -> Unit:
    findings = Findings()
    fleet: Fleet = must(read_fleet("specs/fleet.yml", b"name: F\njurisdiction: us\n", findings))
    own: Spec = must(read_unit("specs/units/T-1.yml", text.encode(), findings))
    model = must(read_model("specs/models/m.yml", b"model: m\n", findings))
    law = must(read_profile("profiles/us.yml", b"law: {name: US}\n", findings))
    units = resolve_units(FleetSpecs(fleet, {own.id: own}, {"m": model}, law), findings)
    assert list(findings) == []
    return units["T-1"]


def assemble(spec: str = UNIT, text: str = PROCEDURE) -> tuple[Guide | None, list[tuple[str, str]]]:
    findings = Findings()
    library: Mapping[str, ProcedureTemplate] = {"tank-drain": procedure(text)}
    guide = assemble_guide(unit(spec), library, findings)
    return guide, [(finding.rule.name, finding.what) for finding in findings]


def blocks(spec: str = UNIT) -> list[str]:
    guide, faults = assemble(spec)
    assert faults == []
    found = must(guide).chapters[0].procedures[0].blocks
    return [block.id.rsplit(".", 1)[-1] for block in found]


def test_each_caution_stands_right_before_the_step_it_guards() -> None:
    assert blocks() == ["look", "roll", "noise", "open", "watch"]


def test_a_caution_goes_with_its_step() -> None:
    spec = UNIT.replace("drain_cocks", "pull_cords").replace(
        "aftertreatment: not fitted", "aftertreatment: {outlet: behind the cab}"
    )

    assert blocks(spec) == ["look", "freeze", "pull", "watch"]


def test_steps_are_numbered_over_those_that_apply() -> None:
    guide, _ = assemble()

    steps = [b for b in must(guide).chapters[0].procedures[0].blocks if isinstance(b, Step)]

    assert [step.number for step in steps] == [1, 2, 3]


def test_a_value_stays_a_reference_to_its_fact() -> None:
    guide, _ = assemble()

    last = must(guide).chapters[0].procedures[0].blocks[-1]

    assert isinstance(last, Step)
    assert FactRef("brakes.air.cut_out") in last.text.parts


def test_a_procedure_that_does_not_apply_is_nowhere_in_the_guide() -> None:
    guide, faults = assemble(
        "unit: T-1\nmodel: m\nbrakes: {air: not fitted}\naftertreatment: not fitted\n"
    )

    assert faults == []
    assert must(guide).chapters == ()


def test_a_thing_not_on_record_stops_the_guide() -> None:
    guide, faults = assemble(UNIT.replace("aftertreatment: not fitted\n", ""))

    assert guide is None
    assert faults == [("not-on-record", "T-1 does not say whether it has `aftertreatment`")]


def test_a_fact_that_a_condition_hangs_on_stops_the_guide() -> None:
    guide, faults = assemble(UNIT.replace(", drain: drain_cocks", ""))

    assert guide is None
    assert [rule for rule, _ in faults] == ["not-on-record"]
    assert "`brakes.air.drain`" in faults[0][1]


def test_a_value_that_nobody_states_stops_the_guide() -> None:
    guide, faults = assemble(UNIT.replace("cut_out: 125 psi, ", ""))

    assert guide is None
    assert faults == [
        (
            "fact-not-on-record",
            "`tank-drain.steps.watch` prints `brakes.air.cut_out`, which T-1 does not state",
        )
    ]


def test_a_value_of_a_thing_not_fitted_is_the_templates_fault() -> None:
    text = PROCEDURE.replace("brakes.air.cut_out", "pto.highest_speed")

    guide, faults = assemble(UNIT + "pto: not fitted\n", text)

    assert guide is None
    assert [rule for rule, _ in faults] == ["fact-of-thing-not-fitted"]


def test_a_procedure_none_of_whose_steps_applies_is_reported() -> None:
    text = PROCEDURE.replace(
        "text: Look at the tanks.", "text: Look at the tanks., when: brakes.abs"
    )
    text = text.replace("brakes.air.cut_out }}.'", "brakes.air.cut_out }}.', when: brakes.abs")
    spec = UNIT.replace("aftertreatment: not fitted", "aftertreatment: {outlet: left}")
    spec = spec.replace("brakes:\n", "brakes:\n  abs: no\n")

    guide, faults = assemble(spec, text)

    assert guide is None
    assert [rule for rule, _ in faults] == ["procedure-without-steps"]


def test_units_alike_but_for_identity_share_an_edition() -> None:
    identity = "identity: {vin: 1M8GDM9AXKP042788, plate: A 1}\n"
    other = "identity: {vin: 1FACP45EXLF192944, plate: B 2}\n"

    first, second = must(assemble(UNIT + identity)[0]), must(assemble(UNIT + other)[0])

    assert first.edition == second.edition
    assert first.edition != must(assemble(UNIT)[0]).edition


def test_what_comes_out_equal_for_other_answers_is_the_very_same_procedure() -> None:
    template = procedure(PROCEDURE.replace('    when: brakes.air.drain == "drain_cocks"\n', ""))
    assembly, findings = Assembly({"tank-drain": template}), Findings()
    trucks = (UNIT.replace("drain_cocks", drain) for drain in ("automatic", "pull_cords"))

    cocks, automatic, cords = (
        must(assembly.guide(unit(each), findings)).chapters[0].procedures[0]
        for each in (UNIT, *trucks)
    )

    assert automatic is cocks
    assert cords != cocks


def test_one_digit_makes_another_edition() -> None:
    changed = must(assemble(UNIT.replace("125 psi", "126 psi"))[0])
    same_amount = must(assemble(UNIT.replace("125 psi", "125.0 psi"))[0])

    assert changed.edition != must(assemble()[0]).edition
    assert same_amount.edition != must(assemble()[0]).edition


def test_another_day_or_name_of_a_record_makes_another_edition() -> None:
    said = "recorded: {on: 2026-03-02, by: Orla Vint}\n"
    dated = must(assemble(UNIT + said)[0]).edition

    assert dated != must(assemble()[0]).edition
    assert dated != must(assemble(UNIT + said.replace("-02,", "-03,"))[0]).edition
    assert dated != must(assemble(UNIT + said.replace("Orla", "Oda"))[0]).edition
    assert dated == must(assemble("# a comment\n" + UNIT + said)[0]).edition


def test_an_explanation_names_document_day_and_who_recorded_a_value() -> None:
    spec = UNIT + "source: plate\nrecorded: {on: 2026-03-02, by: Orla Vint}\n"

    explanation = explain_procedure(procedure(), unit(spec))

    asked = {a.name: a for reason in explanation.reasons for a in reason.asked}
    assert asked["brakes.air.drain"].source == "plate; recorded 2026-03-02 by Orla Vint"
    assert asked["brakes.air"].source == ""


def test_a_line_moved_in_a_spec_changes_no_edition() -> None:
    assert must(assemble("# a comment\n\n" + UNIT)[0]).edition == must(assemble()[0]).edition


def test_an_explanation_names_each_fact_with_value_and_place() -> None:
    explanation = explain_procedure(procedure(), unit())

    assert explanation.applies is True
    found = {reason.part: reason for reason in explanation.reasons}
    asked = found["step pull"].asked[0]
    assert found["step pull"].holds is False
    assert (asked.name, asked.answer, asked.where) == (
        "brakes.air.drain",
        "drain_cocks",
        "specs/units/T-1.yml:4:34",
    )


def test_an_explanation_of_what_is_not_on_record_says_so() -> None:
    explanation = explain_procedure(procedure(), unit("unit: T-1\nmodel: m\n"))

    assert explanation.applies is None
    assert explanation.reasons[0].asked[0].answer == "not on record"


def test_every_caution_of_the_template_guards_a_step() -> None:
    guards = {caution.guards for caution in procedure().cautions}

    assert guards <= {step.id for step in procedure().steps}
    guide, _ = assemble()
    cautions = [
        block
        for block in must(guide).chapters[0].procedures[0].blocks
        if isinstance(block, Caution)
    ]
    assert {caution.guards for caution in cautions} == {"tank-drain.steps.open"}


UNPAIRED = "has axles and tires that do not make pairs"
GAUGE = "station: left_side\nfigure: air_gauge\n"
WITH_GAUGE = PROCEDURE.replace("station: left_side\n", GAUGE)


def test_a_figure_is_drawn_where_all_its_facts_are_on_record() -> None:
    spec = UNIT.replace("drain:", "cut_in: 100 psi, low_air_warning: 65 psi, drain:")

    guide, faults = assemble(spec, WITH_GAUGE)

    assert faults == []
    assert must(guide).chapters[0].procedures[0].figure == "air_gauge"


def test_a_figure_whose_facts_are_not_on_record_holds_the_guide_back() -> None:
    guide, faults = assemble(UNIT, WITH_GAUGE)

    assert guide is None
    assert faults == [
        ("fact-not-on-record", f"`tank-drain.figure` prints `{name}`, which T-1 does not state")
        for name in ("brakes.air.low_air_warning", "brakes.air.cut_in")
    ]


def test_a_figure_of_a_thing_that_is_not_fitted_is_a_fault() -> None:
    text = PROCEDURE.replace("station: left_side\n", "station: left_side\nfigure: def_gauge\n")

    guide, faults = assemble(f"{UNIT}def_system: not fitted\n", text)

    assert guide is None
    assert faults == [
        (
            "fact-of-thing-not-fitted",
            "`tank-drain.figure` prints `def_system.gauge_segments`, and T-1 has no `def_system`",
        )
    ]


def test_a_figure_with_a_condition_is_left_out_where_it_does_not_hold() -> None:
    condition = "figure: {kind: air_gauge, when: on_record(brakes.air.cut_in)}\n"
    text = PROCEDURE.replace("station: left_side\n", f"station: left_side\n{condition}")

    guide, faults = assemble(UNIT, text)

    assert faults == []
    assert must(guide).chapters[0].procedures[0].figure is None


def test_tires_that_do_not_pair_hold_back_the_guide_that_would_draw_them() -> None:
    tires = (
        "axles: {configuration: 6x4}\n"
        "tires:\n"
        "  steer: {count: 2, cold_pressure: 110 psi}\n"
        "  drive: {count: 7, cold_pressure: 95 psi}\n"
    )
    text = PROCEDURE.replace("station: left_side\n", "station: left_side\nfigure: tire_plan\n")

    guide, faults = assemble(UNIT + tires, text)

    assert guide is None
    assert faults == [
        (
            "figure-not-drawable",
            f"`tank-drain.figure` is `tire_plan`, and T-1 {UNPAIRED}",
        )
    ]


def test_guides_that_differ_in_a_figure_are_not_of_one_edition() -> None:
    spec = UNIT.replace("drain:", "cut_in: 100 psi, low_air_warning: 65 psi, drain:")

    with_figure, without = assemble(spec, WITH_GAUGE)[0], assemble(spec)[0]

    assert must(with_figure).edition != must(without).edition
