from collections.abc import Mapping
from functools import partial
from pathlib import Path
from types import MappingProxyType

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from load_plainly import load_plainly

from guidegen.build.combine import combine
from guidegen.build.load_group import FleetBase, group_units, load_groups
from guidegen.build.load_library import load_library
from guidegen.build.project import open_project
from guidegen.build.read_specs import read_shared, usable_records
from guidegen.build.unit_guides import own_place
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.specs.model import Spec
from guidegen.specs.read import read_model
from guidegen.specs.read_units import read_batch
from guidegen.units.model import StatedIn

ROOT = Path(__file__).resolve().parents[3]


@pytest.fixture(scope="module")
def base() -> FleetBase:
    project, findings = open_project(ROOT), Findings()
    models: dict[str, Spec] = {}
    for path, raw in project.spec_files("models"):
        model = read_model(path, raw, findings)
        assert model is not None
        models[model.id] = model
    shared = read_shared(project, MappingProxyType(models), findings)
    library = load_library(project, findings)
    assert shared is not None
    assert library is not None
    return FleetBase(shared, library)


VINS = (
    "7Z9DT72S8MBDV4208",
    "'7Z9DT72S8MBDV4208'",
    "{value: 7Z9DT72S8MBDV4208, source: registration card}",
    # Fails its check digit; is one character over and over; is no VIN.
    "7Z9DT72S9MBDV4208",
    "11111111111111111",
    "7Z9-DT72",
)
YARDS = ("mill-yard", "ridge-yard", "{value: depot-yard, source: list}", "nowhere-yard", "Mill")
PLATES = ("SRC 417", "'0417'", "A  1", "ÄB 12", "{value: SRC 419, source: registration card}")
YEARS = ("2021", "1991", "2020")
HEATERS = ("20 A", "15 A", "5 A")
NUMBERS = ("T-1", "T-2", "T-3", "T-4", "T-9")


@st.composite
def unit_texts(draw: st.DrawFn, number: str) -> str:
    def some(values: tuple[str, ...]) -> str | None:
        # The first one stands for most trucks, so that trucks of a fleet state the same.
        return draw(st.sampled_from((values[0], values[0], values[0], values[0], None, *values)))

    named = draw(st.sampled_from((number, number, number, number, number, "OFFICE", "t")))
    model = draw(st.sampled_from(("drumlin-72", "drumlin-72", "fell-9", "drumlin")))
    lines = [f"unit: {named}", f"model: {model}", "source: plate", "identity:"]
    fields = {"vin": some(VINS), "year": some(YEARS), "plate": some(PLATES), "yard": some(YARDS)}
    lines += [f"  {name}: {value}" for name, value in fields.items() if value is not None]
    if all(value is None for value in fields.values()):
        lines.append("  make: Corvane")
    heater = draw(st.sampled_from((None, None, None, *HEATERS)))
    if heater is not None:
        lines += ["block_heater:", f"  circuit: {heater}"]
    odd = ("", "", "", "", "# Seen\n# yard: x", "brakes: not fitted", "no_such: 1", "unit: T-7")
    lines += [line for line in draw(st.sampled_from(odd)).split("\n") if line]
    return "\n".join(lines) + "\n"


@st.composite
def fleets(draw: st.DrawFn) -> list[tuple[str, bytes]]:
    numbers = draw(st.lists(st.sampled_from(NUMBERS), min_size=2, max_size=5, unique=True))
    files = [(f"specs/units/{n}.yml", draw(unit_texts(n)).encode()) for n in sorted(numbers)]
    if draw(st.booleans()):
        files.append((f"specs/units/{numbers[0]}.yaml", files[0][1]))
    return files


@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(files=fleets())
def test_trucks_loaded_in_groups_are_as_if_each_had_been_loaded_by_itself(
    base: FleetBase, files: list[tuple[str, bytes]]
) -> None:
    plain = load_plainly(files, base)
    findings = Findings()
    records = usable_records(read_batch(files), findings)
    groups = group_units(records, base.library)
    loaded = load_groups((group.first.spec() for group in groups), base)
    combined = combine(zip(groups, loaded, strict=True), base, findings)
    assert list(findings) == list(plain.findings)
    assert dict(combined.units) == dict(plain.units)
    assert list(combined.guides) == list(plain.guides)
    assert dict(combined.rounds) == dict(plain.rounds)
    for number, guide in combined.guides.items():
        assert_same_but_for_places(guide, plain.guides[number])
        for name, fact in plain.guides[number].facts.items():
            place = guide.facts[name].provenance.span
            assert (
                own_place(guide, partial(combined.units.__getitem__, number), place)
                == fact.provenance.span
            )


def assert_same_but_for_places(guide: Guide, plain: Guide) -> None:
    assert (guide.number, guide.edition) == (plain.number, plain.edition)
    assert guide.chapters == plain.chapters
    assert list(guide.facts) == list(plain.facts)
    assert said(guide) == said(plain)
    for name in ("identity.number", "identity.vin", "identity.plate", "identity.yard"):
        assert guide.facts.get(name) == plain.facts.get(name)
    presences = [
        {name: state.presence for name, state in each.sections.items()} for each in (guide, plain)
    ]
    assert presences[0] == presences[1]


def said(guide: Guide) -> Mapping[str, object]:
    """All of the guide's facts but their places."""
    return {
        name: (
            fact.value,
            fact.shown,
            fact.is_quoted,
            (fact.provenance.layer, fact.provenance.source)
            if isinstance(fact.provenance, StatedIn)
            else (fact.provenance.formula, fact.provenance.of),
        )
        for name, fact in guide.facts.items()
    }
