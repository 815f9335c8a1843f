"""Faults in what people wrote, and in what we made, as values.

Takes in a rule, a place and the words for it; gives out findings that are collected and
shown together. Refuses a finding without a sentence, a reason and a cure.
"""

import difflib
import enum
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from guidegen.source import Span


class Severity(enum.Enum):
    """How much a finding holds back."""

    ERROR = "error"
    """The unit, or the whole run, is not published."""

    WARNING = "warning"
    """Published, and shown to the office."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A kind of fault. Its name says what is wrong and is never changed."""

    name: str
    """Kebab case, naming the fault: ``quantity-without-measure``."""

    why: str
    """What happens at the truck if this is let through: one sentence, no full stop."""

    severity: Severity = Severity.ERROR


@dataclass(frozen=True, slots=True)
class Note:
    """Another place or fact that matters to a finding."""

    text: str
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault at one place."""

    rule: Rule
    span: Span | None
    """The value if the value is wrong, the key if the key is; none for a fault without a line."""

    what: str
    """One clause in the file's own words, values in backticks; lower case, no full stop."""

    fix: str
    """What to type, or the choice to make. Never a guess at a value that must be looked up."""

    notes: tuple[Note, ...] = ()
    unit: str = ""
    """Number of the unit that this holds back; empty if it concerns all."""

    place: str = ""
    """Where, if there is no span: a path, or a path and what in it."""

    @property
    def where(self) -> str:
        """The place as text, empty when the finding has none."""
        return self.span.place if self.span else self.place

    @property
    def is_error(self) -> bool:
        """Whether this holds something back."""
        return self.rule.severity is Severity.ERROR


class FaultyInput(Exception):
    """Raised at the end of a stage that cannot go on; carries every finding of the run."""

    def __init__(self, findings: "Findings") -> None:
        """Keep *findings* for whoever shows them."""
        super().__init__(f"{len(findings)} findings")
        self.findings = findings


@dataclass(slots=True)
class Findings:
    """The findings of one run, in the order they were met."""

    _all: list[Finding] = field(default_factory=list)

    def add(  # noqa: PLR0913 -- one call at the place of the fault, or people raise instead
        self,
        rule: Rule,
        span: Span | None,
        *,
        what: str,
        fix: str,
        notes: Iterable[Note] = (),
        unit: str = "",
        place: str = "",
    ) -> None:
        """Record one fault."""
        self._all.append(Finding(rule, span, what, fix, tuple(notes), unit, place))

    def extend(self, findings: Iterable[Finding]) -> None:
        """Record the faults that another stage found."""
        self._all.extend(findings)

    def __iter__(self) -> Iterator[Finding]:
        """Yield findings by file, line and column; those without a place last."""
        return iter(sorted(self._all, key=_by_place))

    def __len__(self) -> int:
        """Count all findings, warnings too."""
        return len(self._all)

    @property
    def errors(self) -> tuple[Finding, ...]:
        """Those that hold something back."""
        return tuple(finding for finding in self if finding.is_error)

    @property
    def has_errors(self) -> bool:
        """Whether any of them holds something back."""
        return any(finding.is_error for finding in self._all)

    def stop_if_faulty(self) -> None:
        """Raise if there are errors; call at the end of a stage, never in its middle."""
        if self.has_errors:
            raise FaultyInput(self)


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """Return the choice most like *word*, or nothing if none is near enough to suggest.

    >>> nearest("tire_presure", ["tire_pressure", "wheelbase"])
    'tire_pressure'
    """
    known = list(choices)
    swapped = [choice for choice in known if sorted(choice) == sorted(word)]
    # Two characters changing places is the commonest slip, and a ratio rates it low.
    found = swapped or difflib.get_close_matches(word, known, n=1, cutoff=0.6)
    return found[0] if found else None


def _by_place(finding: Finding) -> tuple[bool, str, int, int]:
    span = finding.span
    if span is None:
        return (True, finding.place, 0, 0)
    return (False, span.file.path, span.line, span.column)
