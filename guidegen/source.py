"""Where a value stands in a file that a person wrote.

Takes in the path and text of a file; gives out places in it, counted as people count.
Refuses nothing: a place is only ever made by a reader that has seen the text.
"""

from dataclasses import dataclass, field

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
        lines = self.text.split("\n")
        return lines[number - 1].rstrip("\r") if 1 <= number <= len(lines) else ""


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
