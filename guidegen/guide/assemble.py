"""From a unit and the library to the unit's guide.

Takes in a unit and all procedure templates in order; gives out the guide in the fixed order of
chapters. Refuses to give out a guide with a gap: any finding of an error holds it back.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from guidegen.finding import Finding, Findings
from guidegen.guide.answers import Answers, Questions, Told, questions_of
from guidegen.guide.fingerprint import canonical_procedure, fingerprint_of_parts
from guidegen.guide.fit import fit_procedure
from guidegen.guide.model import Chapter, Guide, Procedure
from guidegen.guide.show_photos import photos_of, report_not_shown, with_photos
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.words import CHAPTERS
from guidegen.units.model import Unit


@dataclass(slots=True)
class Assembly:
    """A library that is fitted to one truck after another.

    A procedure is fitted anew only for what no truck before has answered to the questions of its
    conditions, and had on record of its values. What has findings is never taken from another
    truck.
    """

    library: Mapping[str, ProcedureTemplate]
    """Procedure templates by id, in the order of the guide within each chapter."""

    _questions: tuple[Questions, ...] = ()
    _known: list[dict[Answers, tuple[Procedure, str] | None]] = field(default_factory=list)
    """By template, and by what it takes in: the procedure as a fingerprint takes it in too; none
    where it does not apply."""

    _alike: dict[Procedure, tuple[Procedure, str]] = field(default_factory=dict)
    """One of all that came out equal: trucks often answer otherwise and are told the same."""

    def __post_init__(self) -> None:
        """Gather what each template asks."""
        self._questions = tuple(map(questions_of, self.library.values()))
        self._known = [{} for _ in self._questions]

    def with_library(self, library: Mapping[str, ProcedureTemplate]) -> "Assembly":
        """Return one of another *library*, which knows of the templates of both what this knows.

        Only a template that is the very same value is taken to be the same.
        """
        other = Assembly(library)
        known = {
            id(each): found for each, found in zip(self.library.values(), self._known, strict=True)
        }
        # The templates of this library are alive, so that no other value has their ids.
        other._known = [known.get(id(each), {}) for each in library.values()]
        return other

    def guide(self, unit: Unit, findings: Findings) -> Guide | None:
        """Return the guide of *unit*, or nothing and the findings that hold it back."""
        own = Findings()
        fitted: dict[str, list[tuple[Procedure, str]]] = {chapter: [] for chapter in CHAPTERS}
        told, photos = Told(unit), photos_of(unit)
        for place, template in enumerate(self.library.values()):
            found = self._fitted(place, template, told, own)
            if found is not None:
                fitted[template.chapter].append(with_photos(found, photos))
        if not own.has_errors:
            report_not_shown(unit, (pair[0] for pairs in fitted.values() for pair in pairs), own)
        findings.extend(_without_repeats(own))
        if own.has_errors:
            return None
        filled = {chapter: pairs for chapter, pairs in fitted.items() if pairs}
        edition = fingerprint_of_parts(
            unit.facts,
            unit.sections,
            ((chapter, (written for _, written in pairs)) for chapter, pairs in filled.items()),
        )
        chapters = tuple(
            Chapter(chapter, tuple(procedure for procedure, _ in pairs))
            for chapter, pairs in filled.items()
        )
        return Guide(unit.number, unit.facts, unit.sections, chapters, edition)

    def _fitted(
        self, place: int, template: ProcedureTemplate, told: Told, findings: Findings
    ) -> tuple[Procedure, str] | None:
        answers, known = told.answers(self._questions[place]), self._known[place]
        if answers in known:
            return known[answers]
        own = Findings()
        procedure = fit_procedure(template, told.unit, own)
        found = None if procedure is None else self._told(procedure)
        findings.extend(own)
        if not len(own):
            known[answers] = found
        return found

    def _told(self, procedure: Procedure) -> tuple[Procedure, str]:
        """Return *procedure* as the very value that came out before, as fingerprints take it in.

        What follows from a procedure can then be kept by its place in memory.
        """
        found = self._alike.get(procedure)
        if found is None:
            found = self._alike[procedure] = procedure, canonical_procedure(procedure)
        return found


def assemble_guide(
    unit: Unit, library: Mapping[str, ProcedureTemplate], findings: Findings
) -> Guide | None:
    """Return the guide of *unit*, or nothing and the findings that hold it back.

    Args:
        unit: The truck.
        library: Procedure templates by id, in the order of the guide within each chapter.
        findings: Takes the faults.
    """
    return Assembly(library).guide(unit, findings)


def assemble_guides(
    units: Iterable[Unit], library: Mapping[str, ProcedureTemplate], findings: Findings
) -> Mapping[str, Guide]:
    """Return the guides by unit number; units whose guide has faults are left out and reported."""
    assembly = Assembly(library)
    guides = {}
    for unit in units:
        guide = assembly.guide(unit, findings)
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
