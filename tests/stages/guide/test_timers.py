"""A timer is held to the limits that are on record for the truck's place, and to no others."""

from decimal import Decimal
from pathlib import Path

import pytest
from one_unit import look_at

from guidegen.finding import Findings
from guidegen.guide.fingerprint import fingerprint
from guidegen.guide.fit import fit_procedure
from guidegen.guide.model import Chapter, Procedure, Step, Timer
from guidegen.procedures.read import read_procedure
from guidegen.procedures.timer_kinds import TimerKind
from guidegen.quantity.model import Quantity
from guidegen.units.model import Unit

LIBRARY = Path(__file__).resolve().parents[3] / "site_templates" / "procedures"
TRUCK = """\
engine: {fuel: diesel}
high_voltage: not fitted
parking_brake: {control: push_pull_knob, trailer_supply: "yes", location: on the dash}
brakes:
  air: {cut_in: 100 psi, cut_out: 130 psi, low_air_warning: 60 psi, air_dryer: "yes"}
"""
TRACTOR = TRUCK + "fifth_wheel: {slider: 'no'}\n"
HYDRAULIC = """\
engine: {fuel: diesel}
brakes: {air: not fitted, hydraulic: {fluid: DOT 3, booster: vacuum}}
lamps: {fitted: [brake_system]}
"""
ALONE = TRUCK + "fifth_wheel: not fitted\n"


def fitted(name: str, unit: Unit) -> Procedure:
    findings = Findings()
    template = read_procedure(f"{name}.yml", (LIBRARY / f"{name}.yml").read_bytes(), findings)
    assert template is not None
    procedure = fit_procedure(template, unit, findings)
    assert [finding.what for finding in findings] == []
    assert procedure is not None
    return procedure


def truck(text: str, jurisdiction: str = "us") -> Unit:
    looked = look_at(text, jurisdiction)
    assert "T-1" in looked.units, [finding.what for finding in looked.findings]
    return looked.units["T-1"]


def timers(name: str, unit: Unit) -> dict[str, Timer]:
    steps = [block for block in fitted(name, unit).blocks if isinstance(block, Step)]
    return {step.id.rpartition(".")[2]: step.timer for step in steps if step.timer}


def limits(timer: Timer, unit: Unit) -> dict[str, tuple[Decimal, str]]:
    found = {}
    for limit in timer.limits:
        value = unit.facts[limit.fact].value
        assert isinstance(value, Quantity)
        found[limit.key] = (value.amount, value.measure.symbol)
    return found


@pytest.mark.parametrize(
    ("jurisdiction", "time"),
    [
        # CDL manual section 5.3, dual air system (reference A2, standing V2).
        ("us", (Decimal(45), "s")),
        # Ontario Air Brake Handbook (reference A13, standing V).
        ("ontario", (Decimal(2), "min")),
        # British Columbia commercial driver manual, page 218 (reference A15, standing V).
        ("british-columbia", (Decimal(3), "min")),
    ],
)
def test_the_build_up_is_held_to_the_time_that_is_published_for_the_place(
    jurisdiction: str, time: tuple[Decimal, str]
) -> None:
    unit = truck(TRACTOR, jurisdiction)
    timer = timers("air-build-up", unit)["time"]

    assert timer.kind is TimerKind.STOPWATCH
    assert limits(timer, unit) == {"no_more_than": time}


def test_losses_are_held_to_what_is_published_for_truck_alone_and_with_a_trailer() -> None:
    unit = truck(TRACTOR)
    found = timers("air-leak-check", unit)

    # CDL manual section 5.3: less than 2 and 3 psi a minute released (reference A8, standing V2),
    # no more than 3 and 4 psi a minute applied (reference A9, V2 for this text).
    assert limits(found["static"], unit) == {
        "less_than.truck_alone": (Decimal(2), "psi"),
        "less_than.with_trailer": (Decimal(3), "psi"),
    }
    assert limits(found["applied"], unit) == {
        "no_more_than.truck_alone": (Decimal(3), "psi"),
        "no_more_than.with_trailer": (Decimal(4), "psi"),
    }
    times = [unit.facts[str(timer.time)].value for timer in found.values()]
    assert [(e.amount, e.measure.symbol) for e in times if isinstance(e, Quantity)] == [
        (Decimal(1), "min"),
        (Decimal(1), "min"),
    ]


def test_applied_losses_of_ontario_are_those_of_its_handbook_and_others_are_only_measured() -> None:
    unit = truck(TRACTOR, "ontario")
    found = timers("air-leak-check", unit)

    # Ontario Trucks Handbook: 21 kPa (3 psi) and 28 kPa (4 psi) (reference A9, standing V).
    assert limits(found["applied"], unit) == {
        "no_more_than.truck_alone": (Decimal(3), "psi"),
        "no_more_than.with_trailer": (Decimal(4), "psi"),
    }
    assert found["static"].limits == ()
    assert found["static"].only_measures


def test_a_truck_that_pulls_nothing_has_no_limit_for_a_trailer() -> None:
    found = timers("air-leak-check", truck(ALONE))

    assert [limit.key for limit in found["static"].limits] == ["less_than.truck_alone"]


def test_where_no_time_is_on_record_a_countdown_measures_and_judges_nothing() -> None:
    found = timers("air-leak-check", truck(TRACTOR, "eu"))

    assert {timer.kind for timer in found.values()} == {TimerKind.STOPWATCH}
    assert all(timer.only_measures and timer.time is None for timer in found.values())


def test_a_countdown_without_a_time_and_nothing_to_read_is_left_out() -> None:
    check = "hydraulic-brake-check"

    assert set(timers(check, truck(HYDRAULIC))) == {"hold"}
    assert timers(check, truck(HYDRAULIC, "eu")) == {}


def test_the_pedal_is_held_for_as_long_as_its_step_says() -> None:
    unit = truck(HYDRAULIC)
    step = next(e for e in fitted("hydraulic-brake-check", unit).blocks if e.id.endswith("hold"))

    assert isinstance(step, Step)
    assert "for five seconds" in "".join(getattr(part, "text", "") for part in step.text.parts)
    held = unit.facts["law.hydraulic_pedal_hold"].value
    # CDL manual sections 11 and 13: hold firm for 5 s (reference H7, standing V2).
    assert isinstance(held, Quantity)
    assert (held.amount, held.measure.symbol) == (Decimal(5), "s")


def test_guides_whose_timers_differ_are_no_one_edition() -> None:
    unit = truck(TRACTOR)
    whole = fitted("air-build-up", unit)
    bare = Procedure(
        **{
            **{name: getattr(whole, name) for name in whole.__slots__},
            "blocks": tuple(
                Step(e.id, e.number, e.text) if isinstance(e, Step) else e for e in whole.blocks
            ),
        }
    )
    prints = {
        fingerprint(unit.facts, unit.sections, (Chapter("air-brakes", (each,)),))
        for each in (whole, bare)
    }

    assert len(prints) == 2
