"""What a fleet's own procedure is.

Takes in templates and what their files say of the library; gives out frozen values.
Refuses to judge: what must not be lost is in `cautions`.
"""

import enum
from dataclasses import dataclass

from guidegen.procedures.model import ProcedureTemplate
from guidegen.source import Span
from guidegen.yaml_nodes import Scalar


class Kind(enum.Enum):
    """What a change to a procedure of the library is of."""

    CAUTION = "caution"
    STEP = "step"
    NUMBER = "number"
    STATE = "state"
    OUTCOME = "outcome"
    OTHER = "other"
    """Title, place at the truck, drawing, or the part in the inspection round."""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that is other than in the library."""

    kind: Kind
    name: str
    """Id of the caution or step, name of the fact, or what else it is of."""

    was: str
    """Empty if it is new."""

    now: str
    """Empty if it is gone."""

    was_at: Span | None = None
    now_at: Span | None = None
    how: tuple[str, ...] = ()
    """Of a caution: in what the replacement warns less. Empty if it does not."""

    @property
    def verb(self) -> str:
        """Whether it is gone, new or other."""
        if not self.now:
            return "gone"
        return "changed" if self.was else "new"

    @property
    def answered_by(self) -> str:
        """List of the file in which somebody must answer for it; empty if nobody need."""
        if self.kind is Kind.CAUTION and not self.now:
            return "drops_caution"
        if self.kind is Kind.CAUTION and self.how:
            return "rewords_caution"
        return "changes_state" if self.kind is Kind.STATE and self.was else ""


@dataclass(frozen=True, slots=True)
class Statement:
    """Who answers for a caution or state that the replacement lacks, or has otherwise."""

    part: str
    """List of the file that it stands in, such as ``drops_caution``."""

    about: Scalar
    """Id of the caution, or aspect of the state."""

    reason: str
    approved_by: str
    date: str


@dataclass(frozen=True, slots=True)
class Replacement:
    """What a fleet's procedure stands in the place of."""

    original: ProcedureTemplate
    is_whole: bool
    """The whole procedure; else steps and cautions of it."""

    stated_digest: Scalar
    """Of the original when it was replaced."""

    digest: str
    """Of the original as it is now."""

    statements: tuple[Statement, ...]
    changes: tuple[Change, ...]
    span: Span
    """Where the fleet says what it replaces."""

    @property
    def is_out_of_date(self) -> bool:
        """Whether the original has changed since."""
        return self.stated_digest.text != self.digest

    def statement_of(self, change: Change) -> Statement | None:
        """Return who answers for what *change* gives up; nothing if nobody does."""
        found = (
            each
            for each in self.statements
            if (each.part, each.about.text) == (change.answered_by, change.name)
        )
        return next(found, None)


@dataclass(frozen=True, slots=True)
class OwnProcedure:
    """One procedure of the fleet."""

    template: ProcedureTemplate
    replacement: Replacement | None = None
    """None for one that the library has not."""

    beside: Scalar | None = None
    """Id of the procedure that it stands beside; none for the end of its chapter."""

    is_before: bool = False
    """Stands before *beside* and not after it."""
