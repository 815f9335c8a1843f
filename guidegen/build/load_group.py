"""From units that state the same to the guide that they share.

Takes in one of their specs and what all units of a fleet have in common; gives out its unit,
guide and round, with all that was found. Pure and picklable on both sides, so that groups can be
loaded in any process.
Refuses to speak for the other units where something was found: findings stand in each unit's own
file, and each is then looked at itself.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from guidegen.finding import Finding, Findings
from guidegen.guide.assemble import Assembly
from guidegen.guide.model import STAMPED, Guide
from guidegen.photos.model import NO_PHOTOS, FleetPhotos
from guidegen.plausibility.check import Doubts, doubts_of, hold_back
from guidegen.plausibility.rulebook import RULEBOOK
from guidegen.procedures.condition_model import Asks
from guidegen.procedures.condition_value import leaves
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.scope import conditions_of
from guidegen.round.fleet_rounds import Planned, plan_edition
from guidegen.specs.model import Spec
from guidegen.specs.read_units import UnitRecord
from guidegen.units.model import Fact, Unit
from guidegen.units.resolve import FleetSpecs, resolve_unit


@dataclass(frozen=True, slots=True)
class FleetBase:
    """What all units of a fleet have in common."""

    specs: FleetSpecs
    """Without any unit."""

    library: Mapping[str, ProcedureTemplate]


@dataclass(frozen=True, slots=True)
class UnitGroup:
    """Units that state the same but for what tells trucks of an edition apart."""

    records: tuple[UnitRecord, ...]
    """Sorted by number; at least one."""

    @property
    def first(self) -> UnitRecord:
        """The one that is loaded for all."""
        return self.records[0]


@dataclass(frozen=True, slots=True)
class LoadedGroup:
    """What came of the first unit of a group."""

    unit: Unit | None
    """None if it cannot be resolved."""

    guide: Guide | None
    """None if anything holds it back."""

    planned: Planned | None
    """The round; none without a guide."""

    unresolved: tuple[Finding, ...] = ()
    doubts: Doubts = ()
    unfitted: tuple[Finding, ...] = ()
    asking: tuple[int, ...] = ()
    """Places in the rulebook of the rules that have looked at number, VIN, plate or yard, and so
    may say otherwise of another unit of the group."""

    @property
    def speaks_for_all(self) -> bool:
        """Whether nothing was found, so that other units of the group need no look of their own."""
        return not (self.unresolved or self.doubts or self.unfitted)


def group_units(
    records: Iterable[UnitRecord],
    library: Mapping[str, ProcedureTemplate],
    photos: FleetPhotos = NO_PHOTOS,
) -> tuple[UnitGroup, ...]:
    """Return the usable units of *records* in groups, in the order of their first numbers.

    Args:
        records: Of different numbers.
        library: Whose conditions may ask for a truck's own values; trucks that differ in one that
            is asked for are in different groups.
        photos: Of the fleet; trucks that are not on the same ones are in different groups.
    """
    asked = asked_of_identity(library)
    groups: dict[tuple[object, ...], list[UnitRecord]] = {}
    for record in sorted((e for e in records if e.is_usable), key=lambda each: each.number):
        own = record.own() if asked else None
        said = () if own is None else tuple(_said(own, name) for name in asked)
        key = record.model, record.signature, said, photos.own(record.number)
        groups.setdefault(key, []).append(record)
    return tuple(UnitGroup(tuple(group)) for group in groups.values())


def asked_of_identity(library: Mapping[str, ProcedureTemplate]) -> tuple[str, ...]:
    """Return the facts that tell trucks apart and whose values a condition of *library* asks for.

    Whether one is on record is asked for too, and is the same within a group.
    """
    asked = {
        leaf.fact
        for template in library.values()
        for condition in conditions_of(template)
        for leaf in leaves(condition)
        if not isinstance(leaf, Asks)
    }
    return tuple(name for name in STAMPED if name in asked)


def load_group(spec: Spec, base: FleetBase, assembly: Assembly | None = None) -> LoadedGroup:
    """Return what comes of the unit that *spec* states, for all units of its group.

    Args:
        spec: Of the first unit of the group.
        base: What all units of the fleet have in common.
        assembly: Of the library of *base*; of groups that share one, only what differs is fitted.
    """
    own = Findings()
    unit = resolve_unit(spec, base.specs, own)
    unresolved = tuple(own)
    if unit is None or own.has_errors:
        return LoadedGroup(None, None, None, unresolved)
    watched = _WatchedFacts(unit.facts)
    doubts, asking = _believed(unit, watched, base)
    if hold_back(doubts):
        return LoadedGroup(unit, None, None, unresolved, doubts, (), asking)
    fitting = Findings()
    guide = (assembly or Assembly(base.library)).guide(unit, fitting)
    planned = None if guide is None else plan_edition(guide, base.library)
    return LoadedGroup(unit, guide, planned, unresolved, doubts, tuple(fitting), asking)


def load_groups(specs: Iterable[Spec], base: FleetBase) -> Iterator[LoadedGroup]:
    """Yield what comes of each of *specs*, as `load_group` does."""
    assembly = Assembly(base.library)
    for spec in specs:
        yield load_group(spec, base, assembly)


def _said(spec: Spec, name: str) -> object:
    if name == "identity.number":
        return spec.id
    stated = spec.stated.get(name)
    return None if stated is None else stated.value


@dataclass(slots=True, eq=False)
class _WatchedFacts(Mapping[str, Fact]):
    """Facts that notice when a truck's own are asked for."""

    facts: Mapping[str, Fact]
    is_asked: bool = False

    def __getitem__(self, name: str) -> Fact:
        self.is_asked = self.is_asked or name in STAMPED
        return self.facts[name]

    def __iter__(self) -> Iterator[str]:
        self.is_asked = True
        return iter(self.facts)

    def __len__(self) -> int:
        return len(self.facts)


def _believed(
    unit: Unit, watched: _WatchedFacts, base: FleetBase
) -> tuple[Doubts, tuple[int, ...]]:
    """Return the doubts, and the rules that looked at the identity."""
    bounds = base.specs.profile.stated
    seen = Unit(unit.number, unit.model, unit.span, watched, unit.sections)
    doubts: Doubts = ()
    asking: list[int] = []
    for place, rule in enumerate(RULEBOOK):
        watched.is_asked = False
        doubts += doubts_of(seen, bounds, (rule,))
        if watched.is_asked:
            asking.append(place)
    return doubts, tuple(asking)
