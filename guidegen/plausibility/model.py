"""What a rule of plausibility is.

Takes in a truck; gives out doubts, each at its place with what to do about it.
Refuses to name the truck in a doubt: one value of a model raises one doubt for all its trucks.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from guidegen.finding import Note
from guidegen.plausibility.case import Case
from guidegen.rule_page import RulePage
from guidegen.source import Span


@dataclass(frozen=True, slots=True)
class Doubt:
    """One thing that is hard to believe, at one place."""

    span: Span
    what: str
    """As in a finding: one clause in the file's own words, lower case, no full stop."""

    fix: str
    notes: tuple[Note, ...] = ()


Check = Callable[[Case], Iterator[Doubt]]


@dataclass(frozen=True, slots=True)
class Plausibility:
    """A rule with its page and what looks for it."""

    page: RulePage
    check: Check
