"""What makes a YAML file mean something else than it shows, in plain words.

Takes in places and what stands there; gives out findings, each with what to type instead.
Refuses to repeat itself: a file that cannot be read on keeps only what was found above the break.
"""

import re
from dataclasses import dataclass, field

from guidegen.finding import Finding, Note, Rule
from guidegen.source import SourceFile, Span
from guidegen.source_text import CONTROL_CHARACTER, FILE_TOO_LARGE, span_between
from guidegen.yaml_breaks import Break, plain_words
from guidegen.yaml_lines import in_quotes, missing_colon, typed_line

BROKEN_YAML = Rule(
    "broken-yaml",
    "nothing below this place can be relied on, so the truck gets no guide until it is mended",
)
LOOK_ALIKE_SPACE = Rule(
    "look-alike-space",
    "YAML takes such a blank as part of the name, so the value under it never reaches the guide",
)
DIRECTIVE = Rule(
    "directive",
    "such a line changes how the whole file is read, so a value could come out other than typed",
)
ANCHOR_OR_ALIAS = Rule(
    "anchor-or-alias",
    "a value kept in one place and used in another changes on trucks that nobody looked at",
)
TAG = Rule(
    "tag",
    "YAML takes a word after `!` as an order and drops it, so `!Stop the engine` would be printed"
    " as `the engine`",
)
DUPLICATE_KEY = Rule(
    "duplicate-key",
    "YAML keeps the last value and drops the first, so one of the two is lost unseen and may be"
    " the right one",
)
KEY_NOT_TEXT = Rule(
    "key-not-text",
    "a value whose name is no plain text cannot be found again, and the guide would be without it",
)
MORE_THAN_ONE_DOCUMENT = Rule(
    "more-than-one-document",
    "one file is read as one record, so all that stands below this line would never reach a guide",
)
NESTED_TOO_DEEP = Rule(
    "nested-too-deep",
    "no record is this deep: a bracket or an indentation is astray, and the values would stand"
    " under the wrong heading",
)
EMPTY_FILE = Rule(
    "empty-file",
    "a truck with nothing on record gets no guide, and its driver is left with another truck's",
)
VALUE_MISSING = Rule(
    "value-missing",
    "a blank where a value belongs is filled in from memory, and the memory is of another truck",
)
NOT_A_TABLE = Rule(
    "not-a-table",
    "values without names cannot be told apart, and a pressure would be printed as a length",
)

# Whoever has a hundred faults in one file has one fault that explains most of them.
MAX_FAULTS = 100

# Longer quotations from the file hide the sentence they stand in.
_QUOTATION = re.compile(r"`([^`]*)`")
_LONGEST_QUOTATION = 100

_PROPERTY = re.compile(r"!<[^>\n]*>|[&!][^\s,\[\]{}]*")


