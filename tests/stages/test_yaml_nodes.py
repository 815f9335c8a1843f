"""What office clerks type is read as exact text with places, or told back in plain words."""

import json
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen import source_text, yaml_faults
from guidegen.finding import Finding, Findings, Rule
from guidegen.finding_report import findings_as_json, format_findings
from guidegen.source import Span
from guidegen.source_text import MAX_BYTES
from guidegen.yaml_faults import MAX_FAULTS
from guidegen.yaml_nodes import MAX_NODES, Listing, Node, Scalar, Table, read_yaml

SPECIMENS = Path(__file__).parents[1] / "specimens" / "faulty_yaml"
FAULTY = sorted(SPECIMENS.glob("*.yml"))
PATH = "specs/units/t-14.yml"

Expected = list[tuple[int, int, str]]


def read(raw: bytes | str) -> tuple[Table | None, list[Finding]]:
    findings = Findings()
    table = read_yaml(PATH, raw.encode() if isinstance(raw, str) else raw, findings)
    return table, list(findings)


def read_sound(raw: bytes | str) -> Table:
    table, findings = read(raw)
    assert not findings, format_findings(findings)
    assert table is not None
    return table


def shown(findings: list[Finding]) -> Expected:
    return [
        (finding.span.line if finding.span else 0, finding.span.column if finding.span else 0,
         finding.rule.name)
        for finding in findings
    ]  # fmt: skip


def only(raw: bytes | str) -> Finding:
    _, findings = read(raw)
    (finding,) = findings
    return finding


def expected_on_the_lines(text: str) -> Expected:
    """Read ``# finding: <column> <rule>, <column> <rule>`` off the faulty lines."""
    return [
        (number, int(column), rule)
        for number, line in enumerate(text.split("\n"), start=1)
        for comment in re.findall(r"# finding: (.+)$", line)
        for column, rule in re.findall(r"(\d+) ([a-z-]+)(?:, |$)", comment)
    ]


def nodes_in(node: Node) -> Iterator[Node]:
    waiting = [node]
    while waiting:
        node = waiting.pop()
        yield node
        if isinstance(node, Listing):
            waiting.extend(node.nodes)
        elif isinstance(node, Table):
            waiting.extend(part for entry in node.entries.values() for part in entry)


def typed_at(span: Span) -> str:
    """Return what stands at *span* in its file; it may run over several lines."""
    lines = [span.file.line(number) for number in range(span.line, span.end_line + 1)]
    lines[-1] = lines[-1][: span.end_column - 1]
    return "\n".join(lines)[span.column - 1 :]


def as_plain(node: Node) -> object:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Listing):
        return [as_plain(part) for part in node.nodes]
    return {name: as_plain(value) for name, (_, value) in node.entries.items()}


# What a sound file gives.


def test_every_value_stays_the_text_that_was_typed() -> None:
    table = read_sound(
        "unit: 010\nfitted: NO\nstarts: 12:30\nratio: 3.70\nserial: 1e5\ndate: 2026-03-01\n"
        "nothing: ~\nnull: null\nyes: on\n0x1F: .inf\nsexagesimal: 190:20:30\n"
    )

    expected = {
        "unit": "010",
        "fitted": "NO",
        "starts": "12:30",
        "ratio": "3.70",
        "serial": "1e5",
        "date": "2026-03-01",
        "nothing": "~",
        "null": "null",
        "yes": "on",
        "0x1F": ".inf",
        "sexagesimal": "190:20:30",
    }
    assert expected == as_plain(table)


def test_keys_keep_the_order_in_which_they_were_typed() -> None:
    assert list(read_sound("z: 1\na: 2\nm: 3\n").entries) == ["z", "a", "m"]


def test_a_table_gives_its_value_and_the_place_of_its_key() -> None:
    table = read_sound("unit: T-14\nchassis:\n  gvwr: 54000 lb\n")
    chassis = table.get("chassis")

    assert isinstance(chassis, Table)
    gvwr = chassis.get("gvwr")
    assert isinstance(gvwr, Scalar)
    assert places(gvwr.span) == (3, 9, 3, 17)
    assert places(chassis.key_span("gvwr")) == (3, 3, 3, 7)
    assert table.get("cab") is None
    with pytest.raises(KeyError):
        table.key_span("cab")


def places(span: Span) -> tuple[int, int, int, int]:
    return span.line, span.column, span.end_line, span.end_column


