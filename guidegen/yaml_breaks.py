"""Plain words for the place where a YAML file cannot be read on.

Takes in what the parser was doing when it stopped, and the text; gives out where to look, what is
wrong there and what to type, for someone who fills in spreadsheets and has never heard of YAML.
Refuses to trust the parser's own place: it stops where the damage shows, not where it was done.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from guidegen.source import SourceFile, Span
from guidegen.yaml_lines import (
    SPECIAL_FIRST,
    PlainWords,
    as_value,
    column_of,
    content,
    in_quotes,
    missing_colon,
    rest_of_line,
    typed_line,
)

# Nobody scrolls back further for a neighbor; a hostile file may hold half a million lines.
_LINES_LOOKED_BACK = 500

_CURLY_QUOTES = re.compile("[\u201c\u201d\u201e\u2018\u2019]")


@dataclass(frozen=True, slots=True)
class Break:
    """Where and how reading stopped. Lines and columns count from 1."""

    file: SourceFile
    problem: str
    """The parser's own words: those of libyaml, or those of its Python twin."""

    line: int
    column: int
    opening: tuple[int, int] | None
    """Line and column where the thing begins that could not be read to its end."""

    quoted: Span | None
    """The last text in quotes that was read to its end."""

    bracket: Span | None
    """The innermost ``[`` or ``{`` that was not closed."""

    @property
    def text(self) -> str:
        """The line where reading stopped."""
        return self.file.line(self.line)

    @property
    def before(self) -> str:
        """What stands before the place on its line."""
        return self.text[: self.column - 1]

    @property
    def character(self) -> str:
        """The character at the place; empty at the end of the line."""
        return self.text[self.column - 1 : self.column]

    def span(self, column: int, end_column: int) -> Span:
        """Return a span on the line where reading stopped."""
        return Span(self.file, self.line, column, self.line, end_column)


def plain_words(at: Break) -> PlainWords:
    """Return the likeliest fault: each look is for one kind, the surest kinds first."""
    for look in _LOOKS:
        found = look(at)
        if found:
            return found
    return PlainWords(
        rest_of_line(at.file, at.line, at.column),
        "the file cannot be read on from here",
        "compare with a line that works, such as `name: value`; begin it in the same column as its"
        " neighbors and put a value in double quotes if it holds any of : # [ ] { } , & * ! | > %",
    )


def _tab(at: Break) -> PlainWords | None:
    indentation = at.text[: len(at.text) - len(at.text.lstrip())]
    if "\t" in indentation and at.column <= len(indentation) + 1:
        start = indentation.index("\t")
        tabs = len(indentation) - start - len(indentation[start:].lstrip("\t"))
        what = f"line {at.line} is indented with a tab"
        fix = "delete the tab and type spaces, two for each level, as the lines around it have"
        return PlainWords(at.span(start + 1, start + tabs + 1), what, fix)
    if at.character == "\t":
        what = f"a tab stands after `{at.before.strip()}`"
        fix = "delete the tab and type a space"
        return PlainWords(at.span(at.column, at.column + 1), what, fix)
    return None


def _unclosed_quote(at: Break) -> PlainWords | None:
    if at.opening and ("end of stream" in at.problem or "unexpected document" in at.problem):
        line, column = at.opening
    elif at.quoted and at.quoted.line < at.line and _ends_at(at, at.quoted):
        # It found a closing quote, but on another line: that one was meant to open the next text.
        line, column = at.quoted.line, at.quoted.column
    else:
        return None
    text = at.file.line(line)
    quote = text[column - 1]
    if text[: column - 1].endswith(quote):
        return _quote_inside(at.file, line, text.index(quote) + 1)
    what = f"the text that begins with `{quote}` on line {line} is not closed on that line"
    fix = f"type the closing quote at the end of the text: `{content(text).strip()}{quote}`"
    return PlainWords(rest_of_line(at.file, line, column), what, fix)


def _text_after_quote(at: Break) -> PlainWords | None:
    quoted = at.quoted
    if not quoted or quoted.line != at.line or not _ends_at(at, quoted):
        return None
    after = content(at.text)[at.column - 1 :]
    return _quote_inside(at.file, at.line, quoted.column) if after.strip(":,]}") else None


