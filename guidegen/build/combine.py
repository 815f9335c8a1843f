"""From loaded groups to the units, guides and rounds of a fleet.

Takes in groups of units that state the same, with what came of the first of each; gives out all
units, guides and rounds, and every finding as if each unit had been loaded by itself.
Refuses to spread a finding by guessing: where the first of a group has one, the others are looked
at one by one.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from guidegen.build.edition_shelf import EditionShelf, LazyRounds
from guidegen.build.known_edition import KnownEdition
from guidegen.build.load_group import FleetBase, LoadedGroup, UnitGroup
from guidegen.build.unit_guides import LazyGuides, LazyUnits
from guidegen.finding import Finding, Findings
from guidegen.guide.assemble import Assembly
from guidegen.guide.model import Guide
from guidegen.plausibility.check import Doubts, doubts_of, hold_back, tell_doubts
from guidegen.plausibility.rulebook import RULEBOOK
from guidegen.round.fleet_rounds import Planned, plan_edition, tell_contradictions
from guidegen.round.model import Round
from guidegen.specs.read_units import UnitRecord
from guidegen.units.identity import has_yard_of, identity_of
from guidegen.units.model import Unit
from guidegen.units.resolve import resolve_unit


@dataclass(frozen=True, slots=True)
class Combined:
    """All units of a fleet."""

    units: LazyUnits
    """Those that could be resolved and can be believed."""

    guides: LazyGuides
    """Those that nothing holds back."""

    rounds: Mapping[str, Round]
    """By edition."""

    quiet: frozenset[str]
    """Numbers of units of which nothing at all was found."""


@dataclass(slots=True)
class _Looked:
    """What came of one unit, by whichever way."""

    record: UnitRecord
    unit: Unit | None
    """None if it was taken to be as the first of its group, and nobody has asked."""

    guide: Guide | None
    unresolved: tuple[Finding, ...] = ()
    doubts: Doubts = ()
    unfitted: tuple[Finding, ...] = ()
    is_resolved: bool = True

    @property
    def is_quiet(self) -> bool:
        """Whether nothing was found."""
        return not (self.unresolved or self.doubts or self.unfitted)


@dataclass(frozen=True, slots=True)
class _Combining:
    base: FleetBase
    assembly: Assembly
    looked: dict[str, _Looked] = field(default_factory=dict)
    planned: dict[str, Planned] = field(default_factory=dict)
    """By edition."""

    def take(self, group: UnitGroup, loaded: LoadedGroup) -> None:
        """Look at every unit of *group*."""
        first = group.first
        self.looked[first.number] = _Looked(
            first,
            loaded.unit,
            loaded.guide,
            loaded.unresolved,
            loaded.doubts,
            loaded.unfitted,
            is_resolved=loaded.unit is not None,
        )
        if loaded.guide is not None and loaded.planned is not None:
            self.plan(loaded.guide, loaded.planned)
        for record in group.records[1:]:
            is_like = loaded.speaks_for_all and self.is_like(loaded, record)
            own = _Looked(record, None, loaded.guide) if is_like else self.look(record)
            self.looked[record.number] = own

    def plan(self, guide: Guide, planned: Planned) -> None:
        """Keep the round of an edition that was planned of the first of its units."""
        known = self.planned.get(guide.edition)
        if known is None or planned.number < known.number:
            self.planned[guide.edition] = planned

    def is_like(self, loaded: LoadedGroup, record: UnitRecord) -> bool:
        """Whether nothing would be found of the unit of *record* either."""
        own, fleet = record.own(), self.base.specs.fleet
        if not has_yard_of(own, fleet):
            return False
        if not loaded.asking or loaded.unit is None:
            return True
        unit, identity = loaded.unit, identity_of(own, fleet)
        facts = {**unit.facts, **{fact.name: fact for fact in identity.facts}}
        seen = Unit(identity.number, unit.model, identity.span, facts, unit.sections)
        rules = (RULEBOOK[place] for place in loaded.asking)
        return not doubts_of(seen, self.base.specs.profile.stated, rules)

    def look(self, record: UnitRecord) -> _Looked:
        """Load the unit of *record* as if there were no other."""
        found = Findings()
        unit = resolve_unit(record.spec(), self.base.specs, found)
        unresolved = tuple(found)
        if unit is None or found.has_errors:
            return _Looked(record, None, None, unresolved, is_resolved=False)
        doubts = doubts_of(unit, self.base.specs.profile.stated, RULEBOOK)
        if hold_back(doubts):
            return _Looked(record, unit, None, unresolved, doubts)
        fitting = Findings()
        guide = self.assembly.guide(unit, fitting)
        if guide is not None and guide.edition not in self.planned:
            self.plan(guide, plan_edition(guide, self.base.library))
        return _Looked(record, unit, guide, unresolved, doubts, tuple(fitting))


def combine(
    loaded: Iterable[tuple[UnitGroup, LoadedGroup]], base: FleetBase, findings: Findings
) -> Combined:
    """Return all units of the groups, and tell what was found of each.

    Args:
        loaded: Groups with what `load_group` gave for the first of each.
        base: What it was given.
        findings: Takes what was found, in the order of unit numbers.
    """
    combining = _Combining(base, Assembly(base.library))
    for group, one in loaded:
        combining.take(group, one)
    looked = dict(sorted(combining.looked.items()))
    for each in looked.values():
        findings.extend(each.unresolved)
    resolved = {number: each for number, each in looked.items() if each.is_resolved}
    tell_doubts({number: each.doubts for number, each in resolved.items()}, findings)
    believed = {number: e for number, e in resolved.items() if not hold_back(e.doubts)}
    for each in believed.values():
        findings.extend(each.unfitted)
    fitted = {n: (e.guide, e.record) for n, e in believed.items() if e.guide is not None}
    editions: dict[str, list[str]] = {}
    for number, (guide, _) in fitted.items():
        editions.setdefault(guide.edition, []).append(number)
    planned = {edition: combining.planned[edition] for edition in editions}
    tell_contradictions(planned, editions, findings)
    kept = {n: one for n, one in fitted.items() if not planned[one[0].edition].has_errors}
    known = {number: each.unit for number, each in believed.items() if each.unit is not None}
    units = LazyUnits({number: e.record for number, e in believed.items()}, known, base)
    shelf = EditionShelf(base)
    for guide, record in kept.values():
        if record.number == guide.number:
            shelf.put(guide, planned[guide.edition].tour, record)
    members = {number: (guide.edition, record) for number, (guide, record) in kept.items()}
    with_tour = frozenset(edition for edition, e in planned.items() if e.tour is not None)
    quiet = frozenset(
        number
        for number, (guide, _) in kept.items()
        if looked[number].is_quiet and not planned[guide.edition].findings
    )
    return Combined(units, LazyGuides(members, shelf), LazyRounds(with_tour, shelf), quiet)


def with_known(
    combined: Combined, known: Iterable[tuple[UnitGroup, KnownEdition]], base: FleetBase
) -> Combined:
    """Return *combined* with units that were found clean before and are not loaded now.

    Args:
        combined: Those that were loaded.
        known: The others by group, each with the edition that it was found to be of.
        base: What all units have in common.
    """
    guides, shelf = combined.guides, combined.guides.shelf
    members = dict(guides.members)
    records = dict(combined.units.records)
    with_tour = set(combined.rounds)
    for group, edition in known:
        shelf.firsts.setdefault(edition.edition, group.first)
        if edition.has_tour:
            with_tour.add(edition.edition)
        for record in group.records:
            members[record.number] = edition.edition, record
            records[record.number] = record
    return Combined(
        LazyUnits(dict(sorted(records.items())), combined.units.known, base),
        LazyGuides(dict(sorted(members.items())), shelf),
        LazyRounds(frozenset(with_tour), shelf),
        combined.quiet | {record.number for group, _ in known for record in group.records},
    )
