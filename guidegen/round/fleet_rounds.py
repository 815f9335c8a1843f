"""The inspection rounds of a fleet, one for each edition.

Takes in guides and the library that they were fitted from; gives out the rounds by edition, and
the guides whose round can be done.
Refuses a guide whose procedures contradict one another: its driver could not do what it says.
"""

from collections.abc import Iterable, Mapping
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
    editions: dict[str, list[Guide]] = {}
    for guide in guides.values():
        editions.setdefault(guide.edition, []).append(guide)
    rounds: dict[str, Round] = {}
    told: dict[str, Findings] = {}
    for edition, alike in editions.items():
        own = Findings()
        tour = plan_round(alike[0], library, own)
        told[edition] = own
        if tour is not None:
            rounds[edition] = tour
    findings.extend(_told_once(told, editions))
    kept = {number: e for number, e in guides.items() if not told[e.edition].has_errors}
    return FleetRounds(MappingProxyType(rounds), MappingProxyType(kept))


def _told_once(
    told: Mapping[str, Findings], editions: Mapping[str, list[Guide]]
) -> Iterable[Finding]:
    """Yield each finding once, with the numbers of all trucks that it is about."""
    found: dict[tuple[str, str, str], tuple[Finding, list[str]]] = {}
    for edition, findings in told.items():
        for finding in findings:
            # A finding may name the truck whose round was planned; others say the same of theirs.
            what = finding.what.replace(editions[edition][0].number, "")
            _, units = found.setdefault((finding.rule.name, finding.where, what), (finding, []))
            units += [guide.number for guide in editions[edition] if guide.number not in units]
    for finding, units in found.values():
        if len(units) == 1:
            yield finding
        else:
            note = Note(f"this holds for {named_units(units)}")
            yield replace(finding, notes=(*finding.notes, note), unit="")
