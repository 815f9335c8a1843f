"""The guides of a fleet beside what its law lists.

Takes in a project and its fleet; gives out the list of the jurisdiction and what each guide meets.
Refuses to compare with the list of another place.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from guidegen.build.load import Loaded
from guidegen.build.project import Project
from guidegen.coverage.check import asked, check_coverage, check_names, cover
from guidegen.coverage.model import CoverageList, UnitCoverage
from guidegen.coverage.read import read_lists
from guidegen.coverage.report import coverage_as_json, format_coverage
from guidegen.finding import Findings
from guidegen.guide.model import STAMPED

FOLDER = "coverage"


@dataclass(frozen=True, slots=True)
class FleetCoverage:
    """The list of a fleet's jurisdiction, and every guide beside it."""

    coverage_list: CoverageList
    units: tuple[UnitCoverage, ...]
    """By unit number; units that are held back have no guide and are not among them."""

    def as_text(self) -> str:
        """Return it for a terminal."""
        return format_coverage(self.coverage_list, self.units)

    def as_json(self) -> dict[str, Any]:
        """Return it as records that JSON can hold."""
        return coverage_as_json(self.coverage_list, self.units)


def cover_fleet(
    project: Project, loaded: Loaded, findings: Findings, only: str | None = None
) -> FleetCoverage | None:
    """Return what the guides meet of their law's list, or nothing if the list has faults.

    Args:
        project: Where the lists are.
        loaded: The fleet with its guides.
        findings: Takes faults of the list, and gaps.
        only: Number of the one unit to look at; none for all.
    """
    own = Findings()
    lists = read_lists(project.template_files(FOLDER), own)
    jurisdiction = loaded.fleet.jurisdiction
    found = next((each for each in lists if jurisdiction in each.jurisdictions), None)
    if found is not None:
        check_names(found, loaded.library, own)
    findings.extend(own)
    if found is None or own.has_errors:
        return None
    units = tuple(_covered(found, loaded, only))
    check_coverage(found, units, findings)
    return FleetCoverage(found, units)


def _covered(listed: CoverageList, loaded: Loaded, only: str | None) -> Iterator[UnitCoverage]:
    """Yield what each guide meets; trucks that state the same meet the same."""
    asks_for_identity = not asked(listed).isdisjoint(STAMPED)
    known: dict[tuple[str, ...], UnitCoverage] = {}
    for number, (edition, record) in loaded.guides.members.items():
        if only not in (None, number):
            continue
        own = (number,) if asks_for_identity else ()
        alike = (edition, record.model, record.signature, *own)
        if alike not in known:
            known[alike] = cover(listed, loaded.units[number], loaded.guides[number])
        yield replace(known[alike], unit=number)
