"""From what files state to what is known of a truck.

Takes in the specs of a unit, its model, its fleet and its jurisdiction; gives out the unit, each
fact from the nearest layer that states it. Refuses to mix: what a unit says is not fitted takes
every inherited value of that thing away.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from types import MappingProxyType

from guidegen.finding import Findings, nearest
from guidegen.photos.model import NO_PHOTOS, FleetPhotos
from guidegen.quantity.convert import measure_of, show_pair
from guidegen.quantity.model import Amount, Measure, Quantity, QuantityRange, System
from guidegen.quantity.parse import parse_amount
from guidegen.specs import rules
from guidegen.specs.agree import check_pressures
from guidegen.specs.equipment import EQUIPMENT_SECTIONS, FactField
from guidegen.specs.fields import AmountField, Stated, Value
from guidegen.specs.fleet import Fleet
from guidegen.specs.model import Spec
from guidegen.specs.profile import FACTS, LAW_CONCERNS, NUMBER
from guidegen.specs.spelled import spelled
from guidegen.specs.substances import SUBSTANCE_CARRIERS
from guidegen.units.derive import derive_facts
from guidegen.units.model import Fact, Layer, Presence, SectionState, StatedIn, Unit


@dataclass(frozen=True, slots=True)
class FleetSpecs:
    """All that the files of a fleet state."""

    fleet: Fleet
    units: Mapping[str, Spec]
    """By unit number."""

    models: Mapping[str, Spec]
    """By model id."""

    profile: Spec
    """Of the fleet's jurisdiction."""

    substances: Mapping[str, Stated] = field(default_factory=dict)
    """What the library knows of fluids, by fact name."""

    faulty_models: frozenset[str] = frozenset()
    """Names of model files that have faults; none of them is among `models`."""

    photos: FleetPhotos = NO_PHOTOS
    """What the office has taken pictures of."""


def resolve_units(specs: FleetSpecs, findings: Findings) -> Mapping[str, Unit]:
    """Return the units by number, in order; those with faults are left out and reported."""
    units = {}
    for number, spec in sorted(specs.units.items()):
        own = Findings()
        unit = resolve_unit(spec, specs, own)
        findings.extend(own)
        if unit is not None and not own.has_errors:
            units[number] = unit
    return MappingProxyType(units)


def resolve_unit(spec: Spec, specs: FleetSpecs, findings: Findings) -> Unit | None:
    """Return one unit, or nothing if its model is not there or its values disagree."""
    model = specs.models.get(spec.model)
    if model is None:
        _report_unknown_model(spec, specs, findings)
        return None
    layers = ((Layer.UNIT, spec), (Layer.MODEL, model))
    sections = _section_states(spec, model)
    chosen = _nearest_values(layers, sections)
    _check_yard(chosen, spec, specs.fleet, findings)
    check_pressures({name: stated for name, (_, stated) in chosen.items()}, findings, spec.id)
    chosen |= dict(_limits_for(specs, sections))
    chosen |= dict(_substances_on_board(specs, sections))
    facts = {NUMBER.name: fact_of(NUMBER, Layer.UNIT, number_of(spec), specs.fleet)}
    for name, fact_field in FACTS.items():
        if name in chosen:
            facts[name] = fact_of(fact_field, *chosen[name], specs.fleet)
    first = specs.fleet.first
    facts |= derive_facts(facts, lambda of, amount: _shown(amount, of, specs.fleet), first)
    ordered = {name: facts[name] for name in FACTS if name in facts}
    return Unit(
        spec.id,
        spec.model,
        spec.span,
        MappingProxyType(ordered),
        MappingProxyType(sections),
        specs.photos.own(spec.id),
        tuple(specs.photos.inherited(spec.id, spec.model)),
    )


def number_of(spec: Spec) -> Stated:
    """Return the number of the unit that *spec* states, as a value of its file."""
    return Stated(spec.id, spec.span, "unit file")


def fact_of(fact_field: FactField, layer: Layer, stated: Stated, fleet: Fleet) -> Fact:
    """Return what a file of *layer* states, as a fact with what is printed for it."""
    provenance = StatedIn(layer, stated.span, stated.source, stated.recorded)
    value: Value = stated.value
    if isinstance(value, Quantity | QuantityRange):
        return _amount_fact(fact_field, value, stated.quoted, provenance, fleet)
    if fact_field.name == "identity.yard":
        id_ = str(value)
        return Fact(fact_field, fleet.yard_name(id_), provenance, id=id_)
    return Fact(fact_field, value, provenance)


def _amount_fact(
    fact_field: FactField,
    amount: Amount,
    quoted: Value | None,
    provenance: StatedIn,
    fleet: Fleet,
) -> Fact:
    """Return the fact; a pair that its source prints takes the place of a conversion."""
    shown = _shown(amount, fact_field, fleet)
    if isinstance(quoted, Quantity | QuantityRange) and len(shown) > 1:
        pair = tuple(each if each == amount else quoted for each in shown)
        return Fact(fact_field, amount, provenance, pair, is_quoted=True)
    return Fact(fact_field, amount, provenance, shown)


