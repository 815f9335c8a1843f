"""From trucks and the library to what is missing.

Takes in units and procedure templates; gives out the gaps of each unit with their grades.
Refuses to guess what will be found: what hangs on an answer is said to hang on it.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.gaps.asks import Ask, TemplateAsks, asks_of, title_words
from guidegen.gaps.catalog import HOLDERS_OF_LIBRARY as LIBRARY
from guidegen.gaps.catalog import (
    PLACES,
    enclosing,
    is_of_truck,
    is_section,
    section_of,
    topic_of,
)
from guidegen.gaps.model import FleetGaps, Gap, Grade, LeftOut, Line, UnitGaps
from guidegen.gaps.outcome import Supposed
from guidegen.procedures.condition_model import Asks, Condition, Predicate
from guidegen.procedures.condition_value import leaves
from guidegen.procedures.model import ProcedureTemplate
from guidegen.specs.equipment import EQUIPMENT_FACTS, EQUIPMENT_SECTIONS
from guidegen.units.follows import FOLLOWS_FROM
from guidegen.units.model import Presence, Unit

_Found = dict[str, dict[str, None]]
"""Names with the procedures that ask for them, each once, in order."""


def find_gaps(
    units: Iterable[Unit],
    library: Mapping[str, ProcedureTemplate],
    *,
    not_read: Iterable[str] = (),
) -> FleetGaps:
    """Return what nobody has on record of *units*.

    Args:
        units: Those that could be resolved.
        library: Procedure templates by id.
        not_read: Numbers of units of which nothing can be said.
    """
    finder = Finder(library)
    return gather((finder.of(unit) for unit in units), library, not_read=not_read)


def gather(
    found: Iterable[UnitGaps],
    library: Mapping[str, ProcedureTemplate],
    *,
    not_read: Iterable[str] = (),
) -> FleetGaps:
    """Return the gaps of a fleet, from those of each truck.

    Args:
        found: Of each truck.
        library: Procedure templates by id.
        not_read: Numbers of units of which nothing can be said.
    """
    units = {each.number: each for each in found}
    return FleetGaps(
        MappingProxyType(units),
        MappingProxyType({id_: title_words(template) for id_, template in library.items()}),
        tuple(not_read),
        held_back=tuple(number for number, each in units.items() if each.is_held_back),
    )


class Finder:
    """The questions of a library, ready for many trucks."""

    def __init__(self, library: Mapping[str, ProcedureTemplate]) -> None:
        self._templates = tuple(asks_of(template) for template in library.values())
        self._compared = frozenset().union(*(each.compared for each in self._templates))
        self._known: dict[object, tuple[Gap, ...]] = {}

    def of(self, unit: Unit) -> UnitGaps:
        """Return the gaps of *unit*.

        Trucks of which the same is on record share the search; values count only where a
        condition compares them.
        """
        key = (
            frozenset((name, state.presence) for name, state in unit.sections.items()),
            frozenset(
                (name, fact.value if name in self._compared else None)
                for name, fact in unit.facts.items()
            ),
        )
        gaps = self._known.get(key)
        if gaps is None:
            gaps = self._known[key] = _Search(unit, self._templates).gaps()
        return UnitGaps.in_unit(unit, gaps)


@dataclass(frozen=True, slots=True)
class _Search:
    unit: Unit
    templates: tuple[TemplateAsks, ...]

    def gaps(self) -> tuple[Gap, ...]:
        missing = frozenset(self._missing())
        concerned = [each for each in self.templates if not each.names.isdisjoint(missing)]
        certain = self._asked(concerned, frozenset())
        needed = dict(certain)
        while True:
            asked = self._asked(concerned, frozenset(needed))
            follow = {name: by for name, by in asked.items() if name not in needed}
            if not follow:
                break
            needed |= follow
        left_out = self._left_out(concerned, missing)
        return tuple(self._written(certain, needed, left_out, missing))

    def _missing(self) -> Iterator[str]:
        """Yield every section that nobody has on record, and every fact that could be."""
        sections = self.unit.sections
        for name, state in sections.items():
            if state.presence is Presence.NOT_ON_RECORD:
                yield name
        for name in PLACES:
            if is_section(name) or name in self.unit.facts or name not in _FACTS:
                continue
            state_of = sections.get(section_of(name))
            if state_of is None or state_of.presence is not Presence.NOT_FITTED:
                yield name

    def _asked(self, concerned: Iterable[TemplateAsks], answered: frozenset[str]) -> _Found:
        """Return what can hold the guide back once *answered* is, with who asks for it."""
        supposed = Supposed(self.unit, answered)
        found: _Found = {}
        for template in concerned:
            for ask in template.asks:
                for name in _lacking(ask, supposed):
                    found.setdefault(name, {})[template.id] = None
        return found

    def _left_out(
        self, concerned: Iterable[TemplateAsks], missing: frozenset[str]
    ) -> dict[str, dict[LeftOut, None]]:
        now = Supposed(self.unit)
        # What the library does not state of a place is no gap in the fleet's record.
        then = Supposed(self.unit, frozenset(n for n in missing if topic_of(n) not in LIBRARY))
        found: dict[str, dict[LeftOut, None]] = {}
        for template in concerned:
            for ask in template.asks:
                if ask.is_told:
                    for name in _left_out_by(ask, now, then):
                        found.setdefault(name, {})[LeftOut(template.id, ask.part)] = None
        return found

    def _written(
        self,
        certain: _Found,
        needed: _Found,
        left_out: Mapping[str, dict[LeftOut, None]],
        missing: frozenset[str],
    ) -> Iterator[Gap]:
        heads: dict[str, set[str]] = {}
        for name in (*needed, *left_out):
            heads.setdefault(_head(name, needed), set()).add(name)
        for head in sorted({*heads, *_untold(missing, heads, self.unit)}, key=_place):
            names = sorted({head, *heads.get(head, ())}, key=_place)
            asked = [by for name in names for by in needed.get(name, ())]
            outs = [out for name in names for out in left_out.get(name, ())]
            lines = tuple(
                Line(name, name == head or name in certain)
                for name in names
                if name == head or name in needed
            )
            yield Gap(
                head,
                _grade(names, certain, needed, is_told=head in heads),
                lines,
                tuple(dict.fromkeys(asked)),
                tuple(dict.fromkeys(outs)),
            )


_FACTS = frozenset({*EQUIPMENT_FACTS, *(n for n in PLACES if topic_of(n) in LIBRARY)})


def _lacking(ask: Ask, supposed: Supposed) -> Iterator[str]:
    if not all(True in supposed.truths(each) for each in ask.under):
        return
    if any(supposed.truths(each) == {True} for each in ask.unless):
        return
    if not all(True in supposed.on_record(fact) for fact in ask.given):
        return
    if ask.when is not None:
        yield from supposed.blame(ask.when)
    if ask.when is None or True in supposed.truths(ask.when):
        for fact in ask.facts:
            yield from supposed.missing(fact)


def _left_out_by(ask: Ask, now: Supposed, then: Supposed) -> Iterator[str]:
    """Yield the names for want of which what *ask* is about is left out."""
    if any(now.truths(each) != {True} for each in ask.under):
        return
    for fact in ask.given:
        if now.on_record(fact) == {False} and True in then.on_record(fact):
            yield from now.missing(fact)
    if ask.when is None or now.truths(ask.when) != {False} or True not in then.truths(ask.when):
        return
    yield from _wanting(ask.when, now)


def _wanting(condition: Condition, now: Supposed) -> Iterator[str]:
    for leaf in leaves(condition):
        if isinstance(leaf, Asks) and leaf.predicate is Predicate.FITTED:
            yield from now.missing_sections(leaf.name)
        else:
            yield from now.missing(leaf.name if isinstance(leaf, Asks) else leaf.fact)


def _head(name: str, needed: Collection[str]) -> str:
    return next((each for each in enclosing(name) if each in needed), name)


def _grade(names: Iterable[str], certain: _Found, needed: _Found, *, is_told: bool) -> Grade:
    listed = list(names)
    if any(name in certain for name in listed):
        return Grade.HOLDS
    if any(name in needed for name in listed):
        return Grade.MAY_HOLD
    return Grade.LEAVES_OUT if is_told else Grade.VALUE_ONLY


def _untold(missing: frozenset[str], heads: Collection[str], unit: Unit) -> Iterator[str]:
    """Yield what only the data page lacks."""
    for name in missing:
        outer = enclosing(name)[:-1]
        sections = EQUIPMENT_SECTIONS.keys() & set(outer)
        is_inner = any(unit.sections[each].presence is Presence.NOT_ON_RECORD for each in sections)
        if is_of_truck(name) and name not in FOLLOWS_FROM and not is_inner and name not in heads:
            yield name


def _place(name: str) -> int:
    return PLACES[name]
