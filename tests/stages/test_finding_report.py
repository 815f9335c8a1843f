"""Findings are shown to people with the faulty line and a caret, and to programs as records."""

import json
import re
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.finding import Finding, Note, Rule, Severity
from guidegen.finding_report import MAX_WIDTH, findings_as_json, format_findings, summary_line
from guidegen.source import SourceFile, Span

FILE = SourceFile(
    "specs/units/t-14.yml", "unit: T-14\nchassis:\n  gvwr: 54000\n  wheelbase: 6.2 m\n"
)
FAULT = Rule(
    "quantity-without-measure",
    "pounds and kilograms differ by more than two to one, and the weight card prints whichever is"
    " assumed",
)
HINT = Rule("value-not-confirmed", "nobody has compared it with the plate", Severity.WARNING)
GVWR = Span(FILE, 3, 9, 3, 14)
NO_MEASURE = Finding(
    FAULT,
    GVWR,
    "`gvwr: 54000` has no unit of measure",
    "copy the measure from the data plate: `gvwr: 54000 lb` or `gvwr: 54000 kg`",
)


def on(line: str, column: int, end_column: int) -> Finding:
    span = Span(SourceFile("a.yml", line + "\n"), 1, column, 1, end_column)
    return Finding(FAULT, span, "what", "fix")


def excerpt(finding: Finding) -> tuple[str, str]:
    """Return the line as shown and the carets under it, both without the gutter."""
    _, line, carets, *_ = format_findings([finding]).split("\n")
    assert line.startswith("  1 | ")
    assert carets.startswith("    | ")
    return line[6:], carets[6:]


def test_a_finding_shows_place_line_caret_reason_and_cure() -> None:
    expected = """\
specs/units/t-14.yml:3:9: error[quantity-without-measure] `gvwr: 54000` has no unit of measure
  3 |   gvwr: 54000
    |         ^^^^^
  why: pounds and kilograms differ by more than two to one, and the weight card prints whichever is assumed
  fix: copy the measure from the data plate: `gvwr: 54000 lb` or `gvwr: 54000 kg`"""  # noqa: E501 -- as printed
    assert expected == format_findings([NO_MEASURE])


def test_a_note_with_a_place_shows_its_line_between_line_and_reason() -> None:
    text = "".join(f"line_{number}: {number}\n" for number in range(1, 13))
    file = SourceFile("specs/t-14.yml", text)
    notes = (
        Note("first set at", Span(file, 4, 1, 4, 7)),
        Note("the model has `5.9 m`"),
    )
    finding = Finding(HINT, Span(file, 12, 1, 12, 8), "`line_12` is set twice", "delete one", notes)

    expected = """\
specs/t-14.yml:12:1: warning[value-not-confirmed] `line_12` is set twice
  12 | line_12: 12
     | ^^^^^^^
  note: first set at specs/t-14.yml:4:1
   4 | line_4: 4
     | ^^^^^^
  note: the model has `5.9 m`
  why: nobody has compared it with the plate
  fix: delete one"""
    assert expected == format_findings([finding])


def test_findings_stand_apart_and_keep_their_order() -> None:
    second = Finding(HINT, None, "what", "fix", unit="T-14")

    expected = format_findings([second]) + "\n\n" + format_findings([NO_MEASURE])
    assert expected == format_findings(iter([second, NO_MEASURE]))
    assert format_findings([]) == ""


@pytest.mark.parametrize(
    ("place", "unit", "expected"),
    [
        ("specs/fleet.yml", "T-14", "specs/fleet.yml: error[quantity-without-measure] what"),
        ("", "T-14", "T-14: error[quantity-without-measure] what"),
        ("", "", "error[quantity-without-measure] what"),
    ],
)
def test_a_finding_without_a_line_says_where_it_can(place: str, unit: str, expected: str) -> None:
    finding = Finding(FAULT, None, "what", "fix", unit=unit, place=place)

    lines = format_findings([finding]).split("\n")
    assert expected == lines[0]
    assert len(lines) == 3


