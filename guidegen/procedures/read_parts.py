"""The cautions, steps, outcomes and states of a procedure file.

Takes in the table of a procedure; gives out its parts, each with its stable id.
Refuses cautions that guard nothing, steps that hold two instructions, and states, chapters and
signal words that are not on the closed lists.
"""

from collections.abc import Iterable
from types import MappingProxyType

from guidegen.finding import Findings, nearest
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import listed, shortened
from guidegen.procedures.figure_kinds import FIGURE_KINDS
from guidegen.procedures.model import (
    CautionTemplate,
    FigureTemplate,
    OutcomeTemplate,
    Signal,
    StateTemplate,
    StepTemplate,
    TextTemplate,
)
from guidegen.procedures.placeholder import read_text
from guidegen.procedures.read_timer import read_timer
from guidegen.procedures.read_when import read_when
from guidegen.procedures.step_wording import check_step_wording
from guidegen.procedures.table_reader import (
    TableReader,
    check_id,
    check_ids_differ,
    choose,
    is_missing,
)
from guidegen.procedures.words import STATES
from guidegen.yaml_nodes import Listing, Scalar, Table

CAUTION_PARTS = MappingProxyType(
    {
        "id": "id: rolls-back",
        "signal": "signal: WARNING",
        "guards": "guards: release-brake",
    }
)
MESSAGE_PARTS = MappingProxyType(
    {
        "hazard": "hazard: The truck can roll.",
        "consequence": "consequence: It can crush a person.",
        "avoid": "avoid: Chock the wheels first.",
    }
)
STEP_PARTS = MappingProxyType({"id": "id: start-engine", "text": "text: Start the engine."})
OPTIONAL_STEP_PARTS = ("when", "timer")
FIGURE_PARTS = MappingProxyType({"kind": "kind: air_gauge"})
OUTCOME_PARTS = MappingProxyType({"text": "text: The lamp goes out."})


def read_states(reader: TableReader) -> tuple[StateTemplate, ...]:
    """Return the state that the truck must be in, aspect by aspect as typed."""
    node = reader.table.get("state")
    if isinstance(node, Table):
        if not node.entries:
            reader.add_missing("state", "state: {parking_brake: set}")
        found = (read_state(key, node, reader.findings) for key, _ in node.entries.values())
        return tuple(state for state in found if state is not None)
    if node is not None and not is_missing(node):
        fix = "write each aspect on a line of its own below `state:`, as in `parking_brake: set`"
        reader.add_wrong_kind(node, "`state`", "a table", fix)
    return ()


def read_steps(reader: TableReader, procedure: str) -> tuple[StepTemplate, ...]:
    """Return the steps of *procedure* in their order."""
    example = "- {id: start-engine, text: Start the engine.}"
    tables = reader.tables("steps", "step", example)
    _check_ids(tables, "step", reader.findings)
    steps = (_read_step(table, f"{procedure}.steps") for table in tables)
    return tuple(step for step in steps if step is not None)


def read_cautions(reader: TableReader, procedure: str) -> tuple[CautionTemplate, ...]:
    """Return the cautions of *procedure* in their order."""
    example = "- {id: …, signal: …, guards: …, hazard: …, consequence: …, avoid: …}"
    tables = reader.tables("cautions", "caution", example)
    _check_ids(tables, "caution", reader.findings)
    steps = _step_ids(reader.table)
    for table in tables:
        _check_guards(table, steps)
    cautions = (_read_caution(table, f"{procedure}.cautions") for table in tables)
    return tuple(caution for caution in cautions if caution is not None)


def read_outcomes(reader: TableReader, procedure: str, name: str) -> tuple[OutcomeTemplate, ...]:
    """Return the texts of the list *name*, numbered from 1 by their place in the file."""
    found = []
    for number, node in enumerate(reader.nodes(name), start=1):
        text_id = f"{procedure}.{name}.{number}"
        if isinstance(node, Table):
            inner = TableReader(node, f"line {number} of `{name}`", reader.findings)
            inner.check_names(OUTCOME_PARTS, ("when",))
            text, when = _read_text(inner, "text", text_id), read_when(inner, "when")
        elif isinstance(node, Scalar):
            text, when = read_text(text_id, node, reader.findings), None
        else:
            fix = "write one text after the dash; quotes around it if it holds `: `"
            reader.add_wrong_kind(node, f"line {number} of `{name}`", "one text", fix)
            continue
        if text is not None:
            found.append(OutcomeTemplate(text, when))
    return tuple(found)


