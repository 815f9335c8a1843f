"""Texts hold words and names of facts; Jinja agrees, and nothing in them is ever run."""

import dataclasses
from types import SimpleNamespace
from typing import Any

import pytest
from condition_strategies import scalar_of
from hypothesis import given
from hypothesis import strategies as st
from jinja2 import StrictUndefined
from jinja2.sandbox import SandboxedEnvironment

from guidegen.finding import Finding, Findings
from guidegen.procedures.model import Placeholder, TextTemplate, Words
from guidegen.procedures.placeholder import LONGEST_TEXT, read_text
from guidegen.specs.profile import FACTS


def read(typed: str) -> tuple[TextTemplate | None, list[Finding]]:
    findings = Findings()
    text = read_text("x.steps.y", scalar_of(typed), findings)
    return text, list(findings)


def parts_of(typed: str) -> list[str]:
    """Return words as typed and facts in angle brackets."""
    text, findings = read(typed)
    assert [finding.what for finding in findings] == []
    assert text is not None
    return [part.text if isinstance(part, Words) else f"<{part.fact}>" for part in text.parts]


def test_words_and_facts_come_in_their_order() -> None:
    expected = ["Watch both gauges rise to ", "<brakes.air.cut_out>", "."]

    assert expected == parts_of("Watch both gauges rise to {{ brakes.air.cut_out }}.")


def test_text_that_is_nothing_but_a_fact_has_no_empty_words() -> None:
    assert parts_of("' {{brakes.air.cut_out}} '") == ["<brakes.air.cut_out>"]


def test_two_facts_may_touch() -> None:
    expected = ["<engine.fuel>", "<identity.make>"]

    assert expected == parts_of("'{{ engine.fuel }}{{ identity.make }}'")


def test_line_breaks_and_runs_of_blanks_become_one_blank() -> None:
    expected = ["Drain the tanks to ", "<brakes.air.cut_in>", " and stop."]

    assert expected == parts_of(
        "|\n  Drain  the\n  tanks to {{\n  brakes.air.cut_in }}\n  and stop."
    )


def test_apostrophes_and_quotes_stay_as_typed() -> None:
    assert parts_of('Don\'t "ride" the brake') == ['Don\'t "ride" the brake']


def test_no_break_space_stays_a_no_break_space() -> None:
    assert parts_of("step\u00a02") == ["step\u00a02"]


def test_text_keeps_its_id_and_each_placeholder_its_place() -> None:
    text, _ = read("Rise to {{ brakes.air.cut_out }}.")

    assert text is not None
    placeholder = text.parts[1]
    assert isinstance(placeholder, Placeholder)
    expected = ("x.steps.y", 15, 39)
    assert expected == (text.id, placeholder.span.column, placeholder.span.end_column)


NOT_FACTS = [
    ("{{ brakes.air.cut_out | upper }}", "a filter"),
    ("{{ brakes.air.cut_out() }}", "a call"),
    ("{{ brakes.air.cut_out + 1 }}", "an expression"),
    ("{{ brakes.air['cut_out'] }}", "an expression"),
    ("{{ brakes.air.cut_out if brakes.abs }}", "an expression"),
    ("{{ brakes.air.cut_out, brakes.abs }}", "an expression"),
    ("{{ not brakes.abs }}", "an expression"),
    ("{{ 'psi' }}", "an expression"),
    ("{{ none }}", "an expression"),
    ("{{ 3 }}", "an expression"),
    ("{{- brakes.abs }}", "an expression"),
    ("{{ brakes.abs -}}", "an expression"),
    ("{{+ brakes.abs }}", "an expression"),
    ("{{ brakes..abs }}", "an expression"),
    ("{{ brakes.air cut_out }}", "an expression"),
    ("{{ }}", "an empty placeholder"),
    ("{% raw %}", "a statement"),
    ("{% set x = 1 %}", "a statement"),
    ("{# later #}", "a comment"),
    ("{{ ().__class__.__bases__ }}", "a call"),
]


@pytest.mark.parametrize(("braced", "kind"), NOT_FACTS)
def test_anything_but_a_name_is_refused_at_its_own_place(braced: str, kind: str) -> None:
    quoted = braced.replace("'", "''")

    text, (finding,) = read(f"'Rise to {quoted} slowly.'")

    assert text is None
    assert finding.span is not None
    assert f"`{braced}` is {kind} and no name of a fact" == finding.what
    expected = (16, 16 + len(quoted))
    assert expected == (finding.span.column, finding.span.end_column)


@pytest.mark.parametrize(
    "dunder", ["self", "__class__", "loop", "brakes.__init__", "brakes.air.mro"]
)
def test_names_that_jinja_would_know_are_no_facts(dunder: str) -> None:
    _, (finding,) = read(f"'{{{{ {dunder} }}}}'")

    assert finding.rule.name == "unknown-fact"


