"""Coverage as people and programs read it.

Takes in a list and what each guide meets of it; gives out text, and plain records for JSON.
Refuses to hide what is outside: it stands in its own line with the reason.
"""

from collections.abc import Iterable
from typing import Any

from guidegen.coverage.model import CoverageList, Entry, State, UnitCoverage


def format_coverage(coverage_list: CoverageList, covered: Iterable[UnitCoverage]) -> str:
    """Return *covered* as text for a terminal, unit by unit."""
    lines = [f"{coverage_list.name}", f"  {coverage_list.source}; {coverage_list.edition}"]
    if coverage_list.no_list:
        return "\n".join([*lines, f"  {coverage_list.no_list}"])
    widest = max(len(item.id) for item in coverage_list.items)
    for unit in covered:
        lines += ["", _headline(unit)]
        lines += [
            f"  {entry.state.value:10}  {entry.item.id:{widest}}  {_detail(entry)}"
            for entry in unit.entries
        ]
    return "\n".join(lines)


def coverage_as_json(
    coverage_list: CoverageList, covered: Iterable[UnitCoverage]
) -> dict[str, Any]:
    """Return *covered* as records that JSON can hold."""
    return {
        "list": coverage_list.id,
        "name": coverage_list.name,
        "source": coverage_list.source,
        "edition": coverage_list.edition,
        "no_list": coverage_list.no_list,
        "units": [
            {
                "unit": unit.unit,
                "items": [_record(entry) for entry in unit.entries],
                "gaps": len(unit.gaps),
            }
            for unit in covered
        ],
    }


def _headline(unit: UnitCoverage) -> str:
    met, total = unit.count(State.MET), len(unit.entries)
    others = [
        f"{unit.count(state)} {words}"
        for state, words in (
            (State.NOT_NEEDED, "of things not fitted"),
            (State.OUTSIDE, "outside the guide"),
            (State.GAP, "gaps"),
        )
        if unit.count(state)
    ]
    return f"{unit.unit}: {', '.join([f'{met} of {total} items met', *others])}"


def _detail(entry: Entry) -> str:
    match entry.state:
        case State.MET:
            return f"{entry.item.wording}: {', '.join(dict.fromkeys(entry.met_by))}"
        case State.OUTSIDE:
            return f"{entry.item.wording}: {entry.item.outside}"
        case State.NOT_NEEDED:
            return entry.item.wording
        case State.GAP:
            lacking = ", and ".join(" or ".join(need.any_of) for need in entry.missing)
            return f"{entry.item.wording}: {lacking or 'no procedure of the library'}"


def _record(entry: Entry) -> dict[str, Any]:
    return {
        "item": entry.item.id,
        "wording": entry.item.wording,
        "source": entry.item.source,
        "edition": entry.item.edition,
        "state": entry.state.value,
        "met_by": list(dict.fromkeys(entry.met_by)),
        "missing": [list(need.any_of) for need in entry.missing],
        "outside": entry.item.outside,
    }
