"""What the files of trucks that are alike share.

Takes in the text of a unit file; gives out its form, which is the text without the values of
number, VIN, plate and yard, and those values.
Refuses a value that could mean more than its letters: such a file has a form of its own.
"""

import hashlib
import re
from dataclasses import dataclass

from guidegen.pickling import numerous
from guidegen.source import SourceFile, Span
from guidegen.specs.fields import Stated
from guidegen.specs.model import Spec
from guidegen.specs.spelled import spelled

NUMBER = "unit"
"""Names the unit number among the values that a form leaves out."""

YARD = "identity.yard"
OWN = ("identity.vin", "identity.plate", YARD)
"""Facts that tell trucks of one edition apart, by dotted name."""

# Letters, digits, hyphens and blanks within one line: with or without quotes, in braces or below
# a key, YAML takes any such text to be one scalar that means its letters.
_VALUE = r"[A-Za-z0-9](?:[A-Za-z0-9 -]{0,60}[A-Za-z0-9])?"
_TYPED = re.compile(
    r"^(?:unit|[ ]+(?:vin|plate|yard)):(?:[ ]+\{[ ]*value:|[ ]*\n[ ]+value:)?[ ]+"
    rf"(?P<quote>['\"]?)(?P<value>{_VALUE})(?=(?P=quote)[ ]*(?:$|[#,}}]))",
    re.MULTILINE,
)


@dataclass(frozen=True, slots=True)
class Blanked:
    """A text with values cut out of it."""

    pieces: tuple[str, ...]
    """Before, between and behind the values."""

    values: tuple[str, ...]

    @property
    def key(self) -> str:
        """The same for texts that differ in the values only."""
        return "\0".join(self.pieces)


@numerous
@dataclass(frozen=True, slots=True)
class UnitForm:
    """The text of a unit file without the values that are its truck's own, and what it states.

    Whatever stands in one of its files stands in all others at the same line and column; behind
    a value on the same line there is at most a comment, or the end of a table in braces.
    """

    pieces: tuple[str, ...]
    names: tuple[str, ...]
    """What stands between the pieces: `NUMBER`, or a fact of `OWN`."""

    spec: Spec
    """Of the first file of this form."""

    signature: str
    """The same for all forms that state the same: any values of their own, and all else equal."""

    def text(self, values: tuple[str, ...]) -> str:
        """Return the text of the file in which *values* stand."""
        parts = [self.pieces[0]]
        for value, piece in zip(values, self.pieces[1:], strict=True):
            parts += (value, piece)
        return "".join(parts)


def blanked(text: str) -> Blanked:
    """Return *text* without the values that look like a truck's own."""
    pieces, values, at = [], [], 0
    for found in _TYPED.finditer(text):
        start, end = found.span("value")
        pieces.append(text[at:start])
        values.append(text[start:end])
        at = end
    return Blanked((*pieces, text[at:]), tuple(values))


def form_of(spec: Spec, file: SourceFile, cut: Blanked) -> UnitForm:
    """Return the form of the file that states *spec*.

    If what was cut out is anything but the values that *spec* has as its own, such as a line of
    a longer text, the form is that of this file alone, with nothing cut out.
    """
    own = {_start(spec.span): NUMBER}
    own |= {_start(spec.stated[name].span): name for name in OWN if name in spec.stated}
    said = {NUMBER: spec.id, **{name: str(e.value) for name, e in spec.stated.items()}}
    names = []
    at = 0
    for piece, value in zip(cut.pieces, cut.values, strict=False):
        at += len(piece)
        quote = piece[-1] in "'\""
        name = own.pop(_position(file.text, at - quote), "")
        if not name or said[name] != " ".join(value.split()):
            return UnitForm((file.text,), (), spec, signature_of(spec))
        names.append(name)
        at += len(value)
    return UnitForm(cut.pieces, tuple(names), spec, signature_of(spec))


def span_in(file: SourceFile, first: Span, before: str, after: str) -> Span:
    """Return where *after* stands in *file*, in which it takes the place of *before* at *first*."""
    end = first.end_column + len(after) - len(before)
    return Span(file, first.line, first.column, first.end_line, end)


def signature_of(spec: Spec) -> str:
    """Return a digest of all that *spec* states but the values of its number and of `OWN`.

    That these are stated, which documents all was copied from, and when by whom, is in it: guides
    show it.
    """
    lines = [f"model {spec.model!r}"]
    for name, stated in sorted(spec.stated.items()):
        if name in OWN:
            lines.append(f"{name} {_origin(stated)}")
            continue
        quoted = "" if stated.quoted is None else spelled(stated.quoted)
        lines.append(f"{name} {spelled(stated.value)} {quoted} {_origin(stated)}")
    lines += [f"given {name}" for name in sorted(spec.given)]
    lines += [f"not fitted {name}" for name in sorted(spec.not_fitted)]
    return hashlib.sha256("\n".join(lines).encode()).hexdigest()


def _start(span: Span) -> tuple[int, int]:
    return span.line, span.column


def _position(text: str, at: int) -> tuple[int, int]:
    return text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)


def _origin(stated: Stated) -> str:
    recorded = stated.recorded
    return repr((stated.source, recorded and (recorded.on, recorded.by)))
