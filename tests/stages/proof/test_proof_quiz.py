"""Quizzes whose page says what the quiz says, and which the guide calls wrong."""

from dataclasses import replace

import pytest
from hand_made_site import T_17, hand_made_site
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_fleet import fact

from guidegen.proof.judge_quiz import unsound_questions
from guidegen.proof.prove import prove_fleet
from guidegen.training.model import Question, Quiz, TruckValue

SITE = hand_made_site()
QUIZ = SITE.quizzes[T_17.edition]


def changed(place: int, question: Question) -> Quiz:
    questions = list(QUIZ.questions)
    questions[place] = question
    return replace(QUIZ, questions=tuple(questions))


def test_the_quiz_written_by_hand_is_sound() -> None:
    assert unsound_questions(T_17, QUIZ) == {}


@settings(deadline=None)
@given(place=st.integers(0, len(QUIZ.questions) - 1), step=st.integers(1, 2))
def test_another_answer_called_right_is_found(place: int, step: int) -> None:
    question = QUIZ.questions[place]
    other = replace(question, right=(question.right + step) % len(question.answers))
    assert set(unsound_questions(T_17, changed(place, other))) == {question.id}


@pytest.mark.parametrize("place", range(len(QUIZ.questions)))
def test_two_right_answers_are_found(place: int) -> None:
    question = QUIZ.questions[place]
    answers = list(question.answers)
    answers[(question.right + 1) % len(answers)] = answers[question.right]
    other = replace(question, answers=tuple(answers))
    assert set(unsound_questions(T_17, changed(place, other))) == {question.id}


def test_the_right_value_with_other_digits_is_a_second_right_answer() -> None:
    question = QUIZ.questions[0]
    same = TruckValue(fact("brakes.air.low_air_warning", "65.0 psi"))
    other = replace(question, answers=(same, *question.answers[1:]))
    assert set(unsound_questions(T_17, changed(0, other))) == {question.id}


def test_a_site_with_an_unsound_quiz_is_not_proved() -> None:
    question = QUIZ.questions[2]
    wrong = changed(2, replace(question, right=1))
    verdict = prove_fleet(
        SITE.guides,
        SITE.read,
        SITE.files,
        held_back=SITE.held_back,
        offer=SITE.offer,
        rounds=SITE.rounds,
        quizzes={QUIZ.edition: wrong},
    )
    found = {failure.rule.name for failure in verdict.all_failures}
    assert {"question-unsound", "key-differs"} <= found
