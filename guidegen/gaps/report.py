"""What is missing, for a terminal and for programs.

Takes in the gaps of a fleet; gives out lines of text, or records that JSON can hold.
Refuses to list what only the data page lacks in the terminal: it counts that.
"""

from collections.abc import Iterator, Sequence
from typing import Any

from guidegen.gaps.catalog import label_of
from guidegen.gaps.groups import Group, group_units
from guidegen.gaps.look_up import look_ups
from guidegen.gaps.model import FleetGaps, Gap, Grade, UnitGaps
from guidegen.gaps.order import Closing, closing_order
from guidegen.gaps.page import left_out_words
from guidegen.gaps.recheck import Old
from guidegen.units.naming import named_units

_LETTERS = {Grade.HOLDS: "H", Grade.MAY_HOLD: "M", Grade.LEAVES_OUT: "o"}


def format_gaps(fleet: FleetGaps, old: Sequence[Old] = ()) -> str:
    """Return what is missing as text: what to close first, then trucks that lack the same."""
    return "\n".join(_lines(fleet, old)) + "\n"


def gaps_as_json(fleet: FleetGaps, old: Sequence[Old] = ()) -> dict[str, Any]:
    """Return what is missing as records that JSON can hold."""
    return {
        "units": [_unit(unit, fleet) for unit in fleet.units.values()],
        "held_back": list(fleet.held_back),
        "not_read": list(fleet.not_read),
        "close_first": [_closing(each) for each in closing_order(fleet)],
        "check_again": [
            {
                "names": list(each.names),
                "recorded_on": each.recorded.on,
                "recorded_by": each.recorded.by,
                "is_to_come": each.is_to_come,
                "sources": list(each.sources),
                "place": each.recorded.span.place,
                "units": list(each.units),
            }
            for each in old
        ],
    }


def _unit(unit: UnitGaps, fleet: FleetGaps) -> dict[str, Any]:
    return {
        "unit": unit.number,
        "model": unit.model,
        "held_back": unit.is_held_back,
        "other_faults": unit.has_other_faults,
        "enough": [gap.name for gap in unit.gaps if gap.grade.is_needed],
        "gaps": [
            {
                "name": gap.name,
                "label": label_of(gap.name),
                "grade": gap.grade.name.lower(),
                "asked_by": list(gap.asked_by),
                "left_out": [
                    {"procedure": o.procedure, "part": o.part, "words": left_out_words(o, fleet)}
                    for o in gap.left_out
                ],
                "look_up": [
                    {
                        "name": each.name,
                        "what": each.what,
                        "measure": each.measure,
                        "believable": each.believable,
                        "where": each.where,
                        "document": each.document,
                        "only_if": each.depends,
                    }
                    for each in look_ups(unit, least=Grade.VALUE_ONLY)
                    if each.gap is gap
                ],
            }
            for gap in unit.gaps
        ],
    }


def _closing(each: Closing) -> dict[str, Any]:
    return {
        "name": each.name,
        "grade": each.grade.name.lower(),
        "lacking": list(each.lacking),
        "frees_alone": each.frees_alone,
        "frees": list(each.freed),
        "freed_so_far": each.freed_so_far,
    }


def _lines(fleet: FleetGaps, old: Sequence[Old]) -> Iterator[str]:
    total = len(fleet.units) + len(fleet.not_read)
    held = len(fleet.held_back)
    yield f"{held:,} of {total:,} trucks have no guide because of what is not on record"
    if fleet.not_read:
        yield f"nothing can be said of {named_units(fleet.not_read)}: their files have faults"
    yield from _first(closing_order(fleet))
    groups = [group for group in group_units(fleet) if group.gaps]
    if groups:
        yield "\ntrucks and gaps (H holds the guide back, M may hold it back next, o leaves out):"
        for group in groups:
            yield from _group(group, fleet)
    values = sum(len(unit.of(Grade.VALUE_ONLY)) for unit in fleet.units.values())
    if values:
        yield f"\n{values:,} values are missing on data pages only; `--format json` lists them"
    if old:
        yield "\nto be checked again:"
        for each in old:
            to_come = ", a day that has not come" if each.is_to_come else ""
            yield f"  recorded {each.said}{to_come}: {each.values} of {named_units(each.units)}"
            yield f"    {each.recorded.span.place}"


def _first(order: Sequence[Closing]) -> Iterator[str]:
    if order:
        yield "\nclose these first:"
    for number, each in enumerate(order, start=1):
        freed = f"frees {named_units(each.freed)}" if each.freed else "frees none yet"
        yield f"  {number}. {_LETTERS[each.grade]} {each.name} ({label_of(each.name).rstrip('.')})"
        yield (
            f"     {len(each.lacking):,} lack it, alone it frees {each.frees_alone:,}; "
            f"in this order it {freed}, {each.freed_so_far:,} by then"
        )


def _group(group: Group, fleet: FleetGaps) -> Iterator[str]:
    faults = ", with other faults that `guidegen check` lists" if group.has_other_faults else ""
    yield f"  {named_units(group.units)}{faults}"
    for gap in group.gaps.values():
        yield f"    {_LETTERS[gap.grade]} {gap.name}{_told(gap, fleet)}"


def _told(gap: Gap, fleet: FleetGaps) -> str:
    outs = "; ".join(left_out_words(out, fleet) for out in gap.left_out)
    return f": without it there is no {outs}" if outs else ""
