"""Values in texts without marks are found where a plain search for all of them finds them."""

import re

from hypothesis import given
from hypothesis import strategies as st

from guidegen.proof.read_text import find_values


@given(
    words=st.lists(st.text("ab ", max_size=3), min_size=1, max_size=4),
    text=st.text("ab ", max_size=10),
)
def test_values_end_where_the_words_after_them_first_come(words: list[str], text: str) -> None:
    pattern = "\0fact\0".join(words)
    # The judge: Python's own regular expressions, each value as short as can be.
    expected = re.fullmatch("(.+?)".join(map(re.escape, words)), text)

    found = find_values((pattern,), text)

    values = None if found is None else tuple(each.text for each in found)
    assert values == (None if expected is None else expected.groups())
