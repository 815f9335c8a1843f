"""Trucks with gaps: the demo fleet with things taken off the record, and put back on it.

All trucks, makes and values are invented.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

from hypothesis import strategies as st

from guidegen.build.load_library import load_library
from guidegen.build.project import open_project
from guidegen.build.read_specs import load_specs
from guidegen.finding import Findings
from guidegen.gaps.catalog import is_section, section_of
from guidegen.gaps.find import find_gaps
from guidegen.gaps.model import FleetGaps
from guidegen.guide.assemble import assemble_guide
from guidegen.guide.rules import FACT_NOT_ON_RECORD, NOT_ON_RECORD
from guidegen.procedures.model import ProcedureTemplate
from guidegen.quantity.model import Quantity, QuantityRange, Sense
from guidegen.quantity.parse import parse_amount
from guidegen.source import SourceFile, Span
from guidegen.specs.fields import (
    AmountField,
    AnyField,
    ChoiceField,
    ChoicesField,
    CountField,
    FlagField,
    Stated,
    Value,
)
from guidegen.specs.model import Spec
from guidegen.specs.profile import FACTS
from guidegen.units.model import Unit
from guidegen.units.resolve import FleetSpecs, resolve_unit

ROOT = Path(__file__).resolve().parents[1]
SPAN = Span(SourceFile("specs/units/looked-up.yml", ""), 1, 1, 1, 2)
GAP_RULES = {NOT_ON_RECORD.name, FACT_NOT_ON_RECORD.name}


@cache
def demo() -> tuple[FleetSpecs, Mapping[str, ProcedureTemplate]]:
    """Return the demo fleet's specs and the library; each unit states all that its model does."""
    findings = Findings()
    project = open_project(ROOT)
    specs, library = load_specs(project, findings), load_library(project, findings)
    assert specs is not None
    assert library is not None
    assert not findings.has_errors
    whole = {number: _whole(spec, specs.models[spec.model]) for number, spec in specs.units.items()}
    bare = {
        model: replace(spec, stated={}, given={}, not_fitted={})
        for model, spec in specs.models.items()
    }
    return replace(specs, units=whole, models=bare), library


def _whole(unit: Spec, model: Spec) -> Spec:
    return replace(
        unit,
        stated={**model.stated, **unit.stated},
        given={**model.given, **unit.given},
        not_fitted={**model.not_fitted, **unit.not_fitted},
    )


def without(spec: Spec, names: Iterable[str]) -> Spec:
    """Take sections and facts off the record."""
    gone = set(names)

    def stays(name: str) -> bool:
        return not any(name == each or name.startswith(f"{each}.") for each in gone)

    return replace(
        spec,
        stated={name: each for name, each in spec.stated.items() if stays(name)},
        given={name: each for name, each in spec.given.items() if stays(name)},
        not_fitted={name: each for name, each in spec.not_fitted.items() if stays(name)},
    )


def with_fact(spec: Spec, name: str, value: Value) -> Spec:
    """Put the value of a fact on the record."""
    section = section_of(name)
    return replace(
        with_section(spec, section, is_fitted=True),
        stated={**spec.stated, name: Stated(value, SPAN, "unit plate")},
    )


def with_section(spec: Spec, name: str, *, is_fitted: bool) -> Spec:
    """Say of a section whether the truck has it; what stands around it is then fitted too."""
    if name == "identity":
        return spec
    parts = name.split(".")
    around = [".".join(parts[: end + 1]) for end in range(len(parts))]
    given = {**spec.given, **dict.fromkeys(around if is_fitted else around[:-1], SPAN)}
    if is_fitted:
        return replace(spec, given=given)
    return replace(spec, given=given, not_fitted={**spec.not_fitted, name: SPAN})


def resolved(spec: Spec) -> Unit:
    specs, _ = demo()
    unit = resolve_unit(spec, specs, Findings())
    assert unit is not None
    return unit


def holds_back(unit: Unit) -> list[str]:
    """Return what the fitting of procedures says is not on record, in its own words."""
    _, library = demo()
    findings = Findings()
    assemble_guide(unit, library, findings)
    return [finding.what for finding in findings if finding.rule.name in GAP_RULES]


def values_of(name: str) -> st.SearchStrategy[Value]:
    """Return a strategy of values that the fact *name* can have."""
    field: AnyField = FACTS[name].field
    match field:
        case AmountField():
            return _amounts_of(field)
        case ChoiceField(choices=choices):
            return st.sampled_from(list(choices))
        case ChoicesField(choices=choices):
            return st.sets(st.sampled_from(list(choices)), min_size=1, max_size=5).map(
                lambda chosen: tuple(sorted(chosen))
            )
        case CountField(low=least, high=most):
            return st.integers(least, most)
        case FlagField():
            return st.booleans()
        case _:
            return st.just("left side, behind the step")


def _amounts_of(field: AmountField) -> st.SearchStrategy[Value]:
    bottom, top = (parse_amount(end, field.dimension) for end in (field.low, field.high))
    assert isinstance(bottom, Quantity)
    assert isinstance(top, Quantity)
    if field.sense is Sense.RANGE and bottom.measure == top.measure:
        return st.just(QuantityRange(bottom, top))
    return st.sampled_from([bottom, top])


@st.composite
def spec_with_gaps(draw: st.DrawFn) -> Spec:
    """Draw a truck of the demo fleet with up to six things off the record."""
    specs, _ = demo()
    spec = draw(st.sampled_from(list(specs.units.values())))
    names = [*spec.stated, *spec.given, *spec.not_fitted]
    gone = draw(st.lists(st.sampled_from(sorted(names)), min_size=1, max_size=6, unique=True))
    return without(spec, gone)


@st.composite
def looked_up(draw: st.DrawFn, spec: Spec, names: Iterable[str]) -> Spec:
    """Draw answers for all of *names*: thing by thing, and values of what turns out to be there."""
    absent: list[str] = []
    for name in names:
        if any(name.startswith(f"{each}.") for each in absent):
            continue
        if not is_section(name):
            spec = with_fact(spec, name, draw(values_of(name)))
        elif draw(st.booleans()):
            spec = with_section(spec, name, is_fitted=True)
        else:
            absent.append(name)
            spec = with_section(spec, name, is_fitted=False)
    return spec


GONE: Mapping[str, tuple[str, ...]] = {
    "T-17": ("brakes.air.cut_out", "block_heater"),
    "T-18": ("brakes.air.cut_out",),
    "T-04": ("transmission", "lights.flash"),
    "E-02": ("cab_access.kind",),
    "K-22": ("tires.steer.cold_pressure", "transmission.forward_gears"),
}
"""What is off the record in the fleet with gaps, by unit number."""


@cache
def fleet_with_gaps() -> FleetGaps:
    """Return the gaps of the demo fleet without what `GONE` names."""
    specs, library = demo()
    units = [resolved(without(spec, GONE.get(n, ()))) for n, spec in specs.units.items()]
    return find_gaps(units, library)
