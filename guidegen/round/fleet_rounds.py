"""The inspection rounds of a fleet, one for each edition.

Takes in guides and the library that they were fitted from; gives out the rounds by edition, and
the guides whose round can be done.
Refuses a guide whose procedures contradict one another: its driver could not do what it says.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from guidegen.finding import Finding, Findings, Note
from guidegen.guide.model import Guide
from guidegen.procedures.model import ProcedureTemplate
from guidegen.round.model import Round
from guidegen.round.plan import plan_round
from guidegen.units.naming import named_units


@dataclass(frozen=True, slots=True)
class FleetRounds:
    """The rounds of a fleet, and the guides that have one or need none."""

    rounds: Mapping[str, Round]
    """By edition; trucks of one edition share a round. None if no procedure has a place in one."""

    guides: Mapping[str, Guide]
    """By unit number, in the order in which they came."""


def plan_rounds(
    guides: Mapping[str, Guide], library: Mapping[str, ProcedureTemplate], findings: Findings
) -> FleetRounds:
    """Return the round of every edition, and the guides that nothing in it holds back.

    Args:
        guides: By unit number.
        library: Procedure templates by id.
        findings: Takes contradictions; one that several trucks share is told once and names them.
    """
    editions: dict[str, list[str]] = {}
    planned: dict[str, Planned] = {}
    for guide in guides.values():
        editions.setdefault(guide.edition, []).append(guide.number)
        if guide.edition not in planned:
            planned[guide.edition] = plan_edition(guide, library)
    tell_contradictions(planned, editions, findings)
    rounds = {edition: e.tour for edition, e in planned.items() if e.tour is not None}
    kept = {number: e for number, e in guides.items() if not planned[e.edition].has_errors}
    return FleetRounds(MappingProxyType(rounds), MappingProxyType(kept))


@dataclass(frozen=True, slots=True)
class Planned:
    """What came of planning the round of one edition."""

    number: str
    """Of the unit whose guide was taken; findings may name it."""

    tour: Round | None
    findings: tuple[Finding, ...]

    @property
    def has_errors(self) -> bool:
        """Whether the round cannot be done."""
        return any(finding.is_error for finding in self.findings)


def plan_edition(guide: Guide, library: Mapping[str, ProcedureTemplate]) -> Planned:
    """Return the round of the edition of *guide*, and what stands against it."""
    own = Findings()
    tour = plan_round(guide, library, own)
    return Planned(guide.number, tour, tuple(own))


def tell_contradictions(
    planned: Mapping[str, Planned], numbers: Mapping[str, Sequence[str]], findings: Findings
) -> None:
    """Report what stands against rounds; what several trucks share is told once and names them.

    Args:
        planned: By edition.
        numbers: Of the units of each edition; the first is the one that the round was planned of.
        findings: Takes the contradictions.
    """
    findings.extend(_told_once(planned, numbers))


def _told_once(
    planned: Mapping[str, Planned], numbers: Mapping[str, Sequence[str]]
) -> Iterable[Finding]:
    """Yield each finding once, with the numbers of all trucks that it is about."""
    found: dict[tuple[str, str, str], tuple[Finding, list[str]]] = {}
    for edition, one in planned.items():
        for finding in one.findings:
            # A finding may name the truck whose round was planned; others say the same of theirs.
            what = finding.what.replace(one.number, "")
            _, units = found.setdefault((finding.rule.name, finding.where, what), (finding, []))
            units += [number for number in numbers[edition] if number not in units]
    for finding, units in found.values():
        if len(units) == 1:
            yield finding
        else:
            note = Note(f"this holds for {named_units(units)}")
            yield replace(finding, notes=(*finding.notes, note), unit="")
