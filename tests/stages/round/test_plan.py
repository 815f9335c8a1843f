"""Every demo truck's round can be walked, holds every check, and says what stands in its way."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace

import pytest
from round_judge import Truck, acts, after, can_be, can_stand, holds, truck

from guidegen.build.load import Loaded
from guidegen.finding import Findings
from guidegen.guide.explain import explain_procedure
from guidegen.guide.known import KnownOf
from guidegen.guide.model import STAMPED, Guide, Procedure
from guidegen.procedures.condition_value import evaluate
from guidegen.procedures.model import ProcedureTemplate, RoundPart, RoundStates, RoundTemplate
from guidegen.procedures.read import read_procedure
from guidegen.procedures.words import STATES, STATIONS
from guidegen.round.acts import ACTS
from guidegen.round.contradictions import report_exclusion
from guidegen.round.fewest import Fewest
from guidegen.round.model import Round, Stop
from guidegen.round.plan import plan_round
from guidegen.round.positions import Place, footprint_of, walk_of
from guidegen.round.reasons import PREMISES, reason_words
from guidegen.round.states import needs_of, number_of, world_of
from guidegen.round.tasks import Task
from guidegen.round.worlds import Worlds

Library = Mapping[str, ProcedureTemplate]

WORKED = {
    "key_on": ("key", "on"),
    "key_off": ("key", "off"),
    "key_out": ("key", "out"),
    "key_away": ("key", "out"),
    "engine_off": ("key", "off"),
    "engine_off_key_out": ("key", "out"),
    "drive_off": ("key", "off"),
    "drive_off_key_out": ("key", "out"),
    "engine_again": ("engine", "idling"),
    "drive_again": ("drive", "ready"),
    "neutral": ("transmission", "neutral"),
    "brake_set": ("parking_brake", "set"),
    "brake_released": ("parking_brake", "released"),
    "warm_up": ("engine", "idling_warm"),
}
"""What each act is to the truck, told once more."""


def procedures(guide: Guide) -> dict[str, Procedure]:
    return {each.id: each for chapter in guide.chapters for each in chapter.procedures}


def place_in_round(library: Library, procedure: str) -> RoundTemplate:
    found = library[procedure].round
    assert found is not None
    return found


def stated(guide: Guide, groups: Iterable[RoundStates]) -> list[tuple[str, str]]:
    known = KnownOf(guide)
    return [
        (state.aspect, state.state)
        for group in groups
        if group.when is None or evaluate(group.when, known) is True
        for state in group.states
    ]


def as_found(guide: Guide) -> Truck:
    """A truck in the morning: parked, the key in the driver's pocket."""
    known = KnownOf(guide)
    engine = {"engine": "off_cold"} if known.fitted("engine") else {}
    drive = {"drive": "off"} if known.fitted("high_voltage") else {}
    return truck(truck="stopped", key="out", access="shut", **engine, **drive)


def has_tilt_cab(guide: Guide) -> bool:
    return guide.facts["cab_access.kind"].value == "tilt_cab"


def left_by(stop: Stop, guide: Guide, library: Library) -> list[tuple[str, str]]:
    found = place_in_round(library, stop.procedure)
    if stop.step is None:
        return stated(guide, found.leaves)
    assert found.later is not None
    assert found.later.step == stop.step
    return stated(guide, found.later.leaves)


def test_all_eight_trucks_have_a_round(tours: Mapping[str, Round]) -> None:
    assert len(tours) == 8


def test_every_stop_finds_the_truck_in_the_state_that_it_needs(
    guide: Guide, tour: Round, library: Library
) -> None:
    state = as_found(guide)
    for stop, leg in zip(tour.stops, tour.legs, strict=True):
        for change in leg.changes:
            then = after(state, [WORKED[change.act]])
            assert (change.station, then) in set(acts(state))
            assert can_stand(change.station or "cab", state, cab_tilts=has_tilt_cab(guide))
            state = then
        asked = procedures(guide)[stop.procedure].state
        needs = stated(guide, place_in_round(library, stop.procedure).needs)
        if stop.step is None:
            assert holds(state, [*asked, *needs]), stop
        assert can_stand(stop.station, state, cab_tilts=has_tilt_cab(guide))
        assert set(stop.state) == {
            (aspect, "off" if value == "off_again" else value) for aspect, value in state
        }
        state = after(state, left_by(stop, guide, library))
        assert can_be(state)
    assert dict(state)["access"] == "shut"


