"""A fleet of four trucks, made by hand: two of one edition, one electric, one with hydraulic
brakes. Texts and values are invented; some hold the characters that HTML and JSON escape.
"""

import hashlib
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from guidegen.guide.model import (
    Block,
    Caution,
    Chapter,
    FactRef,
    Guide,
    Procedure,
    Step,
    Text,
    Timer,
    TimerLimit,
)
from guidegen.procedures.model import Signal, Words
from guidegen.procedures.timer_kinds import Bound, ReadingKind, Rig, TimerKind
from guidegen.quantity.convert import show_pair
from guidegen.quantity.model import Quantity, QuantityRange, Sense, System
from guidegen.site.model import FleetView
from guidegen.source import SourceFile, Span
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fields import AmountField
from guidegen.specs.fleet import Contact, Yard
from guidegen.specs.profile import FACTS
from guidegen.units.model import Fact, Layer, Presence, SectionState, StatedIn, WorkedOut
from guidegen.yaml_nodes import Listing, Scalar

SPAN = Span(SourceFile("specs/units/sample.yml", ""), 1, 1, 1, 2)

FLEET = FleetView(
    name="Bluff County Haulage",
    yards=(Yard("north", "North Yard", "555-0140"), Yard("river", "River Street", "")),
    contacts=(
        Contact("Road service", "", "555-0111"),
        Contact("Fleet office", "M. Okafor", "555-0100"),
    ),
)

_PLACEHOLDER = re.compile(r"\{([a-z_.]+)\}")


def text(id_: str, words: str) -> Text:
    pieces = _PLACEHOLDER.split(words)
    parts = [
        FactRef(piece) if position % 2 else Words(piece) for position, piece in enumerate(pieces)
    ]
    return Text(id_, tuple(part for part in parts if part != Words("")), SPAN)


def caution(id_: str, signal: Signal, guards: str, *texts: str) -> Caution:
    hazard, consequence, avoid = (
        text(f"{id_}.{kind}", words)
        for kind, words in zip(("hazard", "consequence", "avoid"), texts, strict=True)
    )
    return Caution(id_, signal, hazard, consequence, avoid, guards)


@dataclass(frozen=True, slots=True)
class Warn:
    """A caution before the next step."""

    signal: Signal
    hazard: str
    consequence: str
    avoid: str


def procedure(  # noqa: PLR0913 -- a procedure has this many parts
    id_: str,
    title: str,
    lines: Iterable[str | Warn],
    *,
    station: str = "cab",
    state: tuple[tuple[str, str], ...] = (("ground", "level"), ("parking_brake", "set")),
    expect: tuple[str, ...] = (),
    if_not: tuple[str, ...] = (),
    timers: Mapping[int, Timer] | None = None,
) -> Procedure:
    return Procedure(
        id=id_,
        title=text(f"{id_}.title", title),
        station=station,
        state=state,
        blocks=tuple(_blocks(id_, lines, timers or {})),
        expect=tuple(text(f"{id_}.expect.{n}", words) for n, words in enumerate(expect, 1)),
        if_not=tuple(text(f"{id_}.if_not.{n}", words) for n, words in enumerate(if_not, 1)),
        span=SPAN,
    )


def _blocks(id_: str, lines: Iterable[str | Warn], timers: Mapping[int, Timer]) -> Iterator[Block]:
    number = 1
    cautions = 0
    for line in lines:
        step = f"{id_}.steps.step-{number}"
        if isinstance(line, Warn):
            cautions += 1
            yield caution(
                f"{id_}.cautions.caution-{cautions}",
                line.signal,
                step,
                line.hazard,
                line.consequence,
                line.avoid,
            )
            continue
        yield Step(step, number, text(step, line), timers.get(number))
        number += 1


RISE = Timer(
    TimerKind.STOPWATCH,
    None,
    None,
    (TimerLimit(Bound.NO_MORE_THAN, "law.air_build_up_time", None),),
    SPAN,
)
FALL = Timer(
    TimerKind.COUNTDOWN,
    "law.air_loss_time",
    ReadingKind.PRESSURE_FALL,
    (
        TimerLimit(Bound.LESS_THAN, "law.air_static_loss_single", Rig.TRUCK_ALONE),
        TimerLimit(Bound.LESS_THAN, "law.air_static_loss_combination", Rig.WITH_TRAILER),
    ),
    SPAN,
)


def facts(stated: Mapping[str, str | list[str]]) -> dict[str, Fact]:
    return {name: fact(name, stated[name]) for name in FACTS if name in stated}


def fact(name: str, typed: str | list[str], layer: Layer = Layer.MODEL) -> Fact:
    field = FACTS[name].field
    node = (
        Scalar(typed, SPAN, is_plain=True)
        if isinstance(typed, str)
        else Listing(tuple(Scalar(each, SPAN, is_plain=True) for each in typed), SPAN)
    )
    value = field.read(node, name)
    source = "" if name.endswith("location") else "maker's handbook, p. 4"
    origin = StatedIn(Layer.PROFILE if name.startswith("law.") else layer, SPAN, source)
    if isinstance(value, Quantity | QuantityRange):
        sense = field.sense if isinstance(field, AmountField) else Sense.NOMINAL
        return Fact(FACTS[name], value, origin, show_pair(value, sense, System.US, System.METRIC))
    return Fact(FACTS[name], value, origin)


