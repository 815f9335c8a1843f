"""House rules are plain text with places; whatever a cab cannot show is refused where it stands."""

from collections.abc import Iterable

import markdown  # type: ignore[import-untyped]
import pytest
from bs4 import BeautifulSoup
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.finding import Finding, Findings
from guidegen.procedures.model import ProcedureTemplate, Words
from guidegen.procedures.own.house_rules import MOST_RULES, MOST_WORDS, read_house_rules
from guidegen.procedures.words import HOUSE_RULES

PATH = "specs/own/house-rules/yard.md"
SOUND = """\
# Rules of the yard

Keep the **lamps** on.

## Speed

- Drive no faster than 5 mph.
- People on foot
  *always* go first.

## Key box

1. Hang up the key.
"""


def read(text: str, path: str = PATH) -> tuple[tuple[ProcedureTemplate, ...], tuple[Finding, ...]]:
    findings = Findings()
    own = read_house_rules([(path, text.encode())], findings)
    return tuple(each.template for each in own), tuple(findings)


def said(template: ProcedureTemplate) -> list[str]:
    return ["".join(p.text for p in s.text.parts if isinstance(p, Words)) for s in template.steps]


def title(template: ProcedureTemplate) -> str:
    return "".join(part.text for part in template.title.parts if isinstance(part, Words))


def test_each_section_is_a_procedure_whose_steps_are_its_rules() -> None:
    found, findings = read(SOUND)

    assert not findings
    assert [(each.id, title(each), said(each)) for each in found] == [
        ("rules-yard", "Rules of the yard", ["Keep the lamps on."]),
        (
            "rules-yard-speed",
            "Rules of the yard: Speed",
            ["Drive no faster than 5 mph.", "People on foot always go first."],
        ),
        ("rules-yard-key-box", "Rules of the yard: Key box", ["Hang up the key."]),
    ]
    assert {each.chapter for each in found} == {HOUSE_RULES}
    assert found[1].steps[1].text.span.place == f"{PATH}:8:3"


def test_rule_keeps_its_id_when_another_comes_above_it() -> None:
    before, _ = read(SOUND)
    after, _ = read(SOUND.replace("- Drive no", "- Sound the horn.\n- Drive no"))

    assert [s.id for s in before[1].steps] == [s.id for s in after[1].steps][1:]


HOSTILE = [
    ("- Go <script>alert(1)</script> on.", "house-rule-markup", 6),
    ("<script>alert(1)</script>", "house-rule-markup", 1),
    ("<!-- a note -->", "house-rule-markup", 1),
    ('- Go <img src="x" onerror="alert(1)"> on.', "house-rule-markup", 6),
    ("- Look at ![the gate](gate.png).", "house-rule-markup", 11),
    ("- See [the page](https://example.com/).", "house-rule-link", 7),
    ("- See [the page](javascript:alert(1)).", "house-rule-link", 7),
    ("- See <https://example.com/>.", "house-rule-link", 7),
    ("- Go on.\n\n[hidden]: https://example.com/", "house-rule-link", 1),
    ("```\ncode\n```", "house-rule-markup", 1),
    ("- Go.\n\n    - Set in", "house-rule-markup", 5),
    ("> Quoted", "house-rule-markup", 1),
    ("| a | b |\n|---|---|\n| c | d |", "house-rule-markup", 1),
    ("- ~~Struck~~ out", "house-rule-markup", 3),
    ("### Too deep\n\n- Go.", "house-rule-markup", 1),
    ("# Second name\n\n- Go.", "house-rule-markup", 1),
    ("- Drive to {{ identity.yard }}.", "house-rule-markup", 3),
    ("- " + "word " * (MOST_WORDS + 1), "house-rule-too-long", 3),
    ("- Go.\n- Go.", "house-rule-twice", 3),
    ("## " + "Long " * 20 + "\n\n- Go.", "house-rule-too-long", 1),
    ("## ?!\n\n- Go.", "house-rule-too-long", 1),
    ("## Empty", "house-rules-incomplete", 1),
    ("## A b\n\n- Go.\n\n## A: b\n\n- Go.", "house-rule-twice", 1),
]


@pytest.mark.parametrize(("text", "rule", "column"), HOSTILE)
def test_what_a_cab_cannot_show_is_refused_where_it_stands(
    text: str, rule: str, column: int
) -> None:
    _, findings = read(f"# Rules\n\n- Keep right.\n\n{text}\n")

    assert rule in [each.rule.name for each in findings]
    span = next(each.span for each in findings if each.rule.name == rule)
    assert span is not None
    assert span.file.path == PATH
    assert span.line >= 5
    assert span.column == column
    assert all(each.fix for each in findings)


def test_file_with_too_many_rules_is_refused_at_the_first_too_many() -> None:
    rules = "".join(f"- Rule {number}.\n" for number in range(MOST_RULES + 3))
    _, findings = read(f"# Rules\n\n{rules}")

    assert [each.where for each in findings] == [f"{PATH}:{MOST_RULES + 3}:3"]


@pytest.mark.parametrize("text", ["", "- Keep right.\n", "## Speed\n\n- Slow.\n", "# Rules\n"])
def test_rules_without_a_name_or_without_a_rule_are_refused(text: str) -> None:
    found, findings = read(text)

    assert not found
    assert [each.rule.name for each in findings] == ["house-rules-incomplete"]


def test_condition_at_the_head_says_for_which_trucks_the_rules_are() -> None:
    found, findings = read(f'---\napplies: identity.yard == "mill-yard"\n---\n{SOUND}')

    assert not findings
    assert all(each.applies is not None for each in found)
    assert found[0].span.place == f"{PATH}:4:1"


@pytest.mark.parametrize(
    ("head", "rule", "place"),
    [
        ("applies: fitted(claw)", "unknown-section", f"{PATH}:2:17"),
        ("aplies: fitted(clutch)", "unknown-part", f"{PATH}:2:1"),
    ],
)
def test_fault_of_the_head_is_told_in_its_line(head: str, rule: str, place: str) -> None:
    _, findings = read(f"---\n{head}\n---\n{SOUND}")

    assert [(each.rule.name, each.where) for each in findings] == [(rule, place)]


def test_two_files_of_the_same_section_names_are_kept_apart_by_their_own_names() -> None:
    findings = Findings()
    files = [(PATH, SOUND.encode()), ("specs/own/house-rules/dock.md", SOUND.encode())]

    assert len(read_house_rules(files, findings)) == 6
    assert not len(findings)


words = st.text(st.sampled_from("abcdefgh"), min_size=1, max_size=6)
marked = st.builds("{1}{0}{1}".format, words, st.sampled_from(["", "", "*", "**", "`"]))
lines = st.lists(marked, min_size=1, max_size=8).map(" ".join)
items = st.lists(lines, min_size=1, max_size=5, unique_by=lambda line: line.strip("*`"))


def independent(text: str) -> Iterable[str]:
    """Return the rules as the library `markdown` and an HTML parser see them."""
    soup = BeautifulSoup(markdown.markdown(text), "html.parser")
    return [" ".join(each.get_text().split()) for each in soup.select("li, body > p, :root > p")]


@given(items)
@settings(max_examples=40)
def test_no_word_is_lost_or_changed_against_another_reader_of_markdown(rules: list[str]) -> None:
    text = "# Rules\n\n" + "".join(f"- {rule}\n" for rule in rules)
    found, _ = read(text)

    assert said(found[0]) == list(independent(text))