def read_figure(reader: TableReader) -> FigureTemplate | None:
    """Return the figure that a procedure asks for, by its kind alone or with a condition."""
    node, when = reader.table.get("figure"), None
    if isinstance(node, Table):
        inner = TableReader(node, "`figure`", reader.findings)
        inner.check_names(FIGURE_PARTS, ("when",))
        scalar, when = inner.text("kind"), read_when(inner, "when")
    else:
        scalar = reader.text("figure")
    kind = choose(scalar, FIGURE_KINDS, rules.UNKNOWN_FIGURE, "figure {}", reader.findings)
    return FigureTemplate(kind, when, scalar.span) if kind and scalar else None


def read_state(key: Scalar, states: Table, findings: Findings) -> StateTemplate | None:
    """Return the state of the aspect *key* in a table of states; report what is on no list."""
    words = STATES.get(key.text)
    if words is None:
        near = nearest(key.text, STATES)
        what = f"a state of the truck has no aspect `{shortened(key.text)}`"
        fix = f"did you mean `{near}`? " if near else ""
        fix += f"The aspects: {listed(STATES)}"
        findings.add(rules.UNKNOWN_STATE, key.span, what=what, fix=fix)
        return None
    scalar = TableReader(states, "`state`", findings).text(key.text)
    chosen = choose(scalar, words, rules.UNKNOWN_STATE, f"state {{}} of `{key.text}`", findings)
    return StateTemplate(key.text, chosen, key.span) if chosen else None


def _read_step(reader: TableReader, prefix: str) -> StepTemplate | None:
    reader.check_names(STEP_PARTS, OPTIONAL_STEP_PARTS)
    own_id, scalar = reader.text("id"), reader.text("text")
    when, timer = read_when(reader, "when"), read_timer(reader)
    if own_id is None or scalar is None:
        return None
    text = read_text(f"{prefix}.{own_id.text}", scalar, reader.findings)
    if text is None:
        return None
    check_step_wording(scalar, reader.findings)
    return StepTemplate(own_id.text, text, when, own_id.span, timer)


def _read_caution(reader: TableReader, prefix: str) -> CautionTemplate | None:
    reader.check_names(CAUTION_PARTS, (*MESSAGE_PARTS, "when"))
    own_id, guards = reader.text("id"), reader.text("guards")
    signals = [signal.value for signal in Signal]
    signal = choose(
        reader.text("signal"), signals, rules.UNKNOWN_SIGNAL, "signal word {}", reader.findings
    )
    prefix = f"{prefix}.{own_id.text if own_id else ''}"
    hazard, consequence, avoid = (
        _read_message(reader, name, f"{prefix}.{name}") for name in MESSAGE_PARTS
    )
    when = read_when(reader, "when")
    if not (own_id and guards and signal and hazard and consequence and avoid):
        return None
    return CautionTemplate(
        own_id.text,
        Signal(signal),
        guards.text,
        hazard,
        consequence,
        avoid,
        when,
        own_id.span,
    )


def _step_ids(procedure: Table) -> tuple[str, ...]:
    """Return the ids of all steps; what is wrong with the steps is reported where they are read."""
    steps = procedure.get("steps")
    nodes = steps.nodes if isinstance(steps, Listing) else ()
    ids = (node.get("id") for node in nodes if isinstance(node, Table))
    return tuple(node.text for node in ids if isinstance(node, Scalar))


def _read_message(reader: TableReader, name: str, text_id: str) -> TextTemplate | None:
    node = reader.table.get(name)
    is_blank = isinstance(node, Scalar) and not node.text.strip() and not is_missing(node)
    if node is None or is_blank:
        reader.add_missing(name, MESSAGE_PARTS[name], rules.CAUTION_INCOMPLETE)
        return None
    return _read_text(reader, name, text_id)


def _check_guards(reader: TableReader, ids: tuple[str, ...]) -> None:
    node = reader.table.get("guards")
    guards = node if isinstance(node, Scalar) and not is_missing(node) else None
    if guards is None or guards.text in ids:
        return
    near = nearest(guards.text, ids)
    fix = f"name one of the steps: {listed(dict.fromkeys(ids))}"
    if near or not ids:
        fix = f"did you mean `{near}`?" if near else "give the step that it stands before an id"
    reader.findings.add(
        rules.GUARDS_NO_STEP,
        guards.span,
        what=f"{reader.owner} guards `{shortened(guards.text)}`, and no step has this id",
        fix=fix,
    )


def _check_ids(tables: Iterable[TableReader], kind: str, findings: Findings) -> None:
    ids = _ids_of(tables)
    for scalar in ids:
        check_id(scalar, findings)
    check_ids_differ(ids, kind, findings)


def _ids_of(tables: Iterable[TableReader]) -> list[Scalar]:
    nodes = (table.table.get("id") for table in tables)
    return [node for node in nodes if isinstance(node, Scalar) and not is_missing(node)]


def _read_text(reader: TableReader, name: str, text_id: str) -> TextTemplate | None:
    scalar = reader.text(name)
    return read_text(text_id, scalar, reader.findings) if scalar else None
