"""All rules of style over the library.

Takes in the procedures and the glossary; gives out findings.
Refuses to mend: the words are those of whoever knows the work.
"""

from collections.abc import Iterable

from guidegen.finding import Findings
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.style.glossary import Glossary
from guidegen.procedures.style.imperative import check_imperative
from guidegen.procedures.style.one_name import NameCheck
from guidegen.procedures.style.reading_grade import check_reading_grade
from guidegen.procedures.style.references import check_references
from guidegen.procedures.style.signal_words import check_signal_word


def check_style(
    library: Iterable[ProcedureTemplate], glossary: Glossary, findings: Findings
) -> None:
    """Report how the procedures of *library* can be misread.

    Args:
        library: Procedure templates that have been read without errors.
        glossary: Names of things, and verbs of instructions.
        findings: Takes the faults.
    """
    names = NameCheck.of(glossary)
    for template in library:
        for step in template.steps:
            check_imperative(step, glossary.verbs, findings)
        for caution in template.cautions:
            check_signal_word(caution, findings)
        names.check(template, findings)
        check_references(template, findings)
        check_reading_grade(template, findings)
