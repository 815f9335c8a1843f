"""Pages without their values.

Takes in the bytes of a page, blanked where its unit's identity stands; gives out the same without
the texts of its values and of where they come from, and these. Refuses to say that they are all:
whoever proves the page compares them with what was read.
"""

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from guidegen.guide.model import STAMPED
from guidegen.proof.marks import Mark
from guidegen.proof.model import ValueThere
from guidegen.proof.read_text import fold
from guidegen.proof.siblings import CLOSE, OPEN

_MARKS = {mark.value: mark for mark in (Mark.FACT, Mark.SOURCE)}
_VALUE = re.compile(
    rf'({"|".join(_MARKS)})="([a-z0-9_.]+)"[^<>]*>([^<>\x00-\x08\x0b-\x1f]*)</'.encode()
)
"""A value without an element in it; with one, it stays where it is."""

_ESCAPES = ((b"&#39;", "'"), (b"&#34;", '"'), (b"&nbsp;", " "), (b"&amp;", "&"))
"""How pages write single characters. A value with any other escape stays where it is."""

_FACT = Mark.FACT.value.encode()
_STAMPED = frozenset(STAMPED)
"""What was blanked before, or stands where it should not."""

_BLANK = f"{OPEN}value{CLOSE}".encode()


class Bare(NamedTuple):
    """A page without its values."""

    raw: bytes
    values: tuple[ValueThere, ...]
    """In the order in which they stand."""

    def values_of(self, facts: Iterable[str]) -> tuple[ValueThere, ...]:
        """Return the values of *facts* alone."""
        wanted = frozenset(facts)
        return tuple(each for each in self.values if each.fact in wanted)


def bare(blanked: bytes) -> Bare:
    """Return the page *blanked* without its values.

    Args:
        blanked: Of `guidegen.proof.siblings.blanked`.
    """
    parts, values, position = [], [], 0
    for match in _VALUE.finditer(blanked):
        fact, text = match[2].decode(), _text_of(match[3])
        if text is None or (fact in _STAMPED and match[1] == _FACT):
            continue
        values.append(ValueThere(_MARKS[match[1].decode()], fact, text))
        parts += [blanked[position : match.start(3)], _BLANK]
        position = match.end(3)
    return Bare(b"".join((*parts, blanked[position:])), tuple(values))


@lru_cache(maxsize=1 << 14)
def _text_of(raw: bytes) -> str | None:
    """Return what a person sees of *raw*; nothing if that is not sure."""
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError:
        return None
    if OPEN in text:
        return None
    if b"&" in raw:
        rest = raw
        for escape, _ in _ESCAPES:
            rest = rest.replace(escape, b"")
        if b"&" in rest:
            return None
        for escape, meant in _ESCAPES:
            text = text.replace(escape.decode(), meant)
    return fold(text)
