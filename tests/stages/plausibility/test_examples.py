"""Every rule finds its wrong example, and nothing is found in its right one."""

import re

import pytest
from one_unit import look_at

from guidegen.finding import Severity
from guidegen.plausibility.rulebook import PAGES, RULEBOOK
from guidegen.rule_page import RulePage

BY_NAME = {page.rule.name: page for page in PAGES}


def named(page: RulePage) -> str:
    return page.rule.name


def test_no_two_rules_share_a_name() -> None:
    assert len(BY_NAME) == len(PAGES) == len(RULEBOOK) + 1


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_the_wrong_example_breaks_its_rule_and_no_other(page: RulePage) -> None:
    looked = look_at(page.wrong.text, page.wrong.jurisdiction)

    assert looked.rules == {page.rule.name}


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_the_right_example_breaks_no_rule(page: RulePage) -> None:
    looked = look_at(page.right.text, page.right.jurisdiction)

    assert [finding.what for finding in looked.findings] == []


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_an_error_holds_the_truck_back_and_a_warning_does_not(page: RulePage) -> None:
    looked = look_at(page.wrong.text, page.wrong.jurisdiction)

    assert ("T-1" in looked.units) == (page.rule.severity is Severity.WARNING)


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_a_finding_stands_at_its_value_and_says_what_to_do(page: RulePage) -> None:
    for finding in look_at(page.wrong.text, page.wrong.jurisdiction).findings:
        assert finding.span is not None
        assert finding.span.file.path == "specs/units/T-1.yml"
        assert finding.span.line > 2
        assert finding.what.count("`") % 2 == 0
        assert finding.what[0].islower() or finding.what[0] == "`"
        for clause in (finding.what, finding.fix, *(note.text for note in finding.notes)):
            assert not clause.endswith(".")
            assert not re.search(r"\b([Ii]nvalid|[Ii]llegal|[Uu]nexpected|None|\xa0)\b", clause)


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_every_rule_says_what_happens_at_the_truck(page: RulePage) -> None:
    assert len(page.rule.why.split()) > 8
    assert not page.rule.why.endswith(".")
    assert page.rule.why[0].islower()
    assert page.finds.endswith(".")
    assert page.source.endswith(".")
