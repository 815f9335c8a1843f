"""All texts of a procedure template.

Takes in a template; gives out its texts in the order of its file. Refuses nothing.
"""

from collections.abc import Iterator

from guidegen.procedures.model import ProcedureTemplate, TextTemplate


def texts_of(template: ProcedureTemplate) -> Iterator[TextTemplate]:
    """Yield every text of *template*, whatever it is printed for."""
    yield template.title
    for caution in template.cautions:
        yield from (caution.hazard, caution.consequence, caution.avoid)
    yield from (step.text for step in template.steps)
    yield from (outcome.text for outcome in (*template.expect, *template.if_not))
