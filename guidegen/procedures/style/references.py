"""Whether each reference of a procedure says where it is from.

Takes in the references of a procedure; gives out a finding for each that names neither a source
nor the lack of one. Refuses hearsay: a step without a source says so.
"""

import re

from guidegen.finding import Findings
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.style import rules
from guidegen.source import Span

NO_SOURCE = ("common practice, no source", "stated from memory")
"""How a reference says that it has none."""

_SOURCE = re.compile(
    r"\b(?:CFR|CCR|FR \d+|FMVSS|CMVSS|ISO \d+|SAE J\d+|ANSI|ASTM|API|EPA|NHTSA|UN R\d+|"
    r"NSC Standard|NEC|DVSA|DMV|Vehicle Code|Regulations?|[Hh]andbook|[Mm]anual|[Bb]ulletin|"
    r"report \d+|jurisdiction profile|unit's spec)\b"
)
"""Names of rules, standards, handbooks and files that a reader can look up."""


def check_references(template: ProcedureTemplate, findings: Findings) -> None:
    """Report each reference of *template* that nobody can look up."""
    for reference in template.references:
        if not names_a_source(reference):
            findings.add(
                rules.REFERENCE_WITHOUT_SOURCE,
                _place_of(reference, template.span),
                what=f"the reference `{reference}` of `{template.id}` names no source",
                fix=f"name rule, section and edition, or add `; {NO_SOURCE[0]}`",
            )


def _place_of(reference: str, span: Span) -> Span:
    """Return where *reference* stands in the file of *span*; *span* if it is not found as typed."""
    for number, line in enumerate(span.file.text.split("\n"), start=1):
        at = line.find(reference)
        if at >= 0:
            return Span(span.file, number, at + 1, number, at + 1 + len(reference))
    return span


def names_a_source(reference: str) -> bool:
    """Whether *reference* names a source, or says that it has none.

    >>> names_a_source("CDL manual section 5.3 (driver test), build-up")
    True
    >>> names_a_source("everybody knows that")
    False
    """
    has_none = any(words in reference.lower() for words in NO_SOURCE)
    return has_none or _SOURCE.search(reference) is not None
