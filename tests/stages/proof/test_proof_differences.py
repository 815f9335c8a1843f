"""What the proof makes of difference sheets, apart from the faults planted in them."""

from dataclasses import replace

import pytest
from difference_strategies import guides
from drawn_sheet import DrawnSheet
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_fleet import Warn, fact, guide, procedure

from guidegen.differences.compare import compare_guides
from guidegen.differences.model import (
    ControlChanged,
    Difference,
    LampGained,
    LampLost,
    ProcedureChanged,
    ProcedureGained,
    ProcedureLost,
    ProcedureReplaced,
    ThingGained,
    ThingInDoubt,
    ThingLost,
    ValueChanged,
    ValueGained,
    ValueLost,
)
from guidegen.guide.model import Chapter, Guide, Procedure
from guidegen.procedures.model import Signal
from guidegen.proof.differ import differ
from guidegen.proof.foreign import count_foreign, gather_identities
from guidegen.specs.profile import FACTS

PAIRS = st.tuples(guides("A-1"), guides("B-2"))


def named(difference: Difference) -> tuple[str, str]:
    """Return kind and key as the proof names them."""
    match difference:
        case ValueChanged(given=fact) | ControlChanged(given=fact) | ValueGained(given=fact):
            return "value", fact.name
        case ValueLost(known=fact):
            return "value", fact.name
        case ThingGained(section=key) | ThingLost(section=key) | ThingInDoubt(section=key):
            return "thing", key
        case LampGained(lamp=key) | LampLost(lamp=key):
            return "lamp", key
        case ProcedureChanged(given=work) | ProcedureReplaced(given=work):
            return "work", work.id
        case ProcedureGained(procedure=work) | ProcedureLost(procedure=work):
            return "work", work.id


@given(PAIRS)
def test_the_proof_finds_the_same_differences_by_its_own_reading(
    pair: tuple[Guide, Guide],
) -> None:
    known, given = pair
    told = [(*named(e), e.standing) for e in compare_guides(known, given).differences]
    assert [(e.kind, e.key, e.standing) for e in differ(known, given)] == told


@given(PAIRS)
@settings(max_examples=50, deadline=None)
def test_every_sheet_that_is_drawn_is_proved_whole(pair: tuple[Guide, Guide]) -> None:
    drawn = DrawnSheet(*pair)

    verdict = drawn.prove()

    assert verdict.failures == ()
    assert verdict.counts.differences == len(compare_guides(*pair).differences)
    assert drawn.prove_picker().failures == ()


@given(PAIRS)
@settings(max_examples=25, deadline=None)
def test_the_sheet_of_one_pair_is_not_taken_for_that_of_another(
    pair: tuple[Guide, Guide],
) -> None:
    known, given = pair
    elsewhere = {**known.facts, "law.name": fact("law.name", "Elsewhere")}
    other = replace(known, facts={name: elsewhere[name] for name in FACTS if name in elsewhere})

    verdict = DrawnSheet(other, given).prove(DrawnSheet(known, given).sheet)

    found = {each.rule.name for each in verdict.failures}
    assert found & {"difference-missing", "value-not-read-back", "value-missing"}


def truck(number: str, *procedures: Procedure, stated: dict[str, str] | None = None) -> Guide:
    chapters = (Chapter("before-the-day", procedures),) if procedures else ()
    return guide({"number": number}, stated or {}, chapters)


WARNED = procedure(
    "look",
    "Look around",
    [
        "Look left.",
        Warn(Signal.WARNING, "Traffic comes.", "It can hit you.", "Stay clear."),
        "Look right.",
        Warn(Signal.NOTICE, "Mirrors break.", "They cost a day.", "Fold them."),
        "Look back at {brakes.air.cut_out}.",
    ],
    expect=("Nobody is there.",),
    if_not=("Wait.",),
)
PLAIN = procedure("look", "Look around", ["Look left."], if_not=("Wait.",))
AIR = {"brakes.air.cut_out": "130 psi"}


@pytest.fixture(scope="module")
def changed() -> DrawnSheet:
    return DrawnSheet(truck("A-1", PLAIN, stated=AIR), truck("B-2", WARNED, stated=AIR))


