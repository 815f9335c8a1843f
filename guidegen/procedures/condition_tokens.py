"""The words and signs of a condition.

Takes in the text of a condition; gives out its tokens, each with its place in the text.
Refuses signs of other languages, and says what this one writes instead.
"""

import enum
import re
from dataclasses import dataclass
from types import MappingProxyType

EXAMPLE = 'fitted(brakes.air) and brakes.air.cut_out >= "100 psi"'
"""Shown wherever a condition cannot be read."""

KEYWORDS = frozenset({"and", "or", "not", "in"})


class TokenKind(enum.Enum):
    """What a token is."""

    KEYWORD = "keyword"
    NAME = "name"
    TEXT = "text"
    """In double quotes."""

    NUMBER = "number"
    SIGN = "sign"
    END = "end"


@dataclass(frozen=True, slots=True)
class Token:
    """One word or sign."""

    kind: TokenKind
    text: str
    """As typed, but of a text what stands between its quotes."""

    start: int
    """Offset in the condition, from 0; quotes are part of a token."""

    end: int

    @property
    def shown(self) -> str:
        """The token as the words of a finding show it."""
        if self.kind is TokenKind.END:
            return "the end of the condition"
        return f'`"{self.text}"`' if self.kind is TokenKind.TEXT else f"`{self.text}`"


class Unreadable(Exception):
    """Raised where a condition cannot be read on; carries the words for the finding."""

    def __init__(self, start: int, end: int, what: str, fix: str) -> None:
        """Keep the place, as offsets from 0, and the words."""
        super().__init__(what)
        self.start = start
        self.end = end
        self.what = what
        self.fix = fix


_TOKEN = re.compile(
    r"[ \t\n]*(?:"
    r"(?P<NAME>[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z0-9_]+)*)"
    r'|"(?P<TEXT>[^"\n]*)"'
    r"|(?P<NUMBER>[0-9]+(?:\.[0-9]+)?)"
    r"|(?P<SIGN>==|!=|<=|>=|<|>|\(|\)|,)"
    r")"
)
_BLANKS = re.compile(r"[ \t\n]*")

_INSTEAD = MappingProxyType(
    {
        "&&": "write `and` instead of `&&`",
        "&": "write `and` instead of `&`",
        "||": "write `or` instead of `||`",
        "|": "write `or` instead of `|`",
        "!": "write `not` instead of `!`",
        "=<": "write `<=` instead of `=<`",
        "=>": "write `>=` instead of `=>`",
        "=": "write `==` instead of `=`",
        "≤": "write `<=` instead of `≤`",
        "≥": "write `>=` instead of `≥`",
        "≠": "write `!=` instead of `≠`",
        "'": "put the value in double quotes",
        "“": "put the value in straight double quotes",
        "”": "put the value in straight double quotes",
        '"': "close the double quotes after the value",
        "{": "name the fact without braces; braces belong into texts",
        "}": "name the fact without braces; braces belong into texts",
        "-": "write names with underscores, and amounts in double quotes",
        "+": "state what is worked out in the spec; a condition does not count",
        "*": "state what is worked out in the spec; a condition does not count",
        "/": "state what is worked out in the spec; a condition does not count",
        ".": "write the section, a point and the name without blanks between them",
        "[": "write the list in round brackets",
        "]": "write the list in round brackets",
    }
)
"""What to do about a sign that is none of ours, longest first."""


def tokens_of(text: str) -> tuple[Token, ...]:
    """Return the tokens of *text*, the last one its end.

    Raises:
        Unreadable: A sign is none of the language.
    """
    tokens = []
    at = 0
    while found := _TOKEN.match(text, at):
        tokens.append(_token(found))
        at = found.end()
    blanks = _BLANKS.match(text, at)
    at = blanks.end() if blanks else at
    if at < len(text):
        raise _unknown_sign(text, at)
    return (*tokens, Token(TokenKind.END, "", len(text.rstrip()), len(text.rstrip())))


def _token(found: re.Match[str]) -> Token:
    name = found.lastgroup or ""
    start, end = found.span(name)
    if name == "TEXT":
        start, end = start - 1, end + 1
    kind = TokenKind[name]
    if kind is TokenKind.NAME and found[name] in KEYWORDS:
        kind = TokenKind.KEYWORD
    return Token(kind, found[name], start, end)


def _unknown_sign(text: str, at: int) -> Unreadable:
    sign = next((sign for sign in _INSTEAD if text.startswith(sign, at)), text[at])
    fix = _INSTEAD.get(sign, "write names, values and `and`, `or`, `not`, `in` only")
    return Unreadable(
        at, at + len(sign), f"a condition has no sign `{sign}`", f"{fix}, as in `{EXAMPLE}`"
    )
