import re
from pathlib import Path

import pytest

from guidegen.finding import Findings
from guidegen.finding_report import format_findings
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.read import read_procedure
from guidegen.procedures.style.check import check_style
from guidegen.procedures.style.glossary import Glossary, read_glossary
from guidegen.procedures.style.imperative import is_instruction
from guidegen.procedures.style.one_name import NameCheck
from guidegen.procedures.style.pages import PAGES
from guidegen.procedures.style.references import names_a_source
from guidegen.procedures.words import CHAPTERS, LABELS, SIGNAL_DEFINITIONS, STATES, STATIONS
from guidegen.rule_page import Example, RulePage
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fields import ChoiceField, ChoicesField
from guidegen.specs.profile import FACTS
from guidegen.specs.topics.lamps import LAMPS

GLOSSARY = Glossary(
    {
        "parking brake": ("hand brake", "handbrake"),
        "fuel/water separator": ("water separator",),
        "accelerator": ("gas pedal",),
    },
    frozenset({"start", "stop", "turn", "check", "set", "drain", "press", "look", "report"}),
)
PARTS = {
    "title": "title: Start the engine\n",
    "cautions": "cautions: []\n",
    "steps": "steps:\n  - {id: start, text: Start the engine.}\n",
    "expect": "expect: [The engine runs.]\n",
    "if_not": "if_not: [Report it to the shop.]\n",
    "references": "references: ['common practice, no source']\n",
}
HEAD = "id: try-out\nchapter: in-the-cab\nstate: {parking_brake: set}\nstation: cab\n"


def procedure(text: str) -> ProcedureTemplate:
    """A procedure with the parts that *text* states, and plain ones for the rest."""
    stated = {
        found[1]: found[0] for found in re.finditer(r"(?m)^(\w+):[^\n]*\n(?:[ -].*\n)*", text)
    }
    findings = Findings()
    raw = HEAD + "".join({**PARTS, **stated}.values())
    template = read_procedure("try-out.yml", raw.encode(), findings)
    assert template is not None, format_findings(findings)
    return template


def broken_by(text: str) -> set[str]:
    findings = Findings()
    check_style([procedure(text)], GLOSSARY, findings)
    return {finding.rule.name for finding in findings}


def named(page: RulePage) -> str:
    return page.rule.name


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_the_wrong_example_breaks_its_rule_and_no_other(page: RulePage) -> None:
    assert broken_by(page.wrong.text) == {page.rule.name}


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_the_right_example_breaks_no_rule(page: RulePage) -> None:
    example: Example = page.right

    assert broken_by(example.text) == set()


@pytest.mark.parametrize(
    "text",
    [
        "Start the engine.",
        "Do not start the engine.",
        "Never start it hot.",
        "If it is cold, start the engine.",
        "If it is cold, and only then, start the engine.",
        "When it has stopped, do not start it.",
        "With a trailer on, check the lines.",
        "In the cab, turn the key on.",
        "On firm ground, stop.",
        "To drive off, press the pedal.",
        "Before a hill, check the brakes.",
        "From the seat, turn the knob.",
        "Only if nobody is near, turn the valve.",
    ],
)
def test_instructions_begin_with_a_verb_or_an_opening(text: str) -> None:
    assert is_instruction(text, GLOSSARY.verbs)


@pytest.mark.parametrize(
    "text",
    [
        "The engine starts.",
        "Engine start.",
        "Starting the engine is easy.",
        "If it is cold, the engine starts.",
        "If it is cold start the engine.",
        "In the cab the key is turned.",
        "You start the engine.",
        "Slowly, start the engine.",
        "The key, turn it.",
        "",
    ],
)
def test_what_describes_is_no_instruction(text: str) -> None:
    assert not is_instruction(text, GLOSSARY.verbs)


def test_a_banned_name_is_found_across_a_line_break() -> None:
    findings = Findings()
    text = "steps:\n  - id: start\n    text: >-\n      Press the hand\n      brake.\n"

    check_style([procedure(text)], GLOSSARY, findings)

    (finding,) = findings
    assert finding.what == "`hand brake` is a second name for `parking brake`"
    assert finding.span is not None
    line = finding.span.file.line(finding.span.line)
    assert line[finding.span.column - 1 :] == "hand"