def test_columns_count_characters_and_not_bytes() -> None:
    table = read_sound('é: [½ bar, "🚚🚚", 10 °C]  # ✓\n"🚚": ü\n')
    listing = table.get("é")

    assert isinstance(listing, Listing)
    expected = [(1, 5, 1, 10), (1, 12, 1, 16), (1, 18, 1, 23)]
    assert expected == [places(node.span) for node in listing.nodes]
    assert places(listing.span) == (1, 4, 1, 24)
    assert places(table.key_span("🚚")) == (2, 1, 2, 4)
    assert [typed_at(node.span) for node in listing.nodes] == ["½ bar", '"🚚🚚"', "10 °C"]


def test_a_span_ends_with_the_value_and_not_with_the_blank_lines_after_it() -> None:
    text = (
        "block: |\n  one\n  two\n\n# prose\nfolded: >-\n  three\n\n\n"
        "plain: four\n  five  # prose\n\ntable:\n  key: six\n\n  list:\n  - seven\n\nlast: eight\n"
    )
    table = read_sound(text)

    expected = {
        "block": "|\n  one\n  two",
        "folded": ">-\n  three",
        "plain": "four\n  five",
        "table": "key: six\n\n  list:\n  - seven",
        "last": "eight",
    }
    assert expected == {key: typed_at(value.span) for key, (_, value) in table.entries.items()}
    assert text.strip() == typed_at(table.span)


def test_plain_text_is_told_from_text_in_quotes_and_blocks() -> None:
    table = read_sound("a: no\nb: 'no'\nc: \"no\"\nd: |\n  no\n")

    plain = [node.is_plain for _, node in table.entries.values() if isinstance(node, Scalar)]
    assert plain == [True, False, False, False]


def test_an_empty_text_in_quotes_is_a_value() -> None:
    assert as_plain(read_sound("note: \"\"\nlist: ['']\n")) == {"note": "", "list": [""]}


def test_a_file_may_begin_with_a_mark_and_end_lines_as_windows_or_old_editors_do() -> None:
    text = "unit: T-14\nnote: |\n  é one\n  two\ngvwr: 54000 lb\n"
    plain = read_sound(text)
    for raw in (
        b"\xef\xbb\xbf" + text.encode(),
        text.replace("\n", "\r\n").encode(),
        text.replace("\n", "\r").encode(),
        b"\xef\xbb\xbf---\r\n" + text.replace("\n", "\r\n").encode() + b"...\r\n",
    ):
        assert as_plain(plain) == as_plain(read_sound(raw))
    assert places(read_sound(text.replace("\n", "\r\n")).key_span("gvwr")) == (5, 1, 5, 5)
    assert places(read_sound("\ufeffunit: T-14\n").key_span("unit")) == (1, 1, 1, 5)


def test_a_faulty_file_that_can_be_read_to_its_end_gives_its_table_too() -> None:
    table, findings = read("unit: T-14\nunit: T-15\ngvwr:\ncab: *x\nnote: !!str text\n")

    assert table is not None
    assert as_plain(table) == {"unit": "T-14", "gvwr": "", "cab": "", "note": "text"}
    assert len(findings) == 4


# JSON is the outside judge: RFC 8259 says what its texts mean, and YAML reads JSON (YAML 1.2.2,
# section 1.2: "every JSON file is also a valid YAML file").
SEEN = st.characters(codec="utf-8", exclude_categories=["Cc", "Cf", "Zl", "Zp", "Co", "Cn"]).filter(
    lambda character: character != "\ufffd"
)
TEXTS = st.text(SEEN | st.sampled_from('\n\t"\\'), max_size=30)
TREES = st.recursive(
    TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=20,
)


@settings(deadline=None)  # the machine may be busy with other tests
@given(st.dictionaries(TEXTS, TREES, max_size=5), st.sampled_from([None, 2]))
def test_json_is_read_as_json_says(tree: dict[str, object], indent: int | None) -> None:
    table = read_sound(json.dumps(tree, ensure_ascii=False, indent=indent))

    assert tree == as_plain(table)


@settings(deadline=None)  # the machine may be busy with other tests
@given(st.dictionaries(TEXTS, TREES, max_size=5), st.sampled_from([None, 2]))
def test_what_stands_at_a_span_is_the_value(tree: dict[str, object], indent: int | None) -> None:
    table = read_sound(json.dumps(tree, ensure_ascii=False, indent=indent))

    for node in nodes_in(table):
        assert as_plain(node) == json.loads(typed_at(node.span))