def rules_after(drawn: DrawnSheet, old: str, new: str) -> set[str]:
    text = drawn.sheet.decode()
    assert old in text
    verdict = drawn.prove(text.replace(old, new, 1).encode())
    return {failure.rule.name for failure in verdict.failures}


def test_added_steps_are_proved_with_cautions_and_values(changed: DrawnSheet) -> None:
    assert changed.prove().failures == ()
    assert changed.prove().counts.differences == 1


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        ("Traffic comes.", "Traffic goes.", "text-not-read-back"),
        ('data-signal="WARNING"', 'data-signal="CAUTION"', "signal-word-differs"),
        (">WARNING<", ">CAUTION<", "signal-word-differs"),
        ('data-number="2">2<', 'data-number="2">3<', "step-number-differs"),
        ("130\u00a0psi", "131\u00a0psi", "value-not-read-back"),
        ("Look right.", "Look right", "text-not-read-back"),
        ('data-label="expect">You should see', 'data-label="if_not">If not', "label-misplaced"),
        ("<svg class=", "<svg hidden class=", "alert-symbol-differs"),
        ('data-label="done_otherwise"', 'data-label="no_known"', "label-not-read-back"),
        ("before-the-day.html#look", "air-brakes.html#look", "link-to-other-place"),
        ("before-the-day.html#look", "before-the-day.html#other", "link-to-other-place"),
        ('<ul class="gg-sheet">', '<ul class="gg-sheet" style="display:none">', "caution-hidden"),
    ],
)
def test_a_change_in_an_added_part_is_caught(
    changed: DrawnSheet, old: str, new: str, rule: str
) -> None:
    assert rule in rules_after(changed, old, new)


def test_a_caution_after_its_step_is_caught(changed: DrawnSheet) -> None:
    text = changed.sheet.decode()
    start = text.index('<aside class="gg-caution"')
    end = text.index("</aside>", start) + len("</aside>")
    step = text.index("Look right.</p></div>") + len("Look right.</p></div>")

    late = text[:start] + text[end:step] + text[start:end] + text[step:]

    found = {failure.rule.name for failure in changed.prove(late.encode()).failures}
    assert found == {"caution-after-its-step"}


def test_the_cautions_of_the_known_truck_are_not_drawn_as_cautions() -> None:
    """They warn of what this truck does not have; a driver must not take them for its own."""
    drawn = DrawnSheet(truck("A-1", WARNED, stated=AIR), truck("B-2", PLAIN, stated=AIR))
    text = drawn.sheet.decode()

    assert drawn.prove().failures == ()
    assert "<aside" not in text
    assert text.count('data-signal-word="WARNING"') == 1
    boxed = text.replace(
        '<p><b data-signal-word="WARNING">',
        '<p data-caution="look.cautions.caution-1" data-signal="WARNING">'
        '<b data-signal-word="WARNING">',
    )
    found = {failure.rule.name for failure in drawn.prove(boxed.encode()).failures}
    assert "step-that-does-not-apply" in found


def test_two_trucks_that_do_not_differ_have_a_sheet_that_says_so() -> None:
    drawn = DrawnSheet(truck("A-1", PLAIN), truck("B-2", PLAIN))
    said = '<p><span data-label="no_differences">'

    assert drawn.prove().failures == ()
    assert said in drawn.sheet.decode()


def test_a_sheet_with_differences_may_not_say_that_there_are_none(changed: DrawnSheet) -> None:
    said = (
        '<p data-label="no_differences">Nothing on record differs but number, VIN, plate and '
        'yard.</p><nav class="gg-contents"'
    )

    assert rules_after(changed, '<nav class="gg-contents"', said) == {"label-misplaced"}


def test_identities_are_counted_word_by_word_in_all_their_spellings() -> None:
    facts = guide({"number": "T-17", "plate": "SRC 417"}, {}, ()).facts
    identities = gather_identities([facts, guide({"number": "E-2"}, {}, ()).facts])

    text = b'<p class="T-17">t-17, from-T-17.html T-171 SRC 417 SRC 417 SRC E-2</p>'

    found = count_foreign(text, "E-2", identities)
    assert {str(identity): count for identity, count in found.items()} == {
        "T-17": 3,
        "SRC 417": 2,
    }
    assert [str(identity) for identity in count_foreign(text, "T-17", identities)] == ["E-2"]
    assert not count_foreign(b"nobody", "E-2", identities)
