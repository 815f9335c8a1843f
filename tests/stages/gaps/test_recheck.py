from dataclasses import replace
from datetime import date, timedelta

import pytest
from gap_fleet import SPAN, demo, fleet_with_gaps, resolved
from hypothesis import given
from hypothesis import strategies as st

from guidegen.finding import Findings
from guidegen.gaps.page import missing_page
from guidegen.gaps.recheck import Old, due_day, old_values, report_old
from guidegen.source import SourceFile, Span
from guidegen.specs.fields import Recorded
from guidegen.units.model import Fact, StatedIn, Unit


def truck(number: str, **recorded: str) -> Unit:
    """Return a truck of the demo fleet in which only the facts named are dated."""
    specs, _ = demo()
    unit = resolved(specs.units["T-17"])
    days = {name.replace("__", "."): on for name, on in recorded.items()}
    facts = {name: _dated(fact, days.get(name)) for name, fact in unit.facts.items()}
    return replace(unit, number=number, facts=facts)


def _dated(fact: Fact, on: str | None) -> Fact:
    if not isinstance(fact.provenance, StatedIn):
        return fact
    place = Span(SourceFile(f"specs/{on}.yml", ""), 4, 16, 4, 26)
    said = Recorded(on, "Orla Vint", place) if on else None
    return replace(fact, provenance=replace(fact.provenance, recorded=said))


def old(today: str, months: int | None = 24, **recorded: str) -> tuple[Old, ...]:
    return old_values([truck("T-17", **recorded)], months, today)


@pytest.mark.parametrize(
    ("on", "months", "due"),
    [
        ("2026-03-02", 24, date(2028, 3, 2)),
        ("2026-08-31", 6, date(2027, 2, 28)),
        ("2027-08-31", 6, date(2028, 2, 29)),
        ("2026-12-01", 1, date(2027, 1, 1)),
        ("9999-12-31", 1, date.max),
    ],
)
def test_months_are_those_of_the_calendar(on: str, months: int, due: date) -> None:
    assert due_day(on, months) == due


@given(st.dates(date(1990, 1, 1), date(2100, 1, 1)), st.integers(1, 120))
def test_a_year_of_months_is_due_in_the_same_month_and_later_months_are_due_later(
    on: date, months: int
) -> None:
    due = due_day(on.isoformat(), months)

    assert due.day <= on.day
    assert (due.year * 12 + due.month) - (on.year * 12 + on.month) == months
    assert due < due_day(on.isoformat(), months + 1)


def test_a_value_is_old_from_the_day_after_it_is_due() -> None:
    assert old("2028-03-02", engine__oil_capacity="2026-03-02") == ()
    (found,) = old("2028-03-03", engine__oil_capacity="2026-03-02")
    assert found.names == ("engine.oil_capacity",)
    assert found.units == ("T-17",)


def test_without_a_limit_of_the_fleet_nothing_is_old() -> None:
    assert old("2099-01-01", None, engine__oil_capacity="2026-03-02") == ()


def test_a_day_that_has_not_come_is_told_with_or_without_a_limit() -> None:
    for months in (None, 24):
        (found,) = old("2026-03-01", months, engine__oil_capacity="2026-03-02")
        assert found.is_to_come


def test_what_is_not_dated_is_not_called_old() -> None:
    assert old("2099-01-01") == ()


def test_what_was_recorded_together_is_told_once_with_all_trucks() -> None:
    both = {"engine__oil_capacity": "2020-01-01", "axles__configuration": "2020-01-01"}
    units = [truck("T-17", **both), truck("T-18", **both)]

    (found,) = old_values(units, 24, "2026-11-30")

    assert found.names == ("engine.oil_capacity", "axles.configuration")
    assert found.units == ("T-17", "T-18")


def test_the_oldest_comes_first() -> None:
    found = old("2030-01-01", engine__oil_capacity="2024-01-01", axles__configuration="2020-01-01")

    assert [each.recorded.on for each in found] == ["2020-01-01", "2024-01-01"]


def test_an_old_value_is_a_warning_at_the_day_that_was_typed() -> None:
    findings = Findings()

    report_old(old("2028-03-03", engine__oil_capacity="2026-03-02"), findings)

    (finding,) = findings
    assert finding.rule.name == "value-to-check-again"
    assert not finding.is_error
    assert finding.where == "specs/2026-03-02.yml:4:16"
    assert finding.what == (
        "recorded 2026-03-02 by Orla Vint, longer ago than the fleet wants: "
        "engine.oil_capacity of T-17"
    )


def test_many_values_of_one_record_are_counted() -> None:
    days = dict.fromkeys(
        (name.replace(".", "__") for name in truck("T-17").facts if name.startswith("engine.")),
        "2020-01-01",
    )

    (found,) = old_values([truck("T-17", **days)], 24, "2030-01-01")

    assert found.values == f"{len(found.names)} values"


def test_the_office_page_lists_what_is_to_be_checked_again_only_if_it_is_told() -> None:
    found = Old(Recorded("2020-01-01", "<b>Orla</b>", SPAN), ("engine.fuel",), ("book",), ("T-17",))

    told = missing_page(fleet_with_gaps(), old=[found])

    assert "To be checked again" in told
    assert "2020-01-01 by &lt;b&gt;Orla&lt;/b&gt;" in told
    assert "To be checked again" not in missing_page(fleet_with_gaps())


def test_a_slipped_year_far_away_is_no_fault_of_ours() -> None:
    later = (date(2026, 1, 1) + timedelta(days=1)).isoformat()
    assert old(later, 999 * 12, engine__oil_capacity="2026-01-01") == ()
