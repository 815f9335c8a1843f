"""What two guides say otherwise, read by the proof on its own.

Takes in two guides; gives out every thing, value, lamp and procedure that they do not say alike,
those that can hurt first. Refuses to ask the comparison that the pages are drawn from: each
guide is taken apart into plain statements, and those that are not alike are the differences.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from guidegen.differences.rank import (
    CHAPTER_STANDINGS,
    FACT_STANDINGS,
    LAMP_STANDINGS,
    SECTION_STANDINGS,
)
from guidegen.differences.standing import Rank, Reason, Standing
from guidegen.guide.model import STAMPED, Block, Caution, FactRef, Guide, Procedure, Text
from guidegen.guide.once import once_for_each
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fields import Value
from guidegen.specs.profile import COMES_WITH, FACTS
from guidegen.units.model import Presence

LAMPS = "lamps.fitted"
"""The fact that lists the lamps."""

Meaning = object
"""What a statement comes down to: equal if and only if two statements mean the same."""


@dataclass(frozen=True, slots=True)
class Said:
    """One guide, taken apart."""

    things: Mapping[str, Presence]
    values: Mapping[str, Meaning]
    lamps: frozenset[str] | None
    """None if they are not on record."""

    work: Mapping[tuple[str, str], Procedure]
    """By chapter and id, in the guide's order."""


class Differing(NamedTuple):
    """One difference."""

    kind: str
    """``thing``, ``value``, ``lamp`` or ``work``."""

    key: str
    """Dotted name, lamp, or id of the procedure: the given truck's if it has one."""

    standing: Standing
    known: Procedure | None = None
    given: Procedure | None = None
    chapter: str = ""


def take_apart(guide: Guide) -> Said:
    """Return everything that *guide* says of its truck but who it is."""
    values: dict[str, Meaning] = {}
    lamps: frozenset[str] | None = None
    for name, fact in guide.facts.items():
        if name == LAMPS:
            lamps = frozenset(fact.value if isinstance(fact.value, tuple) else ())
            values[name] = "on record"
        elif name not in STAMPED:
            values[name] = _meaning(fact.value)
    return Said(
        {name: state.presence for name, state in guide.sections.items()},
        values,
        lamps,
        {(chapter.id, each.id): each for chapter in guide.chapters for each in chapter.procedures},
    )


def differ(known: Guide, given: Guide) -> tuple[Differing, ...]:
    """Return how *given* differs from *known*, in the order in which a sheet tells it."""
    old, new = take_apart(known), take_apart(given)
    lamps = (old.lamps ^ new.lamps) if old.lamps is not None and new.lamps is not None else ()
    found = [
        *_things(old, new),
        *_values(old, new),
        *(Differing("lamp", e, LAMP_STANDINGS[e]) for e in LAMP_STANDINGS if e in lamps),
        *_work(_without(old.work, lamps), _without(new.work, lamps)),
    ]
    ranks, reasons = list(Rank), list(Reason)
    found.sort(key=lambda e: (ranks.index(e.standing.rank), reasons.index(e.standing.reason)))
    return tuple(found)


def carrier_of(fact: str) -> str:
    """Return the section of the truck without which it does not have *fact*."""
    return COMES_WITH.get(fact, FACTS[fact].section)


def procedure_of_lamp(lamp: str, guide: Guide) -> str:
    """Return the id of the procedure that says what *lamp* means, or empty text."""
    every = (each for chapter in guide.chapters for each in chapter.procedures)
    return next((each.id for each in every if each.lamp and each.lamp.id == lamp), "")


def _meaning(value: Value) -> Meaning:
    match value:
        case Quantity():
            return value.dimension, value.exact
        case QuantityRange():
            return value.dimension, value.low.exact, value.high.exact
        case tuple():
            return frozenset(value)
        case _:
            return value


def _things(old: Said, new: Said) -> Iterator[Differing]:
    for name in EQUIPMENT_SECTIONS:
        if _presence(old, name) is not _presence(new, name):
            yield Differing("thing", name, SECTION_STANDINGS[name])


def _presence(said: Said, section: str) -> Presence:
    return said.things.get(section, Presence.NOT_ON_RECORD)


