from gap_fleet import (
    demo,
    holds_back,
    looked_up,
    resolved,
    spec_with_gaps,
    values_of,
    with_fact,
    with_section,
    without,
)
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guidegen.gaps.catalog import is_of_truck
from guidegen.gaps.find import Finder
from guidegen.gaps.model import Grade, LeftOut, UnitGaps
from guidegen.specs.model import Spec
from guidegen.units.follows import FOLLOWS_FROM
from guidegen.units.model import StatedIn, WorkedOut

SLOW = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)


def gaps_of(spec: Spec) -> UnitGaps:
    _, library = demo()
    return Finder(library).of(resolved(spec))


def graded(spec: Spec) -> dict[str, Grade]:
    return {gap.name: gap.grade for gap in gaps_of(spec).gaps if gap.grade is not Grade.VALUE_ONLY}


def truck(number: str, *gone: str) -> Spec:
    specs, _ = demo()
    return without(specs.units[number], gone)


@SLOW
@given(spec_with_gaps())
def test_a_gap_holds_a_truck_back_if_and_only_if_its_guide_is_held_back(spec: Spec) -> None:
    assert gaps_of(spec).is_held_back is bool(holds_back(resolved(spec)))


@SLOW
@given(st.data())
def test_a_truck_is_freed_by_its_listed_gaps_whatever_is_found(data: st.DataObject) -> None:
    spec = data.draw(spec_with_gaps())
    found = gaps_of(spec)
    names = [line.name for gap in found.gaps if gap.grade.is_needed for line in gap.lines]

    closed = data.draw(looked_up(spec, names))

    assert holds_back(resolved(closed)) == []
    assert not gaps_of(closed).is_held_back


@SLOW
@given(st.data())
def test_a_truck_is_not_freed_as_long_as_its_only_gap_stands(data: st.DataObject) -> None:
    spec = data.draw(spec_with_gaps())
    found = gaps_of(spec)
    needed = [gap for gap in found.gaps if gap.grade.is_needed]
    if len(needed) != 1:
        return
    others = [
        line.name
        for gap in found.gaps
        if not gap.grade.is_needed and is_of_truck(gap.name)
        for line in gap.lines
    ]

    closed = data.draw(looked_up(spec, others))

    assert holds_back(resolved(closed)) != []


def test_a_truck_on_record_has_no_gap_that_holds_it_back() -> None:
    specs, _ = demo()

    assert [n for n, spec in specs.units.items() if gaps_of(spec).is_held_back] == []


def test_what_nobody_has_said_to_be_fitted_is_one_gap_with_all_that_belongs_to_it() -> None:
    found = gaps_of(truck("T-17", "brakes"))

    (gap,) = found.of(Grade.HOLDS)
    lines = {line.name: line.is_certain for line in gap.lines}
    assert gap.name == "brakes"
    assert lines["brakes"] is True
    assert lines["brakes.air"] is False
    assert lines["brakes.air.cut_out"] is False
    assert lines["brakes.hydraulic.fluid"] is False


def test_what_is_asked_only_after_an_answer_may_hold_back_next() -> None:
    found = graded(truck("E-02", "cab_access.kind"))

    assert found["cab_access.kind"] is Grade.HOLDS
    assert found["cab_access.tilt_clearance"] is Grade.MAY_HOLD


def test_what_the_library_states_of_a_fluid_is_no_gap_of_the_truck() -> None:
    found = graded(truck("D-31", "def_system"))

    assert found["def_system"] is Grade.HOLDS
    assert not any(name.startswith("substance.") for name in found)


def test_what_only_leaves_a_procedure_out_names_it() -> None:
    found = gaps_of(truck("T-17", "seat.kind", "wipers.washer_tank"))

    left_out = {gap.name: gap.left_out for gap in found.of(Grade.LEAVES_OUT)}
    assert left_out["wipers.washer_tank"] == (LeftOut("washer-fluid", ""),)


def test_what_leaves_a_step_out_names_the_step() -> None:
    found = gaps_of(truck("T-17", "lights.flash"))

    (gap,) = found.of(Grade.LEAVES_OUT)
    assert gap.left_out == (LeftOut("high-beam", "step flash"),)


def test_a_value_that_no_procedure_asks_for_is_missing_on_the_data_page_only() -> None:
    found = gaps_of(truck("T-17", "transmission.forward_gears"))

    assert "transmission.forward_gears" in {gap.name for gap in found.of(Grade.VALUE_ONLY)}
    assert not found.is_held_back


def test_a_value_that_follows_from_others_is_looked_up_by_these() -> None:
    found = gaps_of(truck("T-17", "tires.steer.cold_pressure"))

    assert [gap.name for gap in found.of(Grade.HOLDS)] == ["tires.steer.cold_pressure"]


def test_what_is_not_fitted_lacks_nothing() -> None:
    spec = with_section(truck("T-17", "block_heater"), "block_heater", is_fitted=False)

    assert [gap for gap in gaps_of(spec).gaps if gap.name.startswith("block_heater")] == []


def test_a_gap_names_the_procedures_that_ask_for_it() -> None:
    found = gaps_of(truck("T-17", "brakes.air.low_air_warning"))

    (gap,) = found.of(Grade.HOLDS)
    assert "low-air-warning" in gap.asked_by


def test_facts_follow_from_the_facts_that_the_table_names() -> None:
    specs, _ = demo()
    worked_out = [
        fact
        for spec in specs.units.values()
        for fact in resolved(spec).facts.values()
        if isinstance(fact.provenance, WorkedOut)
    ]

    assert {fact.name for fact in worked_out} <= set(FOLLOWS_FROM)
    for fact in worked_out:
        assert isinstance(fact.provenance, WorkedOut)
        # The length of a cord is the library's own, so it is no answer that the office owes.
        of = [each for each in fact.provenance.of if not each.endswith("_cord")]
        assert tuple(of) == FOLLOWS_FROM[fact.name]


@SLOW
@given(st.data())
def test_a_fact_of_the_table_is_there_when_all_that_it_follows_from_is(
    data: st.DataObject,
) -> None:
    name = data.draw(st.sampled_from(sorted(FOLLOWS_FROM)))
    spec = truck("T-17", "block_heater", "tires")
    for each in ("block_heater.power", "block_heater.voltage", *FOLLOWS_FROM[name]):
        if each not in FOLLOWS_FROM:
            spec = with_fact(spec, each, data.draw(values_of(each)))

    facts = resolved(spec).facts

    assert name in facts
    assert isinstance(facts[name].provenance, StatedIn | WorkedOut)