def guide(
    identity: Mapping[str, str],
    stated: Mapping[str, str | list[str]],
    chapters: tuple[Chapter, ...],
    not_fitted: frozenset[str] = frozenset(),
) -> Guide:
    named = {f"identity.{key}": value for key, value in identity.items()}
    known = facts({**stated, **named})
    if "block_heater.power" in known:
        current = replace(
            fact("block_heater.current", "12.5 A"),
            provenance=WorkedOut(
                "block_heater.power / block_heater.voltage",
                ("block_heater.power", "block_heater.voltage"),
                SPAN,
            ),
        )
        known = {
            n: {**known, current.name: current}[n] for n in FACTS if n in {*known, current.name}
        }
    sections = {
        name: SectionState(
            Presence.NOT_FITTED if name in not_fitted else Presence.NOT_ON_RECORD, SPAN
        )
        for name in EQUIPMENT_SECTIONS
    }
    sections |= {
        known_fact.field.section: SectionState(Presence.GIVEN, SPAN)
        for known_fact in known.values()
        if known_fact.field.section in EQUIPMENT_SECTIONS
    }
    shared = repr((sorted(stated.items()), chapters, sorted(not_fitted), sorted(identity)))
    edition = hashlib.sha256(shared.encode()).hexdigest()[:12]
    return Guide(identity["number"], known, sections, chapters, edition)


_WALK = procedure(
    "walk-around",
    "Walk around the truck",
    [
        Warn(
            Signal.WARNING,
            "The truck can roll while you are beside it.",
            "It could crush you.",
            "Set the parking brake and chock the wheels first.",
        ),
        "Look under the truck for leaks and at each tire for cuts & bulges.",
        "Check the steer tires with a gauge: {tires.steer.cold_pressure} cold.",
        "Check the drive tires with a gauge: {tires.drive.cold_pressure} cold.",
        "Compare the plate with {identity.plate} and the door with {identity.number}.",
    ],
    station="around",
    state=(("ground", "level"), ("parking_brake", "set"), ("engine", "off_cold")),
    expect=("No leaks, no cuts, and all lamps work.",),
    if_not=("Do not drive. Call the fleet office.",),
)
_OIL = procedure(
    "oil-check",
    "Check the engine oil",
    [
        Warn(
            Signal.CAUTION,
            "Parts near the dipstick stay hot.",
            "They can burn your hand.",
            "Wear gloves, and wait {engine.oil_check_wait} after you stop the engine.",
        ),
        "Pull the dipstick {engine.dipstick_location}, wipe it, push it in and pull it again.",
        Warn(
            Signal.NOTICE,
            "Too much oil foams.",
            "It damages the engine.",
            "Do not fill over the FULL mark.",
        ),
        "If the level is at ADD, put in {engine.oil_between_marks} of {engine.oil_grade}.",
    ],
    station="engine",
    state=(("ground", "level"), ("parking_brake", "set"), ("engine", "off_warm")),
    expect=("The level is between ADD and FULL.",),
    if_not=("Do not start the engine. Call the fleet office.", "Write it in the trip report."),
)
_BUILD_UP = procedure(
    "air-build-up",
    "Build up the air and check the governor",
    [
        "Start the engine and let it idle.",
        Warn(
            Signal.DANGER,
            "With low air the spring brakes come on by themselves.",
            "The truck will stop in traffic, and you will be struck.",
            "Do not move until both gauges read over {brakes.air.low_air_warning}.",
        ),
        "Watch both gauges rise. The low-air lamp goes out by {brakes.air.low_air_warning}.",
        "At {brakes.air.cut_out} the governor cuts out & the dryer purges <once>.",
    ],
    state=(("ground", "level"), ("parking_brake", "set"), ("engine", "idling")),
    expect=("The pressure stops at {brakes.air.cut_out}.",),
    if_not=("Do not drive. Call road service.",),
    timers={2: RISE},
)
_DRAIN = procedure(
    "drain-air-tanks",
    "Drain the air tanks",
    [
        "Stand clear of the drain and pull the {brakes.air.drain} {brakes.air.drain_location}.",
        "Keep each drain open until no more water comes.",
    ],
    station="left_side",
    state=(("engine", "off"),),
)
_SHUT_OFF = procedure(
    "high-voltage-shut-off",
    "Shut off the high voltage",
    [
        Warn(
            Signal.DANGER,
            "The orange cables carry {high_voltage.nominal_voltage}.",
            "Touching a bare part will kill you.",
            "Never touch orange cables, and keep others away.",
        ),
        "Work the {high_voltage.shutoff} {high_voltage.shutoff_location}.",
        "Wait {high_voltage.discharge_wait} before anyone comes near.",
    ],
    station="left_side",
    state=(("drive", "off"), ("key", "out"), ("charging", "unplugged")),
    if_not=("Keep away, call 911 and then road service.",),
)
_PEDAL = procedure(
    "brake-pedal-check",
    "Check the brake pedal",
    [
        "Pump the pedal three times, then hold it down for five seconds.",
        Warn(
            Signal.WARNING,
            "A pedal that sinks shows a leak.",
            "The brakes could fail and people could die.",
            "Do not drive a truck whose pedal sinks.",
        ),
        "See that the pedal does not move. The fluid in the reservoir is {brakes.hydraulic.fluid}.",
    ],
    state=(("wheels", "chocked"), ("engine", "off")),
)