def test_every_check_of_the_guide_is_in_its_round_once(
    guide: Guide, tour: Round, library: Library
) -> None:
    parts = {
        procedure: found.part
        for procedure in procedures(guide)
        if (found := library[procedure].round) is not None
    }
    wanted = [id_ for id_, part in parts.items() if part is not RoundPart.MEANS]
    stops = Counter(stop.procedure for stop in tour.stops)

    assert {id_: stops[id_] for id_ in wanted} == dict.fromkeys(wanted, 1)
    assert set(stops) <= set(parts)


def test_what_comes_first_comes_first(guide: Guide, tour: Round, library: Library) -> None:
    parts = [place_in_round(library, stop.procedure).part for stop in tour.stops]
    count = parts.count(RoundPart.FIRST)
    # The battery switch of this truck is under its hood.
    means = {"E-02": ["open-hood"]}.get(guide.number, [])
    begin = [stop.procedure for stop in tour.stops[: count + len(means)]]

    assert begin[:2] == ["last-report", "park-for-checks"]
    assert (
        sorted(p for p, part in zip(begin, parts, strict=False) if part is not RoundPart.FIRST)
        == means
    )


def test_cold_checks_come_before_the_engine_runs(guide: Guide, tour: Round) -> None:
    asked = {id_: dict(procedure.state) for id_, procedure in procedures(guide).items()}
    cold = [s.number for s in tour.stops if asked[s.procedure].get("engine") == "off_cold"]
    starts = [s.number for s in tour.stops if s.procedure in ("start-up", "start-up-gas")]

    assert not KnownOf(guide).fitted("engine") or max(cold) < min(starts)


def test_the_walk_is_the_sum_of_its_legs(guide: Guide, tour: Round, library: Library) -> None:
    walk = walk_of(footprint_of(guide))

    def place(station: str) -> Place:
        return walk.places[station]

    def below(here: Place) -> Place:
        return replace(here, off=0)

    here, total = place("cab"), 0
    on_walk = False
    for stop, leg in zip(tour.stops, tour.legs, strict=True):
        far = 0
        for change in leg.changes:
            to = here if change.station is None else place(change.station)
            far, here = far + walk.between(here, to), to
        is_on_the_way = any(reason.kind.value == "on_the_way" for reason in stop.reasons)
        on_walk = on_walk and is_on_the_way
        ends = place_in_round(library, stop.procedure).ends if stop.step is None else None
        within = 0
        if stop.station == "around" and not on_walk:
            far, here = far + walk.between(here, below(here)), below(here)
            within, on_walk = walk.around, True
        elif not on_walk:
            far, here = far + walk.between(here, place(stop.station)), place(stop.station)
        if ends is not None:
            within, here = within + walk.between(here, place(ends)), place(ends)
        assert (leg.millimeters, stop.millimeters) == (far, within), stop
        total += far + within
    assert tour.millimeters == total


def test_changes_are_the_acts_and_the_procedures_that_only_change(
    tour: Round, library: Library
) -> None:
    acts_made = sum(len(leg.changes) for leg in tour.legs)
    means = sum(
        place_in_round(library, stop.procedure).part is RoundPart.MEANS for stop in tour.stops
    )

    assert tour.changes == acts_made + means


def test_stops_are_numbered_and_name_places_and_states_of_the_closed_lists(
    guide: Guide, tour: Round
) -> None:
    assert [stop.number for stop in tour.stops] == list(range(1, len(tour.stops) + 1))
    assert {stop.station for stop in tour.stops} <= set(STATIONS)
    assert all(word in STATES[aspect] for stop in tour.stops for aspect, word in stop.state)
    assert {stop.procedure for stop in tour.stops} <= set(procedures(guide))
    assert {change.act for leg in tour.legs for change in leg.changes} <= set(ACTS)
    assert set(tour.premises) <= set(PREMISES)


def test_every_stop_says_why_in_one_sentence_a_reason(tour: Round) -> None:
    for stop in tour.stops:
        words = [reason_words(reason) for reason in stop.reasons]
        assert 1 <= len(words) <= 2
        assert all(line[0].isupper() and line.endswith(".") for line in words)
        assert not any(brace in line for line in words for brace in "{}")


def test_reasons_name_stops_that_come_later(tour: Round) -> None:
    for stop in tour.stops:
        for reason in stop.reasons:
            assert all(stop.number < number <= len(tour.stops) for number in reason.stops)


