"""Procedure files become templates, or findings that a trainer can mend the file by."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.finding import Findings
from guidegen.procedures.condition_words import as_typed
from guidegen.procedures.model import ProcedureTemplate, Signal, TextTemplate, Words
from guidegen.procedures.read import KeptFiles, read_procedure, read_procedures

SOUND = """\
id: air-build-up
title: Build up the air pressure
chapter: air-brakes
applies: fitted(brakes.air)
state:
  parking_brake: set
  wheels: chocked
station: cab
cautions:
  - id: pinned
    signal: WARNING
    guards: watch
    hazard: The truck can roll.
    consequence: It can crush a person.
    avoid: Chock the wheels.
    when: not fitted(aftertreatment)
steps:
  - id: start
    text: Start the engine.
  - id: watch
    text: Watch both gauges rise to {{ brakes.air.cut_out }}.
    when: brakes.air.air_dryer
expect:
  - The compressor stops at {{ brakes.air.cut_out }}.
  - text: The lamp goes out.
    when: fitted(lamps)
if_not:
  - Do not drive. Report it to the shop.
references:
  - CDL manual section 5.3, build-up
  -   common  practice,
      no source
"""


def read(raw: str, path: str = "procedures/air-build-up.yml") -> ProcedureTemplate:
    findings = Findings()
    template = read_procedure(path, raw.encode(), findings)
    assert [finding.what for finding in findings] == []
    assert template is not None
    return template


def words(text: TextTemplate) -> str:
    return "".join(p.text if isinstance(p, Words) else f"<{p.fact}>" for p in text.parts)


def test_file_becomes_a_template_with_all_its_parts() -> None:
    template = read(SOUND)

    assert template.id == "air-build-up"
    assert words(template.title) == "Build up the air pressure"
    assert template.chapter == "air-brakes"
    assert template.applies is not None
    assert as_typed(template.applies) == "fitted(brakes.air)"
    state = [(part.aspect, part.state) for part in template.state]
    assert state == [("parking_brake", "set"), ("wheels", "chocked")]
    assert template.station == "cab"
    assert template.references == (
        "CDL manual section 5.3, build-up",
        "common practice, no source",
    )
    assert (template.span.line, template.span.column) == (1, 5)


def test_steps_and_cautions_keep_their_own_ids_and_conditions() -> None:
    template = read(SOUND)

    start, watch = template.steps
    (caution,) = template.cautions
    assert (start.id, start.when) == ("start", None)
    assert watch.when is not None
    assert (watch.id, as_typed(watch.when)) == ("watch", "brakes.air.air_dryer")
    assert (caution.id, caution.signal, caution.guards) == ("pinned", Signal.WARNING, "watch")
    assert caution.when is not None
    assert as_typed(caution.when) == "not fitted(aftertreatment)"


def test_every_text_has_its_stable_id() -> None:
    template = read(SOUND)

    texts = [
        template.title,
        *(step.text for step in template.steps),
        *(t for c in template.cautions for t in (c.hazard, c.consequence, c.avoid)),
        *(outcome.text for outcome in (*template.expect, *template.if_not)),
    ]
    assert [text.id for text in texts] == [
        "air-build-up.title",
        "air-build-up.steps.start",
        "air-build-up.steps.watch",
        "air-build-up.cautions.pinned.hazard",
        "air-build-up.cautions.pinned.consequence",
        "air-build-up.cautions.pinned.avoid",
        "air-build-up.expect.1",
        "air-build-up.expect.2",
        "air-build-up.if_not.1",
    ]


def test_procedure_may_apply_to_every_truck_and_have_no_caution() -> None:
    raw = SOUND.replace("applies: fitted(brakes.air)\n", "")
    start = raw.index("cautions:")
    template = read(raw[:start] + raw[raw.index("steps:") :])

    assert template.applies is None
    assert template.cautions == ()


def test_warning_does_not_hold_a_procedure_back() -> None:
    findings = Findings()
    raw = SOUND.replace("when: brakes.air.air_dryer", "when: fitted(brakes)")

    template = read_procedure("air-build-up.yml", raw.encode(), findings)

    assert template is not None
    assert [finding.rule.name for finding in findings] == ["needless-condition"]


def test_library_is_ordered_by_path_whatever_the_order_of_the_files() -> None:
    files = [
        (f"procedures/{name}.yml", SOUND.replace("air-build-up", name).encode())
        for name in ("c", "a", "b")
    ]
    findings = Findings()

    library = read_procedures(files, findings)

    assert list(library) == ["a", "b", "c"]
    assert all(template.id == name for name, template in library.items())
    assert not list(findings)


def test_two_files_of_one_procedure_are_told_with_both_places() -> None:
    findings = Findings()
    files = [("new/air-build-up.yml", SOUND.encode()), ("air-build-up.yml", SOUND.encode())]

    library = read_procedures(files, findings)

    (finding,) = findings
    assert list(library) == ["air-build-up"]
    assert finding.rule.name == "procedure-twice"
    assert finding.where == "new/air-build-up.yml:1:5"
    assert [note.span.place for note in finding.notes if note.span] == ["air-build-up.yml:1:5"]


def test_faulty_twin_is_told_as_a_twin_too() -> None:
    findings = Findings()
    files = [("a/x.yml", b"id: x\n"), ("b/x.yml", b"id: x\n")]

    library = read_procedures(files, findings)

    assert not library
    assert "procedure-twice" in {finding.rule.name for finding in findings}


def test_findings_of_all_files_come_together() -> None:
    findings = Findings()
    files = [
        ("a.yml", SOUND.encode()),
        ("b.yml", b"[1, 2"),
        ("c.yml", SOUND.replace("cut_out", "cutout").encode()),
    ]

    library = read_procedures(files, findings)

    assert not library
    assert {finding.where.partition(":")[0] for finding in findings} == {"a.yml", "b.yml", "c.yml"}


def test_blank_value_has_one_finding_and_not_two() -> None:
    findings = Findings()
    raw = SOUND.replace("station: cab", "station:")

    assert read_procedure("air-build-up.yml", raw.encode(), findings) is None
    assert [finding.rule.name for finding in findings] == ["value-missing"]


@pytest.mark.parametrize("line", range(SOUND.count("\n")))
def test_file_that_lost_a_line_is_read_or_told(line: int) -> None:
    lines = SOUND.split("\n")
    findings = Findings()

    template = read_procedure(
        "air-build-up.yml", "\n".join(lines[:line] + lines[line + 1 :]).encode(), findings
    )

    assert (template is None) == findings.has_errors


@given(st.integers(0, len(SOUND) - 1), st.sampled_from("x:{}[]\"'\n #-&*!|>%@`0"))
def test_file_with_one_wrong_character_is_read_or_told(at: int, sign: str) -> None:
    findings = Findings()
    raw = SOUND[:at] + sign + SOUND[at + 1 :]

    template = read_procedure("air-build-up.yml", raw.encode(), findings)

    assert (template is None) == findings.has_errors


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_told(raw: bytes) -> None:
    findings = Findings()

    template = read_procedure("x.yml", raw, findings)

    assert template is None
    assert findings.has_errors


def test_library_of_the_project_has_no_error(project_root: Path) -> None:
    findings = Findings()
    folder = project_root / "site_templates" / "procedures"
    paths = sorted(folder.glob("*.yml"))

    library = read_procedures([(path.name, path.read_bytes()) for path in paths], findings)

    assert paths
    assert [(finding.where, finding.what) for finding in findings.errors] == []
    assert len(library) == len(paths)


def test_a_file_that_was_read_before_gives_the_very_same_template() -> None:
    kept: KeptFiles = {}
    files = [("a/air-build-up.yml", SOUND.encode()), ("a/faulty.yml", b"id: faulty\n")]
    first, again = Findings(), Findings()

    before = read_procedures(files, first, kept)
    after = read_procedures(files, again, kept)

    assert after["air-build-up"] is before["air-build-up"]
    assert list(again) == list(first)
    assert len(again)


def test_a_file_with_other_bytes_is_read_anew_and_the_old_ones_are_forgotten() -> None:
    kept: KeptFiles = {}
    path = "a/air-build-up.yml"
    before = read_procedures([(path, SOUND.encode())], Findings(), kept)
    changed = SOUND.replace("Start the engine.", "Start the motor.").encode()

    after = read_procedures([(path, changed)], Findings(), kept)

    assert after["air-build-up"] != before["air-build-up"]
    assert list(kept) == [(path, changed)]
