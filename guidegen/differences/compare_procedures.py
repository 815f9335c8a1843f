"""What is other about the work on one of two trucks.

Takes in the procedures of two guides; gives out those that only one of them has, and those that
both have with what was added, removed or reworded. Refuses to call two texts alike that differ
in a word; that a value in them differs is told once, beside the value. The color of a lamp and
what it asks for are not compared: one library says both for every truck.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import NamedTuple, TypeVar

from guidegen.differences.model import (
    Line,
    OrderChanged,
    Part,
    PartChange,
    PartGained,
    PartLost,
    PartReworded,
    ProcedureChanged,
    ProcedureGained,
    ProcedureLost,
    ProcedureReplaced,
    StanceChanged,
)
from guidegen.differences.rank import CHAPTER_STANDINGS, FACT_STANDINGS
from guidegen.differences.standing import Reason, Standing
from guidegen.guide.model import Caution, Chapter, FactRef, Guide, Procedure, Step, Text

K = TypeVar("K")

ProcedureDifference = ProcedureGained | ProcedureLost | ProcedureChanged | ProcedureReplaced


class _Place(NamedTuple):
    """A procedure by its chapter and id; in another chapter it is other work."""

    chapter: str
    id: str


_Placed = Mapping[_Place, Procedure]


def compare_procedures(
    known: Guide, given: Guide, lamps: Collection[str]
) -> Iterator[ProcedureDifference]:
    """Yield what is other about the procedures of *given*, in the order of both guides.

    Args:
        known: The guide of the truck that the driver knows.
        given: The guide of the truck that the driver is given.
        lamps: Those that only one truck has; what such a lamp means is told with the lamp.
    """
    before, after = _placed(known.chapters, lamps), _placed(given.chapters, lamps)
    replaced = _replaced(before, after)
    order = _order(before, after)
    pairs = [(place, place) for place in before if place in after] + list(replaced.items())
    alone = (set(before) ^ set(after)) - set(replaced) - set(replaced.values())
    entries = [(min(order[old], order[new]), (old, new)) for old, new in pairs]
    entries += [(order[place], (place, place)) for place in alone]
    for _, (old, new) in sorted(entries, key=lambda entry: (entry[0], min(entry[1]))):
        yield from _compare_one(before.get(old), after.get(new), new.chapter)


def _compare_one(
    old: Procedure | None, new: Procedure | None, chapter: str
) -> Iterator[ProcedureDifference]:
    standing = _standing(chapter, *(each for each in (old, new) if each is not None))
    if old is None and new is not None:
        yield ProcedureGained(new, chapter, standing)
    elif new is None and old is not None:
        yield ProcedureLost(old, chapter, standing)
    elif old is not None and new is not None:
        changes = tuple(_changes(old, new)) if old.id == new.id else ()
        if old.id != new.id:
            yield ProcedureReplaced(old, new, chapter, standing)
        elif changes:
            yield ProcedureChanged(old, new, chapter, changes, standing)


def _placed(chapters: Iterable[Chapter], lamps: Collection[str]) -> _Placed:
    return {
        _Place(chapter.id, each.id): each
        for chapter in chapters
        for each in chapter.procedures
        if each.lamp is None or each.lamp.id not in lamps
    }


def _order(before: Iterable[K], after: Iterable[K]) -> Mapping[K, int]:
    """Return of each its earlier place of the two: the same whichever comes first."""
    places: dict[K, int] = {}
    for keys in (before, after):
        for place, key in enumerate(keys):
            places[key] = min(place, places.get(key, place))
    return places


def _replaced(before: _Placed, after: _Placed) -> Mapping[_Place, _Place]:
    """Return, for procedures that are gone, the new one of the same title in the same chapter.

    Titles that several procedures of one truck share replace nothing: which is which is unknown.
    """
    gone, new = _by_title(before, after), _by_title(after, before)
    return {
        places[0]: new[title][0]
        for title, places in gone.items()
        if len(places) == 1 and len(new.get(title, ())) == 1
    }


def _by_title(placed: _Placed, others: _Placed) -> Mapping[tuple[object, ...], list[_Place]]:
    titles: dict[tuple[object, ...], list[_Place]] = {}
    for place, procedure in placed.items():
        if place not in others:
            titles.setdefault((place.chapter, procedure.title.parts), []).append(place)
    return titles


def _standing(chapter: str, *procedures: Procedure) -> Standing:
    """Return that of the gravest thing that the work deals with, or of its chapter."""
    texts = [text for each in procedures for text in _texts(each)]
    names = {part.name for text in texts for part in text.parts if isinstance(part, FactRef)}
    ranks = [CHAPTER_STANDINGS[chapter].rank]
    ranks += [FACT_STANDINGS[name].rank for name in names if name in FACT_STANDINGS]
    return min((Standing(rank, Reason.WORK) for rank in ranks), key=lambda each: each.order)


def _texts(procedure: Procedure) -> Iterator[Text]:
    for part in parts_of(procedure):
        match part:
            case Caution():
                yield from (part.hazard, part.consequence, part.avoid)
            case Step() | Line():
                yield part.text


def parts_of(procedure: Procedure) -> Iterator[Part]:
    """Yield everything that is said in *procedure*, in its order."""
    yield Line("title", procedure.title)
    yield from procedure.blocks
    meaning = "expect" if procedure.lamp is None else "meaning"
    yield from (Line(meaning, text) for text in procedure.expect)
    yield from (Line("if_not", text) for text in procedure.if_not)


def _changes(known: Procedure, given: Procedure) -> Iterator[PartChange]:
    before = {part.id: part for part in parts_of(known)}
    after = {part.id: part for part in parts_of(given)}
    if (known.station, known.state) != (given.station, given.state):
        yield StanceChanged(known, given)
    shared = [id_ for id_ in before if id_ in after]
    if shared != [id_ for id_ in after if id_ in before]:
        yield OrderChanged()
    yield from (PartGained(part) for id_, part in after.items() if id_ not in before)
    yield from (PartLost(part) for id_, part in before.items() if id_ not in after)
    order = _order(before, after)
    for id_ in sorted(shared, key=lambda each: (order[each], each)):
        if _said(before[id_]) != _said(after[id_]):
            yield PartReworded(before[id_], after[id_])


def _said(part: Part) -> tuple[object, ...]:
    """Return all that a driver reads of *part* but its number, which follows from the others."""
    match part:
        case Step():
            return ("step", part.text.parts)
        case Line():
            return (part.role, part.text.parts)
        case Caution():
            texts = (part.hazard.parts, part.consequence.parts, part.avoid.parts)
            return ("caution", part.signal, part.guards, *texts)
