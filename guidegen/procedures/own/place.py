"""Where a fleet's own procedures stand in the guide.

Takes in the library in its order and the fleet's procedures; gives out both in one order. Refuses
a procedure beside one that is not there, or that is of another chapter.
"""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from guidegen.finding import Findings, Note, nearest
from guidegen.procedures.catalog_words import shortened
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.own import rules
from guidegen.procedures.own.model import OwnProcedure


def with_own(
    library: Mapping[str, ProcedureTemplate], own: Sequence[OwnProcedure], findings: Findings
) -> Mapping[str, ProcedureTemplate]:
    """Return *library* with the procedures of the fleet in it.

    Args:
        library: In the order of the guide.
        own: Each takes the place of the one that it replaces, or stands where it says, or at the
            end of its chapter.
        findings: Takes the faults.
    """
    order = dict(library)
    # First all of them: one may stand beside another.
    for procedure in own:
        template = procedure.template
        taken = library.get(template.id)
        if taken is not None and procedure.replacement is None:
            _report_taken(template, taken, findings)
        order[template.id] = template
    for procedure in own:
        if procedure.beside is not None and _is_place(procedure, order, findings):
            order = _put(order, procedure, procedure.beside.text)
    return MappingProxyType(order)


def _put(
    order: Mapping[str, ProcedureTemplate], procedure: OwnProcedure, beside: str
) -> dict[str, ProcedureTemplate]:
    found: dict[str, ProcedureTemplate] = {}
    template = procedure.template
    for id_, each in order.items():
        if id_ == template.id:
            continue
        pair = [(id_, each)]
        if id_ == beside:
            pair.insert(0 if procedure.is_before else 1, (template.id, template))
        found.update(pair)
    return found


def _report_taken(
    template: ProcedureTemplate, taken: ProcedureTemplate, findings: Findings
) -> None:
    fix = "give it another id and file name"
    if taken.lamp is None:
        fix += f", or add `replaces: {{procedure: {template.id}}}` if it is to stand in its place"
    else:
        fix += ", or write the lamp's words in `specs/own/lamps`"
    findings.add(
        rules.OWN_ID_TAKEN,
        template.span,
        what=f"the library has a procedure `{template.id}` too",
        fix=fix,
        notes=(Note("the library's stands at", taken.span),),
    )


def _is_place(
    procedure: OwnProcedure, order: Mapping[str, ProcedureTemplate], findings: Findings
) -> bool:
    named, template = procedure.beside, procedure.template
    assert named is not None  # noqa: S101 -- asked for only where it stands beside one
    other = order.get(named.text)
    if other is not None and other.chapter == template.chapter and named.text != template.id:
        return True
    chapter = [id_ for id_, each in order.items() if each.chapter == template.chapter]
    near = nearest(named.text, [id_ for id_ in chapter if id_ != template.id])
    what = f"there is no procedure `{shortened(named.text)}`"
    if other is not None:
        what = f"`{named.text}` belongs to the chapter `{other.chapter}`, and this to "
        what += f"`{template.chapter}`"
    if named.text == template.id:
        what = f"`{named.text}` cannot stand beside itself"
    fix = f"did you mean `{near}`?" if near else f"name a procedure of `{template.chapter}`"
    findings.add(rules.PLACE_UNKNOWN, named.span, what=what, fix=fix)
    return False
