"""A step is one sentence of few words."""

import pytest
from condition_strategies import scalar_of

from guidegen.finding import Findings
from guidegen.procedures.step_wording import MOST_WORDS, check_step_wording


def faults(typed: str) -> list[tuple[str, str]]:
    """Return each rule, and what is shown of the step."""
    findings = Findings()
    check_step_wording(scalar_of("'" + typed.replace("'", "''") + "'"), findings)
    shown = []
    for finding in findings:
        span = finding.span
        assert span is not None
        shown.append((finding.rule.name, span.file.text[span.column - 1 : span.end_column - 1]))
    return shown


@pytest.mark.parametrize("typed", [" ".join(["word"] * MOST_WORDS) + ".", "a - b \u2013 c."])
def test_step_of_twenty_words_is_short_enough(typed: str) -> None:
    assert faults(typed) == []


def test_step_of_one_word_more_is_too_long() -> None:
    words = " ".join(["word"] * (MOST_WORDS + 1))

    assert [("step-too-long", f"'{words}'")] == faults(words)


def test_placeholder_is_one_word_whatever_its_name() -> None:
    words = " ".join(["word"] * (MOST_WORDS - 1))

    assert faults(words + " {{ aftertreatment . parked_regeneration . engine_speed }}.") == []


@pytest.mark.parametrize(
    ("typed", "second"),
    [
        ("Turn the key. Look at the lamps.", "Look at the lamps."),
        ("Is it on? Look again.", "Look again."),
        ('Say "stop." Then wait.', "Then wait."),
        ("Turn the key; look at the lamps.", "look at the lamps."),
        ("Stop at {{ engine.idle_speed }}. Then wait.", "Then wait."),
        ("Wait. {{ engine.idle_speed }} is idle. Look.", "{{ engine.idle_speed }} is idle. Look."),
    ],
)
def test_second_sentence_is_shown_from_its_first_word_on(typed: str, second: str) -> None:
    assert [("two-instructions", second)] == faults(typed)


@pytest.mark.parametrize(
    "typed",
    [
        "Turn the key.",
        "Turn the key",
        "Fill in No. 2 diesel only.",
        "Stop at approx. {{ engine.idle_speed }}.",
        "Look at the lamps, e.g. the red ones.",
        "Read {{ brakes.air.cut_out }}.",
        "Turn it 1.5 times...",
    ],
)
def test_points_that_end_no_sentence_are_let_be(typed: str) -> None:
    assert faults(typed) == []
