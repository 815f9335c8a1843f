"""A fleet may replace what the library says, and loses no caution without an answer."""

from pathlib import Path

import pytest
from own_words import LIBRARY, STEPS, read_own

from guidegen.finding import Finding, Findings
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.own import rules
from guidegen.procedures.own.model import OwnProcedure, Replacement
from guidegen.procedures.own.place import with_own
from guidegen.procedures.own.read import originals_of, read_own_procedures
from guidegen.procedures.read import read_procedures

ROOT = Path(__file__).parents[4]
WHOLE = LIBRARY + "replaces: {procedure: drain-tanks, digest: DIGEST}\n"
ROLL = LIBRARY[LIBRARY.index("  - id: roll") : LIBRARY.index("  - id: blast")]
ANSWER = "reason: Wheel stops everywhere., approved_by: I. Quist, date: 2026-11-20"


def names(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.rule.name for finding in findings]


def only(own: tuple[OwnProcedure, ...]) -> OwnProcedure:
    (one,) = own
    return one


def replacement(own: tuple[OwnProcedure, ...]) -> Replacement:
    found = only(own).replacement
    assert found is not None
    return found


def test_replaced_step_stands_where_the_librarys_stood_with_its_caution_before_it() -> None:
    own, findings = read_own(steps=STEPS)

    template = only(own).template
    assert not findings
    assert [step.id for step in template.steps] == ["chock", "open", "watch"]
    assert template.steps[1].span.file.path == "specs/own/steps/drain-tanks.yml"
    assert template.steps[2].span.file.path == "site_templates/procedures/drain-tanks.yml"
    assert {caution.id: caution.guards for caution in template.cautions} == {
        "roll": "chock",
        "blast": "open",
    }


def test_further_steps_stand_beside_the_step_that_they_name_in_the_order_typed() -> None:
    more = """\
  - {id: gloves, before: open, text: Put on gloves.}
  - {id: wait, after: open, text: Wait until no water comes.}
  - {id: close, after: open, text: Close each drain.}
"""
    own, findings = read_own(steps=STEPS + more)

    assert not findings
    assert [step.id for step in only(own).template.steps] == [
        *("chock", "gloves", "open", "wait", "close", "watch"),
    ]


def test_own_step_is_held_to_the_rules_of_the_library_at_its_own_place() -> None:
    long = "Open " + "the drain and look at it and " * 5 + "close it"
    own, findings = read_own(steps=STEPS.replace("Pull the ring of each tank.", long))
    (finding,) = findings

    assert not own
    assert finding.rule.name == "step-too-long"
    assert finding.where == "specs/own/steps/drain-tanks.yml:4:11"


@pytest.mark.parametrize(
    ("steps", "rule", "column"),
    [
        (STEPS.replace("replaces: open", "replaces: opn"), "replaces-nothing", 15),
        (STEPS.replace("replaces: open", "id: opn"), "part-missing", 5),
        (STEPS.replace("procedure: drain-tanks", "procedure: drain-tank"), "replaces-nothing", 23),
        (STEPS.replace("digest: DIGEST", "digest: 0123"), "original-changed", 44),
        (STEPS.replace(", digest: DIGEST", ""), "part-missing", 1),
        (STEPS + "    id: other\n", "id-of-wrong-form", 9),
        (STEPS + "station: cab\n", "unknown-part", 1),
    ],
)
def test_fault_of_a_file_of_steps_is_told_at_its_place(steps: str, rule: str, column: int) -> None:
    _, findings = read_own(steps=steps)

    assert names(findings) == [rule]
    span = findings[0].span
    assert span is not None
    assert span.file.path == "specs/own/steps/drain-tanks.yml"
    assert span.column == column
    assert findings[0].fix


def test_whole_procedure_that_says_the_same_has_nothing_to_report() -> None:
    own, findings = read_own(WHOLE)

    assert not findings
    assert replacement(own).changes == ()