def _quote_inside(file: SourceFile, line: int, column: int) -> PlainWords:
    """Word a value such as ``'13' 6"'``, whose first quote is closed before its end."""
    whole = content(file.line(line))[column - 1 :]
    quote = whole[0]
    inner = whole[1:-1] if whole.endswith(quote) and len(whole) > 1 else whole
    typed = typed_line(file.line(line))
    better = typed.with_value(as_value(inner)) if typed else as_value(inner)
    what = f"the text that begins with `{quote}` holds another `{quote}`, which closes it too early"
    if as_value(inner) == inner:
        fix = f"type it without quotes around it: `{better}`"
    elif inner != whole:
        fix = f"type it so: `{better}`"
    else:
        fix = f"delete the quote that is no part of the text, or keep all and type `{better}`"
    return PlainWords(rest_of_line(file, line, column), what, fix)


def _unclosed_bracket(at: Break) -> PlainWords | None:
    if not at.bracket:
        return None
    line, text = at.bracket.line, at.file.line(at.bracket.line)
    opener = text[at.bracket.column - 1]
    closer = "]" if opener == "[" else "}"
    here = at.span(at.column, at.column + 1)
    if at.line == line and at.character in {"]", "}"} - {closer}:
        what = f"`{opener}` is closed by `{at.character}`"
        return PlainWords(here, what, f"type `{closer}` instead")
    if at.line == line and content(at.text)[at.column - 1 :]:
        what = f"`{at.character}` stands here, where a value, `,` or `{closer}` is needed"
        fix = (
            f"put one comma between two values and `{closer}` at the end; put a value in double"
            " quotes if it holds any of , : [ ] { }"
        )
        return PlainWords(here, what, fix)
    what = f"`{opener}` is not closed on line {line}"
    fix = f"type `{closer}` at the end: `{content(text).strip().rstrip(',')}{closer}`"
    return PlainWords(rest_of_line(at.file, line, at.bracket.column), what, fix)


def _special_first_character(at: Break) -> PlainWords | None:
    typed = typed_line(at.text)
    if not typed or at.column < typed.column:
        return None
    first = typed.value[0]
    is_after_bracket = first in "[{" and at.before.rstrip().endswith(("]", "}"))
    if is_after_bracket and at.character in {"]", "}"}:
        what = f"`{at.character}` closes nothing"
        return PlainWords(at.span(at.column, at.column + 1), what, "delete it")
    if first not in SPECIAL_FIRST and not is_after_bracket:
        return None
    span = at.span(typed.column, typed.column + len(typed.value))
    sign = "a backtick" if first == "`" else f"`{first}`"
    what = f"YAML does not read a value that begins with {sign} as text"
    fix = f"put quotes around it: `{typed.with_value(in_quotes(typed.value))}`"
    return PlainWords(span, what, fix)


def _backslash(at: Break) -> PlainWords | None:
    slash = at.text.rfind("\\", 0, at.column)
    if slash < 0 or not re.search("escape|hexdecimal|hexadecimal", at.problem):
        return None
    what = f"`{at.text[slash : slash + 2]}` has no meaning between double quotes"
    fix = "type the backslash twice, or put single quotes around the text instead of double ones"
    return PlainWords(at.span(slash + 1, slash + 3), what, fix)


def _inline_list(at: Break) -> PlainWords | None:
    if "sequence entries are not allowed" not in at.problem:
        return None
    typed, before = content(at.text)[at.column - 1 :], at.before.strip()
    what = f"the list line `{typed}` begins on the same line as `{before}`"
    fix = (
        f"move `{typed}` to a line of its own below, two spaces further in; if the dash belongs to"
        f" the text, put quotes around: `{before} {in_quotes(typed)}`"
    )
    return PlainWords(rest_of_line(at.file, at.line, at.column), what, fix)


def _second_colon(at: Break) -> PlainWords | None:
    typed = typed_line(at.text)
    if "mapping values are not allowed" not in at.problem or not typed or at.column < typed.column:
        return None
    value = typed.value
    if _CURLY_QUOTES.match(value):
        value = _CURLY_QUOTES.sub("", value)
        what = "curly quotes do not hold a text with a colon together"
        fix = "type straight double quotes"
    else:
        what = "the value has a colon and a space in it, as if it were a name"
        fix = "put quotes around the whole value"
    span = at.span(at.column, at.column + 1)
    return PlainWords(span, what, f"{fix}: `{typed.with_value(in_quotes(value))}`")