@pytest.mark.parametrize(
    ("line", "start", "end", "expected"),
    [
        ("gvwr: 54000", 7, 12, ("gvwr: 54000", "      ^^^^^")),
        ("\tgvwr: 54000", 1, 2, ("    gvwr: 54000", "^^^^")),
        ("a:\tb", 4, 5, ("a:    b", "      ^")),
        ("é½°: x", 6, 7, ("é½°: x", "     ^")),
        ("🚚🚚: 充電", 5, 7, ("🚚🚚: 充電", "      ^^^^")),
        ("e\u0301: x", 5, 6, ("e\u0301: x", "   ^")),
        ("\ufe0f: x", 1, 2, ("\ufe0f: x", "^")),
        ("a: \x1b[31m", 4, 5, (r"a: \x1b[31m", r"   ^^^^")),
        ("a: \u202e000", 4, 5, (r"a: \u202e000", r"   ^^^^^^")),
        ("a: b", 5, 5, ("a: b", "    ^")),
        ("a: b", 9, 12, ("a: b", "    ^")),
        ("a: b  ", 2, 3, ("a: b", " ^")),
    ],
)
def test_the_caret_stands_under_what_is_meant(
    line: str, start: int, end: int, expected: tuple[str, str]
) -> None:
    assert expected == excerpt(on(line, start, end))


def test_carets_under_a_span_of_several_lines_run_to_the_end_of_the_first() -> None:
    file = SourceFile("a.yml", "note: one\n  two\n")
    finding = Finding(FAULT, Span(file, 1, 7, 2, 6), "what", "fix")

    expected = ("note: one", "      ^^^")
    assert expected == excerpt(finding)


def test_an_empty_line_is_not_shown() -> None:
    finding = Finding(FAULT, Span(SourceFile("a.yml", "\n \n"), 2, 1, 2, 1), "what", "fix")

    assert "|" not in format_findings([finding])


@pytest.mark.parametrize(
    ("line", "start", "end", "expected"),
    [
        ("x" * 72, 1, 2, ("x" * 72, "^")),
        ("x" * 73, 1, 2, ("x" * 69 + "...", "^")),
        ("x" * 99 + "!", 100, 101, ("..." + "x" * 68 + "!", " " * 71 + "^")),
        (
            "x" * 99 + "!" + "y" * 99,
            100,
            101,
            ("..." + "x" * 45 + "!" + "y" * 20 + "...", " " * 48 + "^"),
        ),
        ("x" * 200, 1, 201, ("x" * 45 + "...", "^" * 48)),
    ],
)
def test_a_long_line_is_cut_around_the_caret(
    line: str, start: int, end: int, expected: tuple[str, str]
) -> None:
    assert expected == excerpt(on(line, start, end))


LINES = st.text(
    st.sampled_from("ab 🚚充é\t\x1b\u0301\u202e") | st.characters(exclude_characters="\n\r"),
    min_size=1,
    max_size=150,
).filter(lambda line: bool(line.strip()))


@settings(deadline=None)  # the machine may be busy with other tests
@given(LINES, st.data())
def test_carets_stand_within_the_width_and_under_the_first_character(
    line: str, data: st.DataObject
) -> None:
    start = data.draw(st.integers(1, len(line)))
    end = data.draw(st.integers(start, len(line) + 1))
    shown, carets = excerpt(on(line, start, end))

    # Counted here by the Unicode property alone (UAX #11), which is what terminals go by.
    def width(text: str) -> int:
        return sum(
            0
            if unicodedata.category(character) in {"Mn", "Me"} or character in "\u200c\u200d"
            else 1 + (unicodedata.east_asian_width(character) in {"W", "F"})
            for character in text
        )

    assert width(shown) <= MAX_WIDTH
    assert width(carets) <= MAX_WIDTH + 1
    assert re.fullmatch(r" *\^+", carets)
    before = carets.index("^")
    cells = [width(shown[:length]) for length in range(len(shown) + 1)]
    marked = line[start - 1]
    if marked.isalnum() and end > start:
        at = max(length for length, cell in enumerate(cells) if cell == before)
        assert shown[at] == marked


