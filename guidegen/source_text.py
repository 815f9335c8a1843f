"""What a person saved, as text with lines and columns.

Takes in the bytes of one file; gives out its text, or a finding that says why it is none.
Refuses bytes that are no UTF-8 text, characters that cannot be seen, files too large to be typed.
"""

import re
import unicodedata

from guidegen.finding import Findings, Note, Rule
from guidegen.source import SourceFile, Span

NOT_UTF8 = Rule(
    "not-utf8",
    "signs such as ° and ½ would be printed as other signs, and the driver would read a wrong"
    " value or none",
)
FILE_TOO_LARGE = Rule(
    "file-too-large",
    "a spec is a few pages of typing, so a file this large is some other file, and the truck's"
    " guide would be made from the wrong one",
)
NOT_TEXT = Rule(
    "not-text",
    "no value of such a file can be read or checked, so the truck it was made for has no guide",
)
CONTROL_CHARACTER = Rule(
    "control-character",
    "the office would see one thing on the screen and the driver another in print, down to the"
    " order of the digits",
)

# About 300 specs as the office types them. What is larger is a log, a picture or a database.
MAX_BYTES = 1_000_000

# More places than this in one finding are noise: the file is mended at its source, not by hand.
_PLACES_SHOWN = 4

# What YAML 1.1 (section 5.1) calls printable, less what cannot be seen: soft hyphen, zero-width
# space, marks and orders of direction (they show 54000 as 00045), line breaks that editors do not
# count, byte order marks inside the text, and tag characters. The joiners U+200C and U+200D stay:
# they shape what is seen.
_UNSEEN = re.compile(
    "[^\t\n\x20-\x7e\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]"
    "|[\xad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\U000e0000-\U000e007f]"
)

# Beginnings of files that people rename to .yml by mistake.
_BINARY_BEGINNINGS = {
    b"PK\x03\x04": "a spreadsheet, a word processor document or a zip archive",
    b"\xd0\xcf\x11\xe0": "an old spreadsheet or word processor document",
    b"%PDF-": "a PDF",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"\x1f\x8b": "a packed archive",
}

# How much of a file is looked at to tell UTF-16 from other bytes.
_SAMPLE = 1_000
_FEWEST = 4

_SAVE_AS_UTF8 = "open the file in the editor, choose Save As and pick the encoding UTF-8"
_SAVE_AS_TEXT = "save what it holds as plain text in UTF-8, or take the file out of this folder"


def read_text(path: str, raw: bytes, findings: Findings) -> SourceFile | None:
    """Return the file as text: a line feed after each line, and no byte order mark.

    Args:
        path: For people: relative to the project, with forward slashes.
        raw: The file as it lies on the disk.
        findings: Takes what is wrong with it.
    """
    if len(raw) > MAX_BYTES:
        findings.add(
            FILE_TOO_LARGE,
            None,
            what=f"the file holds {len(raw):,} bytes, and the most is {MAX_BYTES:,}",
            fix="look whether this is the file you meant; if it is, split it into several files",
            place=path,
        )
        return None
    kind = next((kind for start, kind in _BINARY_BEGINNINGS.items() if raw.startswith(start)), None)
    if kind:
        span = Span(SourceFile(path, ""), 1, 1, 1, 1)
        what = f"this file is {kind}, not text, whatever its name says"
        findings.add(NOT_TEXT, span, what=what, fix=_SAVE_AS_TEXT)
        return None
    text = _decode(path, raw, findings)
    if text is None:
        return None
    file = SourceFile(path, _with_plain_line_breaks(text))
    lost = file.text.find("\ufffd")
    if lost >= 0:
        what = "`\ufffd` stands where a character was lost when the file was converted"
        fix = "look up in the document it was copied from what stood here, and type that"
        findings.add(NOT_UTF8, span_between(file, lost, lost + 1), what=what, fix=fix)
        return None
    return file if _can_be_seen(file, findings) else None


def unseen_character(text: str) -> str | None:
    r"""Return the first character of *text* that cannot be seen, in words; none if all can.

    >>> unseen_character("54\u202e000")
    'U+202E (right-to-left override)'
    """
    found = _UNSEEN.search(text)
    return _in_words(found.group()) if found else None


def span_between(file: SourceFile, start: int, end: int) -> Span:
    """Return the span of ``file.text[start:end]``."""
    line, column = _position(file.text, start)
    end_line, end_column = _position(file.text, end)
    return Span(file, line, column, end_line, end_column)


def _decode(path: str, raw: bytes, findings: Findings) -> str | None:
    if _looks_like_utf16(raw):
        encoding = "utf-16-be" if raw.startswith(b"\xfe\xff") or raw[:1] == b"\0" else "utf-16-le"
        file = SourceFile(path, raw.decode(encoding, "replace").removeprefix("\ufeff"))
        what = "this file is saved as UTF-16, which some editors call Unicode, and not as UTF-8"
        findings.add(NOT_UTF8, Span(file, 1, 1, 1, 1), what=what, fix=_SAVE_AS_UTF8)
        return None
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # Not error.object: the codec has cut the byte order mark off it.
        at = error.start + (3 if raw.startswith(b"\xef\xbb\xbf") else 0)
    shown = SourceFile(path, _with_plain_line_breaks(raw.decode("utf-8-sig", "replace")))
    # A full stop in place of the byte: what is left of the line must not count as a whole one.
    before = _with_plain_line_breaks(raw[:at].decode("utf-8-sig") + ".")
    line, column = _position(before, len(before) - 2)
    what = f"the byte {raw[at]:02X} here is not UTF-8"
    likely = raw[at : at + 1].decode("cp1252", "replace")
    if likely != "\ufffd":
        what += f"; it would be `{likely}` if the file was saved as Windows-1252 (ANSI)"
    span = Span(shown, line, column, line, column + 1)
    findings.add(NOT_UTF8, span, what=what, fix=f"{_SAVE_AS_UTF8}, then look at this line again")
    return None


def _looks_like_utf16(raw: bytes) -> bool:
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return True
    sample = raw[:_SAMPLE]
    # Every second byte of Latin text in UTF-16 is zero, always on the same side.
    halves = sorted((sample[::2].count(0), sample[1::2].count(0)))
    return len(sample) >= _FEWEST and halves[0] == 0 and halves[1] * 4 > len(sample)


def _with_plain_line_breaks(text: str) -> str:
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    # Parsers count one line more when the last one has no end.
    return text + "\n" if text and not text.endswith("\n") else text


def _can_be_seen(file: SourceFile, findings: Findings) -> bool:
    found = _UNSEEN.search(file.text)
    if not found:
        return True
    places = list(_UNSEEN.finditer(file.text, found.end()))
    notes = [
        Note(f"also {_in_words(place.group())} at", span_between(file, *place.span()))
        for place in places[:_PLACES_SHOWN]
    ]
    if len(places) > _PLACES_SHOWN:
        notes.append(Note(f"and {len(places) - _PLACES_SHOWN:,} more below"))
    findings.add(
        CONTROL_CHARACTER,
        span_between(file, *found.span()),
        what=f"the character {_in_words(found.group())} stands here and cannot be seen",
        fix="delete it and the characters on both sides of it, and type those again by hand",
        notes=notes,
    )
    return False


def _in_words(character: str) -> str:
    number = f"U+{ord(character):04X}"
    name = "NUL" if character == "\0" else unicodedata.name(character, "").lower()
    return f"{number} ({name})" if name else f"{number} (a control character)"


def _position(text: str, at: int) -> tuple[int, int]:
    """Return line and column of the offset *at*, counted from 1."""
    return text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)