def test_a_banned_name_inside_a_wanted_one_is_let_pass() -> None:
    steps = "steps:\n  - {id: start, text: 'Drain the %s.'}\n"

    assert broken_by(steps % "fuel/water separator") == set()
    assert broken_by(steps % "water separator") == {"second-name-for-one-thing"}


def test_a_banned_name_inside_a_word_is_let_pass() -> None:
    assert broken_by("title: Check the shorthand brakeman\n") == set()


def test_names_in_placeholders_are_not_looked_at() -> None:
    glossary = Glossary({"parking brake": ("location",)}, GLOSSARY.verbs)
    findings = Findings()
    steps = "steps:\n  - {id: start, text: 'Turn {{ parking_brake.location }}.'}\n"

    check_style([procedure(steps)], glossary, findings)

    assert list(findings) == []


@pytest.mark.parametrize(
    "reference",
    [
        "49 CFR 392.22(a) and (b)",
        "FMVSS 121 S5.6.4",
        "ISO 22241 (fluid)",
        "CDL manual section 5.3, build-up",
        "Ontario Air Brake Handbook",
        "EPA Technical Bulletin, National Clean Diesel Campaign",
        "NSC Standard 13, schedule 1",
        "The limit is the maker's, from the unit's spec",
        "Common practice, no source",
        "Order of the steps; common practice, no source",
        "Propane sinks; stated from memory",
    ],
)
def test_references_that_can_be_looked_up(reference: str) -> None:
    assert names_a_source(reference)


@pytest.mark.parametrize(
    "reference",
    ["Local rules come first", "The shop says so", "Common practice", "ISO", "A report"],
)
def test_references_that_cannot(reference: str) -> None:
    assert not names_a_source(reference)


def glossary_findings(text: str) -> list[tuple[str, str]]:
    findings = Findings()
    glossary = read_glossary("glossary.yml", text.encode(), findings)
    assert (glossary is None) == bool(findings.errors)
    return [(finding.rule.name, finding.where) for finding in findings]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("terms: {hood: [bonnet]}\nverbs: [start]\n", []),
        (
            "terms: {hood: [bonnet], cab: [Bonnet]}\nverbs: [start]\n",
            [("glossary-contradicts", "glossary.yml:1:31")],
        ),
        (
            "terms: {hood: [bonnet], bonnet: [cover]}\nverbs: [start]\n",
            [("glossary-contradicts", "glossary.yml:1:16")],
        ),
        ("terms: {hood: bonnet}\nverbs: [start]\n", [("glossary-unreadable", "glossary.yml:1:15")]),
        ("terms: [hood]\nverbs: [start]\n", [("glossary-unreadable", "glossary.yml:1:8")]),
        (
            "terms: {hood: [bonnet]}\nverbs: [start]\nnouns: [a]\n",
            [("glossary-unreadable", "glossary.yml:3:1")],
        ),
    ],
)
def test_a_faulty_glossary_is_refused_at_its_place(
    text: str, expected: list[tuple[str, str]]
) -> None:
    assert glossary_findings(text) == expected


def test_a_glossary_without_verbs_is_refused() -> None:
    assert [name for name, _ in glossary_findings("terms: {hood: [bonnet]}\n")] == [
        "glossary-unreadable"
    ]


def fixed_words() -> list[str]:
    """What the guide prints besides the procedures: labels, choices, states, places, lamps."""
    words = [field.label for field in FACTS.values()]
    words += [section.label for section in EQUIPMENT_SECTIONS.values()]
    for field in FACTS.values():
        if isinstance(field.field, ChoiceField | ChoicesField):
            words += field.field.choices.values()
    for table in (LABELS, STATIONS, CHAPTERS, SIGNAL_DEFINITIONS, *STATES.values()):
        words += table.values()
    return [*words, *(lamp.name for lamp in LAMPS.values())]


def test_the_fixed_words_of_the_guide_call_things_by_their_one_name(project_root: Path) -> None:
    path = project_root / "site_templates" / "glossary.yml"
    glossary = read_glossary(path.name, path.read_bytes(), Findings())
    assert glossary is not None
    check = NameCheck.of(glossary)

    second = {found[1].lower() for words in fixed_words() for found in check.find(words)}

    # The section's own label says what the letters DEF stand for.
    assert second == {"diesel exhaust fluid"}
