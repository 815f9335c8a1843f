"""Models and yards that conditions name.

Takes in templates and what the fleet has; gives out findings. Refuses a name that the fleet does
not know: what stands under it would be on no truck, or on all of them.
"""

from collections.abc import Iterable, Mapping

from guidegen.finding import Findings, nearest
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import listed, shortened
from guidegen.procedures.condition_model import Compares, Relation
from guidegen.procedures.condition_value import leaves
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.scope import conditions_of
from guidegen.specs.profile import MODEL

YARD = "identity.yard"

_WHAT = {MODEL.name: (rules.NAMES_NO_MODEL, "model"), YARD: (rules.NAMES_NO_YARD, "yard")}
_EQUALITIES = frozenset({Relation.EQUAL, Relation.UNEQUAL})


def check_fleet_names(
    templates: Iterable[ProcedureTemplate],
    models: Iterable[str],
    yards: Iterable[str],
    findings: Findings,
) -> None:
    """Report each model and yard that a condition names and the fleet has not.

    Args:
        templates: Of all procedures, with their conditions.
        models: Ids of all models that have a file, also one with faults.
        yards: Ids of the fleet's yards.
        findings: Takes the faults, each place once: sections of house rules share a condition.
    """
    known: Mapping[str, list[str]] = {MODEL.name: sorted(models), YARD: list(yards)}
    told = set()
    for condition in (each for template in templates for each in conditions_of(template)):
        for leaf in leaves(condition):
            if not isinstance(leaf, Compares) or leaf.relation not in _EQUALITIES:
                continue
            names = known.get(leaf.fact)
            if names is None or leaf.literal in names or (leaf.span, leaf.literal) in told:
                continue
            told.add((leaf.span, leaf.literal))
            rule, what = _WHAT[leaf.fact]
            near = nearest(leaf.literal, names)
            there = f"the {what}s of the fleet: {listed(names)}" if names else "it has none yet"
            findings.add(
                rule,
                leaf.span,
                what=f"the fleet has no {what} `{shortened(leaf.literal)}`",
                fix=f'did you mean `"{near}"`?' if near else there,
            )