# What a faulty file gives.


def test_there_are_specimens() -> None:
    assert len(FAULTY) > 50


@pytest.mark.parametrize("specimen", FAULTY, ids=lambda path: path.stem)
def test_a_specimen_gives_the_findings_that_stand_on_its_lines(specimen: Path) -> None:
    text = specimen.read_text(encoding="utf-8")
    _, findings = read(specimen.read_bytes())

    expected = expected_on_the_lines(text)
    assert expected
    assert expected == shown(findings)


BINARY: dict[str, tuple[bytes, Expected]] = {
    "nothing": (b"", [(1, 1, "empty-file")]),
    "only a byte order mark": (b"\xef\xbb\xbf", [(1, 1, "empty-file")]),
    "only blank lines": (b"\n  \r\n\n", [(1, 1, "empty-file")]),
    "a degree sign in Windows-1252": (b"unit: T-14\nfluid: 104\xb0F\n", [(2, 11, "not-utf8")]),
    "the same after a byte order mark": (b"\xef\xbb\xbfa: \xb0\n", [(1, 4, "not-utf8")]),
    "the same after CRLF and é": ("é: 1\r\né: ".encode() + b"\xe9", [(2, 4, "not-utf8")]),
    "a byte that no encoding has": (b"a: \x81\n", [(1, 4, "not-utf8")]),
    "a cut off character": (b"a: \xe2\x82", [(1, 4, "not-utf8")]),
    "a character lost before": ("a: 40�F".encode(), [(1, 6, "not-utf8")]),
    "UTF-16, little end first": ("a: °\n".encode("utf-16"), [(1, 1, "not-utf8")]),
    "UTF-16, big end first": ("\ufeffa: °\n".encode("utf-16-be"), [(1, 1, "not-utf8")]),
    "UTF-16 without a mark": ("unit: T-14\n".encode("utf-16-le"), [(1, 1, "not-utf8")]),
    "UTF-16 turned, without a mark": ("unit: 1\n".encode("utf-16-be"), [(1, 1, "not-utf8")]),
    "a zero byte": (b"a: 1\nb: \0\n", [(2, 4, "control-character")]),
    "a lone zero byte": (b"\0", [(1, 1, "control-character")]),
    "an escape": (b"a: \x1b[31m\n", [(1, 4, "control-character")]),
    "a line break of old mainframes": ("a: 1\x85b: 2".encode(), [(1, 5, "control-character")]),
    "a spreadsheet": (b"PK\x03\x04\x14\0", [(1, 1, "not-text")]),
    "a PDF": (b"%PDF-1.7\n%\xe2\xe3", [(1, 1, "not-text")]),
    "a picture": (b"\x89PNG\r\n\x1a\n", [(1, 1, "not-text")]),
    "a mark inside": ("a: 1\n\ufeffb: 2\n".encode(), [(2, 1, "control-character")]),
    "too large": (b"#" * (MAX_BYTES + 1), [(0, 0, "file-too-large")]),
    "a table in brackets": (b"[a: b]", [(1, 1, "not-a-table")]),
}


@pytest.mark.parametrize("case", BINARY)
def test_bytes_that_no_editor_shows_give_a_place(case: str) -> None:
    raw, expected = BINARY[case]
    table, findings = read(raw)

    assert table is None
    assert expected == shown(findings)


def test_every_rule_is_broken_by_a_specimen_or_by_bytes() -> None:
    met = {rule for path in FAULTY for *_, rule in shown(read(path.read_bytes())[1])}
    met |= {rule for _, expected in BINARY.values() for *_, rule in expected}

    rules = {
        value.name
        for module in (source_text, yaml_faults)
        for value in vars(module).values()
        if isinstance(value, Rule)
    }
    assert rules == met


def test_a_file_as_large_as_may_be_is_read() -> None:
    raw = b"unit: T-14\n#" + b"x" * (MAX_BYTES - 13) + b"\n"

    assert len(raw) == MAX_BYTES
    assert as_plain(read_sound(raw)) == {"unit": "T-14"}


def test_too_many_values_are_a_finding() -> None:
    flat = "a: [" + "b," * (MAX_NODES - 4) + "b]"

    read_sound(flat)
    assert only(flat[:-1] + ",b]").rule.name == "file-too-large"


