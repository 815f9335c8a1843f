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

Doubts = tuple[tuple[Rule, Doubt], ...]
"""What is hard to believe of one unit, in the order of the rulebook."""


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
    rules = tuple(rulebook)
    doubts = {number: doubts_of(unit, bounds, rules) for number, unit in units.items()}
    tell_doubts(doubts, findings)
    kept = {number: unit for number, unit in units.items() if not hold_back(doubts[number])}
    return MappingProxyType(kept)


def doubts_of(unit: Unit, bounds: Mapping[str, Stated], rulebook: Iterable[Plausibility]) -> Doubts:
    """Return all doubts that *rulebook* raises of *unit*; for *bounds* see `plausible_units`."""
    case = Case(unit, bounds)
    return tuple((each.page.rule, doubt) for each in rulebook for doubt in each.check(case))


def hold_back(doubts: Doubts) -> bool:
    """Whether the truck of *doubts* cannot be believed."""
    return any(rule.severity is Severity.ERROR for rule, _ in doubts)


def tell_doubts(doubts: Mapping[str, Doubts], findings: Findings) -> None:
    """Report the doubts of units, by number; one that several share is told once."""
    raised: dict[tuple[str, Doubt], _Raised] = {}
    for number, own in doubts.items():
        for rule, doubt in own:
            one = raised.setdefault((rule.name, doubt), _Raised(rule, doubt))
            one.units.append(number)
    for one in raised.values():
        _report(one, findings)


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
