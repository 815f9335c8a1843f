from itertools import product

import pytest
from one_unit import PROFILES, look_at

from guidegen.build.load_library import load_library
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.guide.known import KnownOf
from guidegen.plausibility.fittings.check_states import COVERED
from guidegen.plausibility.lamps.needs import NEEDED_BY_LAMP, NEEDED_BY_THING, Thing
from guidegen.procedures.condition_value import evaluate
from guidegen.procedures.model import ProcedureTemplate
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fields import ChoiceField, FlagField
from guidegen.specs.profile import FACTS
from guidegen.specs.topics.lamps import LAMPS


@pytest.mark.parametrize(
    ("text", "rules"),
    [
        ("brakes:\n  air: {tank_count: 3}\n  hydraulic: not fitted\n", set()),
        ("brakes:\n  air: {tank_count: 3}\n", set()),
        ("brakes:\n  air: not fitted\n  hydraulic: not fitted\n", {"two-brake-systems-or-none"}),
        ("brakes: not fitted\n", {"two-brake-systems-or-none"}),
        (
            "brakes:\n  air: {tank_count: 3}\n  hydraulic: {fluid: DOT 3}\n",
            {"two-brake-systems-or-none"},
        ),
    ],
)
def test_a_truck_has_one_brake_system(text: str, rules: set[str]) -> None:
    assert look_at(text).rules == rules


@pytest.mark.parametrize(
    ("one", "other", "is_found"),
    [
        ("toggle switch on the dash, top row, left", "dash switch, top row, left", True),
        (
            "dash switches, left of the steering wheel",
            "switch on the dash, left of the steering wheel",
            True,
        ),
        ("dash switch, top row, left", "dash switch, top row, second from the left", False),
        (
            "rotary knob on the dash, left of the steering wheel",
            "dash switch, left of the steering wheel",
            False,
        ),
        ("switch on the dash", "dash switch", False),
        ("left column stalk, twist the end", "left column stalk, press the end", False),
    ],
)
def test_no_two_controls_are_in_one_place(one: str, other: str, *, is_found: bool) -> None:
    rules = look_at(f"cruise: {{control: '{one}'}}\npto: {{control: '{other}'}}\n").rules

    assert ("two-controls-in-one-place" in rules) == is_found


@pytest.mark.parametrize(
    ("engine", "high_voltage", "rules"),
    [
        ("not fitted", "not fitted", {"nothing-drives-the-truck"}),
        ("{fuel: diesel}", "not fitted", set()),
        ("not fitted", "{nominal_voltage: 650 V}", set()),
        ("{fuel: diesel}", "{nominal_voltage: 650 V}", set()),
    ],
)
def test_something_drives_the_truck(engine: str, high_voltage: str, rules: set[str]) -> None:
    assert look_at(f"engine: {engine}\nhigh_voltage: {high_voltage}\n").rules == rules


@pytest.mark.parametrize(
    ("fuel", "missing", "is_found"),
    [
        ("diesel", "fuel_tanks", True),
        ("gasoline", "fuel_tanks", True),
        ("cng", "gas_fuel", True),
        ("lng", "gas_fuel", True),
        ("propane", "gas_fuel", True),
        ("diesel", "gas_fuel", False),
        ("cng", "fuel_tanks", False),
    ],
)
def test_whatever_burns_has_a_tank(fuel: str, missing: str, *, is_found: bool) -> None:
    found = look_at(f"engine: {{fuel: {fuel}}}\n{missing}: not fitted\n").rules

    assert found == ({"fuel-without-its-tanks"} if is_found else set())


@pytest.mark.parametrize(
    "part",
    [
        "air_cleaner: {limit: 20 inH2O}",
        "def_system: {tank_capacity: 10 gal}",
        "aftertreatment: {outlet: stack}",
        "engine_brake: {levels: 2}",
        "idle_adjustment: {control: rocker}",
    ],
)
def test_a_truck_without_an_engine_has_none_of_its_parts(part: str) -> None:
    assert look_at(f"engine: not fitted\n{part}\n").rules == {"engine-part-without-engine"}
    assert look_at(f"{part}\n").rules == set()


@pytest.mark.parametrize(
    ("text", "rules"),
    [
        ("identity: {body: tractor}\nfifth_wheel: not fitted\n", {"coupling-disagrees"}),
        ("identity: {body: yard_tractor}\nfifth_wheel: not fitted\n", {"coupling-disagrees"}),
        ("identity: {body: dump}\nfifth_wheel: {slider: no}\n", {"coupling-disagrees"}),
        ("identity: {body: dump}\nfifth_wheel: not fitted\n", set()),
        ("identity: {body: tractor}\n", set()),
        (
            (
                "brakes:\n  air: {tank_count: 3}\nfifth_wheel: {slider: no}\n"
                "parking_brake: {trailer_supply: no}\n"
            ),
            {"coupling-disagrees"},
        ),
        (
            (
                "brakes:\n  air: {tank_count: 3}\nfifth_wheel: {slider: no}\n"
                "parking_brake: {trailer_supply: yes}\n"
            ),
            set(),
        ),
    ],
)
def test_body_fifth_wheel_and_trailer_air_go_together(text: str, rules: set[str]) -> None:
    assert look_at(text).rules == rules


