"""From a unit and the library to the unit's guide.

Takes in a unit and all procedure templates in order; gives out the guide in the fixed order of
chapters. Refuses to give out a guide with a gap: any finding of an error holds it back.
"""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from guidegen.finding import Finding, Findings
from guidegen.guide.fingerprint import fingerprint
from guidegen.guide.fit import fit_procedure
from guidegen.guide.model import Chapter, Guide, Procedure
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.words import CHAPTERS
from guidegen.units.model import Unit


def assemble_guide(
    unit: Unit, library: Mapping[str, ProcedureTemplate], findings: Findings
) -> Guide | None:
    """Return the guide of *unit*, or nothing and the findings that hold it back.

    Args:
        unit: The truck.
        library: Procedure templates by id, in the order of the guide within each chapter.
        findings: Takes the faults.
    """
    own = Findings()
    fitted: dict[str, list[Procedure]] = {chapter: [] for chapter in CHAPTERS}
    for template in library.values():
        procedure = fit_procedure(template, unit, own)
        if procedure is not None:
            fitted[template.chapter].append(procedure)
    findings.extend(_without_repeats(own))
    if own.has_errors:
        return None
    chapters = tuple(
        Chapter(chapter, tuple(procedures)) for chapter, procedures in fitted.items() if procedures
    )
    edition = fingerprint(unit.facts, unit.sections, chapters)
    return Guide(unit.number, unit.facts, unit.sections, chapters, edition)


def assemble_guides(
    units: Iterable[Unit], library: Mapping[str, ProcedureTemplate], findings: Findings
) -> Mapping[str, Guide]:
    """Return the guides by unit number; units whose guide has faults are left out and reported."""
    guides = {}
    for unit in units:
        guide = assemble_guide(unit, library, findings)
        if guide is not None:
            guides[guide.number] = guide
    return MappingProxyType(guides)


def _without_repeats(findings: Findings) -> Iterable[Finding]:
    """Keep one finding for each thing that is not on record, however many procedures ask."""
    kept: dict[tuple[str, str, str], Finding] = {}
    for finding in findings:
        key = (finding.rule.name, finding.where, finding.what)
        kept.setdefault(key, finding)
    return kept.values()
