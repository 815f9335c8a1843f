"""The place in the inspection round is read as typed, or refused on the faulty line."""

import re
from pathlib import Path

import pytest

from guidegen.finding import Findings
from guidegen.finding_report import format_findings
from guidegen.procedures.condition_words import as_typed
from guidegen.procedures.json_schema import procedure_json_schema
from guidegen.procedures.model import ProcedureTemplate, RoundPart, RoundStates
from guidegen.procedures.read import read_procedure
from guidegen.procedures.words import STATES

SPECIMENS = Path(__file__).parents[2] / "specimens"
FAULTY = sorted((SPECIMENS / "faulty_procedures").glob("round-*.yml"))
SOUND = """\
id: open-hood
title: Open the hood
chapter: before-the-day
state: {key: out}
station: front
steps:
  - {id: lift, text: Lift the hood.}
  - {id: shut, text: Shut the hood.}
expect: [The hood is up.]
if_not: [Tell the shop.]
references: ["common practice, no source"]
"""
IN_ROUND = """\
round:
  part: means
  needs:
    - {engine: "off", when: fitted(engine)}
    - {access: shut}
  leaves:
    - {access: open, key: out}
  ends: left_front
  later: {step: shut, leaves: [{access: shut}]}
"""


def read(raw: str) -> tuple[ProcedureTemplate | None, Findings]:
    findings = Findings()
    return read_procedure("procedures/open-hood.yml", raw.encode(), findings), findings


def sound(raw: str) -> ProcedureTemplate:
    template, findings = read(raw)
    assert [finding.what for finding in findings] == []
    assert template is not None
    return template


def typed(states: tuple[RoundStates, ...]) -> list[tuple[list[str], str]]:
    return [
        (
            [f"{state.aspect}: {state.state}" for state in each.states],
            as_typed(each.when) if each.when else "",
        )
        for each in states
    ]


def test_procedure_without_a_round_part_is_in_no_round() -> None:
    assert sound(SOUND).round is None


def test_every_part_of_the_round_is_read() -> None:
    found = sound(SOUND + IN_ROUND).round

    assert found is not None
    assert found.part is RoundPart.MEANS
    assert typed(found.needs) == [(["engine: off"], "fitted(engine)"), (["access: shut"], "")]
    assert typed(found.leaves) == [(["access: open", "key: out"], "")]
    assert found.ends == "left_front"
    assert found.later is not None
    assert (found.later.step, typed(found.later.leaves)) == ("shut", [(["access: shut"], "")])


def test_a_check_may_leave_nothing_and_end_where_it_began() -> None:
    found = sound(SOUND + "round: {part: check}\n").round

    assert found is not None
    assert (found.part, found.needs, found.leaves) == (RoundPart.CHECK, (), ())
    assert (found.ends, found.later) == (None, None)


@pytest.mark.parametrize("part", RoundPart)
def test_every_part_of_a_round_can_be_typed(part: RoundPart) -> None:
    found = sound(SOUND + f"round: {{part: {part.value}, leaves: [{{access: open}}]}}\n").round

    assert found is not None
    assert found.part is part


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_faulty_round_has_exactly_the_findings_on_its_lines(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    findings = Findings()
    template = read_procedure(path.name, text.encode(), findings)
    expected = [
        (number, int(column), rule)
        for number, line in enumerate(text.split("\n"), start=1)
        for comment in re.findall(r"  # finding: (.+)$", line)
        for column, rule in re.findall(r"(\d+) ([a-z-]+)(?:, |$)", comment)
    ]
    spans = [(finding.span, finding.rule.name) for finding in findings]
    shown = [(span.line, span.column, rule) for span, rule in spans if span is not None]

    assert template is None
    assert expected
    assert sorted(shown) == sorted(expected), format_findings(list(findings))


def test_there_are_faulty_rounds() -> None:
    assert len(FAULTY) == 2


def test_schema_for_editors_holds_the_parts_and_states_of_a_round() -> None:
    schema = procedure_json_schema()["properties"]["round"]
    entry = schema["properties"]["needs"]["items"]

    assert schema["required"] == ["part"]
    assert schema["properties"]["part"]["enum"] == [part.value for part in RoundPart]
    assert list(entry["properties"]) == [*STATES, "when"]
    assert entry["properties"]["engine"]["enum"] == list(STATES["engine"])


def test_place_in_the_round_cannot_hang_on_the_model_which_no_guide_knows() -> None:
    hangs = """'identity.model == "drumlin-72"'"""
    template, findings = read(SOUND + IN_ROUND.replace("fitted(engine)", hangs))

    assert template is None or findings.has_errors
    assert [(each.rule.name, each.where) for each in findings] == [
        ("unknown-fact", "procedures/open-hood.yml:15:30")
    ]
