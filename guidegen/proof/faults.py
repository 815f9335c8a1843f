"""Failures of one file, as they are met.

Takes in a rule and the words for it; gives out failures that know their unit and page.
Refuses to say the same of the same place twice.
"""

from dataclasses import dataclass, field

from guidegen.finding import Rule
from guidegen.proof.model import Failure
from guidegen.proof.read_html import Stray
from guidegen.source import Span

_FIX_FOR_STRAY = "take it out of the page template, or give it the mark of what it says"


@dataclass(slots=True)
class Faults:
    """The failures of one file of one unit."""

    unit: str
    page: str
    found: list[Failure] = field(default_factory=list)

    def add(
        self, rule: Rule, what: str, *, fix: str, span: Span | None = None, mark: str = ""
    ) -> None:
        """Record one failure."""
        failure = Failure(rule, self.unit, self.page, what, fix, span, mark)
        if failure not in self.found:
            self.found.append(failure)

    def add_stray(self, stray: Stray, fix: str = _FIX_FOR_STRAY) -> None:
        """Record something that no mark accounts for."""
        self.add(stray.rule, stray.what, fix=fix)
