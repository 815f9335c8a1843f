"""What a page for the office says, block by block.

Takes in nothing; gives out blocks, in which claims and readings are compared. Refuses to carry how
a block looks: but for the few classes that change what it says.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple


class Block(NamedTuple):
    """One heading, paragraph, row, cell or entry."""

    kind: str
    """Its tag, with the classes that change what it says: ``p.failed``. A row is a block of its
    own, without words, before its cells."""

    text: str = ""
    """Words as they are seen, blanks folded; `code` in backticks, a mark in double brackets, lines
    parted by a stroke."""

    links: tuple[str, ...] = ()
    """Where its links lead, in order, as they stand."""


def row(*cells: Block, kind: str = "tr") -> Iterator[Block]:
    """Yield a row and its *cells*."""
    yield Block(kind)
    yield from cells


def heads(*words: str) -> Iterator[Block]:
    """Yield the row at the head of a table."""
    return row(*(Block("th", each) if each else Block("th") for each in words))


def lines(words: Iterable[str]) -> str:
    """Return *words* as lines of one block."""
    return " / ".join(words)


def code(words: str) -> str:
    """Return *words* as they stand in `code`."""
    return f"`{' '.join(words.split())}`"


def counted(numbers: Iterable[str], most: int = 12) -> str:
    """Return the trucks *numbers* as the page names them; of more than *most* only how many."""
    known = tuple(numbers)
    return f"{len(known):,} trucks" if len(known) > most else ", ".join(known)
