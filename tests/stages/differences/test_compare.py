"""Two guides compared, kind by kind."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

import pytest
from sample_fleet import E_04, SPAN, T_17, T_18, Warn, fact, guide, procedure

from guidegen.differences.compare import compare_guides
from guidegen.differences.model import (
    ControlChanged,
    Difference,
    LampGained,
    LampLost,
    OrderChanged,
    PartGained,
    PartLost,
    PartReworded,
    ProcedureChanged,
    ProcedureGained,
    ProcedureLost,
    ProcedureReplaced,
    StanceChanged,
    ThingGained,
    ThingInDoubt,
    ThingLost,
    ValueChanged,
    ValueGained,
    ValueLost,
)
from guidegen.differences.standing import Rank, Reason
from guidegen.guide.model import Chapter, Guide, Procedure
from guidegen.procedures.model import LampSign, Signal
from guidegen.units.model import Presence, SectionState


def truck(
    number: str,
    stated: Mapping[str, str | list[str]],
    *procedures: Procedure,
    not_fitted: frozenset[str] = frozenset(),
) -> Guide:
    chapters = (Chapter("before-the-day", procedures),) if procedures else ()
    return guide({"number": number}, stated, chapters, not_fitted)


def only(known: Guide, given: Guide) -> Difference:
    (difference,) = compare_guides(known, given).differences
    return difference


def test_trucks_of_one_edition_do_not_differ() -> None:
    assert compare_guides(T_17, T_18).differences == ()


def test_a_sheet_names_both_trucks() -> None:
    sheet = compare_guides(T_17, E_04)
    assert (sheet.known, sheet.given) == ("T-17", "E-04")


def test_another_value_is_told_with_both_facts() -> None:
    known, given = (truck("A-1", {"brakes.air.cut_out": value}) for value in ("130 psi", "125 psi"))
    difference = only(known, given)
    assert isinstance(difference, ValueChanged)
    assert difference.known is known.facts["brakes.air.cut_out"]
    assert difference.given is given.facts["brakes.air.cut_out"]
    assert difference.standing == (Rank.BRAKES, Reason.STOPPING)


@pytest.mark.parametrize(
    ("one", "other"),
    [("4 qt", "4.0 qt"), ("1 gal", "4 qt"), ("3.785411784 L", "4 qt")],
)
def test_values_that_measure_the_same_do_not_differ(one: str, other: str) -> None:
    """A US gallon is 3.785411784 L (NIST SP 811, appendix B.8)."""
    known, given = (truck("A-1", {"engine.oil_between_marks": v}) for v in (one, other))
    assert compare_guides(known, given).differences == ()


def test_a_list_in_another_order_is_no_difference() -> None:
    known = truck("A-1", {"engine_brake.drops_out": ["clutch", "abs"]})
    given = truck("B-2", {"engine_brake.drops_out": ["abs", "clutch"]})
    assert compare_guides(known, given).differences == ()


def test_a_control_that_moved_is_told_as_a_control() -> None:
    known, given = (truck("A-1", {"lights.control": kind}) for kind in ("stalk", "pull_knob"))
    difference = only(known, given)
    assert isinstance(difference, ControlChanged)
    assert difference.standing == (Rank.CONTROLS, Reason.REACH)


def test_a_value_on_record_for_one_truck_only_is_told() -> None:
    bare = truck("A-1", {"brakes.air.cut_out": "130 psi"})
    full = truck("B-2", {"brakes.air.cut_out": "130 psi", "brakes.air.tank_count": "3"})
    gained, lost = only(bare, full), only(full, bare)
    assert isinstance(gained, ValueGained)
    assert gained.given.name == "brakes.air.tank_count"
    assert isinstance(lost, ValueLost)
    assert lost.known.name == "brakes.air.tank_count"


def test_a_thing_that_one_truck_has_comes_with_all_that_is_on_record_of_it() -> None:
    bare = truck("A-1", {}, not_fitted=frozenset({"pto"}))
    full = truck("B-2", {"pto.control": "lever", "pto.drives": "pump"})
    gained, lost = only(bare, full), only(full, bare)
    assert isinstance(gained, ThingGained)
    assert gained.section == "pto"
    assert gained.known is Presence.NOT_FITTED
    assert [each.name for each in gained.facts] == ["pto.control", "pto.drives"]
    assert isinstance(lost, ThingLost)
    assert lost.given is Presence.NOT_FITTED
    assert lost.facts == gained.facts


def test_not_on_record_is_not_taken_for_not_fitted() -> None:
    unsaid = truck("A-1", {})
    absent = truck("B-2", {}, not_fitted=frozenset({"pto"}))
    difference = only(unsaid, absent)
    assert isinstance(difference, ThingInDoubt)
    assert (difference.known, difference.given) == (Presence.NOT_ON_RECORD, Presence.NOT_FITTED)


def test_lamps_are_told_one_by_one() -> None:
    known = truck("A-1", {"lamps.fitted": ["low_air", "abs", "pto"]})
    given = truck("B-2", {"lamps.fitted": ["abs", "high_beam", "low_air"]})
    gained_or_lost = compare_guides(known, given).differences
    assert gained_or_lost == (
        LampLost("pto", None, gained_or_lost[0].standing),
        LampGained("high_beam", None, gained_or_lost[1].standing),
    )


def test_what_a_lamp_means_is_told_with_the_lamp_and_not_again_as_work() -> None:
    meaning = replace(
        procedure("lamp-pto", "Power take-off on", ["Switch it off before you drive."]),
        lamp=LampSign("pto", "amber", "know"),
    )
    lamps = Chapter("warning-lamps", (meaning,))
    known = truck("A-1", {"lamps.fitted": ["abs"]})
    given = replace(truck("B-2", {"lamps.fitted": ["abs", "pto"]}), chapters=(lamps,))
    gained, lost = only(known, given), only(given, known)
    assert isinstance(gained, LampGained)
    assert gained.procedure is meaning
    assert isinstance(lost, LampLost)
    assert lost.procedure is meaning


def test_what_is_known_of_a_fluid_comes_and_goes_with_what_carries_it() -> None:
    facts = {"def_system.tank_capacity": "20 gal", "substance.def_freezing_point": "12 °F"}
    full, none = truck("A-1", facts), truck("B-2", {}, not_fitted=frozenset({"def_system"}))
    gained, lost = only(none, full), only(full, none)
    assert isinstance(gained, ThingGained)
    assert [each.name for each in gained.facts] == [*facts]
    assert isinstance(lost, ThingLost)


def test_a_brake_lamp_stands_with_the_brakes() -> None:
    known = truck("A-1", {"lamps.fitted": ["abs"]})
    given = truck("B-2", {"lamps.fitted": ["abs", "low_air"]})
    assert only(known, given).standing == (Rank.BRAKES, Reason.BRAKE_LAMPS)


def test_identity_is_no_difference_and_never_missing() -> None:
    bare = truck("A-1", {"identity.year": "2021"})
    named = guide({"number": "B-2", "vin": "7Z9CHX9S1KBC00017"}, {"identity.year": "2021"}, ())
    assert compare_guides(bare, named).differences == ()


LOOK = procedure("look", "Look around", ["Look left.", "Look right."])
STOP = procedure("stop", "Stop the truck", ["Press the pedal at {brakes.air.cut_out}."])


def test_work_that_one_truck_asks_for_is_gained_or_lost() -> None:
    known, given = truck("A-1", {}, LOOK), truck("B-2", {}, LOOK, STOP)
    gained, lost = only(known, given), only(given, known)
    assert isinstance(gained, ProcedureGained)
    assert gained.procedure is STOP
    assert gained.chapter == "before-the-day"
    assert isinstance(lost, ProcedureLost)
    assert lost.procedure is STOP


def test_work_ranks_with_the_gravest_thing_that_it_deals_with() -> None:
    known, given = truck("A-1", {}), truck("B-2", {}, LOOK, STOP)
    ranks = {
        each.procedure.id: each.standing.rank
        for each in compare_guides(known, given).differences
        if isinstance(each, ProcedureGained)
    }
    assert ranks == {"stop": Rank.BRAKES, "look": Rank.WORK}


def test_two_procedures_of_one_title_replace_each_other() -> None:
    knob = procedure("brake-knob", "Set the parking brake", ["Pull the knob."])
    switch = procedure("brake-switch", "Set the parking brake", ["Pull the switch."])
    difference = only(truck("A-1", {}, knob), truck("B-2", {}, switch))
    assert isinstance(difference, ProcedureReplaced)
    assert (difference.known, difference.given) == (knob, switch)


def test_a_title_that_two_procedures_share_replaces_nothing() -> None:
    knob = procedure("brake-knob", "Set the parking brake", ["Pull the knob."])
    lever = procedure("brake-lever", "Set the parking brake", ["Pull the lever."])
    switch = procedure("brake-switch", "Set the parking brake", ["Pull the switch."])
    kinds = [
        type(each)
        for each in compare_guides(
            truck("A-1", {}, knob, lever), truck("B-2", {}, switch)
        ).differences
    ]
    assert Counter(kinds) == {ProcedureLost: 2, ProcedureGained: 1}


def changes_between(old: Procedure, new: Procedure) -> list[object]:
    difference = only(truck("A-1", {}, old), truck("B-2", {}, new))
    assert isinstance(difference, ProcedureChanged)
    return list(difference.changes)


def test_steps_added_and_removed_are_told_with_their_cautions() -> None:
    warned = procedure(
        "look",
        "Look around",
        [
            "Look left.",
            Warn(Signal.WARNING, "Traffic comes.", "It can hit you.", "Stay clear."),
            "Look right.",
        ],
    )
    plain = procedure("look", "Look around", ["Look left."])
    caution, step = warned.blocks[1:]
    assert changes_between(plain, warned) == [PartGained(caution), PartGained(step)]
    assert changes_between(warned, plain) == [PartLost(caution), PartLost(step)]


def test_a_reworded_step_is_told_in_both_wordings() -> None:
    other = procedure("look", "Look around", ["Look left.", "Look right twice."])
    old, new = LOOK.blocks[1], other.blocks[1]
    assert changes_between(LOOK, other) == [PartReworded(old, new)]


def test_another_value_in_a_step_is_told_with_the_value_and_not_with_the_step() -> None:
    known, given = (
        truck("A-1", {"brakes.air.cut_out": value}, STOP) for value in ("130 psi", "125 psi")
    )
    assert isinstance(only(known, given), ValueChanged)


def test_a_graver_signal_word_is_a_reworded_caution() -> None:
    lines = ("Traffic comes.", "It can hit you.", "Stay clear.")
    mild, grave = (
        procedure("look", "Look around", [Warn(signal, *lines), "Look left."])
        for signal in (Signal.CAUTION, Signal.DANGER)
    )
    assert changes_between(mild, grave) == [PartReworded(mild.blocks[0], grave.blocks[0])]


def test_another_place_or_state_is_told() -> None:
    other = replace(LOOK, station="rear")
    assert changes_between(LOOK, other) == [StanceChanged(LOOK, other)]


def test_steps_in_another_order_are_told() -> None:
    first, second = LOOK.blocks
    assert changes_between(LOOK, replace(LOOK, blocks=(second, first))) == [OrderChanged()]


def test_a_new_outcome_is_told() -> None:
    more = replace(LOOK, expect=(replace(LOOK.title, id="look.expect.1"),))
    (change,) = changes_between(LOOK, more)
    assert isinstance(change, PartGained)
    assert change.part.id == "look.expect.1"


def test_a_thing_is_told_once_and_its_values_with_it() -> None:
    """A section that the model fits and the unit leaves out must not show as lost values too."""
    full = truck("A-1", {"pto.control": "lever"})
    none = replace(
        full,
        number="B-2",
        facts={"identity.number": fact("identity.number", "B-2")},
        sections={**full.sections, "pto": SectionState(Presence.NOT_FITTED, SPAN)},
    )
    assert isinstance(only(full, none), ThingLost)
