"""What fits on no side or page, as findings.

Takes in what stopped the typesetter; gives out a finding for each place that has to change.
Refuses to print the rest: half a card or booklet is worse than none.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.finding import Findings
from guidegen.paper import rules
from guidegen.paper.matter import Group
from guidegen.paper.typeset import Stopped
from guidegen.source import Span

_REASONS = {
    "tall": (rules.TEXT_TALLER_THAN_SIDE, "is taller than one"),
    "wide": (rules.WORD_WIDER_THAN_SIDE, "has a word that is wider than one"),
}


@dataclass(frozen=True, slots=True)
class Place:
    """What was to be printed on."""

    sheet: str
    """``side`` or ``page``."""

    of: str
    """``card `brakes`, size `4x6```."""

    span: Span
    """Where it is asked for."""

    cure: str
    """What to choose bigger."""


def report_misfit(
    stopped: Stopped, groups: Sequence[Group], place: Place, unit: str, findings: Findings
) -> None:
    """Report what *stopped* the drawing of *groups*."""
    if stopped.reason == "head":
        findings.add(
            rules.HEAD_TALLER_THAN_BAND,
            place.span,
            what=f"unit number and title do not fit on a {place.sheet} of {place.of}",
            fix=f"choose a shorter title, {place.cure} or smaller type in the theme",
            unit=unit,
        )
        return
    rule, says = _REASONS[stopped.reason]
    for number in stopped.places:
        group = groups[number]
        findings.add(
            rule,
            group.span,
            what=f"{group.says} {says} {place.sheet} of {place.of}",
            fix=f"shorten it, or choose {place.cure}",
            unit=unit,
        )
