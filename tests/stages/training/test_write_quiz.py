"""Quizzes of the demo fleet: one right answer each, found in the guide, and the same everywhere."""

import os
import subprocess
import sys
from collections import Counter
from collections.abc import Mapping
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from quiz_judge import Judge, procedures

from guidegen.differences.standing import Rank
from guidegen.guide.model import STAMPED, Caution, FactRef, Guide, Step, Text
from guidegen.training.fleet_values import FEWEST_WRONG, MOST_WRONG
from guidegen.training.model import DATA, QUESTIONS, Question, QuestionKind, Quiz, TruckValue
from guidegen.training.write_quiz import SHARES, FleetKnowledge, quotas, write_quiz
from guidegen.wording import value_words

MANY = 60
"""Three quizzes' worth."""

_SEEDED = settings(
    max_examples=5,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)


def texts_of(guide: Guide) -> dict[str, Text]:
    found: dict[str, Text] = {}
    for procedure in procedures(guide):
        found[procedure.title.id] = procedure.title
        for block in procedure.blocks:
            if isinstance(block, Caution):
                found.update({t.id: t for t in (block.hazard, block.consequence, block.avoid)})
            else:
                found[block.text.id] = block.text
        found.update({text.id: text for text in (*procedure.expect, *procedure.if_not)})
    return found


def as_read(quiz: Quiz, guide: Guide) -> list[tuple[object, ...]]:
    judge = Judge(guide)
    return [
        (each.id, each.right, *(judge.printed(said) for said in (*each.about, *each.answers)))
        for each in quiz.questions
    ]


@_SEEDED
@given(seed=st.text(max_size=12), count=st.sampled_from([1, 7, QUESTIONS, MANY]))
def test_exactly_one_answer_is_right_whatever_the_seed(
    guide: Guide, fleet: FleetKnowledge, seed: str, count: int
) -> None:
    judge = Judge(guide)
    for question in write_quiz(guide, fleet, count, seed).questions:
        judged = judge.right_answers(question)
        assert [place == question.right for place in range(len(judged))] == judged, question.id
        assert FEWEST_WRONG < len(judged) <= MOST_WRONG + 1


@_SEEDED
@given(seed=st.text(max_size=12))
def test_no_two_answers_read_alike(guide: Guide, fleet: FleetKnowledge, seed: str) -> None:
    judge = Judge(guide)
    for question in write_quiz(guide, fleet, MANY, seed).questions:
        read = [judge.printed(answer).casefold() for answer in question.answers]
        assert len(set(read)) == len(read), question.id


@_SEEDED
@given(seed=st.text(max_size=12))
def test_all_words_are_the_guide_s_own_but_wrong_values(
    guide: Guide, fleet: FleetKnowledge, seed: str
) -> None:
    own = texts_of(guide)
    for question in write_quiz(guide, fleet, MANY, seed).questions:
        for place, said in enumerate((*question.answers, *question.about)):
            if isinstance(said, Text):
                assert said == own[said.id]
            if isinstance(said, TruckValue):
                assert question.kind is QuestionKind.VALUE
                is_right = place == question.right
                assert (said.fact == guide.facts[question.subject]) is is_right


def test_the_right_answer_is_read_where_the_question_says(
    guide: Guide, fleet: FleetKnowledge
) -> None:
    texts = texts_of(guide)
    chapters = {chapter.id: chapter for chapter in guide.chapters}
    for question in write_quiz(guide, fleet, MANY).questions:
        where = question.where
        if where.page == DATA:
            assert where.part in {**guide.facts, **guide.sections}
            assert where.part == question.subject
            continue
        procedure = {e.id: e for e in chapters[where.page].procedures}[where.procedure]
        if where.part == procedure.id:
            assert question.kind.value in {"lamp-act", "stop-lamp", "begin-state", "cold-work"}
            continue
        text = texts[where.part]
        assert where.part.startswith(f"{procedure.id}.")
        right = question.answers[question.right]
        if isinstance(right, TruckValue):
            assert FactRef(question.subject) in text.parts
        else:
            assert right == text


def test_nothing_names_the_truck_so_that_all_of_an_edition_share_a_quiz(
    guide: Guide, fleet: FleetKnowledge
) -> None:
    for question in write_quiz(guide, fleet, MANY).questions:
        for said in (*question.about, *question.answers):
            if isinstance(said, Text):
                assert not {p.name for p in said.parts if isinstance(p, FactRef)} & set(STAMPED)
            if isinstance(said, TruckValue):
                assert said.fact.name not in STAMPED


@_SEEDED
@given(seed=st.text(max_size=12))
def test_nothing_is_asked_twice_or_given_away(
    guide: Guide, fleet: FleetKnowledge, seed: str
) -> None:
    questions = write_quiz(guide, fleet, MANY, seed).questions
    asked = Counter(key for question in questions for key in question.asks)
    assert set(asked.values()) == {1}
    for question in questions:
        shown = {key for other in questions if other is not question for key in other.shows}
        assert not question.asks & shown, question.id


def test_a_quiz_has_twenty_questions_of_every_family(guide: Guide, fleet: FleetKnowledge) -> None:
    questions = write_quiz(guide, fleet).questions
    assert len(questions) == QUESTIONS
    has_engine = any(name == "engine" for name in {f.field.section for f in guide.facts.values()})
    for family in SHARES:
        found = [question for question in questions if question.kind in family]
        assert found or (QuestionKind.BEGIN_STATE in family and not has_engine), family