_DIESEL: dict[str, str | list[str]] = {
    "identity.year": "2019",
    "identity.make": "Corvane",
    "identity.model_name": "HX-9",
    "identity.body": "sleeper_tractor",
    "identity.overall_height": "13 ft 6 in",
    "identity.gvwr": "54,000 lb",
    "engine.fuel": "diesel",
    "engine.oil_grade": "SAE 15W-40, API CK-4",
    "engine.oil_capacity": "44 qt",
    "engine.oil_between_marks": "4 qt",
    "engine.oil_check_wait": "15 min",
    "engine.dipstick_location": "on the left, behind the air cleaner",
    "engine.idle_speed": "650 rpm",
    "cooling.coolant": "extended-life, red",
    "cooling.antifreeze_share": "50 %",
    "fuel_tanks.count": "2",
    "fuel_tanks.capacity_each": "120 gal",
    "def_system.tank_capacity": "23 gal",
    "brakes.air.cut_in": "105 psi",
    "brakes.air.cut_out": "135 psi",
    "brakes.air.low_air_warning": "65 psi",
    "brakes.air.spring_apply": "20 to 45 psi",
    "brakes.air.drain": "pull_cords",
    "brakes.air.drain_location": "behind the left fuel tank",
    "brakes.air.air_dryer": "yes",
    "brakes.abs": "yes",
    "engine_brake.drops_out": ["accelerator", "clutch", "abs"],
    "tires.steer.cold_pressure": "110 psi",
    "tires.drive.cold_pressure": "100 psi",
    "block_heater.voltage": "120 V",
    "block_heater.power": "1,500 W",
    "block_heater.use_below": "-10 °F",
    "lamps.fitted": ["low_air", "parking_brake", "abs", "check_engine"],
    "law.name": "United States",
    "law.air_build_up_time": "45 s",
}
_DIESEL_CHAPTERS = (
    Chapter("before-the-day", (_WALK, _OIL)),
    Chapter("air-brakes", (_BUILD_UP, _DRAIN)),
)
_DIESEL_ABSENT = frozenset({"high_voltage", "brakes.hydraulic", "gas_fuel", "pto"})

T_17 = guide(
    {
        "number": "T-17",
        "vin": "7Z9CHX9S1KBC00017",
        "plate": "BLF 4417",
        "yard": "north-yard",
    },
    _DIESEL,
    _DIESEL_CHAPTERS,
    _DIESEL_ABSENT,
)
T_18 = guide(
    {"number": "T-18", "vin": "7Z9CHX9S3KBC00018", "plate": 'A&B "18" <x>', "yard": "river-street"},
    _DIESEL,
    _DIESEL_CHAPTERS,
    _DIESEL_ABSENT,
)
E_04 = guide(
    {"number": "E-04", "vin": "7Z9ELM26XRBC00004", "yard": "river-street"},
    {
        "identity.year": "2024",
        "identity.make": "Quillon",
        "identity.model_name": "Mule E",
        "identity.body": "yard_tractor",
        "identity.overall_height": "10 ft 2 in",
        "high_voltage.nominal_voltage": "650 V",
        "high_voltage.battery_energy": "160 kWh",
        "high_voltage.shutoff": "pull_handle",
        "high_voltage.shutoff_location": "behind the left step",
        "high_voltage.discharge_wait": "5 min",
        "high_voltage.lowest_charge": "40 %",
    },
    (Chapter("when-something-is-wrong", (_SHUT_OFF,)),),
    frozenset({"engine", "aftertreatment", "aftertreatment.parked_regeneration"}),
)
H_2 = guide(
    {"number": "H-2", "plate": "BLF 0002"},
    {
        "identity.year": "1998",
        "identity.make": "Harrowgate",
        "identity.body": "flatbed",
        "brakes.hydraulic.fluid": "DOT 5",
        "engine.fuel": "gasoline",
    },
    (Chapter("hydraulic-brakes", (_PEDAL,)),),
)
GUIDES = (T_17, T_18, E_04, H_2)


def in_yard(number: str) -> Guide:
    """Give a truck of the sample its yard's name, as resolving a unit does."""
    found = next(each for each in GUIDES if each.number == number)
    names = {"north-yard": "North Yard", "river-street": "River Street"}
    yard = found.facts.get("identity.yard")
    if yard is None:
        return found
    named = replace(yard, value=names[str(yard.value)])
    return replace(found, facts={**found.facts, yard.name: named})


TRUCKS = tuple(in_yard(each.number) for each in GUIDES)