def test_a_hundred_faults_are_enough() -> None:
    _, findings = read("a: [" + "*b," * 10_000 + "]")

    assert len(findings) == MAX_FAULTS
    assert findings[-1].notes[0].text == "reading stopped after 100 faults in this file"


def test_a_key_set_again_names_the_first_place() -> None:
    finding = only("a:\n  wheelbase: 6.2 m\n  wheelbase: 244 in\n")

    (note,) = finding.notes
    assert note.span is not None
    assert ("first set at", f"{PATH}:2:3") == (note.text, note.span.place)


def test_other_characters_that_cannot_be_seen_are_counted() -> None:
    finding = only("a: \u200b\u200b\n" + "b: \u200b\n" * 5)

    assert f"{PATH}:1:4" == finding.where
    assert [
        (note.span.line, note.span.column) if note.span else None for note in finding.notes
    ] == [(1, 5), (2, 4), (3, 4), (4, 4), None]
    assert finding.notes[-1].text == "and 2 more below"


def test_faults_below_an_open_bracket_are_not_made_up() -> None:
    finding = only("a: [b: c\nd:\ne: f, e: g\n")

    assert finding.rule.name == "broken-yaml"


# A cure is tested by taking it.
CURES = {
    "gvwr 54000 lb": "gvwr: 54000 lb",
    "gvwr:54000 lb": "gvwr: 54000 lb",
    "gvwr:\u00a054000 lb": "gvwr: 54000 lb",
    "note: see: plate": 'note: "see: plate"',
    'note: see: 6" jack': "note: 'see: 6\" jack'",
    "name: “Tall: rear”": 'name: "Tall: rear"',
    'name: "Tall ladder': 'name: "Tall ladder"',
    "mirror: 'driver's seat'": "mirror: driver's seat",
    'height: "13\' 6""': "height: 13' 6\"",
    "height: '13' 6\"'": "height: 13' 6\"",
    'note: "6" jack: rear"': "note: '6\" jack: rear'",
    'note: "13\' 6" jack: rear"': "note: '13'' 6\" jack: rear'",
    'name: "Tall" ladder': "name: '\"Tall\" ladder'",
    "axles: [front, rear": "axles: [front, rear]",
    "axles: {front: 1, ": "axles: {front: 1}",
    "garage: @north": 'garage: "@north"',
    "- @north": '- "@north"',
    "axles: > 5 psi": 'axles: "> 5 psi"',
    "note: *see plate*": 'note: "*see plate*"',
    "note: - see plate": 'note: "- see plate"',
    "note: !stop and look": 'note: "!stop and look"',
    "note: !stop": 'note: "!stop"',
    "note: &up": 'note: "&up"',
    "note: *plate": 'note: "*plate"',
    "text: {{ gvwr }}": 'text: "{{ gvwr }}"',
    "text: {{ gvwr }} at most": 'text: "{{ gvwr }} at most"',
}


@pytest.mark.parametrize("faulty", CURES)
def test_the_fix_is_what_to_type(faulty: str) -> None:
    lead = "list:\n" if faulty.startswith("- ") else "unit: T-14\n"
    below = "" if faulty.startswith("- ") else "wheelbase: 6.2 m\n"
    finding = only(f"{lead}{faulty}  # plate\n{below}")

    cure = CURES[faulty]
    assert f"`{cure}`" in finding.fix
    read_sound(f"{lead}{cure}  # plate\n{below}")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("gvwr:", "or delete the line if there is none to state"),
        ("gvwr:\n\n# prose\n", "or delete the line if there is none to state"),
        ("gvwr:\n\n  # prose\nrating: 1\n", "lines below belong to `gvwr`, begin them two spaces"),
        ("gvwr: #5\nrating: 1\n", "put quotes around the value if it begins with `#`"),
        ("gvwr: # prose\nrating: 1\n", "lines below belong to `gvwr`, begin them two spaces"),
        ("{gvwr, rating: 1}", "type `gvwr: value`"),
        ("axles:\n-\n- rear\n", "type the value after the dash"),
    ],
)
def test_a_missing_value_is_asked_for_where_it_belongs(text: str, expected: str) -> None:
    assert expected in only(text).fix