def test_lost_caution_is_an_error_that_names_it_and_shows_its_words() -> None:
    own, findings = read_own(WHOLE.replace(ROLL, ""))
    (finding,) = findings

    assert finding.rule is rules.CAUTION_LOST
    assert finding.is_error
    assert "`roll`" in finding.what
    assert "DANGER: The truck can roll. It will crush a person." in finding.notes[0].text
    assert finding.notes[0].span is not None
    assert finding.notes[0].span.place == "site_templates/procedures/drain-tanks.yml:10:9"
    assert [change.verb for change in replacement(own).changes] == ["gone"]


@pytest.mark.parametrize(
    ("before", "after", "how"),
    [
        ("signal: DANGER", "signal: WARNING", "WARNING instead of DANGER"),
        ("The truck can roll.", "The floor is wet.", "another hazard"),
        ("It will crush a person.", "It is a nuisance.", "another consequence"),
        ("Chock the wheels.\n  - id: blast", "Take care.\n  - id: blast", "another avoid"),
        (
            "Chock the wheels.\n  - id: blast",
            "Chock the wheels.\n    when: fitted(clutch)\n  - id: blast",
            "another condition",
        ),
        ("guards: chock", "guards: watch", "it comes after `chock`, `open`"),
        (
            "text: Chock the wheels.",
            "text: Chock the wheels.\n    when: fitted(clutch)",
            "its step `chock` stands under another condition",
        ),
    ],
)
def test_caution_that_warns_less_is_an_error(before: str, after: str, how: str) -> None:
    assert before in WHOLE
    own, findings = read_own(WHOLE.replace(before, after))

    assert names(findings) == ["caution-weakened"]
    assert how in findings[0].what
    assert replacement(own).changes[0].how == (how,)


def test_graver_signal_and_wider_condition_need_no_answer() -> None:
    own, findings = read_own(WHOLE.replace("signal: WARNING", "signal: DANGER"))

    assert not findings
    assert replacement(own).changes[0].how == ()


def test_step_under_a_condition_takes_its_caution_off_other_trucks_and_is_an_error() -> None:
    _, findings = read_own(steps=STEPS + "    when: fitted(clutch)\n")

    assert names(findings) == ["caution-weakened"]
    assert "`blast`" in findings[0].what


def test_caution_that_somebody_answers_for_is_given_up_and_reported() -> None:
    text = WHOLE.replace(ROLL, "") + f"drops_caution:\n  - {{caution: roll, {ANSWER}}}\n"
    own, findings = read_own(text)

    assert not findings
    (change,) = replacement(own).changes
    stated = replacement(own).statement_of(change)
    assert stated is not None
    assert (stated.approved_by, stated.date) == ("I. Quist", "2026-11-20")


def test_steps_may_drop_a_caution_only_with_an_answer() -> None:
    own, findings = read_own(steps=STEPS + f"drops_caution:\n  - {{caution: blast, {ANSWER}}}\n")

    assert not findings
    assert [caution.id for caution in only(own).template.cautions] == ["roll"]


@pytest.mark.parametrize(
    ("entry", "expected"),
    [
        ("{caution: roll}", ["part-missing"] * 3 + ["caution-lost"]),
        (f"{{caution: rol, {ANSWER}}}", ["replaces-nothing", "caution-lost"]),
        (f"{{caution: roll, {ANSWER.replace('-20', '-31')}}}", ["date-unreadable", "caution-lost"]),
        (
            f"{{caution: roll, {ANSWER.replace('2026-11-20', '20.11.2026')}}}",
            ["date-unreadable", "caution-lost"],
        ),
    ],
)
def test_answer_that_is_not_whole_answers_for_nothing(entry: str, expected: list[str]) -> None:
    _, findings = read_own(WHOLE.replace(ROLL, "") + f"drops_caution:\n  - {entry}\n")

    assert sorted(names(findings)) == sorted(expected)


def test_answer_for_a_caution_that_is_still_there_is_a_warning() -> None:
    own, findings = read_own(WHOLE + f"drops_caution:\n  - {{caution: roll, {ANSWER}}}\n")

    assert names(findings) == ["statement-needless"]
    assert not findings[0].is_error
    assert own


def test_reworded_caution_needs_an_answer_of_its_own_kind() -> None:
    text = WHOLE.replace("Chock the wheels.\n  - id: blast", "Set stops.\n  - id: blast")
    wrong = text + f"drops_caution:\n  - {{caution: roll, {ANSWER}}}\n"
    right = text + f"rewords_caution:\n  - {{caution: roll, {ANSWER}}}\n"

    assert names(read_own(wrong)[1]) == ["caution-weakened", "statement-needless"]
    assert names(read_own(right)[1]) == []