def _shown(value: Amount, fact_field: FactField, fleet: Fleet) -> tuple[Amount, ...]:
    kind = fact_field.field
    assert isinstance(kind, AmountField)  # noqa: S101 -- only these read amounts
    measures = (fleet.first, fleet.second, fleet.pressure)
    return _shown_in(_AsTyped(spelled(value), value), kind, measures)


@dataclass(frozen=True, slots=True)
class _AsTyped:
    """An amount that equals another only if both have the same digits."""

    spelled: str
    amount: Amount = field(compare=False)


@lru_cache(maxsize=4096)
def _shown_in(
    typed: _AsTyped, kind: AmountField, measures: tuple[System, System | None, Measure]
) -> tuple[Amount, ...]:
    first, second, pressure = measures
    # An air restriction typed in kPa is shown in inH2O, not in psi: as the field's bounds are.
    usual = measure_of(parse_amount(kind.low, kind.dimension))
    return show_pair(typed.amount, kind.sense, first, second, pressure, usual=usual)


def _section_states(unit: Spec, model: Spec) -> dict[str, SectionState]:
    """The unit's own word on a section goes before the model's; an outer one before an inner."""
    states: dict[str, SectionState] = {}
    for name in EQUIPMENT_SECTIONS:
        outer = states.get(name.rpartition(".")[0])
        if outer is not None and outer.presence is Presence.NOT_FITTED:
            states[name] = outer
            continue
        states[name] = next(_statements(name, unit, model), _NOT_ON_RECORD)
    return states


_NOT_ON_RECORD = SectionState(Presence.NOT_ON_RECORD, None)


def _statements(name: str, unit: Spec, model: Spec) -> Iterator[SectionState]:
    for spec in (unit, model):
        if name in spec.not_fitted:
            yield SectionState(Presence.NOT_FITTED, spec.not_fitted[name])
        if name in spec.given:
            yield SectionState(Presence.GIVEN, spec.given[name])


def _nearest_values(
    layers: tuple[tuple[Layer, Spec], ...], sections: Mapping[str, SectionState]
) -> dict[str, tuple[Layer, Stated]]:
    chosen: dict[str, tuple[Layer, Stated]] = {}
    for layer, spec in layers:
        for name, stated in spec.stated.items():
            section = sections.get(FACTS[name].section)
            if section is None or section.presence is Presence.GIVEN:
                chosen.setdefault(name, (layer, stated))
    return chosen


def _limits_for(
    specs: FleetSpecs, sections: Mapping[str, SectionState]
) -> Iterator[tuple[str, tuple[Layer, Stated]]]:
    """Yield the limits of the place that may be about the truck: not those of brakes it has not."""
    for name, stated in specs.profile.stated.items():
        section = sections.get(LAW_CONCERNS.get(name, ""))
        if section is None or section.presence is not Presence.NOT_FITTED:
            yield name, (Layer.PROFILE, stated)


def _substances_on_board(
    specs: FleetSpecs, sections: Mapping[str, SectionState]
) -> Iterator[tuple[str, tuple[Layer, Stated]]]:
    """Yield what is known of fluids that the truck carries: an electric truck has no DEF."""
    for name, stated in specs.substances.items():
        if sections[SUBSTANCE_CARRIERS[name]].presence is Presence.GIVEN:
            yield name, (Layer.LIBRARY, stated)


def _report_unknown_model(spec: Spec, specs: FleetSpecs, findings: Findings) -> None:
    if spec.model in specs.faulty_models:
        what = f"`{spec.id}` is of model `{spec.model}`, and the file of that model has faults"
        fix = f"mend what is told of `specs/models/{spec.model}.yml`; this unit is as it should be"
        findings.add(rules.UNKNOWN_MODEL, spec.model_span, what=what, fix=fix, unit=spec.id)
        return
    near = nearest(spec.model, specs.models)
    listed = ", ".join(f"`{model}`" for model in sorted(specs.models)) or "none yet"
    findings.add(
        rules.UNKNOWN_MODEL,
        spec.model_span,
        what=f"`{spec.id}` is of model `{spec.model}`, and no model file has that id",
        fix=f"did you mean `{near}`?" if near else f"model files there are: {listed}",
        unit=spec.id,
    )


def _check_yard(
    chosen: Mapping[str, tuple[Layer, Stated]], spec: Spec, fleet: Fleet, findings: Findings
) -> None:
    if "identity.yard" not in chosen:
        return
    _, stated = chosen["identity.yard"]
    known = [yard.id for yard in fleet.yards]
    if stated.value not in known:
        near = nearest(str(stated.value), known)
        findings.add(
            rules.UNKNOWN_YARD,
            stated.span,
            what=f"`yard: {stated.value}` is not among the yards of the fleet",
            fix=f"did you mean `{near}`?" if near else f"add it to fleet.yml, or choose of {known}",
            unit=spec.id,
        )
