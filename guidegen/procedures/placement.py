"""Where a stretch of a scalar's text stands in its file.

Takes in a scalar as the YAML reader gives it; gives out spans of stretches of its text, through
quotes, doubled quotes, folded lines and blocks of lines.
Refuses to guess: where text and file cannot be matched, the span is that of the whole scalar.
"""

import re
from collections.abc import Sequence

from guidegen.source import Span
from guidegen.yaml_nodes import Scalar

_BLANKS = re.compile(r"[ \t\n]*")


class Placement:
    """The text of one scalar, each character with its place."""

    __slots__ = ("_is_matched", "_kept_places", "_raw", "_scalar")

    def __init__(self, scalar: Scalar) -> None:
        """Prepare; what stands where is found out when it is first asked for, if it ever is."""
        self._scalar = scalar
        self._is_matched = False
        self._raw = ""
        """What stands in the file from the scalar's first to its last character."""

        self._kept_places: Sequence[tuple[int, int]] = ()

    def span(self, start: int, end: int) -> Span:
        """Return where ``scalar.text[start:end]`` stands; offsets count from 0."""
        whole, places = self._scalar.span, self._places()
        if not places:
            return whole
        last = len(places) - 1
        raw_start = places[start][0] if start <= last else places[last][1]
        raw_end = max(raw_start, places[min(end, last + 1) - 1][1]) if end else raw_start
        return Span(whole.file, *self._position(raw_start), *self._position(raw_end))

    def _places(self) -> Sequence[tuple[int, int]]:
        """Return start and end in ``_raw`` of each character; none if they cannot be told."""
        if not self._is_matched:
            span = self._scalar.span
            self._raw = span.file.typed_at(span)
            self._kept_places = _places_in(self._raw, self._scalar)
            self._is_matched = True
        return self._kept_places

    def _position(self, at: int) -> tuple[int, int]:
        """Return line and column, from 1, of the place *at* in ``_raw``."""
        whole = self._scalar.span
        breaks = self._raw.count("\n", 0, at)
        if not breaks:
            return whole.line, whole.column + at
        return whole.line + breaks, at - self._raw.rfind("\n", 0, at)


def place_text(scalar: Scalar) -> Placement:
    """Return *scalar* with the place of every character of its text."""
    return Placement(scalar)


def _places_in(raw: str, scalar: Scalar) -> Sequence[tuple[int, int]]:
    text = scalar.text
    quotes = 0 if scalar.is_plain else 1
    # Most texts stand in the file as they are: no sign of them is doubled or written otherwise.
    if raw[quotes : len(raw) - quotes] == text and "\n" not in text:
        return [(at, at + 1) for at in range(quotes, quotes + len(text))]
    return _Matcher(scalar, raw).match() or ()


class _Matcher:
    """Walks a scalar's text and what stands in the file, side by side."""

    def __init__(self, scalar: Scalar, raw: str) -> None:
        self._text = scalar.text
        self._raw = raw
        self._quote = "" if scalar.is_plain else raw[:1]
        self._at = 0
        self._places: list[tuple[int, int]] = []

    def match(self) -> tuple[tuple[int, int], ...] | None:
        """Return the places of all characters, or nothing if one is not found."""
        self._skip_opening()
        done = 0
        while done < len(self._text):
            blanks = _count_blanks(self._text, done)
            is_found = self._take_blanks(blanks) if blanks else self._take_character(done)
            if not is_found:
                return None
            done = len(self._places)
        return tuple(self._places)

    def _skip_opening(self) -> None:
        if self._quote in ("|", ">"):
            self._at = self._raw.find("\n") + 1
        elif self._quote:
            self._at = 1

    def _take_blanks(self, count: int) -> bool:
        """Match a run of *count* blanks to a run in the file, which may be longer: line breaks."""
        run = _count_blanks(self._raw, self._at)
        if not run and self._at < len(self._raw):
            return False
        end = self._at + run
        for number in range(count):
            start = min(self._at + number, max(end - 1, self._at))
            self._places.append((start, min(start + 1, end)))
        self._at = end
        return True

    def _take_character(self, number: int) -> bool:
        # The margin before the first line of a block is no part of its text.
        self._at += _count_blanks(self._raw, self._at)
        typed = self._raw[self._at : self._at + 1]
        width = 1
        if self._quote == "'" and typed == "'":
            width = 2
        elif self._quote == '"' and typed == "\\":
            typed = self._raw[self._at + 1 : self._at + 2]
            width = 2
        if typed != self._text[number]:
            return False
        self._places.append((self._at, self._at + width))
        self._at += width
        return True


def _count_blanks(text: str, start: int) -> int:
    """Count the blanks of *text* from *start* on."""
    found = _BLANKS.match(text, start)
    return found.end() - start if found else 0
