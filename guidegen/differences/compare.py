"""From two guides to what differs between their trucks.

Takes in the guide of the truck that a driver knows and of the one that the driver is given;
gives out the differences, those that can hurt first. Refuses to call values different that
measure the same, and to weigh who a truck is: number, VIN, plate and yard always differ.
"""

from collections.abc import Iterator, Mapping

from guidegen.differences.compare_procedures import compare_procedures
from guidegen.differences.model import (
    ControlChanged,
    Difference,
    DifferenceSheet,
    LampGained,
    LampLost,
    ThingGained,
    ThingInDoubt,
    ThingLost,
    ValueChanged,
    ValueGained,
    ValueLost,
)
from guidegen.differences.rank import CONTROLS, FACT_STANDINGS, LAMP_STANDINGS, SECTION_STANDINGS
from guidegen.differences.standing import Standing
from guidegen.guide.model import STAMPED, Guide, Procedure
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fields import Value
from guidegen.specs.profile import COMES_WITH, FACTS
from guidegen.units.model import Fact, Presence

LAMPS_FACT = "lamps.fitted"
"""The one fact that is told lamp by lamp."""

Facts = Mapping[str, Fact]


def compare_guides(known: Guide, given: Guide) -> DifferenceSheet:
    """Return what changes for a driver who knows the truck of *known* and is given the other.

    Things come first, then values, lamps and work, each in the order of its catalog; then all
    are sorted by standing. ``compare_guides(a, b)`` and ``compare_guides(b, a)`` mirror.
    """
    lamps = tuple(_lamps(known, given))
    found: list[Difference] = [
        *_things(known, given),
        *_values(known, given),
        *lamps,
        *compare_procedures(known, given, {each.lamp for each in lamps}),
    ]
    found.sort(key=lambda difference: difference.standing.order)
    return DifferenceSheet(known.number, given.number, tuple(found))


def say_the_same(one: Value, other: Value) -> bool:
    """Whether two values of one fact mean the same: by what they measure, lists in any order."""
    match one, other:
        case Quantity(), Quantity():
            return one.same_as(other)
        case QuantityRange(), QuantityRange():
            return one.low.same_as(other.low) and one.high.same_as(other.high)
        case tuple(), tuple():
            return set(one) == set(other)
        case _:
            return one == other


def holder_of(fact: str) -> str:
    """Return the name of the section with which *fact* comes and goes.

    What the library knows of a fluid comes with the thing that carries it, and a limit of the law
    with the thing that it is about.
    """
    return COMES_WITH.get(fact, FACTS[fact].section)


def _presence(guide: Guide, section: str) -> Presence:
    state = guide.sections.get(section)
    return Presence.NOT_ON_RECORD if state is None else state.presence


def _things(known: Guide, given: Guide) -> Iterator[Difference]:
    for section in EQUIPMENT_SECTIONS:
        before, after = _presence(known, section), _presence(given, section)
        standing = SECTION_STANDINGS[section]
        if before is after:
            continue
        if after is Presence.GIVEN:
            yield ThingGained(section, before, _facts_of(given, section), standing)
        elif before is Presence.GIVEN:
            yield ThingLost(section, after, _facts_of(known, section), standing)
        else:
            yield ThingInDoubt(section, before, after, standing)


def _facts_of(guide: Guide, section: str) -> tuple[Fact, ...]:
    return tuple(
        fact
        for name, fact in guide.facts.items()
        if holder_of(name) == section and name not in STAMPED
    )


def _values(known: Guide, given: Guide) -> Iterator[Difference]:
    for name in FACTS:
        if name in STAMPED or _comes_or_goes(known, given, holder_of(name)):
            continue
        before, after = known.facts.get(name), given.facts.get(name)
        standing = FACT_STANDINGS[name]
        match before, after:
            case None, Fact():
                yield ValueGained(after, standing)
            case Fact(), None:
                yield ValueLost(before, standing)
            case Fact(), Fact() if name != LAMPS_FACT:
                yield from _changed(before, after, standing)


def _changed(known: Fact, given: Fact, standing: Standing) -> Iterator[Difference]:
    if not say_the_same(known.value, given.value):
        changed = ControlChanged if known.name in CONTROLS else ValueChanged
        yield changed(known, given, standing)


def _comes_or_goes(known: Guide, given: Guide, section: str) -> bool:
    """Whether the thing itself is gained or lost: its values are then told with it."""
    fitted = [_presence(guide, section) is Presence.GIVEN for guide in (known, given)]
    return section in EQUIPMENT_SECTIONS and fitted[0] is not fitted[1]


def _lamps(known: Guide, given: Guide) -> Iterator[LampGained | LampLost]:
    if LAMPS_FACT not in known.facts or LAMPS_FACT not in given.facts:
        return
    before, after = known.facts[LAMPS_FACT].value, given.facts[LAMPS_FACT].value
    assert isinstance(before, tuple)  # noqa: S101 -- the field reads a list
    assert isinstance(after, tuple)  # noqa: S101 -- ditto
    for lamp, standing in LAMP_STANDINGS.items():
        if lamp in after and lamp not in before:
            yield LampGained(lamp, _about(lamp, given), standing)
        elif lamp in before and lamp not in after:
            yield LampLost(lamp, _about(lamp, known), standing)


def _about(lamp: str, guide: Guide) -> Procedure | None:
    procedures = (each for chapter in guide.chapters for each in chapter.procedures)
    return next((each for each in procedures if each.lamp and each.lamp.id == lamp), None)
