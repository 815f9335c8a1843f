"""All rules of plausibility over all units.

Takes in units and what their jurisdiction states; gives out the units that can be believed, with
findings for the rest. Refuses to repeat itself: what many trucks inherit is told once.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from guidegen.finding import Findings, Note, Rule, Severity
from guidegen.plausibility.case import Case
from guidegen.plausibility.model import Doubt, Plausibility
from guidegen.specs.fields import Stated
from guidegen.units.model import Unit
from guidegen.units.naming import named_units


@dataclass(slots=True)
class _Raised:
    """A doubt, and every truck that it holds for."""

    rule: Rule
    doubt: Doubt
    units: list[str] = field(default_factory=list)


def plausible_units(
    units: Mapping[str, Unit],
    bounds: Mapping[str, Stated],
    rulebook: Iterable[Plausibility],
    findings: Findings,
) -> Mapping[str, Unit]:
    """Return the units of *units* in which no rule finds an error, in their order.

    Args:
        units: By unit number.
        bounds: What the profile of the jurisdiction states, by dotted name.
        rulebook: The rules.
        findings: Takes the doubts; one that several trucks share is told once and names them.
    """
    raised: dict[tuple[str, Doubt], _Raised] = {}
    held_back = set()
    rules = tuple(rulebook)
    for unit in units.values():
        case = Case(unit, bounds)
        for each in rules:
            rule = each.page.rule
            for doubt in each.check(case):
                one = raised.setdefault((rule.name, doubt), _Raised(rule, doubt))
                one.units.append(unit.number)
                if rule.severity is Severity.ERROR:
                    held_back.add(unit.number)
    for one in raised.values():
        _report(one, findings)
    kept = {number: unit for number, unit in units.items() if number not in held_back}
    return MappingProxyType(kept)


def _report(raised: _Raised, findings: Findings) -> None:
    doubt, units = raised.doubt, raised.units
    notes = doubt.notes
    if len(units) > 1:
        notes = (*notes, Note(f"this holds for {named_units(units)}"))
    findings.add(
        raised.rule,
        doubt.span,
        what=doubt.what,
        fix=doubt.fix,
        notes=notes,
        unit=units[0] if len(units) == 1 else "",
    )