def _values(old: Said, new: Said) -> Iterator[Differing]:
    for name in FACTS:
        if name in FACT_STANDINGS and old.values.get(name) != new.values.get(name):
            carrier = carrier_of(name)
            fitted = {_presence(said, carrier) is Presence.GIVEN for said in (old, new)}
            # What comes or goes with a thing is told with the thing.
            if len(fitted) == 1:
                yield Differing("value", name, FACT_STANDINGS[name])


_Work = Mapping[tuple[str, str], Procedure]


def _without(work: _Work, lamps: Collection[str]) -> _Work:
    return {key: e for key, e in work.items() if e.lamp is None or e.lamp.id not in lamps}


def _work(old: _Work, new: _Work) -> Iterator[Differing]:
    pairs = {**{key: key for key in old if key in new}, **_of_one_title(old, new)}
    places: dict[tuple[str, str], int] = {}
    for work in (old, new):
        for place, key in enumerate(work):
            places[key] = min(place, places.get(key, place))
    entries = list(pairs.items())
    paired = {key for pair in entries for key in pair}
    entries += [(key, key) for key in {**old, **new} if key not in paired]
    entries.sort(key=lambda pair: (min(places[pair[0]], places[pair[1]]), min(pair)))
    for before, after in entries:
        known, given = old.get(before), new.get(after)
        if known is given:  # editions share what is fitted alike
            continue
        if known is None or given is None or _reads(known) != _reads(given):
            one = given or known
            assert one is not None  # noqa: S101 -- every key is of one of the two
            standing = _standing(after[0], [each for each in (known, given) if each is not None])
            yield Differing("work", one.id, standing, known, given, after[0])


def _of_one_title(old: _Work, new: _Work) -> Mapping[tuple[str, str], tuple[str, str]]:
    """Pair procedures that only one truck has, where one title in a chapter names one on each."""
    gone = [key for key in old if key not in new]
    come = [key for key in new if key not in old]
    found = {}
    for key in gone:
        alike = [e for e in gone if _title(e, old) == _title(key, old)]
        candidates = [e for e in come if _title(e, new) == _title(key, old)]
        if len(alike) == len(candidates) == 1:
            found[key] = candidates[0]
    return found


def _title(key: tuple[str, str], work: _Work) -> Meaning:
    return key[0], work[key].title.parts


def _standing(chapter: str, procedures: Collection[Procedure]) -> Standing:
    ranks = [CHAPTER_STANDINGS[chapter].rank]
    for procedure in procedures:
        ranks += _ranks_in(procedure)
    return Standing(min(ranks, key=list(Rank).index), Reason.WORK)


@once_for_each
def _ranks_in(procedure: Procedure) -> tuple[Rank, ...]:
    """Return those of the values that *procedure* says."""
    parts = [part for text in texts_of(procedure) for part in text.parts]
    names = {part.name for part in parts if isinstance(part, FactRef)}
    return tuple(FACT_STANDINGS[name].rank for name in names if name in FACT_STANDINGS)


def texts_of(procedure: Procedure) -> Iterator[Text]:
    """Yield every text of *procedure*."""
    yield procedure.title
    for block in procedure.blocks:
        if isinstance(block, Caution):
            yield from (block.hazard, block.consequence, block.avoid)
        else:
            yield block.text
    yield from (*procedure.expect, *procedure.if_not)


@once_for_each
def _reads(procedure: Procedure) -> Meaning:
    """Return all that the given truck's driver would do otherwise; numbers of steps follow."""
    return (
        procedure.id,
        procedure.title.parts,
        procedure.station,
        procedure.state,
        tuple((block.id, block_reads(block)) for block in procedure.blocks),
        tuple((text.id, text.parts) for text in procedure.expect),
        tuple((text.id, text.parts) for text in procedure.if_not),
    )


def block_reads(block: Block) -> Meaning:
    """Return what a step or caution comes down to, without its id and number."""
    if isinstance(block, Caution):
        texts = (block.hazard.parts, block.consequence.parts, block.avoid.parts)
        return block.signal, block.guards, texts
    return block.text.parts