@pytest.mark.parametrize(
    ("text", "rules"),
    [
        ("clutch: not fitted\ntransmission: {kind: manual}\n", {"control-of-thing-not-fitted"}),
        ("clutch: not fitted\ntransmission: {kind: automated_manual}\n", set()),
        (
            "cruise: not fitted\nengine_brake: {drops_out: [cruise]}\n",
            {"control-of-thing-not-fitted"},
        ),
        (
            "clutch: not fitted\nengine_brake: {drops_out: [clutch]}\n",
            {"control-of-thing-not-fitted"},
        ),
        (
            "brakes: {abs: no}\nengine_brake: {drops_out: [abs]}\n",
            {"control-of-thing-not-fitted"},
        ),
        ("brakes: {abs: yes}\nengine_brake: {drops_out: [abs, accelerator]}\n", set()),
        ("engine_brake: {drops_out: [clutch, cruise, abs]}\n", set()),
    ],
)
def test_a_named_control_is_fitted(text: str, rules: set[str]) -> None:
    assert look_at(text).rules == rules


@pytest.mark.parametrize("lamp", sorted(NEEDED_BY_LAMP))
def test_each_lamp_is_found_where_its_thing_is_not_fitted(lamp: str) -> None:
    thing = NEEDED_BY_LAMP[lamp]

    found = look_at(f"lamps: {{fitted: [{lamp}]}}\n{without(thing)}")

    assert "lamp-of-thing-not-fitted" in found.rules
    assert f"`{lamp}`" in found.what("lamp-of-thing-not-fitted")
    assert look_at(f"lamps: {{fitted: [{lamp}]}}\n").rules == set()


def without(thing: Thing) -> str:
    name = thing.section or thing.fact
    outer, _, inner = name.rpartition(".")
    value = "not fitted" if thing.section else ("fixed_hood" if thing.choice else "no")
    return f"{outer}: {{{inner}: {value}}}\n" if outer else f"{inner}: {value}\n"


def test_lamp_tables_name_lamps_sections_and_facts_that_there_are() -> None:
    assert set(NEEDED_BY_LAMP) <= set(LAMPS)
    assert {lamp for _, lamp in NEEDED_BY_THING} <= set(LAMPS)
    for thing in (*NEEDED_BY_LAMP.values(), *(thing for thing, _ in NEEDED_BY_THING)):
        if thing.section:
            assert thing.section in EQUIPMENT_SECTIONS
            continue
        kind = FACTS[thing.fact].field
        if thing.choice:
            assert isinstance(kind, ChoiceField)
            assert thing.choice in kind.choices
        else:
            assert isinstance(kind, FlagField)


def test_a_lamp_of_its_own_list_is_missed_only_where_the_thing_is_fitted() -> None:
    assert look_at("brakes:\n  air: {tank_count: 3}\nlamps: {fitted: [hazard]}\n").what(
        "thing-without-lamp"
    ) == ("the truck has air brakes, and `lamps.fitted` does not name `low_air`")
    assert look_at("brakes:\n  air: {tank_count: 3}\nlamps: {fitted: [low_air]}\n").rules == set()
    assert look_at("brakes:\n  air: not fitted\nlamps: {fitted: [hazard]}\n").rules == set()
    assert look_at("brakes:\n  air: {tank_count: 3}\n").rules == set()


@pytest.fixture(scope="module")
def library() -> list[ProcedureTemplate]:
    findings = Findings()
    found = load_library(open_project(PROFILES.parents[1]), findings)
    assert found is not None
    return list(found.values())


WAYS = list(product(("dipstick", "display", "sight_glass"), ("cold", "warm", "idling")))


@pytest.mark.parametrize(("how", "state"), WAYS)
def test_a_transmission_check_is_covered_if_a_procedure_of_the_library_applies(
    library: list[ProcedureTemplate], how: str, state: str
) -> None:
    text = f"transmission: {{kind: automatic, check: {how}, check_state: {state}}}\n"
    looked = look_at(text)
    applying = [
        template.id
        for template in library
        if template.id.startswith("automatic-transmission-fluid")
        and template.applies
        and evaluate(template.applies, KnownOf(looked.units["T-1"]))
    ]

    assert bool(applying) == ((how, state) in COVERED)
    assert (looked.rules == set()) == bool(applying)


@pytest.mark.parametrize(
    ("text", "is_found"),
    [
        ("transmission: {kind: manual, check: shop}\n", False),
        ("transmission: {kind: manual, check: dipstick, check_state: cold}\n", True),
        ("engine: not fitted\npower_steering: {check_state: hot}\n", True),
        ("engine: not fitted\npower_steering: {check_state: cold}\n", False),
        ("engine: {fuel: diesel}\npower_steering: {check_state: hot}\n", False),
    ],
)
def test_a_check_that_no_procedure_has_is_found(text: str, *, is_found: bool) -> None:
    found = look_at(text).rules

    assert ("check-state-without-procedure" in found) == is_found
