"""Where a value stands in a file that a person wrote.

Takes in the path and text of a file; gives out places in it, counted as people count.
Refuses nothing: a place is only ever made by a reader that has seen the text.
"""

from dataclasses import dataclass, field
from functools import lru_cache

from guidegen.pickling import numerous


@numerous
@dataclass(frozen=True, slots=True)
class SourceFile:
    """One file as it was read, kept so that a finding can show its line."""

    path: str
    """Path relative to the project, with forward slashes on every system."""

    text: str = field(repr=False)

    def line(self, number: int) -> str:
        """Return line *number*, counted from 1, without its line break; empty past the end."""
        lines = _lines(self.text)
        return lines[number - 1].rstrip("\r") if 1 <= number <= len(lines) else ""

    def typed_at(self, span: "Span") -> str:
        """Return what stands at *span*, quotes and line breaks included."""
        lines = list(_lines(self.text)[span.line - 1 : span.end_line])
        if not lines:
            return ""
        lines[-1] = lines[-1][: span.end_column - 1]
        lines[0] = lines[0][span.column - 1 :]
        return "\n".join(lines)


@numerous
@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of one source file. Lines and columns count from 1; the end is exclusive."""

    file: SourceFile
    line: int
    column: int
    end_line: int
    end_column: int

    @property
    def place(self) -> str:
        """``path:line:column``, the form that editors jump to."""
        return f"{self.file.path}:{self.line}:{self.column}"


@lru_cache(maxsize=4)
def _lines(text: str) -> tuple[str, ...]:
    """Return the lines of *text*; kept for a while, since whoever asks for one asks for many."""
    return tuple(text.split("\n"))