def test_state_that_is_lost_needs_an_answer() -> None:
    text = WHOLE.replace("  parking_brake: set\n", "")

    assert names(read_own(text)[1]) == ["state-lost"]
    answered = text + f"changes_state:\n  - {{aspect: parking_brake, {ANSWER}}}\n"
    assert names(read_own(answered)[1]) == []


def test_replacement_for_other_trucks_than_the_original_is_an_error() -> None:
    _, findings = read_own(WHOLE.replace("applies: fitted(brakes.air)", "applies: fitted(clutch)"))

    assert "applies-changed" in names(findings)


def test_report_names_steps_and_numbers_that_are_gone() -> None:
    text = WHOLE.replace("Watch the gauges rise to {{ brakes.air.cut_out }}.", "Watch the gauges.")
    own, findings = read_own(text.replace("Water and air come out.", "Only air comes out."))

    assert not findings
    found = [(each.kind.value, each.name, each.verb) for each in replacement(own).changes]
    assert found == [
        ("step", "watch", "changed"),
        ("number", "brakes.air.cut_out", "gone"),
        ("outcome", "expect", "gone"),
        ("outcome", "expect", "new"),
    ]


def test_two_files_about_one_procedure_are_an_error() -> None:
    _, findings = read_own(WHOLE, STEPS)

    assert names(findings) == ["replaced-twice"]


def library() -> dict[str, ProcedureTemplate]:
    return dict(read_procedures([("p/drain-tanks.yml", LIBRARY.encode())], Findings()))


def test_id_of_the_library_is_taken_unless_the_file_says_that_it_replaces() -> None:
    own, read = read_own(LIBRARY)
    findings = Findings()
    with_own(library(), own, findings)

    assert not read
    (finding,) = findings
    assert finding.rule is rules.OWN_ID_TAKEN
    assert finding.where == "specs/own/procedures/drain-tanks.yml:1:5"
    assert finding.notes[0].span is not None


@pytest.mark.parametrize(
    ("place", "order"),
    [
        ("", ["drain-tanks", "blow-out"]),
        ("after: drain-tanks\n", ["drain-tanks", "blow-out"]),
        ("before: drain-tanks\n", ["blow-out", "drain-tanks"]),
    ],
)
def test_own_procedure_stands_where_it_says(place: str, order: list[str]) -> None:
    text = LIBRARY.replace("id: drain-tanks", "id: blow-out") + place
    own, read = read_own(text, name="blow-out")
    findings = Findings()

    assert not read
    assert list(with_own(library(), own, findings)) == order
    assert not len(findings)


@pytest.mark.parametrize("place", ["after: drain-tank", "before: blow-out"])
def test_place_beside_nothing_is_an_error(place: str) -> None:
    text = LIBRARY.replace("id: drain-tanks", "id: blow-out") + f"{place}\n"
    own, _ = read_own(text, name="blow-out")
    findings = Findings()
    with_own(library(), own, findings)

    assert names(tuple(findings)) == ["place-unknown"]


def test_no_caution_of_the_library_can_be_lost_silently() -> None:
    paths = sorted((ROOT / "site_templates" / "procedures").glob("[a-d]*.yml"))
    files = [(path.name, path.read_bytes()) for path in paths]
    stripped = []
    for name, raw in files:
        head, _, rest = raw.decode().partition("\ncautions:\n")
        steps = rest[rest.index("\nsteps:") :] if rest else ""
        replaces = f"replaces: {{procedure: {name.removesuffix('.yml')}, digest: x}}\n"
        stripped.append((f"own/{name}", f"{head}{steps}{replaces}".encode()))
    findings = Findings()
    read_own_procedures(stripped, (), originals_of(files), findings)

    lost = {
        (f.what.split("`")[1], f.what.split("`")[3])
        for f in findings
        if f.rule is rules.CAUTION_LOST
    }
    known = read_procedures(files, Findings())
    assert lost == {(c.id, each.id) for each in known.values() for c in each.cautions}