def test_an_opened_hood_is_there_for_stops_that_need_it(
    guide: Guide, tour: Round, library: Library
) -> None:
    openers = [stop for stop in tour.stops if stop.procedure in ("tilt-hood", "open-hood")]
    for stop in openers:
        for reason in stop.reasons:
            for number in reason.stops:
                other = tour.stops[number - 1]
                needs = stated(guide, place_in_round(library, other.procedure).needs)
                assert ("access", "open") in needs or other.procedure in ("lower-hood", "shut-hood")


def test_trucks_that_differ_in_their_identity_only_have_the_same_round(
    guides: Mapping[str, Guide], tours: Mapping[str, Round], library: Library
) -> None:
    guide = guides["T-17"]
    facts = {
        name: replace(fact, value="other") if name in STAMPED else fact
        for name, fact in guide.facts.items()
    }
    other = replace(guide, number="T-99", facts=facts)

    assert plan_round(other, library, Findings()) == tours["T-17"]


def test_the_round_does_not_hang_on_the_order_of_the_mapping(
    guide: Guide, tour: Round, library: Library
) -> None:
    backwards = dict(reversed(list(library.items())))

    assert plan_round(guide, backwards, Findings()) == tour


def test_a_library_without_rounds_gives_no_round_and_no_finding(
    guides: Mapping[str, Guide], library: Library
) -> None:
    findings = Findings()
    without = {id_: replace(template, round=None) for id_, template in library.items()}

    assert plan_round(guides["T-17"], without, findings) is None
    assert list(findings) == []


def test_why_a_need_of_the_round_holds_is_explained(loaded: Loaded) -> None:
    explained = explain_procedure(loaded.library["coolant-level"], loaded.units["T-17"])
    reasons = {reason.part: reason for reason in explained.reasons}

    assert reasons["round 1"].holds is True
    assert [asked.answer for asked in reasons["round 1"].asked] == ["fitted", "tilt_hood"]


# What stands in the way.

CHECK = """\
id: own-check
title: Look at it
chapter: before-the-day
state: {state}
station: {station}
round:
  part: check
{more}steps:
  - {{id: look, text: Look at it.}}
expect: [It is there.]
if_not: [Tell the shop.]
references: ["common practice, no source"]
"""


def with_check(
    guide: Guide, library: Library, state: str, more: str = "", station: str = "cab"
) -> tuple[Guide, Library]:
    """Add a check of the fleet's own to guide and library."""
    text = CHECK.format(state=state, more=more, station=station)
    findings = Findings()
    template = read_procedure("procedures/own-check.yml", text.encode(), findings)
    assert [finding.what for finding in findings] == []
    assert template is not None
    pattern = procedures(guide)["park-for-checks"]
    own = replace(
        pattern,
        id="own-check",
        station=station,
        state=tuple((part.aspect, part.state) for part in template.state),
        span=template.span,
    )
    first, *others = guide.chapters
    chapters = (replace(first, procedures=(*first.procedures, own)), *others)
    return replace(guide, chapters=chapters), {**library, "own-check": template}


def found(guide: Guide, library: Library) -> list[tuple[str, str]]:
    findings = Findings()
    assert plan_round(guide, library, findings) is None
    assert all(finding.unit == guide.number for finding in findings)
    return [(finding.rule.name, finding.what) for finding in findings]


def test_a_state_that_contradicts_itself_is_found(
    guides: Mapping[str, Guide], library: Library
) -> None:
    state = "{ground: level, engine: idling, key: out}"

    what = (
        "`own-check` asks for `engine: idling` (engine idling) and `key: out` (key out), "
        "which no truck can be in at once"
    )

    assert found(*with_check(guides["T-17"], library, state)) == [
        ("state-contradicts-itself", what)
    ]


def test_a_need_that_contradicts_the_state_is_found(
    guides: Mapping[str, Guide], library: Library
) -> None:
    more = '  needs: [{engine: idling}]\n  leaves: [{drive: ready, key: "off"}]\n'
    names = [name for name, _ in found(*with_check(guides["T-17"], library, "{key: out}", more))]

    assert names == ["state-contradicts-itself", "state-contradicts-itself"]