@dataclass(slots=True)
class YamlFaults:
    """The faults of one file, in the order in which they were met."""

    file: SourceFile
    found: list[Finding] = field(default_factory=list)

    @property
    def is_full(self) -> bool:
        """Whether there are so many that reading on helps nobody."""
        return len(self.found) >= MAX_FAULTS

    def break_off(self, at: Break) -> None:
        """Report that reading stopped, and drop what was only found because of it."""
        if "nesting depth" in at.problem:
            self.too_deep(Span(self.file, at.line, at.column, at.line, at.column), 1_000)
            return
        if "tag handle" in at.problem and at.text[at.column - 1 : at.column] == "!":
            start = _offset(self.file.text, at.line, at.column)
            self.properties(start)
            return
        words = plain_words(at)
        # A bracket or a quote left open makes nonsense of the lines below it.
        top = min(words.span.line, at.line)
        self.found = [fault for fault in self.found if fault.span and fault.span.line < top]
        self._add(BROKEN_YAML, words.span, words.what, words.fix)

    def alias(self, span: Span, name: str) -> None:
        """Report ``*name``."""
        what = f"`*{name}` stands for a value that is kept in another place"
        fix = f"type the value itself; if the star belongs to the text, {self._quote_advice(span)}"
        self._add(ANCHOR_OR_ALIAS, span, what, fix)

    def properties(self, start: int) -> None:
        """Report the anchors and tags that stand at the offset *start*, before a value."""
        text = self.file.text
        while found := _PROPERTY.match(text, start):
            word, span = found.group(), span_between(self.file, *found.span())
            if word[0] == "&":
                what = f"`{word}` names the value, so that other places can use it"
                fix = f"delete `{word}`; if it belongs to the text, {self._quote_advice(span)}"
                self._add(ANCHOR_OR_ALIAS, span, what, fix)
            else:
                what = f"`{word}` is an order to YAML and is not read as text"
                fix = f"{self._quote_advice(span)}; if it is no part of the text, delete `{word}`"
                if word.startswith(("!!", "!<")):
                    fix = f"delete `{word}`; if it belongs to the text, {self._quote_advice(span)}"
                self._add(TAG, span, what, fix)
            start = found.end()
            while text[start : start + 1] in {" ", "\t", "\n"}:
                start += 1

    def unseen_character(self, span: Span, character: str) -> None:
        """Report an escape in double quotes that stands for a character nobody sees."""
        what = f"the text asks for the character {character}, which cannot be seen"
        fix = "delete the backslash and the letters and digits after it that name the character"
        self._add(CONTROL_CHARACTER, span, what, fix)

    def duplicate_key(self, key: str, span: Span, first: Span) -> None:
        """Report a key that its table holds already."""
        what = f"`{key}` is set twice in one table"
        fix = "look up which of the two is right and delete the other line"
        self._add(DUPLICATE_KEY, span, what, fix, Note("first set at", first))

    def missing_value(self, key: str, span: Span, *, is_in_braces: bool) -> None:
        """Report a key with nothing after its colon."""
        what = f"`{key}` has no value"
        fix = "type the value after the colon, or delete the line if there is none to state"
        lines = self.file.text.split("\n")
        if is_in_braces:
            what = f"`{key}` stands in braces and has no value"
            fix = (
                f"type `{key}: value`; if the braces belong to a text, put quotes around all of it"
            )
        elif re.match(r":\s+#\S", lines[span.end_line - 1][span.end_column - 1 :]):
            fix = "YAML skips all after `#`: put quotes around the value if it begins with `#`"
        elif _column_of_first(lines[span.end_line :]) == span.column:
            fix += f"; if the lines below belong to `{key}`, begin them two spaces further in"
        self._add(VALUE_MISSING, span, what, fix)

    def missing_list_value(self, span: Span, number: int) -> None:
        """Report line *number* of a list, counted from 1, with nothing on it."""
        what = f"value {number} of the list is missing"
        fix = "type the value after the dash, or delete the line"
        # What is missing has no width; the dash before it can be seen.
        span = Span(span.file, span.line, max(1, span.column - 1), span.line, span.column)
        self._add(VALUE_MISSING, span, what, fix)

    def key_not_text(self, span: Span) -> None:
        """Report a list, a table or nothing where a name belongs."""
        what = "a list, a table or nothing stands where a name belongs"
        fix = "type a name, a colon and a space before the value: `name: value`"
        typed = typed_line(self.file.line(span.line))
        if typed and typed.value.startswith("{{"):
            what = "YAML does not read a value that begins with `{{` as text"
            fix = f"put quotes around it: `{typed.with_value(in_quotes(typed.value))}`"
        self._add(KEY_NOT_TEXT, span, what, fix)

    def second_document(self, span: Span) -> None:
        """Report that a second record begins."""
        what = "a second record begins here, in the same file"
        fix = "move all below this line to a file of its own; delete the line if it is one record"
        self._add(MORE_THAN_ONE_DOCUMENT, span, what, fix)

    def too_deep(self, span: Span, depth: int) -> None:
        """Report tables and lists more than *depth* deep in one another."""
        what = f"tables and lists stand more than {depth} deep in one another"
        fix = "look for brackets that are never closed, or for lines that begin too far right"
        self._add(NESTED_TOO_DEEP, span, what, fix)

    def too_many(self, span: Span, most: int) -> None:
        """Report more than *most* values."""
        what = f"the file holds more than {most:,} values"
        fix = "look whether this is the file you meant; if it is, split it into several files"
        self._add(FILE_TOO_LARGE, span, what, fix)

    def empty_file(self) -> None:
        """Report a file with no value in it."""
        what = "the file is empty" if not self.file.text.strip() else "the file holds no values"
        fix = "type the record, or restore it from a copy; delete the file if nobody needs it"
        self._add(EMPTY_FILE, Span(self.file, 1, 1, 1, 1), what, fix)

    def not_a_table(self, span: Span, *, is_text: bool) -> None:
        """Report a file that holds a list or a single text."""
        words = missing_colon(self.file, span.line) if is_text else None
        if words:
            self._add(NOT_A_TABLE, words.span, words.what, words.fix)
            return
        what = f"the file holds {'one text' if is_text else 'a list'} and no named values"
        fix = "begin each line with a name, a colon and a space, such as `name: value`"
        self._add(NOT_A_TABLE, span, what, fix)

    def directive(self, span: Span) -> None:
        """Report a line that begins with ``%``."""
        what = "a line that begins with `%` is an order to YAML"
        self._add(DIRECTIVE, span, what, "delete the line; if it belongs to a text, indent it")

    def look_alike_space(self, span: Span, others: int) -> None:
        """Report blanks that are no spaces, and how many more lines begin with such."""
        what = f"line {span.line} begins with a blank that looks like a space and is none"
        fix = "delete the blanks at the beginning of the line and type spaces"
        more = f"{others:,} more {'line begins' if others == 1 else 'lines begin'} so"
        notes = [Note(more)] if others else []
        self._add(LOOK_ALIKE_SPACE, span, what, fix, *notes)

    def _quote_advice(self, span: Span) -> str:
        typed = typed_line(self.file.line(span.line))
        if typed and typed.column == span.column:
            better = typed.with_value(in_quotes(typed.value))
            return f"put quotes around the whole value: `{better}`"
        return "put quotes around the whole value"

    def _add(self, rule: Rule, span: Span, what: str, fix: str, *notes: Note) -> None:
        what, fix = _QUOTATION.sub(_shortened, what), _QUOTATION.sub(_shortened, fix)
        if len(self.found) == MAX_FAULTS - 1:
            notes += (Note(f"reading stopped after {MAX_FAULTS} faults in this file"),)
        self.found.append(Finding(rule, span, what, fix, notes))


def _shortened(quotation: re.Match[str]) -> str:
    text = quotation.group(1)
    return f"`{text[:60]} … {text[-20:]}`" if len(text) > _LONGEST_QUOTATION else f"`{text}`"


def _column_of_first(lines: list[str]) -> int:
    """Return the column in which the first line with content begins; 0 if there is none."""
    for line in lines:
        content = line.lstrip(" ")
        if content and content[0] != "#":
            return len(line) - len(content) + 1
    return 0


def _offset(text: str, line: int, column: int) -> int:
    return sum(len(above) + 1 for above in text.split("\n")[: line - 1]) + column - 1
