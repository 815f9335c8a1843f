"""The fleet's own procedures, from the folder beside its specs.

Takes in a project; gives out its own procedures with what they replace. Refuses nothing: what is
wrong with a file is said where it is read.
"""

from collections.abc import Iterable

from guidegen.build.project import Project
from guidegen.finding import Findings
from guidegen.procedures.own.model import OwnProcedure
from guidegen.procedures.own.read import originals_of, read_own_procedures

OWN_PROCEDURES = "own/procedures"
"""Folder below the specs: whole procedures."""

OWN_STEPS = "own/steps"
"""Folder below the specs: steps and cautions that stand in procedures of the library."""


def own_procedures(
    project: Project, library: Iterable[tuple[str, bytes]], findings: Findings
) -> tuple[OwnProcedure, ...]:
    """Return the fleet's own procedures that have no error.

    Args:
        project: Where its files are.
        library: Path and bytes of the library's procedures.
        findings: Takes the faults.
    """
    return read_own_procedures(
        project.spec_files(OWN_PROCEDURES),
        project.spec_files(OWN_STEPS),
        originals_of(library),
        findings,
    )