def test_a_contradiction_outside_the_round_is_found_too(
    guides: Mapping[str, Guide], library: Library
) -> None:
    guide, more = with_check(guides["T-17"], library, "{truck: moving, wheels: chocked}")
    own = replace(more["own-check"], round=None)

    assert [name for name, _ in found(guide, {**more, "own-check": own})] == [
        "state-contradicts-itself"
    ]


@pytest.mark.parametrize(
    ("state", "words"),
    [
        ("{drive: ready}", "`drive: ready` (ready to drive)"),
        ("{ground: bare}", "`ground: bare` (on bare ground, outdoors)"),
        ("{transmission: park}", "`transmission: park` (transmission in park)"),
    ],
)
def test_a_state_that_nothing_brings_about_is_found(
    guides: Mapping[str, Guide], library: Library, state: str, words: str
) -> None:
    assert found(*with_check(guides["T-17"], library, state)) == [
        (
            "state-out-of-reach",
            f"`own-check` needs {words}, and nothing in the round of T-17 brings that about",
        )
    ]


def test_states_of_which_each_can_be_reached_but_not_all_at_once_are_found(
    guides: Mapping[str, Guide], library: Library
) -> None:
    state = "{engine: off_cold, air: up}"

    what = (
        "`own-check` needs `engine: off_cold` (engine off and cold) and `air: up` (air pressure up)"
        " at once, and nothing in the round of T-17 brings that about"
    )

    assert found(*with_check(guides["T-17"], library, state)) == [("state-out-of-reach", what)]


def test_a_check_in_the_seat_of_a_tilted_cab_is_out_of_reach(
    guides: Mapping[str, Guide], library: Library
) -> None:
    names = [name for name, _ in found(*with_check(guides["V-08"], library, "{access: open}"))]

    assert names == ["state-out-of-reach"]


def test_a_check_beside_a_tilted_cab_has_the_cab_tilted_and_lowered(
    guides: Mapping[str, Guide], library: Library
) -> None:
    guide, more = with_check(guides["V-08"], library, "{access: open}", station="front")
    tour = plan_round(guide, more, Findings())

    assert tour is not None
    ids = [stop.procedure for stop in tour.stops]
    assert ids.index("tilt-cab") < ids.index("own-check") < ids.index("lower-cab")


def test_checks_that_exclude_one_another_are_named_and_no_others(
    guides: Mapping[str, Guide], library: Library
) -> None:
    """It starts the engine, and so does the first start, which needs it cold."""
    more = "  leaves: [{engine: idling}]\n"
    guide, own = with_check(guides["T-17"], library, "{engine: off_cold}", more)

    assert found(guide, own) == [
        (
            "checks-exclude-one-another",
            "`own-check` and `start-up` cannot be done in one round of T-17",
        )
    ]


def test_first_checks_that_exclude_one_another_are_named(guides: Mapping[str, Guide]) -> None:
    start = {"truck": "stopped", "engine": "off_cold", "key": "out", "access": "shut"}
    asked = (("engine", "off_cold"),)
    one = Task(
        procedure="one",
        step=None,
        part=RoundPart.FIRST,
        station="cab",
        asks=asked,
        needs=needs_of(asked),
        leaves=((number_of("engine"), "idling"),),
        ends=None,
        place=0,
        span=guides["T-17"].chapters[0].procedures[0].span,
    )
    worlds = Worlds((one, replace(one, procedure="other")), world_of(start), cab_tilts=False)
    findings = Findings()
    report_exclusion(guides["T-17"], worlds, Fewest(worlds), findings)

    assert [finding.what for finding in findings] == [
        "`one` and `other` cannot be done in one round of T-17"
    ]


def test_a_hood_that_nothing_shuts_is_found(guides: Mapping[str, Guide], library: Library) -> None:
    without = {**library, "lower-hood": replace(library["lower-hood"], round=None)}
    rules = {name for name, _ in found(guides["T-17"], without)}

    assert rules == {"left-open"}


def test_a_need_that_hangs_on_something_not_on_record_is_found(
    guides: Mapping[str, Guide], library: Library
) -> None:
    guide, own = with_check(
        guides["T-17"], library, "{key: out}", "  needs: [{access: open, when: fitted(horn)}]\n"
    )
    sections = {name: state for name, state in guide.sections.items() if name != "horn"}
    facts = {name: fact for name, fact in guide.facts.items() if not name.startswith("horn.")}
    silent = replace(guide, sections=sections, facts=facts)
    rules = {name for name, _ in found(silent, own)}

    assert rules == {"not-on-record"}