def test_messages_use_the_words_of_the_office() -> None:
    words = [
        f"{finding.what} {finding.fix} {finding.rule.why}".lower()
        for raw in [path.read_bytes() for path in FAULTY] + [raw for raw, _ in BINARY.values()]
        for finding in read(raw)[1]
    ]

    banned = re.compile(
        r"\b(invalid|illegal|unexpected|failed|token|scalar|mapping|sequence|node|parse\w*|stream"
        r"|alias|dict|none ?type|null|syntax|exception)\b"
    )
    assert words
    assert [text for text in words if banned.search(text)] == []
    assert [text for text in words if "cannot be read on from here" in text] == []


# Any bytes may be passed in.

PIECES = [
    *"abc01:-?,[]{}&*!|>'\"%@`#~=<\\ \t\n\r.", ": ", "- ", "? ", "\n  ", "\n    ", "\r\n", "---\n",
    "...\n", "<<: ", "*a ", "&a ", "!!str ", "!<", "!a!b ", "%TAG ! x\n", "key: value\n",
    "- item\n",
    "|\n  ", ">-\n ", '"\\', "\\U00110000", '"\\UFFFFFFFF"', "\\x1b", "{{ a }}", "''", "“", "”",
    "é", "🚚", "\u00a0", "\u2028", "\x85", "\ufeff", "\0",
]  # fmt: skip


def check_any(raw: bytes) -> None:
    table, findings = read(raw)
    assert table is not None or findings
    assert table is None or isinstance(table, Table)
    spans = [finding.span for finding in findings if finding.span]
    spans += [note.span for finding in findings for note in finding.notes if note.span]
    spans += [node.span for node in nodes_in(table)] if table else []
    for span in spans:
        lines = span.file.text.count("\n") + 1
        assert 1 <= span.line <= span.end_line <= lines
        assert 1 <= span.column <= len(span.file.line(span.line)) + 1
        assert (span.line, span.column) <= (span.end_line, span.end_column)
    printed = format_findings(findings)
    assert re.fullmatch(r"[^\x00-\x09\x0b-\x1f\x7f-\x9f\u2028-\u202e\ufeff]*", printed)
    json.dumps(findings_as_json(findings), ensure_ascii=False).encode()


@settings(deadline=None)  # the machine may be busy with other tests
@given(st.binary(max_size=200))
def test_no_bytes_raise(raw: bytes) -> None:
    check_any(raw)


@settings(deadline=None)  # the machine may be busy with other tests
@given(st.lists(st.sampled_from(PIECES), max_size=60).map("".join))
def test_no_text_like_yaml_raises(text: str) -> None:
    check_any(text.encode())


@settings(deadline=None)  # the machine may be busy with other tests
@given(st.sampled_from(FAULTY), st.integers(0, 400), st.integers(0, 400), st.sampled_from(PIECES))
def test_no_specimen_raises_when_it_is_cut_and_joined(
    path: Path, start: int, end: int, piece: str
) -> None:
    text = path.read_text(encoding="utf-8")
    check_any((text[:start] + piece + text[end:]).encode())


# Each would hold up or kill a reader that trusts what it reads.
BOMBS = {
    "brackets": "'[' * 100_000",
    "brackets under a name": "'a: ' + '[' * 100_000",
    "braces": "'{' * 100_000",
    "named braces": "'{a: ' * 100_000",
    "dashes": "'- ' * 100_000",
    "question marks": "'? ' * 100_000",
    "colons": "': ' * 100_000",
    "closed brackets": "'a: ' + '[' * 100_000 + ']' * 100_000",
    "brackets on lines": "'a: ' + '[\\n ' * 100_000",
    "aliases": "'a: &a [x]\\n' + 'b: [' + '*a, ' * 200_000 + ']'",
    "aliases of aliases": "''.join(f'a{n}: &a{n} [*a{n}, *a{n}]\\n' for n in range(20_000))",
    "directives": "''.join(f'%TAG !a{n}! x\\n' for n in range(70_000))",
    "directives below": "'a: b\\n...\\n' + ''.join(f'%TAG !a{n}! x\\n' for n in range(70_000))",
    "documents": "'--- a\\n' * 150_000",
    "open quote": "'a: \"' + 'b\\n' * 450_000",
    "one long line": "'a: b: ' + 'c: ' * 300_000",
    "blank line": "'a:' + ' ' * 900_000 + ': b: c'",
    "broken at the end": "'a:\\n' + ' b\\n' * 300_000 + '  c: d'",
    "values missing": "'a: 1\\n' + ''.join(f'a{n}:\\n' for n in range(100_000))",
    "keys set again": "'a: b\\n' * 190_000",
    "unseen": "'\\u200b' * 300_000",
    "no-break spaces": "'a:\\n' + '\\u00a0b: c\\n' * 140_000",
}
READ_BOMB = """
import sys, time
from guidegen.finding import Findings
from guidegen.finding_report import format_findings
from guidegen.yaml_nodes import read_yaml
raw = ({bomb}).encode()
findings = Findings()
start = time.process_time()
read_yaml("specs/units/t-14.yml", raw, findings)
assert len(format_findings(findings)) < 200_000
print(len(findings), time.process_time() - start)
"""
WITHOUT_LIBYAML = 'import sys; sys.modules["yaml._yaml"] = None\n'


