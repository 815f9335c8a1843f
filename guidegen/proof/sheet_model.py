"""What claims of a difference sheet are made of.

Takes in nothing; gives out the two sides of a sheet, and rows and sheets as frozen values.
Refuses a claim of the known truck under the marks of the given one.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from guidegen.guide.model import Caution
from guidegen.procedures.model import Signal
from guidegen.proof.marks import Mark
from guidegen.proof.model import Claim, Within
from guidegen.source import Span

NUMBER = "identity.number"


class Side(NamedTuple):
    """One of the two trucks."""

    fact: Mark
    """Marks its number and its values."""

    text: Mark


KNOWN = Side(Mark.KNOWN_FACT, Mark.KNOWN_TEXT)
GIVEN = Side(Mark.FACT, Mark.TEXT)


class Heading(NamedTuple):
    """A line between differences."""

    mark: Mark
    """``RANK`` or ``REASON``."""

    key: str


@dataclass(frozen=True, slots=True)
class RowClaims:
    """What one difference must say."""

    id: str
    claims: tuple[Claim, ...]
    links: dict[Mark, str] = field(default_factory=dict)
    """Where a text must lead, from the unit's folder, by its mark; others lead nowhere."""

    cautions: tuple[Caution, ...] = ()
    """Drawn as cautions, with their signals and symbols."""

    span: Span | None = None

    @property
    def symbols(self) -> list[str]:
        """Ids of the cautions that carry the alert symbol."""
        return [each.id for each in self.cautions if each.signal is not Signal.NOTICE]


@dataclass(frozen=True, slots=True)
class SheetClaims:
    """What a sheet must say."""

    rows: tuple[RowClaims, ...]
    outline: tuple[Heading | str, ...]
    """Headings, and ids of differences, in order."""

    @property
    def ranks(self) -> tuple[str, ...]:
        """Keys of the ranks that the contents must name, in order."""
        return tuple(
            each.key
            for each in self.outline
            if isinstance(each, Heading) and each.mark is Mark.RANK
        )


@dataclass(frozen=True, slots=True)
class Row:
    """Makes the claims of one difference."""

    id: str

    def claim(self, mark: Mark, key: str) -> Claim:
        """Return the claim of one text in the difference."""
        return Claim(mark, key, Within(difference=self.id))

    def side(self, side: Side, label: str = "on") -> Iterator[Claim]:
        """Yield what says whose the texts are that follow."""
        yield self.claim(Mark.LABEL, label)
        yield self.claim(side.fact, NUMBER)