@pytest.mark.parametrize(
    ("typed", "stray", "column"),
    [
        ("'Rise to {{ brakes.abs }'", "{{", 16),
        ("'Rise to brakes.abs }}'", "}}", 27),
        ("'Rise to {% brakes.abs'", "{%", 16),
        ("'Rise to {# brakes.abs'", "{#", 16),
    ],
)
def test_braces_without_their_counterpart_are_no_text(typed: str, stray: str, column: int) -> None:
    text, (finding,) = read(typed)

    assert text is None
    assert finding.span is not None
    expected = (f"`{stray}` has no counterpart in this text", column)
    assert expected == (finding.what, finding.span.column)


def test_one_brace_is_a_sign_like_any_other() -> None:
    assert parts_of("'Turn to {A} or }B{'") == ["Turn to {A} or }B{"]


def test_all_faults_of_a_text_are_told_at_once() -> None:
    typed = "'At 750 rpm {{ a.b }} and {{ 1 }} till {{ engine.idle_speed }} rpm'"

    _, findings = read(typed)

    expected = [
        *("number-in-template", "unknown-fact"),
        *("placeholder-not-a-fact", "measure-after-placeholder"),
    ]
    assert expected == [finding.rule.name for finding in findings]


@pytest.mark.parametrize(
    ("typed", "measure"),
    [
        ("{{ brakes.air.cut_out }} psi", "psi"),
        ("{{ brakes.air.cut_out }}psi", "psi"),
        ("{{ brakes.air.cut_out }}-PSI", "PSI"),
        ("{{ engine.oil_check_wait }} minutes, then look", "minutes"),
        ("{{ tires.steer.cold_pressure }} pounds per square inch", "pounds per square inch"),
        ("{{ cooling.antifreeze_share }}%", "%"),
    ],
)
def test_measure_after_an_amount_would_be_read_twice(typed: str, measure: str) -> None:
    _, (finding,) = read(f"'{typed}'")

    expected = ("measure-after-placeholder", f"delete `{measure}`")
    assert expected == (finding.rule.name, finding.fix)


def test_word_after_a_value_that_is_no_measure_is_let_be() -> None:
    expected = ["<brakes.air.cut_out>", " at the gauge, ", "<brakes.air.tank_count>", " gallons"]

    assert expected == parts_of(
        "'{{ brakes.air.cut_out }} at the gauge, {{ brakes.air.tank_count }} gallons'"
    )


def test_text_of_a_page_is_refused() -> None:
    _, (finding,) = read("a" * (LONGEST_TEXT + 1))

    assert finding.rule.name == "text-too-long"


def test_text_of_blanks_is_empty_and_a_missing_one_has_its_finding_already() -> None:
    _, (finding,) = read("'  '")
    findings = Findings()
    missing = dataclasses.replace(scalar_of("x"), text="")

    assert finding.rule.name == "empty-text"
    assert read_text("x", missing, findings) is None
    assert not list(findings)


def nested(names: dict[str, str]) -> dict[str, Any]:
    roots: dict[str, Any] = {}
    for name, value in names.items():
        *holders, own = name.split(".")
        place: Any = roots
        for holder in holders:
            inner = place.get(holder) if isinstance(place, dict) else getattr(place, holder, None)
            if inner is None:
                inner = SimpleNamespace()
                if isinstance(place, dict):
                    place[holder] = inner
                else:
                    setattr(place, holder, inner)
            place = inner
        setattr(place, own, value)
    return roots


JINJA = SandboxedEnvironment(undefined=StrictUndefined, autoescape=False)
VALUES = {name: f"<{name}>" for name in FACTS}


@given(
    st.lists(
        st.one_of(
            st.text(alphabet="abz .,;:'\"<&-", min_size=1, max_size=12),
            st.sampled_from(sorted(FACTS)).map(lambda name: f"{{{{ {name} }}}}"),
        ),
        min_size=1,
        max_size=8,
    )
)
def test_jinja_renders_the_text_as_we_read_it(stretches: list[str]) -> None:
    typed = "".join(stretches)
    scalar = dataclasses.replace(scalar_of("'x'"), text=typed)
    text = read_text("x", scalar, Findings())
    if text is None:
        return

    ours = "".join(
        part.text if isinstance(part, Words) else VALUES[part.fact] for part in text.parts
    )

    rendered = JINJA.from_string(typed).render(nested(VALUES))
    assert " ".join(rendered.split()) == " ".join(ours.split())


@given(st.text(alphabet="{}%#- |.()abkers\n'\"1", max_size=60))
def test_any_text_is_read_or_has_a_finding(typed: str) -> None:
    scalar = dataclasses.replace(scalar_of("'x'"), text=typed)
    findings = Findings()

    text = read_text("x", scalar, findings)

    assert (text is None) == findings.has_errors