def _line_without_colon(at: Break) -> PlainWords | None:
    if "could not find expected ':'" in at.problem and at.opening:
        return missing_colon(at.file, at.opening[0])
    # A line with no colon is taken for a text, and the line below it for what may not follow one.
    above = _lines_above(at)[:1]
    if not re.search("mapping values are not allowed|document start", at.problem) or not above:
        return None
    return missing_colon(at.file, above[0])


def _no_name(at: Break) -> PlainWords | None:
    if at.character != ":" or at.before.strip(" -"):
        return None
    span = rest_of_line(at.file, at.line, at.column)
    fix = f"type the name before it: `name{content(at.text)[at.column - 1 :]}`"
    return PlainWords(span, "no name stands before the colon", fix)


def _too_deep(at: Break) -> PlainWords | None:
    above = _lines_above(at)[:1]
    if "mapping values are not allowed" not in at.problem or not above:
        return None
    column, neighbor = column_of(at.text), content(at.file.line(above[0]))
    if column <= column_of(neighbor):
        return None
    what = f"line {at.line} is indented further than line {above[0]}, which already has a value"
    fix = f"begin it in column {column_of(neighbor)}, like `{neighbor.strip()}`"
    typed = typed_line(neighbor)
    if typed:
        fix += f"; if it is a part of `{typed.start}`, nothing may stand after that colon"
    return PlainWords(rest_of_line(at.file, at.line, column), what, fix)


def _wrong_column(at: Break) -> PlainWords | None:
    column, above = column_of(at.text), _lines_above(at)
    is_about_line = at.column == column or "mapping values are not allowed" in at.problem
    if not is_about_line or not at.character or not above:
        return None
    columns = {column_of(at.file.line(line)): line for line in reversed(above)}
    if column in columns:
        return _list_among_names(at, columns[column])
    further_in = min((other for other in columns if other > column), default=None)
    further_out = max((other for other in columns if other < column), default=None)
    choices = [
        f"in column {other}, like `{content(at.file.line(columns[other])).strip()}` on line"
        f" {columns[other]}"
        for other in (further_in, further_out)
        if other
    ]
    what = f"line {at.line} begins in column {column}, where no line above begins"
    fix = f"begin it {', or '.join(choices)}"
    return PlainWords(rest_of_line(at.file, at.line, column), what, fix)


def _list_among_names(at: Break, neighbor: int) -> PlainWords | None:
    typed, beside = content(at.text).strip(), content(at.file.line(neighbor)).strip()
    if typed.startswith("-") and not beside.startswith("-"):
        what = f"`{typed}` is a line of a list and stands beside `{beside}`, which has a name"
        fix = "put it below the name that it belongs to, two spaces further in"
    elif beside.startswith("-") and not typed.startswith("-"):
        what = f"`{typed}` stands in a list and does not begin with a dash"
        further = f"; two more spaces if it belongs to `{beside}`" if typed_line(beside[1:]) else ""
        fix = f"type `- ` before it{further}; if it is no part of the list, begin it further left"
    else:
        return None
    return PlainWords(rest_of_line(at.file, at.line, at.column), what, fix)


# The surest first. A tab, a quote or a bracket left open explains whatever the parser says later.
_LOOKS: tuple[Callable[[Break], PlainWords | None], ...] = (
    _tab,
    _unclosed_quote,
    _text_after_quote,
    _unclosed_bracket,
    _special_first_character,
    _backslash,
    _inline_list,
    _second_colon,
    _line_without_colon,
    _no_name,
    _too_deep,
    _wrong_column,
)


def _lines_above(at: Break) -> list[int]:
    """Return the numbers of the lines with content above the place, nearest first."""
    lines = at.file.text.split("\n")[: at.line - 1]
    numbers = range(len(lines), max(0, len(lines) - _LINES_LOOKED_BACK), -1)
    return [number for number in numbers if content(lines[number - 1]).strip()]


def _ends_at(at: Break, quoted: Span) -> bool:
    """Whether only blanks stand between the end of *quoted* and the place."""
    between = at.text[quoted.end_column - 1 : at.column - 1]
    return quoted.end_line == at.line and quoted.end_column <= at.column and not between.strip()
