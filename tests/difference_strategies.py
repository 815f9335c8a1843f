"""Guides for the property tests: few facts, things, lamps and procedures, so that pairs meet.

A sheet is also applied and mirrored here, as the laws of the comparison ask.
"""

import hashlib
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import assert_never

from hypothesis import strategies as st
from sample_fleet import SPAN, Warn, fact, procedure

from guidegen.differences.compare import holder_of
from guidegen.differences.model import (
    ControlChanged,
    Difference,
    LampGained,
    LampLost,
    OrderChanged,
    PartChange,
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
from guidegen.guide.model import STAMPED, Block, Caution, Chapter, Guide, Procedure, Step
from guidegen.procedures.model import Signal
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.profile import FACTS
from guidegen.units.model import Fact, Presence, SectionState

DOMAINS: Mapping[str, tuple[str | tuple[str, ...], ...]] = {
    "identity.overall_height": ("13 ft 6 in", "4.1148 m", "12 ft 11 in"),
    "engine.oil_capacity": ("38 qt", "38.0 qt", "40 qt"),
    "engine.oil_grade": ("SAE 15W-40", "SAE 5W-30"),
    "brakes.air.cut_out": ("130 psi", "125 psi"),
    "brakes.air.spring_apply": ("20 to 45 psi", "20 to 40 psi"),
    "brakes.air.tank_count": ("3", "4"),
    "brakes.hydraulic.fluid": ("DOT 3", "DOT 4"),
    "brakes.abs": ("yes", "no"),
    "parking_brake.control": ("push_pull_knob", "electric_switch"),
    "parking_brake.location": ("on the dash", "at the seat"),
    "engine_brake.drops_out": (("clutch", "abs"), ("abs", "clutch"), ("clutch",)),
    "pto.control": ("switch on the dash", "lever"),
    "lamps.fitted": (("low_air", "abs"), ("abs", "low_air"), ("abs", "high_beam"), ("pto",)),
    "def_system.tank_capacity": ("20 gal", "22 gal"),
    "substance.def_freezing_point": ("12 °F",),
    "law.name": ("United States", "Ontario"),
}
"""Some values of a fact mean the same."""

SECTIONS = tuple(dict.fromkeys(map(holder_of, DOMAINS)))

_TITLES = ("Look around", "Check it", "Check {parking_brake.control}")
_LINES = (
    "Start the engine.",
    Warn(Signal.DANGER, "The truck can roll.", "You will be crushed.", "Chock the wheels."),
    "Watch the gauge rise to {brakes.air.cut_out}.",
    "Look up: {identity.overall_height}.",
)


@st.composite
def procedures(draw: st.DrawFn, id_: str, known: Collection[str]) -> Procedure:
    """A procedure whose texts show no fact but those of *known*."""
    made = procedure(
        id_,
        draw(st.sampled_from([title for title in _TITLES if _shows_only(title, known)])),
        [line for line in _LINES if isinstance(line, Warn) or _shows_only(line, known)],
        station=draw(st.sampled_from(("cab", "front"))),
        state=draw(st.sampled_from(((), (("engine", "off"),)))),
        expect=draw(st.sampled_from(((), ("All is well.",), ("All is right.",)))),
        if_not=draw(st.sampled_from(((), ("Do not drive.",)))),
    )
    steps = [block for block in made.blocks if isinstance(block, Step)]
    kept = draw(st.lists(st.sampled_from(steps), unique=True, min_size=1))
    return replace(made, blocks=tuple(_with_cautions(kept, made.blocks)))


def _with_cautions(steps: Iterable[Step], blocks: Iterable[Block]) -> Iterator[Block]:
    """Yield *steps*, counted anew, each after the cautions of *blocks* that guard it."""
    for number, step in enumerate(steps, start=1):
        yield from (e for e in blocks if isinstance(e, Caution) and e.guards == step.id)
        yield replace(step, number=number)


def _shows_only(words: str, known: Collection[str]) -> bool:
    return set(re.findall(r"\{([a-z_.]+)\}", words)) <= set(known)


@st.composite
def chapters(draw: st.DrawFn, known: Collection[str]) -> tuple[Chapter, ...]:
    found = []
    for chapter, ids in (
        ("before-the-day", ("walk", "oil", "tires")),
        ("air-brakes", ("build-up", "leaks")),
    ):
        pool = [draw(procedures(id_, known)) for id_ in ids if draw(st.booleans())]
        if pool:
            found.append(Chapter(chapter, tuple(draw(st.permutations(pool)))))
    return tuple(found)


@st.composite
def guides(draw: st.DrawFn, number: str) -> Guide:
    presences = {name: draw(st.sampled_from(list(Presence))) for name in SECTIONS}
    facts: dict[str, Fact] = {"identity.number": fact("identity.number", number)}
    for name, values in DOMAINS.items():
        presence = Presence.GIVEN if name == "law.name" else presences[holder_of(name)]
        value = draw(st.sampled_from((None, *values)))
        if presence is Presence.GIVEN and value is not None:
            facts[name] = fact(name, list(value) if isinstance(value, tuple) else value)
    sections = {
        name: SectionState(presences.get(name, Presence.NOT_ON_RECORD), SPAN)
        for name in EQUIPMENT_SECTIONS
    }
    ordered = {name: facts[name] for name in FACTS if name in facts}
    edition = hashlib.sha256(number.encode()).hexdigest()[:12]
    return Guide(number, ordered, sections, draw(chapters(ordered)), edition)


def applied(differences: tuple[Difference, ...], facts: Mapping[str, Fact]) -> dict[str, Fact]:
    """Return *facts* as they are on the truck that a driver is given, by the sheet alone."""
    after = {name: each for name, each in facts.items() if name not in STAMPED}
    lamps = set(_lamps(after))
    for difference in differences:
        match difference:
            case LampGained(lamp=lamp):
                lamps.add(lamp)
            case LampLost(lamp=lamp):
                lamps.remove(lamp)
            case _:
                after = _applied(difference, after)
    if "lamps.fitted" in after and "lamps.fitted" in facts:
        after["lamps.fitted"] = fact("lamps.fitted", sorted(lamps))
    return after


def _applied(difference: Difference, facts: dict[str, Fact]) -> dict[str, Fact]:
    match difference:
        case ValueChanged(given=given) | ControlChanged(given=given) | ValueGained(given=given):
            return {**facts, given.name: given}
        case ValueLost(known=lost):
            return {name: each for name, each in facts.items() if name != lost.name}
        case ThingGained(facts=gained):
            return {**facts, **{each.name: each for each in gained}}
        case ThingLost(section=section):
            return {name: each for name, each in facts.items() if holder_of(name) != section}
        case _:
            return facts


def _lamps(facts: Mapping[str, Fact]) -> tuple[str, ...]:
    value = facts["lamps.fitted"].value if "lamps.fitted" in facts else ()
    assert isinstance(value, tuple)
    return value


def mirrored(difference: Difference) -> Difference:  # noqa: C901, PLR0911, PLR0912 -- one case a kind
    """Return *difference* as it is for a driver who goes the other way."""
    standing = difference.standing
    match difference:
        case ValueChanged(known=known, given=given):
            return ValueChanged(given, known, standing)
        case ControlChanged(known=known, given=given):
            return ControlChanged(given, known, standing)
        case ValueGained(given=given):
            return ValueLost(given, standing)
        case ValueLost(known=known):
            return ValueGained(known, standing)
        case ThingGained(section=section, known=presence, facts=facts):
            return ThingLost(section, presence, facts, standing)
        case ThingLost(section=section, given=presence, facts=facts):
            return ThingGained(section, presence, facts, standing)
        case ThingInDoubt(section=section, known=before, given=after):
            return ThingInDoubt(section, after, before, standing)
        case LampGained(lamp=lamp, procedure=about):
            return LampLost(lamp, about, standing)
        case LampLost(lamp=lamp, procedure=about):
            return LampGained(lamp, about, standing)
        case ProcedureGained(procedure=work, chapter=chapter):
            return ProcedureLost(work, chapter, standing)
        case ProcedureLost(procedure=work, chapter=chapter):
            return ProcedureGained(work, chapter, standing)
        case ProcedureReplaced(known=old, given=new, chapter=chapter):
            return ProcedureReplaced(new, old, chapter, standing)
        case ProcedureChanged(known=old, given=new, chapter=chapter, changes=changes):
            return ProcedureChanged(new, old, chapter, _mirrored_parts(changes), standing)
        case _:
            assert_never(difference)


def _mirrored_parts(changes: tuple[PartChange, ...]) -> tuple[PartChange, ...]:
    stance = [StanceChanged(c.given, c.known) for c in changes if isinstance(c, StanceChanged)]
    order = [c for c in changes if isinstance(c, OrderChanged)]
    gained = [PartGained(c.part) for c in changes if isinstance(c, PartLost)]
    lost = [PartLost(c.part) for c in changes if isinstance(c, PartGained)]
    reworded = [PartReworded(c.given, c.known) for c in changes if isinstance(c, PartReworded)]
    return (*stance, *order, *gained, *lost, *reworded)
