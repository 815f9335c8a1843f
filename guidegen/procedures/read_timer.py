"""The timer of a step, as a procedure file states it.

Takes in the table of a step; gives out what is timed, what is read at the end and by which facts
it is judged.
Refuses limits that are typed and not named, facts that measure something else, and a countdown
that nobody knows the length of.
"""

from types import MappingProxyType

from guidegen.procedures import rules
from guidegen.procedures.catalog_words import find_fact, listed
from guidegen.procedures.model import TimerLimitTemplate, TimerTemplate
from guidegen.procedures.read_when import read_when
from guidegen.procedures.table_reader import TableReader, choose, is_missing
from guidegen.procedures.timer_kinds import READ_IN, Bound, ReadingKind, Rig, TimerKind
from guidegen.quantity.model import Dimension, Sense
from guidegen.specs.fields import AmountField
from guidegen.specs.profile import FACTS
from guidegen.yaml_nodes import Scalar, Table

TIMER_PARTS = MappingProxyType({"kind": "kind: stopwatch"})
OPTIONAL_TIMER_PARTS = ("time", "reading", "limits", "when")
BOUNDS = tuple(bound.value for bound in Bound)
OPTIONAL_LIMIT_PARTS = (*BOUNDS, "rig", "when")
_BOUNDS_OF_READINGS = (Bound.LESS_THAN.value, Bound.NO_MORE_THAN.value)
_TIME_EXAMPLE = "time: engine.crank_rest"
_LIMIT_EXAMPLE = "{no_more_than: law.air_build_up_time}"


def read_timer(reader: TableReader) -> TimerTemplate | None:
    """Return the timer of the step of *reader*, or nothing if it has none or is faulty."""
    node = reader.table.get("timer")
    if not isinstance(node, Table):
        if node is not None and not is_missing(node):
            fix = f"write it as `timer: {{kind: stopwatch, limits: [{_LIMIT_EXAMPLE}]}}`"
            reader.add_wrong_kind(node, "`timer`", "a table", fix)
        return None
    inner = TableReader(node, "`timer`", reader.findings)
    inner.check_names(TIMER_PARTS, OPTIONAL_TIMER_PARTS)
    kind = choose(
        inner.text("kind"),
        [kind.value for kind in TimerKind],
        rules.UNKNOWN_TIMER,
        "timer {}",
        inner.findings,
    )
    reads = choose(
        inner.text("reading"),
        [reading.value for reading in ReadingKind],
        rules.UNKNOWN_TIMER,
        "reading {} at the end of a timer",
        inner.findings,
    )
    when = read_when(inner, "when")
    if kind is None:
        return None
    is_countdown = TimerKind(kind) is TimerKind.COUNTDOWN
    reading = ReadingKind(reads) if reads else None
    time = _read_time(inner) if is_countdown else None
    if not is_countdown:
        _refuse_countdown_parts(inner)
    measured = READ_IN[reading] if reading else None if is_countdown else Dimension.TIME
    limits = tuple(
        limit
        for each in inner.tables("limits", "limit", f"- {_LIMIT_EXAMPLE}")
        if (limit := _read_limit(each, measured)) is not None
    )
    return TimerTemplate(TimerKind(kind), time, reading, limits, when, inner.head)


def _read_time(reader: TableReader) -> str | None:
    scalar = reader.text("time")
    if scalar is None:
        if "time" not in reader.table.entries:
            reader.add_missing("time", _TIME_EXAMPLE)
        return None
    return _read_fact(reader, scalar, Dimension.TIME)


def _refuse_countdown_parts(reader: TableReader) -> None:
    for name in ("time", "reading"):
        if name in reader.table.entries:
            what = f"a stopwatch has no `{name}`: it runs until the driver stops it"
            fix = f"leave `{name}` out, or write `kind: countdown`"
            span = reader.table.key_span(name)
            reader.findings.add(rules.TIMER_CONTRADICTS_ITSELF, span, what=what, fix=fix)


def _read_limit(reader: TableReader, measured: Dimension | None) -> TimerLimitTemplate | None:
    reader.check_names({}, OPTIONAL_LIMIT_PARTS)
    rig = choose(
        reader.text("rig"),
        [rig.value for rig in Rig],
        rules.UNKNOWN_TIMER,
        "rig {} of a limit",
        reader.findings,
    )
    when = read_when(reader, "when")
    stated = [name for name in BOUNDS if name in reader.table.entries]
    if len(stated) != 1:
        what = f"{reader.owner} states {len(stated)} bounds, and a limit is one"
        fix = f"name one of {listed(BOUNDS)} and its fact, as in `{_LIMIT_EXAMPLE}`"
        reader.findings.add(rules.TIMER_CONTRADICTS_ITSELF, reader.head, what=what, fix=fix)
        return None
    scalar = reader.text(stated[0])
    if scalar is None:
        return None
    if measured is None:
        what = "nothing is read when this countdown ends, so there is nothing to hold to a limit"
        fix = "add `reading: pressure_fall` to the timer, or leave `limits` out"
        reader.findings.add(rules.TIMER_CONTRADICTS_ITSELF, reader.head, what=what, fix=fix)
        return None
    if measured is not Dimension.TIME and stated[0] not in _BOUNDS_OF_READINGS:
        what = f"a reading is held to {listed(_BOUNDS_OF_READINGS)}, and not to `{stated[0]}`"
        fix = "choose one of the two, as the source has it"
        span = reader.table.key_span(stated[0])
        reader.findings.add(rules.TIMER_CONTRADICTS_ITSELF, span, what=what, fix=fix)
        return None
    fact = _read_fact(reader, scalar, measured, may_be_range=stated[0] == Bound.USUAL.value)
    if fact is None:
        return None
    return TimerLimitTemplate(Bound(stated[0]), fact, Rig(rig) if rig else None, when, scalar.span)


def _read_fact(
    reader: TableReader, scalar: Scalar, measured: Dimension, *, may_be_range: bool = False
) -> str | None:
    """Return the name of a fact that measures *measured*; report anything else."""
    if not find_fact(scalar.text, scalar.span, reader.findings):
        return None
    field = FACTS[scalar.text].field
    if (
        isinstance(field, AmountField)
        and field.dimension is measured
        and (may_be_range or field.sense is not Sense.RANGE)
    ):
        return scalar.text
    what = f"`{scalar.text}` is no {measured.value} that a timer can be held to"
    fix = f"name a fact that is a single {measured.value}"
    reader.findings.add(rules.TIMER_FACT_OF_WRONG_KIND, scalar.span, what=what, fix=fix)
    return None