def run_python(code: str) -> str:
    done = subprocess.run(
        [sys.executable, "-X", "utf8", "-c", code],
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    return done.stdout


@pytest.mark.parametrize("bomb", BOMBS)
def test_a_bomb_gives_a_finding_within_seconds(bomb: str) -> None:
    count, seconds = run_python(READ_BOMB.format(bomb=BOMBS[bomb])).split()

    assert 1 <= int(count) <= MAX_FAULTS
    assert float(seconds) < 5


def test_a_large_sound_file_is_read_within_seconds() -> None:
    blocks = "''.join(f'name_{n}: |\\n  é\\n\\n' for n in range(45_000))"
    count, seconds = run_python(READ_BOMB.format(bomb=blocks)).split()

    assert int(count) == 0
    assert float(seconds) < 5


@pytest.mark.parametrize("bomb", ["brackets", "named braces", "dashes", "question marks"])
def test_a_bomb_gives_a_finding_without_libyaml_too(bomb: str) -> None:
    count, seconds = run_python(WITHOUT_LIBYAML + READ_BOMB.format(bomb=BOMBS[bomb])).split()

    assert int(count) == 1
    assert float(seconds) < 5


READ_ALL = """
import json, sys
from pathlib import Path
from guidegen.finding import Findings
from guidegen.yaml_nodes import Listing, Scalar, Table, read_yaml
import yaml

def as_plain(node):
    if isinstance(node, Scalar):
        return [node.text, node.is_plain, place(node.span)]
    if isinstance(node, Listing):
        return [[as_plain(part) for part in node.nodes], place(node.span)]
    if isinstance(node, Table):
        entries = [[as_plain(part) for part in entry] for entry in node.entries.values()]
        return [entries, place(node.span)]
    return None

def place(span):
    return [span.line, span.column, span.end_line, span.end_column]

read = {}
for path in sorted(Path(sys.argv[1] if len(sys.argv) > 1 else FOLDER).glob("*.yml")):
    findings = Findings()
    table = read_yaml(path.name, path.read_bytes(), findings)
    read[path.name] = [
        as_plain(table),
        [[*place(f.span), f.rule.name, f.what, f.fix] for f in findings],
    ]
print(json.dumps([yaml.__with_libyaml__, read]))
"""


def test_without_libyaml_the_same_is_read_and_found() -> None:
    code = f"FOLDER = {str(SPECIMENS)!r}\n{READ_ALL}"
    with_libyaml, by_libyaml = json.loads(run_python(code))
    without_libyaml, by_python = json.loads(run_python(WITHOUT_LIBYAML + code))

    assert yaml.__with_libyaml__ == with_libyaml
    assert not without_libyaml
    assert len(FAULTY) == len(by_python)
    assert by_libyaml == by_python


READ_ESCAPES = r"""
from guidegen.finding import Findings
from guidegen.yaml_nodes import read_yaml
for escape in (r"\ud800", r"\U00110000", r"\UFFFFFFFF", r"\x1b", r"\q", r"\xZZ"):
    findings = Findings()
    read_yaml("a.yml", f'unit: T-14\nnote: "b{escape}"\n'.encode(), findings)
    print([f"{finding.where} {finding.rule.name}" for finding in findings])
"""


@pytest.mark.parametrize("prelude", ["", WITHOUT_LIBYAML])
def test_escapes_that_are_no_characters_are_a_finding_with_both_parsers(prelude: str) -> None:
    lines = run_python(prelude + READ_ESCAPES).split("\n")

    assert len(lines) == 7
    assert all(
        re.fullmatch(r"\['a.yml:2:\d+ (broken-yaml|control-character)'\]", x) for x in lines[:6]
    )
