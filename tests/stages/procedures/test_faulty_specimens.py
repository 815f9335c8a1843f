"""Each faulty procedure carries its findings on the faulty lines; the whole list must agree."""

import re
from collections.abc import Iterable
from pathlib import Path

import pytest

from guidegen.finding import Finding, Findings, Rule
from guidegen.finding_report import format_findings
from guidegen.procedures import rules
from guidegen.procedures.read import read_procedure

SPECIMENS = Path(__file__).parents[2] / "specimens"
FAULTY = sorted((SPECIMENS / "faulty_procedures").glob("*.yml"))
SOUND = sorted((SPECIMENS / "sound_procedures").glob("*.yml"))
FOUND_ACROSS_FILES = {"procedure-twice", "condition-names-no-model", "condition-names-no-yard"}


def findings_of(path: Path) -> Findings:
    findings = Findings()
    template = read_procedure(path.name, path.read_bytes(), findings)
    assert (template is None) == findings.has_errors
    return findings


def expected_on_the_lines(text: str) -> list[tuple[int, int, str]]:
    """Read ``# finding: <column> <rule>, <column> <rule>`` off the faulty lines."""
    return [
        (number, int(column), rule)
        for number, line in enumerate(text.split("\n"), start=1)
        for comment in re.findall(r"  # finding: (.+)$", line)
        for column, rule in re.findall(r"(\d+) ([a-z-]+)(?:, |$)", comment)
    ]


def shown(findings: Iterable[Finding]) -> list[tuple[int, int, str]]:
    places = []
    for finding in findings:
        assert finding.span is not None, finding.what
        places.append((finding.span.line, finding.span.column, finding.rule.name))
    return places


def test_there_are_specimens() -> None:
    assert FAULTY
    assert SOUND


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_faulty_procedure_has_exactly_the_findings_on_its_lines(path: Path) -> None:
    findings = findings_of(path)
    expected = expected_on_the_lines(path.read_text(encoding="utf-8"))

    assert expected
    assert sorted(expected) == sorted(shown(findings)), format_findings(list(findings))


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_sound_procedure_has_no_finding(path: Path) -> None:
    findings = findings_of(path)

    assert not list(findings), format_findings(list(findings))


def all_rules() -> dict[str, Rule]:
    return {rule.name: rule for rule in vars(rules).values() if isinstance(rule, Rule)}


def test_every_rule_is_broken_by_a_specimen() -> None:
    broken = {finding.rule.name for path in FAULTY for finding in findings_of(path)}

    assert {*all_rules()} == broken | FOUND_ACROSS_FILES


def test_every_rule_says_what_happens_at_the_truck() -> None:
    assert all(len(rule.why.split()) > 5 for rule in all_rules().values())
    assert len({rule.why for rule in all_rules().values()}) == len(all_rules())


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_messages_are_clauses_in_plain_words(path: Path) -> None:
    for finding in findings_of(path):
        for clause in (finding.what, finding.fix, *(note.text for note in finding.notes)):
            assert "\n" not in clause
            assert not clause.endswith(".")
            assert not re.search(r"\b([Ii]nvalid|[Ii]llegal|[Uu]nexpected|None|dict|str)\b", clause)
        assert not finding.what[0].isupper()
        assert finding.what.count("`") % 2 == 0
        assert finding.fix
