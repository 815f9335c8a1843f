"""Each faulty text carries its findings on the faulty line; the whole list must agree."""

import re
from pathlib import Path

import pytest

from guidegen.build.load_library import load_library
from guidegen.build.project import open_project
from guidegen.finding import Findings, Rule
from guidegen.finding_report import format_findings
from guidegen.procedures.read import read_procedure
from guidegen.procedures.style import rules
from guidegen.procedures.style.check import check_style
from guidegen.procedures.style.glossary import Glossary, read_glossary

ROOT = Path(__file__).parents[4]
FAULTY = sorted((ROOT / "tests" / "specimens" / "faulty_style").glob("*.yml"))
OF_THE_GLOSSARY = {"glossary-unreadable", "glossary-contradicts"}


def the_glossary() -> Glossary:
    path = ROOT / "site_templates" / "glossary.yml"
    findings = Findings()
    glossary = read_glossary(path.name, path.read_bytes(), findings)
    assert glossary is not None, [finding.what for finding in findings]
    return glossary


def findings_of(path: Path) -> Findings:
    findings = Findings()
    template = read_procedure(path.name, path.read_bytes(), findings)
    assert template is not None, format_findings(findings)
    check_style([template], the_glossary(), findings)
    return findings


def expected_on_the_lines(text: str) -> list[tuple[int, int, str]]:
    return [
        (number, int(column), rule)
        for number, line in enumerate(text.split("\n"), start=1)
        for comment in re.findall(r"  # finding: (.+)$", line)
        for column, rule in re.findall(r"(\d+) ([a-z-]+)(?:, |$)", comment)
    ]


def test_there_are_specimens() -> None:
    assert len(FAULTY) >= 5


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_faulty_style_has_exactly_the_findings_on_its_lines(path: Path) -> None:
    findings = findings_of(path)
    shown = [(f.span.line, f.span.column, f.rule.name) for f in findings if f.span]

    expected = expected_on_the_lines(path.read_text(encoding="utf-8"))

    assert expected
    assert sorted(expected) == sorted(shown), format_findings(findings)


def all_rules() -> dict[str, Rule]:
    return {rule.name: rule for rule in vars(rules).values() if isinstance(rule, Rule)}


def test_every_rule_of_style_is_broken_by_a_specimen() -> None:
    broken = {finding.rule.name for path in FAULTY for finding in findings_of(path)}

    assert {*all_rules()} == broken | OF_THE_GLOSSARY


def test_every_rule_of_style_says_what_happens_at_the_truck() -> None:
    assert all(len(rule.why.split()) > 8 for rule in all_rules().values())
    assert len({rule.why for rule in all_rules().values()}) == len(all_rules())


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_words_of_findings_are_clauses(path: Path) -> None:
    for finding in findings_of(path):
        for clause in (finding.what, finding.fix):
            assert not clause.endswith(".")
            assert not re.search(r"\b([Ii]nvalid|[Ii]llegal|[Uu]nexpected|None)\b", clause)
            assert clause.count("`") % 2 == 0


def test_the_library_is_written_in_style_to_the_last_warning() -> None:
    findings = Findings()

    library = load_library(open_project(ROOT), findings)

    assert library
    assert [finding.what for finding in findings] == []