def test_what_can_hurt_comes_first(guide: Guide, fleet: FleetKnowledge) -> None:
    orders = [question.standing.order for question in write_quiz(guide, fleet).questions]
    assert orders == sorted(orders)


def test_half_of_a_quiz_is_about_brakes_dangers_and_limits(
    guides: Mapping[str, Guide], fleet: FleetKnowledge
) -> None:
    grave = {Rank.BRAKES, Rank.DANGERS, Rank.LIMITS}
    questions = [
        question
        for guide in guides.values()
        for seed in "ab"
        for question in write_quiz(guide, fleet, QUESTIONS, seed).questions
    ]
    assert sum(question.standing.rank in grave for question in questions) > len(questions) / 2
    assert not [question for question in questions if question.standing.rank is Rank.CONVENIENCES]


def test_as_many_questions_as_are_asked_for(guide: Guide, fleet: FleetKnowledge) -> None:
    for count in (0, 1, 5, 33, 60):
        assert len(write_quiz(guide, fleet, count).questions) == count


def test_quotas_add_up() -> None:
    for count in range(120):
        assert sum(quotas(count).values()) == count
    assert quotas(QUESTIONS) == SHARES


def test_trucks_of_one_edition_get_the_same_quiz_and_seeds_give_others(
    guides: Mapping[str, Guide], fleet: FleetKnowledge
) -> None:
    guide = guides["T-17"]
    assert write_quiz(guide, fleet) == write_quiz(guide, fleet, seed=guide.edition)
    assert write_quiz(guide, fleet) != write_quiz(guide, fleet, seed="another")


def test_the_order_in_which_trucks_are_read_changes_nothing(guides: Mapping[str, Guide]) -> None:
    forward = FleetKnowledge.of(guides.values())
    backward = FleetKnowledge.of(reversed(list(guides.values())))
    for guide in guides.values():
        read = [as_read(write_quiz(guide, fleet), guide) for fleet in (forward, backward)]
        assert read[0] == read[1]


def test_the_quiz_is_the_same_whatever_python_hashes_by(
    guides: Mapping[str, Guide], fleet: FleetKnowledge, project_root: Path
) -> None:
    program = (
        "from pathlib import Path\n"
        "from guidegen.build.load import load_fleet\n"
        "from guidegen.build.project import open_project\n"
        "from guidegen.finding import Findings\n"
        "from guidegen.training.write_quiz import FleetKnowledge, write_quiz\n"
        "guides = load_fleet(open_project(Path()), Findings()).guides\n"
        "quiz = write_quiz(guides['K-22'], FleetKnowledge.of(guides.values()))\n"
        "print([(each.id, each.right) for each in quiz.questions])\n"
    )
    expected = [(each.id, each.right) for each in write_quiz(guides["K-22"], fleet).questions]
    for seed in ("1", "2"):
        ran = subprocess.run(
            [sys.executable, "-c", program],
            cwd=project_root,
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        )
        assert f"{expected}\n" == ran.stdout


def test_a_fleet_of_one_truck_is_asked_for_no_values(guides: Mapping[str, Guide]) -> None:
    guide = guides["T-17"]
    quiz = write_quiz(guide, FleetKnowledge.of([guide]))
    assert len(quiz.questions) == QUESTIONS
    assert not [question for question in quiz.questions if question.kind is QuestionKind.VALUE]


@pytest.mark.parametrize("kind", list(QuestionKind))
def test_every_kind_of_question_comes_up_in_the_demo_fleet(
    guides: Mapping[str, Guide], fleet: FleetKnowledge, kind: QuestionKind
) -> None:
    found: list[Question] = [
        question
        for guide in guides.values()
        for question in write_quiz(guide, fleet, MANY).questions
        if question.kind is kind
    ]
    assert found


def test_a_lamp_that_can_ask_for_a_stop_is_no_wrong_answer(
    guide: Guide, fleet: FleetKnowledge
) -> None:
    judge = Judge(guide)
    for seed in "abcd":
        for question in write_quiz(guide, fleet, MANY, seed).questions:
            if question.kind is not QuestionKind.STOP_LAMP:
                continue
            for place, answer in enumerate(question.answers):
                if place != question.right:
                    (lamp,) = judge.titled[judge.printed(answer)]
                    steps = [b.text for b in lamp.blocks if isinstance(b, Step)]
                    assert not any(" stop" in f" {judge.printed(s)}".lower() for s in steps)


def test_wrong_values_are_on_record_for_another_truck(
    guides: Mapping[str, Guide], guide: Guide, fleet: FleetKnowledge
) -> None:
    for question in write_quiz(guide, fleet, MANY).questions:
        if question.kind is not QuestionKind.VALUE:
            continue
        recorded = {
            value_words(other.facts[question.subject])
            for other in guides.values()
            if other is not guide and question.subject in other.facts
        }
        wrong = {
            value_words(answer.fact)
            for place, answer in enumerate(question.answers)
            if place != question.right and isinstance(answer, TruckValue)
        }
        assert wrong <= recorded
