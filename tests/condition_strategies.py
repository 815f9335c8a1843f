"""Conditions and trucks for the property tests: few facts, of every kind, so that they meet."""

from dataclasses import dataclass, field
from decimal import Decimal

from hypothesis import strategies as st

from guidegen.finding import Findings
from guidegen.procedures.condition import read_condition
from guidegen.procedures.condition_model import (
    And,
    Asks,
    Compares,
    Condition,
    Holds,
    Not,
    Or,
    Predicate,
    Relation,
)
from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Quantity
from guidegen.source import SourceFile, Span
from guidegen.specs.fields import Value
from guidegen.yaml_nodes import Scalar, read_yaml

NOWHERE = Span(SourceFile("", ""), 1, 1, 1, 1)

SECTIONS = ("brakes", "brakes.air", "engine", "cruise", "engine_brake", "axles")
FLAGS = ("brakes.abs", "brakes.air.air_dryer")
FUELS = ("diesel", "gasoline", "cng", "lng", "propane")
FUELS_COMPARED = ("diesel", "gasoline")
SPEEDS = ("20 mph", "25 mph", "40 km/h", "30 mph")
DROP_OUTS = ("clutch", "abs")
WHEELS = ("6x4", "6x2")
COUNTS = ("2", "3")
ORDERS = (
    Relation.EQUAL,
    Relation.UNEQUAL,
    Relation.LESS,
    Relation.AT_MOST,
    Relation.GREATER,
    Relation.AT_LEAST,
)
FACTS_ASKED = (
    *FLAGS,
    "engine.fuel",
    "cruise.lowest_speed",
    "engine_brake.drops_out",
    "axles.configuration",
    "brakes.air.tank_count",
)


def mph(amount: str) -> Quantity:
    return Quantity(Decimal(amount), MEASURES["mph"])


DOMAINS: dict[str, tuple[Value, ...]] = {
    "brakes.abs": (True, False),
    "brakes.air.air_dryer": (True, False),
    "engine.fuel": FUELS,
    "cruise.lowest_speed": (
        *(mph(amount) for amount in ("10", "15", "20", "22", "24.8", "25", "27", "30", "50")),
        Quantity(Decimal(40), MEASURES["km/h"]),
    ),
    "engine_brake.drops_out": ((), ("clutch",), ("abs",), ("clutch", "abs"), ("switch",)),
    "axles.configuration": ("6x4", "6x2", "4x2"),
    "brakes.air.tank_count": tuple(range(1, 9)),
}
"""Every value that the conditions below can tell apart, and some more."""


@dataclass
class Truck:
    """What is known of one truck: None is not on record."""

    sections: dict[str, bool | None] = field(default_factory=dict)
    values: dict[str, Value | None] = field(default_factory=dict)

    def fitted(self, section: str) -> bool | None:
        return self.sections.get(section)

    def value(self, fact: str) -> Value | None:
        return self.values.get(fact)


def comparisons() -> st.SearchStrategy[Condition]:
    def of(
        fact: str, relations: tuple[Relation, ...], literals: tuple[str, ...]
    ) -> st.SearchStrategy[Condition]:
        return st.builds(
            Compares,
            st.just(fact),
            st.sampled_from(relations),
            st.sampled_from(literals),
            st.just(NOWHERE),
        )

    equalities = (Relation.EQUAL, Relation.UNEQUAL)
    return st.one_of(
        of("engine.fuel", equalities, FUELS_COMPARED),
        of("axles.configuration", equalities, WHEELS),
        of("cruise.lowest_speed", ORDERS, SPEEDS),
        of("brakes.air.tank_count", ORDERS, COUNTS),
        of("engine_brake.drops_out", (Relation.IN,), DROP_OUTS),
    )


def conditions(*, with_on_record: bool = True, most: int = 8) -> st.SearchStrategy[Condition]:
    """Trees of at most *most* questions; each `and` and `or` has two members or three."""
    leaves: list[st.SearchStrategy[Condition]] = [
        st.builds(Asks, st.just(Predicate.FITTED), st.sampled_from(SECTIONS), st.just(NOWHERE)),
        st.builds(Holds, st.sampled_from(FLAGS), st.just(NOWHERE)),
        comparisons(),
    ]
    if with_on_record:
        facts = st.sampled_from(FACTS_ASKED)
        leaves.append(
            st.builds(Asks, st.just(Predicate.ON_RECORD), facts, st.just(NOWHERE)),
        )

    def joined(inner: st.SearchStrategy[Condition]) -> st.SearchStrategy[Condition]:
        members = st.lists(inner, min_size=2, max_size=3).map(tuple)
        return st.one_of(st.builds(And, members), st.builds(Or, members), st.builds(Not, inner))

    return st.recursive(st.one_of(leaves), joined, max_leaves=most)


@st.composite
def trucks(draw: st.DrawFn, *, is_complete: bool = False) -> Truck:
    """Trucks whose sections and facts agree with one another; with gaps unless complete."""
    answers = st.booleans() if is_complete else st.sampled_from((True, False, None))
    sections: dict[str, bool | None] = {}
    for section in SECTIONS:
        outer = section.rpartition(".")[0]
        sections[section] = draw(answers) if not outer or sections[outer] else sections[outer]
    values: dict[str, Value | None] = {}
    for fact, domain in DOMAINS.items():
        if sections[fact.rpartition(".")[0]]:
            gaps = () if is_complete else (None,)
            values[fact] = draw(st.sampled_from((*domain, *gaps)))
    return Truck(sections, values)


def scalar_of(typed: str) -> Scalar:
    """Return what the YAML reader makes of *typed* after ``when: ``."""
    findings = Findings()
    table = read_yaml("p.yml", f"when: {typed}\n".encode(), findings)
    assert not list(findings)
    assert table is not None
    node = table.get("when")
    assert isinstance(node, Scalar)
    return node


def read(typed: str) -> tuple[Condition | None, Findings]:
    """Return the condition *typed*, in single quotes if YAML wants quotes, and its findings."""
    findings = Findings()
    condition = read_condition(scalar_of("'" + typed.replace("'", "''") + "'"), findings)
    return condition, findings


def read_sound(typed: str) -> Condition:
    condition, findings = read(typed)
    assert [finding.what for finding in findings] == []
    assert condition is not None
    return condition
