"""The texts of a procedure, and places within them.

Takes in a template; gives out its texts in reading order, and spans of stretches of a text.
Refuses to look into placeholders: what they name is printed from the truck, not from the library.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.procedures.model import ProcedureTemplate, TextTemplate, Words
from guidegen.source import Span

VALUE = "\ufffc"
"""Stands for the value of a placeholder in plain text."""

_PLACEHOLDER = re.compile(r"\{\{.*?\}\}", re.DOTALL)


def texts_of(template: ProcedureTemplate) -> Iterator[TextTemplate]:
    """Yield every text of *template*: title, cautions, steps and outcomes."""
    yield template.title
    for caution in template.cautions:
        yield from (caution.hazard, caution.consequence, caution.avoid)
    for step in template.steps:
        yield step.text
    for outcome in (*template.expect, *template.if_not):
        yield outcome.text


def plain_text(text: TextTemplate) -> str:
    """Return *text* with `VALUE` for each placeholder."""
    parts = (part.text if isinstance(part, Words) else VALUE for part in text.parts)
    return " ".join("".join(parts).split())


@dataclass(frozen=True, slots=True)
class TypedText:
    """A text as it stands in its file, placeholders blanked out."""

    raw: str
    span: Span

    def span_at(self, start: int, end: int) -> Span:
        """Return where ``raw[start:end]`` stands; offsets count from 0."""
        return Span(self.span.file, *self._position(start), *self._position(end))

    def _position(self, at: int) -> tuple[int, int]:
        breaks = self.raw.count("\n", 0, at)
        if not breaks:
            return self.span.line, self.span.column + at
        return self.span.line + breaks, at - self.raw.rfind("\n", 0, at)


def typed_text(text: TextTemplate) -> TypedText:
    """Return *text* as typed, quotes and line breaks included."""
    span = text.span
    raw = _PLACEHOLDER.sub(lambda found: " " * len(found.group()), span.file.typed_at(span))
    return TypedText(raw, span)
