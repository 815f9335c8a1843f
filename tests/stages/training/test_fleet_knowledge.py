import pickle
from collections.abc import Mapping
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.guide.model import Guide
from guidegen.source import SourceFile, Span
from guidegen.training.fleet_values import FleetValues, naming, values_on_record
from guidegen.training.write_quiz import FleetKnowledge, KnowledgePart, write_quiz
from guidegen.units.model import Layer, StatedIn, WorkedOut


def test_a_fleet_looked_at_in_parts_is_known_as_if_looked_at_in_one(
    guides: Mapping[str, Guide], fleet: FleetKnowledge
) -> None:
    every = list(guides.values())
    # In another order, and as parts come from another process.
    parts = [
        pickle.loads(pickle.dumps(KnowledgePart.of(part)))  # noqa: S301 -- our own
        for part in (every[5:], every[3:5], [], every[:3])
    ]
    assert FleetKnowledge.of_parts(parts, naming(every)) == fleet


def test_a_line_that_moves_in_one_file_changes_no_quiz_of_another_truck(
    guides: Mapping[str, Guide], fleet: FleetKnowledge
) -> None:
    moved = Span(SourceFile("specs/models/elsewhere.yml", "x"), 9, 9, 9, 10)
    other = guides["T-18"]
    facts = {
        name: replace(fact, provenance=StatedIn(fact.provenance.layer, moved, "another source"))
        if isinstance(fact.provenance, StatedIn)
        else fact
        for name, fact in other.facts.items()
    }
    changed = {**guides, "T-18": replace(other, facts=facts)}
    known = FleetKnowledge.of(changed.values())
    assert write_quiz(guides["T-17"], known) == write_quiz(guides["T-17"], fleet)


def test_a_value_that_one_truck_more_has_changes_only_questions_that_show_it(
    guides: Mapping[str, Guide],
) -> None:
    most = [guide for number, guide in guides.items() if number != "E-02"]
    before = write_quiz(guides["T-17"], FleetKnowledge.of(most))
    after = write_quiz(guides["T-17"], FleetKnowledge.of(guides.values()))
    known = {question.id: question for question in before.questions}
    same = [question for question in after.questions if known.get(question.id) == question]
    assert len(same) > len(after.questions) // 2


@settings(max_examples=300)
@given(
    text=st.text("abC-1 ", max_size=12),
    names=st.lists(st.text("abc-1 ", min_size=1, max_size=4), max_size=5),
)
def test_a_value_is_left_out_if_and_only_if_it_holds_a_name_in_whatever_case(
    guides: Mapping[str, Guide], text: str, names: list[str]
) -> None:
    fact = replace(guides["T-17"].facts["engine.oil_grade"], value=text)
    kept = FleetValues.of_parts([{fact.name: {text: fact}}], names).by_fact
    holds = any(name.casefold() in text.casefold() for name in names)
    assert (fact.name in kept) is not holds


def test_of_values_spelled_alike_the_same_is_kept_in_whatever_order(
    guides: Mapping[str, Guide],
) -> None:
    every = list(guides.values())
    assert values_on_record(every) == values_on_record(reversed(every))


def test_what_one_truck_alone_states_changes_no_quiz_of_another(
    guides: Mapping[str, Guide],
) -> None:
    other = guides["T-18"]
    own = {
        name: replace(fact, provenance=replace(fact.provenance, layer=Layer.UNIT))
        for name, fact in other.facts.items()
        if isinstance(fact.provenance, StatedIn) and fact.provenance.layer is Layer.MODEL
    }
    measured = replace(other, facts={**other.facts, **own})

    assert own
    assert not values_on_record([measured]).keys() & own.keys()
    known = FleetKnowledge.of({**guides, "T-18": measured}.values())
    without = FleetKnowledge.of(guide for number, guide in guides.items() if number != "T-18")
    assert write_quiz(guides["R-12"], known) == write_quiz(guides["R-12"], without)


def test_what_follows_from_a_truck_s_own_value_is_its_own_too(guides: Mapping[str, Guide]) -> None:
    guide = next(
        each
        for each in guides.values()
        if any(isinstance(fact.provenance, WorkedOut) for fact in each.facts.values())
    )
    fact = next(each for each in guide.facts.values() if isinstance(each.provenance, WorkedOut))
    assert isinstance(fact.provenance, WorkedOut)
    source = guide.facts[fact.provenance.of[0]]
    assert isinstance(source.provenance, StatedIn)
    measured = replace(source, provenance=replace(source.provenance, layer=Layer.UNIT))
    changed = replace(guide, facts={**guide.facts, source.name: measured})

    assert fact.name in values_on_record([guide])
    assert fact.name not in values_on_record([changed])
