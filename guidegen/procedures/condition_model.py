"""What a condition is, once read.

Takes in names, literals and operators; gives out a small closed tree.
Refuses anything that could compute: there is no arithmetic, no call but three predicates.
"""

import enum
from dataclasses import dataclass

from guidegen.source import Span


class Predicate(enum.Enum):
    """What can be asked of a section or fact by name."""

    FITTED = "fitted"
    """Of a section: the truck has it."""

    ON_RECORD = "on_record"
    """Of a fact: somebody has stated it. The only one that is never unknown."""


class Relation(enum.Enum):
    """How a fact is compared."""

    EQUAL = "=="
    UNEQUAL = "!="
    LESS = "<"
    AT_MOST = "<="
    GREATER = ">"
    AT_LEAST = ">="
    IN = "in"


@dataclass(frozen=True, slots=True)
class Asks:
    """``fitted(aftertreatment)``."""

    predicate: Predicate
    name: str
    span: Span


@dataclass(frozen=True, slots=True)
class Compares:
    """``engine.fuel == "diesel"``; for IN, *literal* is the member and *fact* the list."""

    fact: str
    relation: Relation
    literal: str
    span: Span


@dataclass(frozen=True, slots=True)
class Holds:
    """A yes-or-no fact on its own: ``brakes.abs``."""

    fact: str
    span: Span


@dataclass(frozen=True, slots=True)
class Not:
    """The opposite."""

    of: "Condition"


@dataclass(frozen=True, slots=True)
class And:
    """All of them."""

    of: tuple["Condition", ...]


@dataclass(frozen=True, slots=True)
class Or:
    """At least one of them."""

    of: tuple["Condition", ...]


Condition = Asks | Compares | Holds | Not | And | Or
