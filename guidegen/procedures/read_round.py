"""The place of a procedure in the inspection round, as its file states it.

Takes in the table of a procedure; gives out what it is to the round, what it needs there and
what state it leaves.
Refuses parts, states and stations that are not on the closed lists, a means that leaves nothing,
and a later step that the procedure does not have.
"""

from types import MappingProxyType

from guidegen.finding import nearest
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import listed, shortened
from guidegen.procedures.model import (
    LaterTemplate,
    RoundPart,
    RoundStates,
    RoundTemplate,
    StateTemplate,
)
from guidegen.procedures.read_parts import read_state
from guidegen.procedures.read_when import read_when_of_guide
from guidegen.procedures.table_reader import TableReader, choose, is_missing
from guidegen.procedures.words import STATIONS
from guidegen.yaml_nodes import Scalar, Table

ROUND_PARTS = MappingProxyType({"part": "part: check"})
OPTIONAL_ROUND_PARTS = ("needs", "leaves", "ends", "later")
LATER_PARTS = MappingProxyType({"step": "step: shut", "leaves": "leaves: [{access: shut}]"})


def read_round(reader: TableReader, steps: tuple[str, ...]) -> RoundTemplate | None:
    """Return the round part of a procedure's table, or nothing if it has none or is faulty.

    Args:
        reader: The table of the whole procedure.
        steps: Ids of its steps, which a later one must be among.
    """
    inner = _inner(reader, "round", "part: check")
    if inner is None:
        return None
    inner.check_names(ROUND_PARTS, OPTIONAL_ROUND_PARTS)
    parts = [part.value for part in RoundPart]
    part = choose(
        inner.text("part"), parts, rules.UNKNOWN_ROUND_PART, "part {} of a round", inner.findings
    )
    needs, leaves = _read_list(inner, "needs"), _read_list(inner, "leaves")
    ends = choose(inner.text("ends"), STATIONS, rules.UNKNOWN_STATION, "station {}", inner.findings)
    later = _read_later(inner, steps)
    if part is None:
        return None
    _check_means(inner, RoundPart(part), leaves)
    return RoundTemplate(RoundPart(part), needs, leaves, ends, later, inner.head)


def _inner(reader: TableReader, name: str, example: str) -> TableReader | None:
    node = reader.table.get(name)
    if isinstance(node, Table):
        return TableReader(node, f"`{name}`", reader.findings)
    if node is not None and not is_missing(node):
        fix = f"write each part on a line of its own below `{name}:`, as in `{example}`"
        reader.add_wrong_kind(node, f"`{name}`", "a table", fix)
    return None


def _read_list(reader: TableReader, name: str) -> tuple[RoundStates, ...]:
    tables = reader.tables(name, f"`{name}`", "- {access: open}")
    found = (
        _read_states(TableReader(table.table, table.owner, table.findings)) for table in tables
    )
    return tuple(each for each in found if each.states)


def _read_states(reader: TableReader) -> RoundStates:
    when = read_when_of_guide(reader, "when") if "when" in reader.table.entries else None
    states: list[StateTemplate] = []
    for name, (key, _) in reader.table.entries.items():
        state = None if name == "when" else read_state(key, reader.table, reader.findings)
        if state is not None:
            states.append(state)
    if not set(reader.table.entries) - {"when"}:
        what = f"{reader.owner} names no state of the truck"
        fix = "add one, as in `{access: open}`"
        reader.findings.add(rules.PART_MISSING, reader.head, what=what, fix=fix)
    return RoundStates(tuple(states), when)


def _read_later(reader: TableReader, steps: tuple[str, ...]) -> LaterTemplate | None:
    inner = _inner(reader, "later", "step: shut")
    if inner is None:
        return None
    inner.check_names(LATER_PARTS)
    step, leaves = inner.text("step"), _read_list(inner, "leaves")
    if step is None:
        return None
    _check_step(inner, step, steps)
    return LaterTemplate(step.text, leaves, step.span)


def _check_step(reader: TableReader, step: Scalar, steps: tuple[str, ...]) -> None:
    if step.text in steps:
        return
    near = nearest(step.text, steps)
    fix = f"did you mean `{near}`?" if near else f"name one of the steps: {listed(steps)}"
    what = f"`later` names `{shortened(step.text)}`, and no step has this id"
    reader.findings.add(rules.LATER_NO_STEP, step.span, what=what, fix=fix)


def _check_means(reader: TableReader, part: RoundPart, leaves: tuple[RoundStates, ...]) -> None:
    if part is not RoundPart.MEANS or leaves:
        return
    what = "`part: means` is done for the state that it leaves, and `leaves` names none"
    fix = "add `leaves`, as in `leaves: [{access: open}]`, or write `part: check`"
    reader.findings.add(
        rules.MEANS_WITHOUT_EFFECT, reader.table.key_span("part"), what=what, fix=fix
    )