@settings(deadline=None)  # the machine may be busy with other tests
@given(LINES, st.integers(1, 150))
def test_colors_change_nothing_but_colors(line: str, column: int) -> None:
    finding = on(line, column, column + 3)
    note = Finding(HINT, None, line, line, (Note(line, finding.span),), place=line)

    plain = format_findings([finding, note])
    colored = format_findings([finding, note], color=True)
    assert "\x1b" not in plain
    assert "\x1b[1;31merror" in colored
    assert "\x1b[1;33mwarning" in colored
    assert plain == re.sub(r"\x1b\[[0-9;]*m", "", colored)


def test_words_from_a_file_cannot_move_the_cursor() -> None:
    file = SourceFile("a\x1b[2J.yml", "unit: T-14\n")
    note = Note("also \x9b2J at", Span(file, 1, 1, 1, 5))
    finding = Finding(
        FAULT, Span(file, 1, 1, 1, 5), "`\x1b]0;x\x07`\n  why: all is well", "\r", (note,)
    )

    printed = format_findings([finding])
    assert re.fullmatch(r"[^\x00-\x09\x0b-\x1f\x7f-\x9f]*", printed)
    assert r"a\x1b[2J.yml:1:1: error[quantity-without-measure] `\x1b]0;x\x07`\n  why:" in printed
    assert len(printed.split("\n")) == 8


def test_a_record_holds_everything_that_is_known() -> None:
    note = Note("first set at", Span(FILE, 2, 1, 2, 8))
    finding = Finding(FAULT, GVWR, "what", "fix", (note, Note("text")), unit="T-14")
    without_line = Finding(HINT, None, "what", "fix", place="specs/fleet.yml")

    expected = [
        {
            "rule": "quantity-without-measure",
            "severity": "error",
            "path": "specs/units/t-14.yml",
            "line": 3,
            "column": 9,
            "end_line": 3,
            "end_column": 14,
            "what": "what",
            "why": FAULT.why,
            "fix": "fix",
            "unit": "T-14",
            "notes": [
                {
                    "text": "first set at",
                    "path": "specs/units/t-14.yml",
                    "line": 2,
                    "column": 1,
                    "end_line": 2,
                    "end_column": 8,
                },
                {
                    "text": "text",
                    "path": "",
                    "line": None,
                    "column": None,
                    "end_line": None,
                    "end_column": None,
                },
            ],
        },
        {
            "rule": "value-not-confirmed",
            "severity": "warning",
            "path": "specs/fleet.yml",
            "line": None,
            "column": None,
            "end_line": None,
            "end_column": None,
            "what": "what",
            "why": HINT.why,
            "fix": "fix",
            "unit": "",
            "notes": [],
        },
    ]
    assert expected == json.loads(json.dumps(findings_as_json([finding, without_line])))


OTHER = Finding(FAULT, Span(SourceFile("b.yml", "x"), 1, 1, 1, 2), "what", "fix")
WARNING = Finding(HINT, GVWR, "what", "fix")
NOWHERE = Finding(FAULT, None, "what", "fix", unit="T-14")
TOO_LARGE = Finding(FAULT, None, "what", "fix", place="b.yml, page 2")


@pytest.mark.parametrize(
    ("findings", "expected"),
    [
        ([], "no findings"),
        ([NO_MEASURE], "1 error in 1 file"),
        ([WARNING], "1 warning in 1 file"),
        ([WARNING, NO_MEASURE], "1 error, 1 warning in 1 file"),
        ([OTHER, NO_MEASURE, OTHER, WARNING], "3 errors, 1 warning in 2 files"),
        ([NOWHERE, NOWHERE], "2 errors"),
        ([TOO_LARGE, OTHER], "2 errors in 1 file"),
        ([NO_MEASURE] * 1_200 + [WARNING] * 2, "1,200 errors, 2 warnings in 1 file"),
    ],
)
def test_the_summary_counts_findings_and_files(findings: list[Finding], expected: str) -> None:
    assert expected == summary_line(iter(findings))
