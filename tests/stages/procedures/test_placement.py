"""A stretch of a scalar's text is found again in its file, however the scalar was typed."""

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from guidegen.finding import Findings
from guidegen.procedures.placement import place_text
from guidegen.source import Span
from guidegen.yaml_nodes import Scalar, Table, read_yaml

TYPED = [
    "text: drain the tanks",
    "text:   drain the tanks   # and wait",
    "text: 'drain the tanks'",
    'text: "drain the tanks"',
    "text: drain\n  the\n    tanks",
    "text: 'drain\n\n  the tanks'",
    "text: |\n  drain the tanks\n",
    "text: >-\n\n    drain\n    the tanks\n\n",
    "a: 1\n\ntext: {b: drain the tanks}",
    "text: 'it''s to drain the tanks'",
    'text: "it is \\"to\\" drain the tanks \\\\"',
]


def scalar_in(raw: str) -> Scalar:
    table = read_yaml("p.yml", raw.encode(), Findings())
    assert table is not None
    node = table.get("text")
    if isinstance(node, Table):
        node = node.get("b")
    assert isinstance(node, Scalar)
    return node


def at(span: Span) -> str:
    lines = [span.file.line(number) for number in range(span.line, span.end_line + 1)]
    lines[-1] = lines[-1][: span.end_column - 1]
    lines[0] = lines[0][span.column - 1 :]
    return "\n".join(lines)


@pytest.mark.parametrize("raw", TYPED)
@pytest.mark.parametrize("word", ["drain", "the", "tanks"])
def test_word_is_found_where_it_was_typed(raw: str, word: str) -> None:
    scalar = scalar_in(raw)
    start = scalar.text.index(word)

    assert word == at(place_text(scalar).span(start, start + len(word)))


@pytest.mark.parametrize("raw", TYPED)
def test_words_over_a_line_break_are_found_with_it(raw: str) -> None:
    scalar = scalar_in(raw)
    start, end = scalar.text.index("drain"), scalar.text.index("tanks") + len("tanks")

    assert at(place_text(scalar).span(start, end)).split() == ["drain", "the", "tanks"]


def test_doubled_quote_is_one_character_of_the_text() -> None:
    scalar = scalar_in("text: 'it''s'")

    assert at(place_text(scalar).span(2, 3)) == "''"


def test_end_of_the_text_is_a_place_after_its_last_character() -> None:
    scalar = scalar_in("text: 'drain'")

    span = place_text(scalar).span(5, 5)

    expected = (1, 13, 13)
    assert expected == (span.line, span.column, span.end_column)


@pytest.mark.parametrize(
    "escaped", ['"drain \\u00e9 tanks"', '"drain \\n tanks"', '"drain\\nn"', "''"]
)
def test_text_that_cannot_be_matched_has_the_place_of_the_whole(escaped: str) -> None:
    scalar = scalar_in(f"text: {escaped}")

    assert scalar.span == place_text(scalar).span(0, 3)


STYLES: st.SearchStrategy[str | None] = st.sampled_from([None, "'", '"', "|", ">"])
TEXTS = st.text(alphabet="abé' {}\n", min_size=1, max_size=40)


@given(TEXTS, STYLES, st.data())
def test_any_stretch_of_any_style_is_found_or_the_whole_is_shown(
    text: str, style: str | None, data: st.DataObject
) -> None:
    # PyYAML writes; the reader must find each word again in what it wrote.
    raw = yaml.dump({"text": text}, default_style=style, allow_unicode=True, width=20)
    table = read_yaml("p.yml", raw.encode(), Findings())
    node = table.get("text") if table else None
    if not isinstance(node, Scalar) or not node.text.split():
        return
    word = data.draw(st.sampled_from(node.text.split()))
    start = node.text.index(word)

    span = place_text(node).span(start, start + len(word))

    is_single_quoted = at(node.span)[:1] == "'" and not node.is_plain
    found = at(span).replace("''", "'") if is_single_quoted else at(span)
    assert span == node.span or found == word
