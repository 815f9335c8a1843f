"""Findings are collected, sorted for reading, and stop a run at the end of a stage."""

import dataclasses

import pytest

from guidegen.finding import FaultyInput, Finding, Findings, Note, Rule, Severity, nearest
from guidegen.source import SourceFile, Span

FAULT = Rule("quantity-without-measure", "pounds and kilograms differ by more than two to one")
HINT = Rule("value-not-confirmed", "nobody has compared it with the plate", Severity.WARNING)


def at(path: str, line: int, column: int) -> Span:
    return Span(SourceFile(path, "unit: T-14\ngvwr: 54000\n"), line, column, line, column + 1)


def add(findings: Findings, span: Span | None, what: str = "`gvwr` has no measure") -> None:
    findings.add(FAULT, span, what=what, fix="copy it from the plate")


def test_findings_are_read_by_file_line_and_column_and_those_without_a_place_come_last() -> None:
    findings = Findings()
    spans = [at("b.yml", 1, 1), None, at("a.yml", 10, 2), at("a.yml", 2, 9), at("a.yml", 10, 1)]
    for span in spans:
        add(findings, span)

    expected = ["a.yml:2:9", "a.yml:10:1", "a.yml:10:2", "b.yml:1:1", ""]
    assert expected == [finding.where for finding in findings]


def test_findings_at_one_place_stay_in_the_order_in_which_they_were_met() -> None:
    findings = Findings()
    for what in ("second", "first", "third"):
        add(findings, at("a.yml", 1, 1), what)

    expected = ["second", "first", "third"]
    assert expected == [finding.what for finding in findings]


def test_findings_without_a_line_are_read_by_their_place() -> None:
    findings = Findings()
    for place in ("specs/b.yml", "specs/a.yml"):
        findings.add(FAULT, None, what="the file is too large", fix="split it", place=place)

    expected = ["specs/a.yml", "specs/b.yml"]
    assert expected == [finding.where for finding in findings]


def test_a_span_tells_more_than_a_place() -> None:
    finding = Finding(FAULT, at("a.yml", 2, 7), "what", "fix", place="b.yml")

    expected = "a.yml:2:7"
    assert expected == finding.where


def test_everything_that_was_added_is_kept() -> None:
    findings = Findings()
    note = Note("first set at", at("a.yml", 1, 1))
    span = at("a.yml", 2, 7)
    findings.add(FAULT, span, what="what", fix="fix", notes=[note], unit="T-14", place="a.yml")

    expected = [Finding(FAULT, span, "what", "fix", (note,), "T-14", "a.yml")]
    assert expected == list(findings)


def test_findings_of_another_stage_are_taken_over() -> None:
    first, second = Findings(), Findings()
    add(first, at("b.yml", 1, 1))
    add(second, at("a.yml", 1, 1))
    first.extend(second)

    expected = ["a.yml:1:1", "b.yml:1:1"]
    assert expected == [finding.where for finding in first]
    assert len(first) == 2
    assert len(second) == 1


def test_no_findings_hold_nothing_back() -> None:
    findings = Findings()

    findings.stop_if_faulty()
    assert len(findings) == 0
    assert findings.errors == ()
    assert not findings.has_errors


def test_a_warning_holds_nothing_back() -> None:
    findings = Findings()
    findings.add(HINT, at("a.yml", 1, 1), what="nobody confirmed `gvwr`", fix="compare it")

    findings.stop_if_faulty()
    assert len(findings) == 1
    assert findings.errors == ()
    assert not findings.has_errors


def test_an_error_stops_the_run_with_every_finding_of_it() -> None:
    findings = Findings()
    add(findings, at("b.yml", 1, 1))
    findings.add(HINT, at("a.yml", 1, 1), what="nobody confirmed `gvwr`", fix="compare it")

    with pytest.raises(FaultyInput, match="2 findings") as stopped:
        findings.stop_if_faulty()
    assert stopped.value.findings is findings
    expected = ["b.yml:1:1"]
    assert expected == [finding.where for finding in findings.errors]
    assert findings.has_errors


def test_a_finding_is_never_changed() -> None:
    finding = Finding(FAULT, None, "what", "fix")

    with pytest.raises(dataclasses.FrozenInstanceError):
        finding.what = "something else"  # type: ignore[misc]  # -- the fault that is tested


def test_a_rule_is_an_error_if_it_does_not_say_otherwise() -> None:
    assert FAULT.severity is Severity.ERROR
    assert Finding(FAULT, None, "what", "fix").is_error
    assert not Finding(HINT, None, "what", "fix").is_error


@pytest.mark.parametrize(
    ("number", "expected"),
    [(1, "unit: T-14"), (2, "é: 🚚"), (3, ""), (0, ""), (-1, ""), (4, "")],
)
def test_a_line_is_counted_from_one_and_empty_past_the_ends(number: int, expected: str) -> None:
    file = SourceFile("a.yml", "unit: T-14\r\né: 🚚\n")

    assert expected == file.line(number)


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("tire_presure", "tire_pressure"),
        ("wheel_base", "wheelbase"),
        ("gvwr", "gvwr"),
        ("paint", None),
        ("", None),
    ],
)
def test_only_a_near_name_is_suggested(word: str, expected: str | None) -> None:
    assert expected == nearest(word, iter(["wheelbase", "tire_pressure", "gvwr"]))


def test_nothing_is_suggested_from_nothing() -> None:
    assert nearest("gvwr", []) is None
