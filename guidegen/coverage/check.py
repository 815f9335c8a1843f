"""A list of the law against the guides of a fleet.

Takes in a list, units and their guides; gives out what each guide meets, and findings for gaps.
Refuses to count a procedure that the truck's own guide does not hold.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping

from guidegen.coverage import rules
from guidegen.coverage.model import CoverageList, Entry, ListedItem, Need, State, UnitCoverage
from guidegen.finding import Findings, Note, nearest
from guidegen.guide.known import KnownOf
from guidegen.guide.model import Caution, Guide, Procedure, Step, Text
from guidegen.procedures.condition_model import Asks, Condition
from guidegen.procedures.condition_value import evaluate, leaves
from guidegen.procedures.model import ProcedureTemplate, Words
from guidegen.units.model import Unit
from guidegen.units.naming import named_units

_STOP = re.compile(
    r"\bdo not (?:drive|move|start|leave|go|turn the key)|\bswitch nothing on|\bstop the engine",
    re.IGNORECASE,
)
"""How procedures say that the truck stays where it is."""


def check_names(
    coverage_list: CoverageList, library: Mapping[str, ProcedureTemplate], findings: Findings
) -> None:
    """Report every name in *coverage_list* that is no procedure or step of *library*."""
    known = set(library)
    known |= {f"{each.id}.steps.{step.id}" for each in library.values() for step in each.steps}
    for item in coverage_list.items:
        for need in item.needs:
            for name in need.any_of:
                if name not in known:
                    near = nearest(name, known)
                    findings.add(
                        rules.COVERAGE_UNKNOWN_PROCEDURE,
                        item.span,
                        what=f"`{item.id}` is met by `{name}`, which is not in the library",
                        fix=f"did you mean `{near}`?" if near else "name a procedure that there is",
                    )


def asked(coverage_list: CoverageList) -> frozenset[str]:
    """Return the facts of a truck that the conditions of *coverage_list* ask for."""
    conditions = (
        condition
        for item in coverage_list.items
        for condition in (item.not_needed_when, *(need.when for need in item.needs))
        if condition is not None
    )
    return frozenset(
        leaf.fact
        for condition in conditions
        for leaf in leaves(condition)
        if not isinstance(leaf, Asks)
    )


def cover(coverage_list: CoverageList, unit: Unit, guide: Guide) -> UnitCoverage:
    """Return how far *guide*, which is that of *unit*, meets *coverage_list*."""
    procedures = {p.id: p for chapter in guide.chapters for p in chapter.procedures}
    steps = {
        block.id
        for procedure in procedures.values()
        for block in procedure.blocks
        if isinstance(block, Step)
    }
    there = {*procedures, *steps}
    return UnitCoverage(
        guide.number,
        tuple(_entry(item, unit, there, procedures) for item in coverage_list.items),
    )


def check_coverage(
    coverage_list: CoverageList, covered: Iterable[UnitCoverage], findings: Findings
) -> None:
    """Report the gaps of all units; one that several share is told once and names them."""
    units = tuple(covered)
    for place, item in enumerate(coverage_list.items):
        gaps: dict[tuple[Need, ...], list[str]] = {}
        silent = []
        for unit in units:
            entry = unit.entries[place]
            if entry.state is State.GAP:
                gaps.setdefault(entry.missing, []).append(unit.unit)
            elif not entry.stops:
                silent.append(unit.unit)
        for missing, numbers in gaps.items():
            _report_gap(item, missing, numbers, findings)
        if silent:
            _report_silence(item, silent, findings)


def _entry(
    item: ListedItem, unit: Unit, there: Collection[str], procedures: Mapping[str, Procedure]
) -> Entry:
    if item.outside:
        return Entry(item, State.OUTSIDE, (), (), stops=True)
    if _holds(item.not_needed_when, unit):
        return Entry(item, State.NOT_NEEDED, (), (), stops=True)
    needs = [need for need in item.needs if need.when is None or _holds(need.when, unit)]
    met_by = tuple(name for need in needs for name in need.any_of if name in there)
    missing = tuple(need for need in needs if not set(need.any_of) & set(there))
    if missing or not needs:
        return Entry(item, State.GAP, met_by, missing, stops=True)
    stops = not item.must_stop or any(
        _says_stop(procedures[name.partition(".")[0]]) for name in met_by
    )
    return Entry(item, State.MET, met_by, (), stops)


def _holds(condition: Condition | None, unit: Unit) -> bool:
    """Whether *condition* is known to hold; what is not on record excuses nobody."""
    return condition is not None and evaluate(condition, KnownOf(unit)) is True


def _says_stop(procedure: Procedure) -> bool:
    return any(_STOP.search(_plain(text)) for text in _orders(procedure))


def _orders(procedure: Procedure) -> Iterator[Text]:
    yield from procedure.if_not
    for block in procedure.blocks:
        if isinstance(block, Caution):
            yield block.avoid


def _plain(text: Text) -> str:
    return "".join(part.text if isinstance(part, Words) else "…" for part in text.parts)


def _report_gap(
    item: ListedItem, missing: tuple[Need, ...], units: list[str], findings: Findings
) -> None:
    if missing:
        lacking = ", and ".join(" or ".join(f"`{n}`" for n in need.any_of) for need in missing)
        what = f"`{item.id}` ({item.wording}) lacks {lacking}"
        fix = "widen the `applies` of such a procedure, or name in `met_by` what else meets it"
    else:
        what = f"`{item.id}` ({item.wording}) is met by no procedure of the library"
        fix = "write a procedure for it, and name it in `met_by`"
    findings.add(
        rules.COVERAGE_GAP,
        item.span,
        what=what,
        fix=fix,
        notes=[Note(f"in the guide of {named_units(units)}"), Note(f"listed in {item.source}")],
        unit=units[0] if len(units) == 1 else "",
    )


def _report_silence(item: ListedItem, units: list[str], findings: Findings) -> None:
    findings.add(
        rules.COVERAGE_WITHOUT_STOP,
        item.span,
        what=f"`{item.id}` ({item.wording}) is met by procedures that never say when not to drive",
        fix="add to their `if_not` what takes the truck off the road, and `Do not drive.`",
        notes=[Note(f"in the guide of {named_units(units)}")],
    )
