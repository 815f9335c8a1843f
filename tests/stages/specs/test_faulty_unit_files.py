"""Faulty unit files, each with its findings written on the faulty line.

To add one, write the file, put ``# finding: <column> <rule>`` behind each faulty line, and run
this test.
"""

import re
from pathlib import Path

import pytest

from guidegen.finding import Findings
from guidegen.finding_report import format_findings
from guidegen.specs.read import read_unit

FAULTY = sorted((Path(__file__).parents[2] / "specimens" / "faulty_specs").glob("*.yml"))
EXPECTED = re.compile(r"# finding: (\d+) ([a-z-]+)$")


def expected_in(path: Path) -> list[tuple[int, int, str]]:
    lines = path.read_text(encoding="utf-8").splitlines()
    found = ((number, EXPECTED.search(line)) for number, line in enumerate(lines, start=1))
    return [(number, int(match[1]), match[2]) for number, match in found if match]


def found_in(path: Path) -> Findings:
    findings = Findings()
    read_unit(f"specs/units/{path.name}", path.read_bytes(), findings)
    return findings


def test_there_are_specimens() -> None:
    assert len(FAULTY) >= 10


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_each_fault_is_found_at_its_place_and_nothing_else_is(path: Path) -> None:
    expected = expected_in(path)
    found = [(f.span.line, f.span.column, f.rule.name) for f in found_in(path) if f.span]

    assert found == expected
    assert expected


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_each_finding_says_what_why_and_what_to_type(path: Path) -> None:
    for finding in found_in(path):
        assert "`" in finding.what
        assert finding.what[0].islower() or finding.what[0] == "`"
        assert not finding.what.endswith(".")
        assert len(finding.rule.why.split()) > 5
        assert len(finding.fix.split()) > 1

    shown = format_findings(found_in(path))
    assert not re.search(r"\b(invalid|illegal|unexpected|NoneType|dict)\b", shown)
